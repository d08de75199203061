package terminal

import (
	"context"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"heapside/calc/heap"
	"heapside/commands"
)

// fake is an assistant with a small catalogue that answers with what it was asked.
type fake struct{ calls []commands.Call }

var catalogue = []commands.Command{
	{Name: "mix", Summary: "What to add to what arrived", Options: []commands.Option{
		{Name: "what", Summary: "what arrived", Kind: commands.Material, Required: true, Words: true},
		{Name: "heap", Summary: "which heap", Kind: commands.HeapName},
	}},
	{Name: "log", Summary: "Put one thing on the record", Subs: []commands.Command{
		{Name: "temp", Summary: "A thermometer reading", Options: []commands.Option{
			{Name: "reading", Summary: "58 or 140F", Required: true, Words: true},
			{Name: "heap", Summary: "which heap; may be left out where there is only one that is not finished yet", Kind: commands.HeapName},
			{Name: "depth", Summary: "how deep, e.g. 40cm"},
		}},
		{Name: "feel", Summary: "The squeeze test", Options: []commands.Option{
			{Name: "squeeze", Summary: "what the hand says", Kind: commands.Pick, Required: true, Words: true,
				Choices: []commands.Choice{{Name: "holds", Value: "holds"}, {Name: "drops", Value: "drops"}, {Name: "drips", Value: "drips"}}},
			{Name: "heap", Summary: "which heap", Kind: commands.HeapName},
		}},
	}},
	{Name: "history", Summary: "Who did what", Options: []commands.Option{
		{Name: "heap", Summary: "which heap", Kind: commands.HeapName, Words: true},
	}},
}

func (f *fake) Commands() []commands.Command { return catalogue }

func (f *fake) Line(_ context.Context, call commands.Call, line string) commands.Reply {
	f.calls = append(f.calls, call)
	r := commands.Reply{Headline: fmt.Sprintf("%s asked: %s", call.By.Name, line)}
	switch line {
	case "history":
		r.Files = []commands.File{{Name: "../re cord.csv", Alt: "The record.", Data: []byte("a,b\n")}}
	case "form":
		r.Form = &commands.Form{Title: "A visit", Line: "log visit", Fields: []commands.Field{
			{Option: "temp", Label: "Temperature", Example: "58", Required: true},
			{Option: "turned", Label: "Turned?", Value: "no"}, {Option: "note", Label: "Note"},
		}}
	case "log temp 58":
		r.Actions = []commands.Action{{Label: "Take it back", Line: "undo 1"}}
	}
	return r
}

// Fill answers with what the form was filled in with.
func (f *fake) Fill(_ context.Context, call commands.Call, line string, filled map[string]string) commands.Reply {
	f.calls = append(f.calls, call)
	return commands.Reply{Headline: fmt.Sprintf("%s filled in %s: %q", call.By.Name, line, filled)}
}

func (f *fake) Complete(_ context.Context, call commands.Call, option, typed string) []commands.Choice {
	var all []string
	switch option {
	case "heap":
		all = []string{"North Bay", "Northern Lights", "Old Bay", "Tumbler"}
	case "what":
		all = []string{"2 buckets of grass clippings", "2 buckets of grape marc"}
	}
	var out []commands.Choice
	for _, v := range all {
		if strings.HasPrefix(strings.ToLower(v), strings.ToLower(typed)) {
			out = append(out, commands.Choice{Name: v, Value: v})
		}
	}
	return out
}

var noon = time.Date(2026, 5, 3, 12, 0, 0, 0, time.UTC)

// talk pipes lines into a chat and returns what it printed.
func talk(t *testing.T, f *fake, folder string, lines ...string) string {
	t.Helper()
	var out strings.Builder
	c := Chat{
		Assistant: f,
		Call:      commands.Call{Place: heap.Place{Guild: "local", Channel: "millrace-lane"}, By: Person("Wren")},
		Now:       func() time.Time { return noon },
		In:        NewPipe(strings.NewReader(strings.Join(lines, "\n")), &out),
		Out:       &out,
		Folder:    folder,
	}
	require.NoError(t, c.Run(t.Context()))
	return out.String()
}

