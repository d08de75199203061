package discord_test

import (
	"bytes"
	"context"
	"flag"
	"fmt"
	"log/slog"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"heapside/bot/discord"
	"heapside/bot/discord/discordtest"
	"heapside/calc/fault"
	"heapside/calc/heap"
	"heapside/commands"
)

// TestMain lets more tests run at once than there are processors: most of
// their time goes by waiting for the client library, which sleeps a second
// whenever it closes a connection.
func TestMain(m *testing.M) {
	if err := flag.Set("test.parallel", "12"); err != nil {
		panic(err)
	}
	m.Run()
}

// The invented members of the invented Millrace Lane Community Garden.
var (
	wren   = discordtest.Caller{ID: "500000000000000001", Name: "wren", Nick: "Wren", Rights: discordtest.ManageChannels, Guild: "600000000000000001", Channel: "610000000000000001"}
	odalys = discordtest.Caller{ID: "500000000000000002", Name: "Odalys", Guild: wren.Guild, Channel: wren.Channel}
)

// now is the time every call carries.
var now = time.Date(2026, 4, 18, 9, 30, 0, 0, time.UTC)

// garden is an assistant with a few commands, which remembers its calls.
type garden struct {
	release chan struct{} // "turn" waits for it
	began   chan struct{} // "turn" says when it waits

	mu    sync.Mutex
	calls []commands.Call
}

func newGarden() *garden {
	return &garden{release: make(chan struct{}), began: make(chan struct{}, 100)}
}

func (g *garden) Commands() []commands.Command {
	heapOption := commands.Option{Name: "heap", Summary: "Which heap", Kind: commands.HeapName}
	return []commands.Command{
		{Name: "mix", Summary: "What to add", Options: []commands.Option{
			{Name: "what", Summary: "What arrived", Kind: commands.Material, Required: true, Words: true}, heapOption,
		}},
		{Name: "log", Summary: "Put one thing on the record", Subs: []commands.Command{
			{Name: "temp", Summary: "A reading", Options: []commands.Option{{Name: "reading", Summary: "Degrees", Required: true}, heapOption}},
			{Name: "feel", Summary: "A squeeze", Options: []commands.Option{{Name: "squeeze", Summary: "How it feels", Kind: commands.Pick, Required: true,
				Choices: []commands.Choice{{Name: "holds together", Value: "holds"}, {Name: "drips", Value: "drips"}}}, heapOption}},
			{Name: "turn", Summary: "A turning", Options: []commands.Option{{Name: "note", Summary: "A note"}}},
		}},
		{Name: "history", Summary: "Who did what"},
	}
}

func (g *garden) Do(ctx context.Context, call commands.Call) commands.Reply {
	g.mu.Lock()
	g.calls = append(g.calls, call)
	g.mu.Unlock()
	switch call.Path {
	case "mix":
		return commands.Reply{
			Headline: "Add about 3 buckets of dry leaves.",
			Body:     []commands.Block{{Title: "Before and after", Lines: []string{"C:N 17 -> 29", "moisture 70 % -> 58 %"}}},
			Cautions: []string{"Wear gloves."}, Basis: []string{"the table of feedstocks"},
			Actions: []commands.Action{{Label: "Log it", Line: "log temp 58"}, {Label: "Explode", Line: "explode"}},
		}
	case "log temp":
		if call.Args["reading"] == "580" {
			return failed(fault.OutOfRange, `"580" is hotter than any heap: readings from -20 to 95 C are possible.`)
		}
		if call.Args["reading"] == "which" {
			r := failed(fault.Missing, "Which heap?")
			for i := range 12 {
				r.Actions = append(r.Actions, commands.Action{Label: fmt.Sprint("Bay ", i), Line: fmt.Sprint("log temp 58 heap:", i), Group: "Which heap?"})
			}
			return r
		}
		return commands.Reply{
			Headline: fmt.Sprintf("%s logged %s C.", call.By.Name, call.Args["reading"]),
			Replace:  call.Args["reading"] == "replace",
		}
	case "log feel":
		panic("a bug in a handler, with " + discordtest.Token)
	case "log turn":
		return g.turn(ctx, call)
	case "flood":
		return flooded()
	case "history":
		return commands.Reply{
			Headline: "Two entries by @everyone and *Wren* [here](https://example.invalid)",
			Files:    []commands.File{{Name: "history.csv", ContentType: "text/csv", Alt: "the record", Data: []byte("when,who\n")}},
		}
	}
	return failed(fault.Unknown, "unknown")
}

