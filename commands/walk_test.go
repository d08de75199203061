package commands_test

import (
	"context"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"heapside/calc/fault"
	"heapside/commands"
)

// settled are faults that ask for nothing: there is no other way to say it.
var settled = []string{
	"is finished already", "on the rota", // nobody else is there to be named
}

// TestWhatIsAskedForIsATapAway walks through every command as somebody who never
// reads the help: with nothing, and with a word nobody knows for each option.
// What asks for something must have a button or a form for it.
func TestWhatIsAskedForIsATapAway(t *testing.T) {
	asks := []fault.Code{fault.NotUnderstood, fault.Unknown, fault.Ambiguous, fault.OutOfRange, fault.Missing}
	for name, before := range map[string][]string{
		"an empty place": nil,
		"two heaps":      {"heap start North Bay", "heap start Old Bay"},
		"a heap, people and reminders": {"heap start North Bay", "log add 2 buckets of grass and 2 buckets of leaves", "log temp 58",
			"duty when daily 18:00", "duty join", "stock set 3 sacks of dry leaves"},
	} {
		t.Run(name, func(t *testing.T) {
			a := assistant(t)
			call := commands.Call{Place: millrace, By: person("Wren"), Now: summer, Organiser: true}
			for _, line := range before {
				require.Nil(t, a.Line(context.Background(), call, line).Err, line)
			}
			for _, line := range bareLines(a.Commands()) {
				r := a.Line(context.Background(), call, line)
				if r.Err == nil || !slices.Contains(asks, r.Err.Code) || slices.ContainsFunc(settled, func(s string) bool { return strings.Contains(r.Headline, s) }) {
					continue
				}
				assert.True(t, len(r.Actions) > 0 || r.Form != nil, "%s: %s", line, r.Headline)
				for _, action := range r.Actions {
					assert.LessOrEqual(t, len(action.Line), 90, action.Line)
				}
			}
		})
	}
}

// bareLines are all commands with nothing, and with one unknown word each.
func bareLines(all []commands.Command) []string {
	var lines []string
	var visit func(prefix string, c commands.Command)
	visit = func(prefix string, c commands.Command) {
		path := strings.TrimSpace(prefix + " " + c.Name)
		lines = append(lines, path)
		for _, o := range c.Options {
			lines = append(lines, path+" "+o.Name+":xyzzy")
		}
		for _, s := range c.Subs {
			visit(path, s)
		}
	}
	for _, c := range all {
		visit("", c)
	}
	return lines
}

// FuzzWays: whatever is typed as a load, a tap under the answer is a line for the
// same command that does not meet the same fault again.
func FuzzWays(f *testing.F) {
	for _, seed := range []string{
		"grass", "3 grass", "2 buckets of manure", "leaves and 2 buckets of grass", "2 buckets of grass and leaves",
		"2 buckets of xyzzy", "grass, wet", "Mist", "2 Eimer Gras und Laub", "2 bukets manure; 1 sack of MANURE", "-3 grass", "İ manure",
	} {
		f.Add(seed)
	}
	a := assistant(f)
	call := commands.Call{Place: millrace, By: person("Wren"), Now: summer}
	f.Fuzz(func(t *testing.T, said string) {
		call.Path, call.Args = "mix", map[string]string{"what": said}
		r := a.Do(context.Background(), call)
		for _, action := range r.Actions {
			if action.Group != "Which one?" && action.Group != "How much?" {
				continue
			}
			require.LessOrEqual(t, len(action.Line), 90)
			require.True(t, strings.HasPrefix(action.Line, "mix "), action.Line)
			again := a.Line(context.Background(), call, action.Line)
			require.True(t, again.Err == nil || again.Headline != r.Headline, "%q: %q: %s", said, action.Line, r.Headline)
		}
	})
}
