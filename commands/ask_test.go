package commands

import (
	"bufio"
	"fmt"
	"maps"
	"os"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"heapside/calc/feedstock"
)

// millrace is what the invented garden of the tests has.
var millrace = vocabulary{Heaps: []string{"North Bay", "Old Bay", "Shed Tumbler"}, Table: feedstock.Default()}

// spoken is the typed line for what a sentence was understood as, "?" for nothing.
func spoken(a *Assistant, said string, k vocabulary) string {
	path, args, ok := route(said, k)
	if !ok {
		return "?"
	}
	return typed(path, args, a.byPath[path].Options)
}

// rowsOf reads sentence<TAB>expected lines.
func rowsOf(t testing.TB, file string) [][2]string {
	f, err := os.Open(file)
	require.NoError(t, err)
	defer f.Close()
	var rows [][2]string
	for lines := bufio.NewScanner(f); lines.Scan(); {
		said, want, ok := strings.Cut(lines.Text(), "\t")
		if ok && !strings.HasPrefix(said, "#") {
			rows = append(rows, [2]string{said, want})
		}
	}
	return rows
}

// optionsSorted makes two typed lines comparable whatever the order of options.
func optionsSorted(a *Assistant, line string) string {
	path, args, err := a.parse(line, millrace.Heaps)
	if err != nil || line == "?" {
		return line
	}
	keys := make([]string, 0, len(args))
	for k, v := range args {
		keys = append(keys, k+"="+v)
	}
	slices.Sort(keys)
	return fmt.Sprint(path, keys)
}

func TestEverySentenceOfTheListIsUnderstood(t *testing.T) {
	a := New(nil, nil)
	rows := rowsOf(t, "testdata/ask.txt")
	require.GreaterOrEqual(t, len(rows), 120)
	for _, row := range rows {
		t.Run(row[0], func(t *testing.T) {
			got := spoken(a, row[0], millrace)
			assert.Equal(t, optionsSorted(a, row[1]), optionsSorted(a, got), "understood as %s", got)
		})
	}
}

func TestQuestionsPlansAndJokesNeverChangeTheRecord(t *testing.T) {
	writing := writers()
	for _, said := range linesOf(t, "testdata/ask-not-logged.txt") {
		t.Run(said, func(t *testing.T) {
			path, args, ok := route(said, millrace)
			assert.False(t, ok && writing[path], "became %s %v", path, args)
		})
	}
}

func linesOf(t testing.TB, file string) []string {
	data, err := os.ReadFile(file)
	require.NoError(t, err)
	var lines []string
	for line := range strings.Lines(string(data)) {
		if line = strings.TrimSpace(line); line != "" && !strings.HasPrefix(line, "#") {
			lines = append(lines, line)
		}
	}
	return lines
}

// The catalogue and the table of rules name each other's paths and options.
func TestEveryRuleRoutesToACommandOfTheCatalogue(t *testing.T) {
	a := New(nil, nil)
	for _, in := range intents {
		command, ok := a.byPath[in.path]
		require.True(t, ok, in.path)
		names := map[string]bool{}
		for _, o := range command.Options {
			names[o.Name] = true
		}
		assert.Equal(t, in.heap, in.heap && names["heap"], "%s has no heap", in.path)
		assert.Equal(t, in.when, in.when && names["when"], "%s has no when", in.path)
		assert.NotEmpty(t, in.example, in.path)
	}
}

func TestEveryExampleIsUnderstoodAsItsRule(t *testing.T) {
	for _, in := range intents {
		t.Run(in.example, func(t *testing.T) {
			k := millrace
			path, _, ok := route(in.example, k)
			require.True(t, ok)
			assert.Equal(t, in.path, path)
		})
	}
}

