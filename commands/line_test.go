package commands

import (
	"context"
	"io"
	"log/slog"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

func TestParse(t *testing.T) {
	a := New(nil, slog.New(slog.NewTextHandler(io.Discard, nil)))
	heaps := []string{"North", "North Bay", "Old"}
	for _, tt := range []struct {
		name, line, path string
		args             map[string]string
	}{
		{"words and options", `log temp 58 heap:"North Bay" depth:40cm`, "log temp", map[string]string{"reading": "58", "heap": "North Bay", "depth": "40cm"}},
		{"options first", `log temp heap:"North Bay" depth:40cm 58`, "log temp", map[string]string{"reading": "58", "heap": "North Bay", "depth": "40cm"}},
		{"a known heap needs no quotes", `log temp heap:north bay 58`, "log temp", map[string]string{"reading": "58", "heap": "north bay"}},
		{"a phone's quotes", `log temp 58 heap:“North Bay”`, "log temp", map[string]string{"reading": "58", "heap": "North Bay"}},
		{"a slash before", `/next`, "next", map[string]string{}},
		{"a question mark behind", `Next?`, "next", map[string]string{}},
		{"a blank after the colon", `log temp 58 depth: 40cm`, "log temp", map[string]string{"reading": "58", "depth": "40cm"}},
		{"line breaks stay between words", "mix 2 buckets of grass\n1 sack of leaves", "mix", map[string]string{"what": "2 buckets of grass\n1 sack of leaves"}},
		{"a clock is no option", `log turn with the fork of 18:30`, "log turn", map[string]string{"note": "with the fork of 18:30"}},
		{"a time at the end", "log temp 58 yesterday at 18:30", "log temp", map[string]string{"reading": "58", "when": "yesterday at 18:30"}},
		{"a time and nothing else", "log turn at 18:30", "log turn", map[string]string{"when": "at 18:30"}},
		{"a time and no reading", "log temp yesterday", "log temp", map[string]string{"when": "yesterday"}},
		{"a time behind the heap", "log add 2 buckets of grass to the north bay 2 hours ago", "log add", map[string]string{"what": "2 buckets of grass", "heap": "North Bay", "when": "2 hours ago"}},
		{"a time before the heap", "log feel drips yesterday, north bay", "log feel", map[string]string{"squeeze": "drips", "heap": "North Bay", "when": "yesterday"}},
		{"a time before a comma", "log turn yesterday 18:00, only the top", "log turn", map[string]string{"note": "only the top", "when": "yesterday 18:00"}},
		{"two times", "log turn yesterday when:monday", "log turn", map[string]string{"note": "yesterday", "when": "monday"}},
		{"a time that is an amount", "log rain 12", "log rain", map[string]string{"rain": "12"}},
		{"the sun is no day", "log note smelled in the sun", "log note", map[string]string{"text": "smelled in the sun"}},
		{"a note keeps its times", "log note frost on monday", "log note", map[string]string{"text": "frost on monday"}},
		{"inches are no quotes", `log height 16"`, "log height", map[string]string{"height": `16"`}},
		{"an open quote is no quote", `log note "hello there`, "log note", map[string]string{"text": `"hello there`}},
		{"the heap at the end", "log add half a barrow of wet grass to the north bay", "log add", map[string]string{"what": "half a barrow of wet grass", "heap": "North Bay"}},
		{"a heap and nothing else", "log turn north bay", "log turn", map[string]string{"heap": "North Bay"}},
		{"both heaps of a move", "log move half of the north bay to old", "log move", map[string]string{"share": "half", "heap": "North Bay", "to": "Old"}},
		{"a share before options", `log move half heap:North to:Old`, "log move", map[string]string{"share": "half", "heap": "North", "to": "Old"}},
		{"empty quotes are nothing", `log turn heap:"" "" when:“”`, "log turn", map[string]string{"heap": "", "when": ""}},
		{"a note keeps its words", "log note carried the fork to north bay", "log note", map[string]string{"text": "carried the fork to north bay"}},
		{"a pick first", "log test jar passed, sweet", "log test", map[string]string{"test": "jar", "result": "passed, sweet"}},
		{"a heap without a preposition", "log temp 58, the north bay", "log temp", map[string]string{"reading": "58", "heap": "North Bay"}},
		{"the longest of two names", "log smell ammonia north bay", "log smell", map[string]string{"smell": "ammonia", "heap": "North Bay"}},
		{"a material that a heap is called after", "log add 2 buckets of old", "log add", map[string]string{"what": "2 buckets of old"}},
		{"a name of one word without a preposition", "log turn the very old", "log turn", map[string]string{"note": "the very old"}},
		{"half a word is no heap", "log temp 58 cold", "log temp", map[string]string{"reading": "58 cold"}},
		{"a value of two words behind the words", "log temp 58 depth:40 cm when:yesterday 18:00", "log temp", map[string]string{"reading": "58", "depth": "40 cm", "when": "yesterday 18:00"}},
		{"a new name of two words", "heap change old name:South Bay size:1 m3", "heap change", map[string]string{"heap": "old", "name": "South Bay", "size": "1 m3"}},
		{"a choice of two words", "heap start Old Bay container:pallet bay aim:fast", "heap start", map[string]string{"name": "Old Bay", "container": "pallet bay", "aim": "fast"}},
		{"a heap nobody knows", "log temp 58 heap:Moon Bay", "log temp", map[string]string{"reading": "58", "heap": "Moon Bay"}},
		{"a list of materials", "mix 2 buckets of grass from:straw, dry leaves cn:30", "mix", map[string]string{"what": "2 buckets of grass", "from": "straw, dry leaves", "cn": "30"}},
		{"more that arrived behind a word that is whole", "mix 2 buckets of grass from:stock and a sack of hay", "mix", map[string]string{"what": "2 buckets of grass and a sack of hay", "from": "stock"}},
		{"a value of two words and no words", "heap finish yield:6 barrows", "heap finish", map[string]string{"yield": "6 barrows"}},
		{"a value of two words before the heap", "heap change size:1.5 m3 north bay", "heap change", map[string]string{"size": "1.5 m3", "heap": "north bay"}},
		{"a command by itself", "heap", "heap list", map[string]string{}},
		{"a command by itself with a mark", "Duty?", "duty show", map[string]string{}},
		{"a sentence", `is it ready`, "ask", map[string]string{"words": "is it ready"}},
		{"words nobody takes", `garden show me`, "garden show", map[string]string{extraWords: "me"}},
	} {
		t.Run(tt.name, func(t *testing.T) {
			path, args, err := a.parse(tt.line, heaps)
			require.NoError(t, err)
			require.Equal(t, tt.path, path)
			require.Equal(t, tt.args, args)
		})
	}
}

// FuzzParse holds that a line never breaks the parser and that what it yields
// names a command and its options.
func FuzzParse(f *testing.F) {
	for _, s := range []string{`log temp 58 heap:"North Bay"`, "mix 2 buckets\nof grass", `heap:`, `"`, `log`, `/`, "log temp heap:“", strings.Repeat("log ", 99)} {
		f.Add(s)
	}
	a := New(nil, slog.New(slog.NewTextHandler(io.Discard, nil)))
	f.Fuzz(func(t *testing.T, line string) {
		path, args, err := a.parse(line, []string{"North Bay"})
		if err != nil {
			return
		}
		command, ok := a.byPath[path]
		require.True(t, ok, path)
		for name := range args {
			if name == extraWords {
				continue
			}
			var known bool
			for _, o := range command.Options {
				known = known || o.Name == name
			}
			require.True(t, known, name)
		}
	})
}

// TestCatalogue holds what the adapters rely on.
func TestCatalogue(t *testing.T) {
	a := New(nil, slog.New(slog.NewTextHandler(io.Discard, nil)))
	for path, c := range a.byPath {
		require.NotEmpty(t, c.Summary, path)
		require.LessOrEqual(t, len(c.Summary), 100, path)
		words := 0
		for _, o := range c.Options {
			require.NotEmpty(t, o.Summary, path)
			require.LessOrEqual(t, len([]rune(o.Summary)), 100, path+" "+o.Name)
			require.Equal(t, o.Kind == Pick || o.Kind == Hint, len(o.Choices) > 0, path+" "+o.Name)
			if o.Words {
				words++
			}
		}
		require.LessOrEqual(t, words, 1, path)
	}
}

// TestTypedReadsBack holds that a written-out call parses to itself.
func TestTypedReadsBack(t *testing.T) {
	a := New(nil, slog.New(slog.NewTextHandler(io.Discard, nil)))
	args := map[string]string{"reading": "58", "heap": "North Bay", "depth": "40cm"}
	path, got, err := a.parse(typed("log temp", args, a.byPath["log temp"].Options), nil)
	require.NoError(t, err)
	require.Equal(t, "log temp", path)
	require.Equal(t, args, got)
}

func TestPanicIsAnswered(t *testing.T) {
	a := New(nil, slog.New(slog.NewTextHandler(io.Discard, nil)))
	r := a.Do(context.Background(), Call{Path: "next"}) // no store: the handler cannot even open
	require.NotNil(t, r.Err)
}