func TestChatTranscript(t *testing.T) {
	f := &fake{}
	got := talk(t, f, t.TempDir(), "log temp 58", "1", "", "  history  ", "7", "quit", "never reached")
	golden(t, "transcript", got)
	require.Len(t, f.calls, 4)
	assert.Equal(t, noon, f.calls[0].Now)
	assert.Equal(t, heap.Person{ID: "wren", Name: "Wren"}, f.calls[0].By)
}

func TestChatButtons(t *testing.T) {
	got := talk(t, &fake{}, t.TempDir(), "log temp 58", "2", "1")
	assert.Contains(t, got, "There is no button 2 under the last answer; it has 1 to 1.")
	assert.Contains(t, got, "Wren asked: undo 1")
}

// TestChatForm: the fields of a form are asked for one after the other; an empty
// line keeps what stands there, and what is needed is asked for again.
func TestChatForm(t *testing.T) {
	f := &fake{}
	golden(t, "form", talk(t, f, t.TempDir(), "form", "", " 61 ", "", "smells of earth", "form", "61", "Stop", "form", "62"))
	require.Len(t, f.calls, 4, "three forms, of which one was sent")
	assert.Equal(t, noon, f.calls[1].Now)
}

func TestChatHelp(t *testing.T) {
	golden(t, "help", talk(t, &fake{}, t.TempDir(), "help", "help log", "help log temp", "help dance"))
}

func TestChatSave(t *testing.T) {
	dir, other := t.TempDir(), t.TempDir()
	got := talk(t, &fake{}, dir, "save", "history", "save", "save", "save "+other, "save "+filepath.Join(dir, "-re-cord.csv"))
	assert.Contains(t, got, "The last answer has no attachment to save.")
	assert.Contains(t, got, "Not saved: ")
	for _, path := range []string{filepath.Join(dir, "-re-cord.csv"), filepath.Join(dir, "-re-cord-2.csv"), filepath.Join(other, "-re-cord.csv")} {
		data, err := os.ReadFile(path)
		require.NoError(t, err)
		assert.Equal(t, "a,b\n", string(data))
	}
}

func TestChatEndsWithItsContext(t *testing.T) {
	ctx, cancel := context.WithCancel(t.Context())
	cancel()
	var out strings.Builder
	c := Chat{Assistant: &fake{}, Now: time.Now, In: NewPipe(blocked{}, &out), Out: &out}
	assert.NoError(t, c.Run(ctx))
}

// blocked is an input that never answers.
type blocked struct{}

func (blocked) Read([]byte) (int, error) { select {} }

func TestPrompt(t *testing.T) {
	tests := []struct{ name, channel, want string }{
		{"a channel", "millrace-lane", "millrace-lane> "},
		{"what does not print", "a\x1b[2Jb\u200Dc\uE000", "a[2Jbc> "},
		{"a long name", strings.Repeat("heap", 20), "heapheapheapheapheapheapheaph…> "},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			assert.Equal(t, tt.want, promptFor(tt.channel))
		})
	}
}