func TestAnUnknownHeapIsNeverTakenForAnother(t *testing.T) {
	one := vocabulary{Heaps: []string{"North Bay"}, Table: feedstock.Default()}
	for said, heap := range map[string]string{
		"I turned the south bay":                  "south bay",
		"58 degrees in the orchard heap":          "orchard heap",
		"added 2 buckets of grass to the far bin": "far bin",
		"I turned bay 3":                          "bay 3",
		"I turned the heap":                       "",
		"I turned the bay":                        "North Bay",
	} {
		t.Run(said, func(t *testing.T) {
			_, args, ok := route(said, one)
			require.True(t, ok)
			assert.Equal(t, heap, args["heap"])
		})
	}
}

func TestAHeapNamedAfterAMaterialIsNotFoundInAList(t *testing.T) {
	k := vocabulary{Heaps: []string{"Leaf Bay", "Grass Corner"}, Table: feedstock.Default()}
	_, args, ok := route("added 2 buckets of grass to leaf bay", k)
	require.True(t, ok)
	assert.Equal(t, map[string]string{"what": "2 buckets of grass", "heap": "Leaf Bay"}, args)
}

func TestNotUnderstoodOffersThreeExamples(t *testing.T) {
	err := notUnderstood("blurb the temperature", millrace)
	assert.Equal(t, 3*2, strings.Count(err.Error(), "“")+strings.Count(err.Error(), "”")-2)
	for _, said := range []string{"", "turned", strings.Repeat("grass ", 2000)} {
		assert.Len(t, nearest(said, millrace, 3), 3)
	}
}

func TestALongTextIsNotASentence(t *testing.T) {
	_, _, ok := route("I turned north bay "+strings.Repeat("and then ", 600), millrace)
	assert.False(t, ok)
}

func FuzzAsk(f *testing.F) {
	for _, row := range rowsOf(f, "testdata/ask.txt") {
		f.Add(row[0])
	}
	for _, said := range linesOf(f, "testdata/ask-not-logged.txt") {
		f.Add(said)
	}
	for i, row := range rowsOf(f, "testdata/ask-voices.txt") {
		if i%20 == 0 {
			f.Add(row[0])
		}
	}
	f.Add("\u202eturned north bay 🌱 # heap:\"x\" \x00")
	a := New(nil, nil)
	f.Fuzz(func(t *testing.T, said string) {
		path, args, ok := route(said, millrace)
		if !ok {
			return
		}
		command, exists := a.byPath[path]
		if !exists {
			t.Fatalf("%q became the unknown path %q", said, path)
		}
		known := map[string]Option{}
		for _, o := range command.Options {
			known[o.Name] = o
		}
		for name, value := range args {
			if _, ok := known[name]; !ok {
				t.Fatalf("%q became %s with the unknown option %q", said, path, name)
			}
			if value == "" || len(value) > longestValue || strings.ContainsAny(value, "\n\x00") {
				t.Fatalf("%q became %s with %s:%q", said, path, name, value)
			}
		}
	})
}

func BenchmarkAsk(b *testing.B) {
	for _, said := range []string{"what do I add to two buckets of grass?", "58 degrees in the north bay at 40 cm", "lovely weather for it"} {
		b.Run(said, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				route(said, millrace)
			}
		})
	}
}

// nothingWritten is what a list wants of a sentence that may be answered in any
// way that changes nothing.
const nothingWritten = "-"

// writers are the paths of the rules that change the record.
func writers() map[string]bool {
	writing := map[string]bool{}
	for _, in := range intents {
		writing[in.path] = writing[in.path] || in.writes
	}
	return writing
}

// tally is how many sentences of a list, all or of one command, were understood
// as meant, and how many of them changed the record when they must not.
type tally struct{ right, all, falseWrites int }

