package main

import (
	"fmt"
	"path/filepath"
	"regexp"
	"runtime"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"heapside/bot/discord/discordtest"
)

// TestReadmeWalksToTheFirstReminder plays the README's blocks marked discord
// against a stand-in of the platform, one after the other on one record, and
// compares all that the channel shows.
func TestReadmeWalksToTheFirstReminder(t *testing.T) {
	if underRace {
		t.Skip("the plain run holds the page to its word")
	}
	if runtime.GOARCH != "amd64" {
		t.Skip("processors that fuse a multiplication with an addition round the model's last digit differently")
	}
	w := walk{T: t, p: discordtest.New(t), clock: new(moved)}
	w.clock.set("2026-05-02T09:00:00Z")
	servingAt(t, w.p, filepath.Join(t.TempDir(), "garden.db"), w.clock.now)
	holdReadme(t, "discord", w.play)
}

// Members of the invented garden on the invented server. Only Wren manages it.
var members = []discordtest.Caller{
	wren, odalys, tobiasToo,
	{ID: "500000000000000005", Name: "Tamsy", Guild: wren.Guild, Channel: wren.Channel},
}

// walk is a conversation in one channel as the page tells it.
type walk struct {
	*testing.T
	p     *discordtest.Platform
	clock *moved
	last  discordtest.Message // with the buttons that can be pressed
	form  discordtest.Form    // that stands open
	posts int                 // how many came unasked
	strings.Builder
}

// moves are the lines of the page that do something; what follows them there is
// written by what they do.
var moves = []struct {
	says *regexp.Regexp
	do   func(w *walk, said []string)
}{
	{regexp.MustCompile(`^\((\w{3} \d+ \w+ \d{4}, \d\d:\d\d)\)$`), func(w *walk, said []string) { w.strike(said[1]) }},
	{regexp.MustCompile(`^Nobody types anything\.$`), func(w *walk, _ []string) { w.unasked() }},
	{regexp.MustCompile(`^(\w+) types /$`), func(w *walk, _ []string) { w.list() }},
	{regexp.MustCompile(`^(\w+) types /(.+)$`), func(w *walk, said []string) { w.complete(w.member(said[1]), said[2]) }},
	{regexp.MustCompile(`^(\w+): /(.+)$`), func(w *walk, said []string) {
		path, options, _ := readCommand(said[2])
		w.came(w.p.Command(w.member(said[1]), path, options))
	}},
	{regexp.MustCompile(`^(\w+) taps \[(.+)\]$`), func(w *walk, said []string) { w.came(w.p.Press(w.member(said[1]), w.last, said[2])) }},
	{regexp.MustCompile(`^(\w+) sends (.+)$`), func(w *walk, said []string) { w.send(w.member(said[1]), said[2]) }},
}

// play does what a block says and returns the block as it comes out.
func (w *walk) play(block string) string {
	w.Reset()
	for line := range strings.Lines(block) {
		line = strings.TrimSuffix(line, "\n")
		for _, m := range moves {
			if said := m.says.FindStringSubmatch(line); said != nil {
				fmt.Fprintln(w, line)
				m.do(w, said)
				w.clock.add(time.Minute)
				break
			}
		}
	}
	return w.String()
}

func (w *walk) member(name string) discordtest.Caller {
	w.Helper()
	i := slices.IndexFunc(members, func(c discordtest.Caller) bool { return c.Name == name })
	require.GreaterOrEqual(w, i, 0, "%s is no member", name)
	return members[i]
}

// readCommand is a command as the client shows it, /log temp reading:58. A name
// in an option is the mention that the client makes of it. last is the option
// that stands at the end.
func readCommand(line string) (path string, options map[string]string, last string) {
	options = map[string]string{}
	at := optionName.FindAllStringSubmatchIndex(line, -1)
	path = line
	for i, m := range at {
		end := len(line)
		if i+1 < len(at) {
			end = at[i+1][0]
		}
		if i == 0 {
			path = line[:m[0]]
		}
		last = line[m[2]:m[3]]
		options[last] = mention.Replace(line[m[1]:end])
	}
	return path, options, last
}

var (
	optionName = regexp.MustCompile(` ([a-z]+):`)
	mention    = strings.NewReplacer("@Wren", "<@"+wren.ID+">", "@Odalys", "<@"+odalys.ID+">")
	mentioned  = strings.NewReplacer("<@"+wren.ID+">", "@Wren", "<@"+odalys.ID+">", "@Odalys")
)

// strike moves the clock to a time in the garden.
func (w *walk) strike(local string) {
	zone, err := time.LoadLocation("Europe/London")
	require.NoError(w, err)
	at, err := time.ParseInLocation("Mon 2 Jan 2006, 15:04", local, zone)
	require.NoError(w, err)
	require.Equal(w, at.Format("Mon"), local[:3], "the day of the week")
	w.clock.at.Store(&at)
}