func TestComplete(t *testing.T) {
	tests := []struct {
		name, line string
		want       []string // whole lines
	}{
		{"commands and the chat's own words", "h", []string{"history ", "help "}},
		{"subcommands", "log ", []string{"log temp ", "log feel "}},
		{"a subcommand begun", "log te", []string{"log temp "}},
		{"free options", "log temp 58 ", []string{"log temp 58 heap:", "log temp 58 depth:"}},
		{"an option begun", "log temp 58 h", []string{"log temp 58 heap:"}},
		{"an option that is used already is gone", "log temp depth:40cm ", []string{"log temp depth:40cm heap:"}},
		{"a heap name gets quotes", "log temp 58 heap:no", []string{`log temp 58 heap:"North Bay" `, `log temp 58 heap:"Northern Lights" `}},
		{"an open quote goes on", `log temp 58 heap:"North B`, []string{`log temp 58 heap:"North Bay" `}},
		{"a name without blanks needs none", "log temp heap:tu", []string{"log temp heap:Tumbler "}},
		{"picks among loose words", "log feel dr", []string{"log feel drops ", "log feel drips "}},
		{"loose heap name of two words", "history north b", []string{"history North Bay "}},
		{"materials replace the loose words", "mix 2 buckets of gra", []string{"mix 2 buckets of grass clippings ", "mix 2 buckets of grape marc "}},
		{"the last item of a list", "mix 1 sack of leaves and 2 buckets of gras", []string{"mix 1 sack of leaves and 2 buckets of grass clippings "}},
		{"loose words after an option", "log feel heap:Tumbler h", []string{"log feel heap:Tumbler holds "}},
		{"help completes commands", "help lo", []string{"help log "}},
		{"help completes subcommands", "help log f", []string{"help log feel "}},
		{"nothing after a sentence", "what needs doing", nil},
		{"nothing for an unknown option", "log temp foo:b", nil},
		{"nothing for an unknown subcommand", "log dance 5", nil},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			head, suggestions := Complete(t.Context(), &fake{}, commands.Call{}, tt.line)
			var got []string
			for _, s := range suggestions {
				got = append(got, head+s)
			}
			assert.Equal(t, tt.want, got)
		})
	}
}

func FuzzComplete(f *testing.F) {
	for _, s := range []string{"log temp 58 heap:\"North", "help log ", "mix 2 buckets of gra", `"`, ":", "a:b:c", "log\u00a0temp", "\xff\"", "heap:heap:\"\""} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, line string) {
		head, _ := Complete(t.Context(), &fake{}, commands.Call{}, line)
		assert.True(t, strings.HasPrefix(line, head), "what is typed stays")
	})
}

func TestJoinArgs(t *testing.T) {
	tests := []struct {
		name string
		args []string
		want string
	}{
		{"plain words", []string{"log", "temp", "58"}, "log temp 58"},
		{"quotes that the shell took come back", []string{"log", "temp", "58", "heap:North Bay"}, `log temp 58 heap:"North Bay"`},
		{"quotes that are there stay", []string{"log", "temp", `heap:"North Bay"`}, `log temp heap:"North Bay"`},
		{"a value with a double quote", []string{"history", `heap:The "Big" One`}, `history heap:«The "Big" One»`},
		{"a line given whole", []string{`log temp 58 heap:"North Bay"`}, `log temp 58 heap:"North Bay"`},
		{"no option's name", []string{"log", "note:it is hot"}, "log note:it is hot"},
		{"a colon inside a sentence", []string{"the heap: is it ready"}, "the heap: is it ready"},
		{"empty", []string{""}, ""},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			assert.Equal(t, tt.want, JoinArgs(tt.args, slices.Clone(catalogue)))
		})
	}
}

func TestSayBringsItsButtons(t *testing.T) {
	var out strings.Builder
	f := &fake{}
	in, typed := io.Pipe()
	c := &Chat{Assistant: f, Now: time.Now, Out: &out, In: NewPipe(in, &out)}
	require.NoError(t, c.Say(commands.Reply{Headline: "Turn North Bay.", Actions: []commands.Action{{Label: "Done", Line: "duty done 1"}}}))
	go func() {
		_, _ = io.WriteString(typed, "1\n")
		typed.Close()
	}()
	require.NoError(t, c.Run(t.Context()))
	assert.Contains(t, out.String(), "\nTurn North Bay.\n  [1] Done\n")
	assert.Contains(t, out.String(), "asked: duty done 1")
}
