package main

import (
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"heapside/bot/terminal"
	"heapside/calc/fault"
	"heapside/calc/heap"
	"heapside/storage"
)

// longest is how long a sentence about a mistake may be, in characters, to be
// read on a phone. Own choice.
const longest = 400

// entries counts what the local place has on record.
func (r record) entries() int {
	r.t.Helper()
	db, err := storage.Open(r.t.Context(), r.db)
	require.NoError(r.t, err)
	defer db.Close()
	latest, err := db.Latest(r.t.Context(), heap.Place{Guild: localGuild, Channel: localChannel}, 1000)
	require.NoError(r.t, err)
	return len(latest)
}

func TestBadInputGetsOneSentenceAndStoresNothing(t *testing.T) {
	r := newRecord(t)
	r.once("heap", "start", "North Bay", `container:pallet bay`, "size:1 m3")
	r.once("log", "add", "2 buckets of grass clippings")
	tests := []struct {
		name, line string
		code       fault.Code
		quotes     string // what was typed, as the sentence repeats it
	}{
		{"unknown material", "log add 2 buckets of unobtainium", fault.Unknown, "unobtainium"},
		{"unknown material in a list, the rest is good", "log add 2 buckets of grass clippings and 1 bucket of unobtainium", fault.Unknown, "unobtainium"},
		{"material that does not belong", "log add 1 bucket of dog waste", fault.Refused, "dog"},
		{"unknown unit", "log add 2 wibbles of grass clippings", "", "wibbles"},
		{"unknown heap", `log temp 58 heap:"Moon Bay"`, fault.Unknown, "Moon Bay"},
		{"unknown option", "log temp 58 colour:red", "", "colour"},
		{"unknown subcommand", "log dance", fault.NotUnderstood, "log"},
		{"no reading", "log temp", fault.Missing, ""},
		{"no amount", "log add", fault.Missing, ""},
		{"negative amount", "log add -2 buckets of grass clippings", "", "-2"},
		{"absurd amount", "log add 10,000 buckets of grass clippings", fault.OutOfRange, "10,000"},
		{"amount beyond numbers", "log add " + strings.Repeat("9", 400) + " buckets of grass clippings", "", "999"},
		{"NaN reading", "log temp NaN", "", "NaN"},
		{"infinite reading", "log temp Inf", "", "Inf"},
		{"NaN amount", "log add NaN buckets of grass clippings", "", "NaN"},
		{"temperature of 580", "log temp 580", fault.OutOfRange, "580"},
		{"temperature below the coldest there is", "log temp -300", fault.OutOfRange, "-300"},
		{"depth through the ground", "log temp 58 depth:40km", "", "40km"},
		{"negative height", "log height -90 cm", "", "-90"},
		{"a date in the future", "log temp 58 when:2999-01-01", fault.OutOfRange, "2999"},
		{"a date that is none", "log temp 58 when:blursday", "", "blursday"},
		{"empty", "", fault.Missing, ""},
		{"blank", "   ", fault.Missing, ""},
		{"5,000 characters", "log note " + strings.Repeat("compost ", 625), fault.TooLong, ""},
		{"5,000 characters of sentence", strings.Repeat("why? ", 1000), fault.TooLong, ""},
		{"5,000 characters of list", "mix " + strings.Repeat("1 bucket of grass clippings, ", 173), fault.TooLong, ""},
		{"emoji as a material", "log add 2 buckets of 🦄", "", "2 buckets of"},
		{"emoji as a reading", "log temp 🔥", "", "temperature"},
		{"right-to-left marks around a reading", "log temp \u202Ex85\u202C", "", "x85"},
		{"everyone as a heap", "log temp 58 heap:@everyone", fault.Unknown, "everyone"},
		{"markdown as a heap", "log temp 58 heap:**[x](http://example.org)**", fault.Unknown, "**"},
		{"SQL as a heap", `log temp 58 heap:"'; DROP TABLE entries; --"`, fault.Unknown, "DROP TABLE"},
		{"SQL as an entry number", "undo 1; DELETE FROM entries", fault.NotUnderstood, ""},
		{"an entry that is not there", "undo 4096", fault.Unknown, "4096"},
		{"nonsense", "colourless green ideas sleep furiously", fault.NotUnderstood, ""},
		{"a bare bracket", "log add (((((", "", ""},
		{"zero of something", "log add 0 buckets of grass clippings", "", "0"},
		{"an unclosed quote", `log temp "58 heap:"Nor`, "", ""},
		{"a zone of nowhere", "garden zone Moon/Tranquility", fault.Unknown, "Moon/Tranquility"},
		{"a place off the globe", "garden place 151.75, -1.26", "", "151.75"},
		{"a heap name in use", "heap start north bay", fault.Taken, ""},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			r := record{t, r.db}
			before := r.entries()
			a := r.ask(tt.line)
			require.NotNil(t, a.Error, a.Headline)
			if tt.code != "" {
				assert.Equal(t, tt.code, a.Error.Code, a.Error.Message)
			}
			m := a.Error.Message
			assert.NotEqual(t, fault.NotSaved, a.Error.Code, "a mistake of theirs is not called ours: %s", m)
			assert.Contains(t, strings.ToLower(m), strings.ToLower(tt.quotes))
			assert.LessOrEqual(t, utf8.RuneCountInString(m), longest, m)
			assert.Equal(t, terminal.Clean(m), m, "no control characters or marks that reorder")
			assert.NotContains(t, m, "\n")
			assert.True(t, a.Private)
			assert.Equal(t, before, r.entries(), "nothing is stored")
		})
	}
}

func TestOddInputIsKeptAsItIs(t *testing.T) {
	tests := []struct{ name, text string }{
		{"emoji", "🌱 looks happy 🐛"},
		{"everyone", "@everyone come and turn"},
		{"markdown", "**bold** [a link](http://example.org) `code`"},
		{"SQL", "Robert'); DROP TABLE entries; --"},
		{"right to left script", "הערימה חמה"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			r := newRecord(t)
			r.once("heap", "start", "North Bay")
			before := r.entries()
			a := r.ask("log", "note", tt.text)
			require.Nil(t, a.Error)
			assert.Equal(t, before+1, r.entries())
			assert.Contains(t, r.once("history"), tt.text)
		})
	}
}

func TestFahrenheitInACelsiusGroup(t *testing.T) {
	r := newRecord(t)
	r.once("heap", "start", "North Bay")
	r.once("log", "temp", "140F")
	v := r.ask("heap", "show").Values["last_temp"]
	assert.InDelta(t, 60, v.Value, 0.01, "(140 - 32) / 1.8")
}