// unasked shows the message that comes by itself.
func (w *walk) unasked() {
	w.posts++
	w.last = w.p.AwaitPosts(wren.Channel, w.posts)[w.posts-1]
	w.show("", w.last)
}

// list shows the commands as the client offers them.
func (w *walk) list() {
	commands, _ := w.p.Registered()
	w.cut("  ", maxOffered, func(line func(string)) {
		for _, c := range commands {
			line("/" + c.Name + ": " + c.Description)
		}
	})
}

// complete shows what the client offers while an option is typed.
func (w *walk) complete(by discordtest.Caller, line string) {
	path, options, last := readCommand(line)
	typed := options[last]
	delete(options, last)
	w.cut("  ", maxOffered, func(line func(string)) {
		for _, c := range w.p.Complete(by, path, options, last, typed) {
			line(c.Name)
		}
	})
}

// send fills in the fields of the open form by their labels.
func (w *walk) send(by discordtest.Caller, said string) {
	filled := map[string]string{}
	for part := range strings.SplitSeq(said, "; ") {
		i := slices.IndexFunc(w.form.Inputs, func(in discordtest.Input) bool { return strings.HasPrefix(part, in.Label+": ") })
		require.GreaterOrEqual(w, i, 0, "no field of the form is meant by %q", part)
		in := w.form.Inputs[i]
		filled[in.ID] = strings.TrimPrefix(part, in.Label+": ")
	}
	w.came(w.p.Submit(by, w.form, filled))
}

// came shows what an interaction came to.
func (w *walk) came(x *discordtest.Exchange) {
	o := x.Outcome()
	switch {
	case o.Form != nil:
		w.form = *o.Form
		w.line("  ", "A form opens: "+w.form.Title)
		for _, in := range w.form.Inputs {
			w.line("    ", in.Label+": ("+in.Placeholder+")")
		}
	case o.Message.Private:
		w.show(" (only you see this)", o.Message)
	case o.Replaced:
		w.show(" (the message above is edited)", o.Message)
	default:
		w.show("", o.Message)
	}
	if len(o.Message.Buttons) > 0 {
		w.last = o.Message
	}
}

// How much of an answer the page shows, in lines: own choice, for a phone.
const (
	maxOffered = 6
	maxBody    = 8
	maxField   = 2
	pageWidth  = 72
)

// show prints a message as the channel shows it, the long parts cut.
func (w *walk) show(how string, m discordtest.Message) {
	w.line("  ", "Heapside"+how+": "+readable(m.Content))
	for _, e := range m.Embeds {
		w.cut("    ", maxBody, func(line func(string)) {
			under := ""
			for text := range strings.SplitSeq(e.Description, "\n") {
				if strings.HasPrefix(text, "**") { // a title, which the channel shows bold
					line(readable(text))
					under = "  "
				} else if text != "" {
					line(under + readable(text))
				}
			}
		})
		for _, f := range e.Fields {
			w.cut("    ", maxField, func(line func(string)) { line(f.Name + ": " + readable(strings.ReplaceAll(f.Value, "\n", "; "))) })
		}
	}
	for _, f := range m.Files {
		w.line("    ", "Attached: "+f.Name+", "+f.Alt)
	}
	for _, menu := range m.Menus {
		w.line("    ", "["+menu.Placeholder+" ▾]")
	}
	row := map[int]string{}
	for _, b := range m.Buttons {
		row[b.Row] += " [" + b.Label + "]"
	}
	for i := range 5 {
		w.line("    ", strings.TrimSpace(row[i]))
	}
}

// readable is a text as a person reads it.
func readable(text string) string {
	return mentioned.Replace(discordtest.Message{Content: text}.Shown())
}

// cut prints lines until there are most of them on the page.
func (w *walk) cut(indent string, most int, print func(line func(string))) {
	kept := &walk{T: w.T}
	print(func(text string) { kept.line(indent, text) })
	lines := slices.Collect(strings.Lines(kept.String()))
	w.WriteString(strings.Join(lines[:min(len(lines), most)], ""))
	if len(lines) > most {
		fmt.Fprintln(w, indent+"…")
	}
}

// line prints a line, wrapped and hanging; an empty one not.
func (w *walk) line(indent, text string) {
	indent += strings.Repeat(" ", len(text)-len(strings.TrimLeft(text, " ")))
	out, hang := indent, indent+"  "
	for i, word := range strings.Fields(text) {
		if i > 0 && len([]rune(out))+1+len([]rune(word)) > pageWidth {
			fmt.Fprintln(w, out)
			out = hang + word
			continue
		}
		if i > 0 {
			out += " "
		}
		out += word
	}
	if text != "" {
		fmt.Fprintln(w, out)
	}
}