// turn answers once the test lets it, privately when the note asks for it.
func (g *garden) turn(ctx context.Context, call commands.Call) commands.Reply {
	g.began <- struct{}{}
	select {
	case <-g.release:
	case <-ctx.Done():
		<-g.release // one that does not watch its deadline
	}
	if call.Args["note"] == "badly" {
		return failed(fault.NotUnderstood, "That cannot be turned.")
	}
	return commands.Reply{Headline: "Turned."}
}

func (g *garden) Line(ctx context.Context, call commands.Call, line string) commands.Reply {
	if line == "explode" {
		panic("a bug in a button")
	}
	g.mu.Lock()
	g.calls = append(g.calls, call)
	g.mu.Unlock()
	if how, ok := strings.CutPrefix(line, "rude"); ok {
		return g.rude(how)
	}
	if how, ok := strings.CutPrefix(line, "form"); ok {
		return g.form(how)
	}
	return commands.Reply{Headline: call.By.Name + " pressed: " + line}
}

// form answers with a form, late when it is told.
func (g *garden) form(how string) commands.Reply {
	if strings.Contains(how, "late") {
		<-g.release
	}
	return commands.Reply{
		Headline: "What was there to see?", Private: true,
		Form: &commands.Form{Title: "A visit to North Bay", Line: "form" + how, Fields: []commands.Field{
			{Option: "temp", Label: "Temperature in °C", Example: "58", Required: true},
			{Option: "turned", Label: "Turned?", Value: "no"}, {Option: "note", Label: "Note", Long: true},
		}},
	}
}

// Fill answers a form: with another one, or in the place of the message above,
// as it is told.
func (g *garden) Fill(_ context.Context, call commands.Call, line string, filled map[string]string) commands.Reply {
	call.Args = filled
	g.mu.Lock()
	g.calls = append(g.calls, call)
	g.mu.Unlock()
	switch {
	case filled["temp"] == "580":
		return failed(fault.OutOfRange, "580 cannot be.")
	case filled["temp"] == "form":
		return g.form("")
	}
	return commands.Reply{Headline: call.By.Name + " filled in " + line, Replace: strings.Contains(line, "replace")}
}

// rude answers with text that would do harm if it were not shown literally:
// late, privately, or in the place of the message above, as it is told.
func (g *garden) rude(how string) commands.Reply {
	if strings.Contains(how, "late") {
		<-g.release
	}
	r := rude()
	r.Private, r.Replace = strings.Contains(how, "private"), strings.Contains(how, "replace")
	return r
}

// rude is a reply to Odalys, all of whose text is hostile.
func rude() commands.Reply {
	const text = "@everyone <@&600000000000000001> <@500000000000000001> **b** [a](https://example.invalid) :x:"
	return commands.Reply{
		Headline: text, To: heap.Person{ID: odalys.ID, Name: text},
		Body: []commands.Block{{Title: text, Lines: []string{text}}}, Cautions: []string{text}, Basis: []string{text},
		Actions: []commands.Action{{Label: "Turned", Line: "rude replace"}, {Label: "Other", Line: "next", Row: true}},
		Files:   []commands.File{{Name: "rude.csv", ContentType: "text/csv", Alt: text, Data: []byte(text)}},
	}
}