// measured runs a list, logs what went wrong, and counts by the command that was
// meant. A write that was not meant is false, and so is one with other
// arguments than those meant where nothing was to be understood.
func measured(t *testing.T, file string) (whole tally, byCommand map[string]tally) {
	a := New(nil, nil)
	writing := writers()
	byCommand = map[string]tally{}
	for _, row := range rowsOf(t, file) {
		path, _, ok := route(row[0], millrace)
		got := spoken(a, row[0], millrace)
		wrote := ok && writing[path]
		right := optionsSorted(a, row[1]) == optionsSorted(a, got) || row[1] == nothingWritten && !wrote
		meant := commandOf(a, row[1])
		one := byCommand[meant]
		for _, n := range []*tally{&one, &whole} {
			n.all++
			if right {
				n.right++
			}
			if wrote && !writing[meant] {
				n.falseWrites++
			}
		}
		byCommand[meant] = one
		if !right {
			t.Logf("%q became %q, not %q", row[0], got, row[1])
		}
	}
	for _, command := range slices.Sorted(maps.Keys(byCommand)) {
		n := byCommand[command]
		t.Logf("%-14s %3d of %3d", command, n.right, n.all)
	}
	t.Logf("%-14s %3d of %3d, %.1f %%; %d false writes", "all", whole.right, whole.all, 100*float64(whole.right)/float64(whole.all), whole.falseWrites)
	return whole, byCommand
}

// commandOf is the path of a typed line; a mark of the lists stands for itself.
func commandOf(a *Assistant, line string) string {
	if line == "?" || line == nothingWritten {
		return line
	}
	path, _, _ := a.parse(line, millrace.Heaps)
	return path
}

// A floor is what was measured when a list was tuned to last. To ask-third.txt
// nothing is tuned: it tells how much of what nobody foresaw is understood.
func TestTheListsAreUnderstood(t *testing.T) {
	for _, list := range []struct {
		file         string
		least, floor int
	}{
		{"testdata/ask.txt", 411, 411},
		{"testdata/ask-voices.txt", 1005, 1003},
		{"testdata/ask-unseen.txt", 40, 38},
		{"testdata/ask-third.txt", 100, 89},
	} {
		t.Run(list.file, func(t *testing.T) {
			whole, _ := measured(t, list.file)
			assert.GreaterOrEqual(t, whole.all, list.least)
			assert.GreaterOrEqual(t, whole.right, list.floor)
			assert.Zero(t, whole.falseWrites)
		})
	}
}

// politely begins an order that may well end in a question mark.
var politely = regexp.MustCompile(`(?i)^(?:can|could|would|may) (?:you|i)\b`)

// Whatever is logged when it is told is not logged when it is asked or supposed.
func TestTheSameWordsAskedAreNeverLogged(t *testing.T) {
	writing := writers()
	for _, row := range append(rowsOf(t, "testdata/ask.txt"), rowsOf(t, "testdata/ask-voices.txt")...) {
		path, _, ok := route(row[0], millrace)
		if s, _ := readSentence(row[0], millrace); !ok || !writing[path] || s.directed || politely.MatchString(row[0]) {
			continue
		}
		said := strings.TrimRight(row[0], ".!?")
		for _, other := range []string{said + "?", "if " + said, "I wonder whether " + said, "what if " + said, "tomorrow " + said, "maybe " + said, said + " lol", "@everyone " + said} {
			path, args, ok := route(other, millrace)
			assert.False(t, ok && writing[path], "%q became %s %v", other, path, args)
		}
	}
}

func TestAHeapThatIsCalledBay(t *testing.T) {
	bay := vocabulary{Heaps: []string{"Bay", "Old Bay"}, Table: feedstock.Default()}
	a := New(nil, nil)
	for said, want := range map[string]string{
		"when was bay last turned": "history Bay",
		"how hot was bay?":         "heap show Bay",
		"I turned the south bay":   `log turn heap:"south bay"`,
	} {
		assert.Equal(t, want, spoken(a, said, bay), said)
	}
}

// A polite request is an order, with or without its question mark.
func TestAPoliteOrderIsFollowed(t *testing.T) {
	a := New(nil, nil)
	for said, want := range map[string]string{
		"can you remind us on sundays at 7pm?":               `duty when on sundays at 7pm`,
		"could you please stop the reminders?":               "duty off",
		"can you pause the reminders until monday?":          "duty pause until monday",
		"can you put me on the rota?":                        "duty join",
		"would you please remind us every evening at eight?": "duty when every evening at eight",
	} {
		t.Run(said, func(t *testing.T) { assert.Equal(t, want, spoken(a, said, millrace)) })
	}
}