func (g *garden) Complete(_ context.Context, call commands.Call, option, typed string) []commands.Choice {
	if typed == "panic" {
		panic("a bug in completion")
	}
	var out []commands.Choice
	for _, name := range []string{"North Bay", "Kitchen Bin", "Old Bay"} {
		if option == "heap" && strings.HasPrefix(strings.ToLower(name), strings.ToLower(typed)) {
			out = append(out, commands.Choice{Name: name, Value: name})
		}
	}
	if typed == "many" {
		for i := range 60 {
			out = append(out, commands.Choice{Name: fmt.Sprint("heap ", i, strings.Repeat("x", 120)), Value: fmt.Sprint(i)})
		}
	}
	return out
}

func (g *garden) lastCall() commands.Call {
	g.mu.Lock()
	defer g.mu.Unlock()
	return g.calls[len(g.calls)-1]
}

func failed(code fault.Code, message string) commands.Reply {
	return commands.Reply{Headline: message, Err: fault.New(code, "%s", message)}
}

// logbook collects what is logged.
type logbook struct {
	mu   sync.Mutex
	text bytes.Buffer
}

func (l *logbook) Write(b []byte) (int, error) {
	l.mu.Lock()
	defer l.mu.Unlock()
	return l.text.Write(b)
}

func (l *logbook) String() string {
	l.mu.Lock()
	defer l.mu.Unlock()
	return l.text.String()
}

// scene is a running adapter with its stand-in.
type scene struct {
	*discordtest.Platform
	garden  *garden
	adapter *discord.Adapter
	config  discord.Config
	log     *logbook
	ended   chan error  // what Run returned
	gone    chan string // servers it was told are gone, on bad days
	stop    context.CancelFunc
}

// prepare makes a scene without running it, for tests that set something first.
func prepare(t testing.TB, change func(*discord.Config)) *scene {
	t.Helper()
	s := &scene{Platform: discordtest.New(t), garden: newGarden(), log: &logbook{}, ended: make(chan error, 1)}
	cfg := discord.Config{
		Token: discordtest.Token, HTTP: s.Transport(), Now: func() time.Time { return now },
		Log: slog.New(slog.NewTextHandler(s.log, &slog.HandlerOptions{Level: slog.LevelWarn})),
	}
	if change != nil {
		change(&cfg)
	}
	var err error
	s.config = cfg
	s.adapter, err = discord.New(cfg, s.garden)
	require.NoError(t, err)
	return s
}

// run runs the adapter until the test ends.
func (s *scene) run(t testing.TB) *scene {
	ctx, cancel := context.WithCancel(context.Background())
	s.stop = cancel
	done := make(chan struct{})
	go func() {
		defer close(done)
		s.ended <- s.adapter.Run(ctx)
	}()
	t.Cleanup(func() {
		cancel()
		<-done
		if t.Failed() {
			t.Log(s.log)
		}
	})
	return s
}

// ready waits until the adapter serves.
func (s *scene) ready(t testing.TB) {
	t.Helper()
	select {
	case <-s.adapter.Ready():
	case err := <-s.ended:
		require.Fail(t, "ended before it was ready", "%v", err)
	case <-time.After(60 * time.Second):
		require.Fail(t, "not ready in time")
	}
}

// end is what Run returned.
func (s *scene) end(t testing.TB) error {
	t.Helper()
	select {
	case err := <-s.ended:
		return err
	case <-time.After(60 * time.Second):
		require.Fail(t, "still running")
		return nil
	}
}

// restart is the same platform served by a new process: the adapter before has
// ended and this one knows nothing of what it did.
func (s *scene) restart(t testing.TB) *scene {
	t.Helper()
	s.stop()
	require.NoError(t, s.end(t))
	next := &scene{Platform: s.Platform, garden: newGarden(), log: s.log, ended: make(chan error, 1)}
	var err error
	next.adapter, err = discord.New(s.config, next.garden)
	require.NoError(t, err)
	return next.run(t)
}

// play is a running scene.
func play(t testing.TB, change func(*discord.Config)) *scene {
	t.Helper()
	return prepare(t, change).run(t)
}
