package main

import (
	"context"
	"flag"
	"log/slog"
	"os"
	"path/filepath"
	"runtime"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"heapside/bot/terminal"
	"heapside/calc/heap"
	"heapside/commands"
	"heapside/storage"
	"heapside/testdata/demo"
)

const readme = root + "/README.md"

var rewrite = flag.Bool("rewrite", false, "write the README's conversations and pictures as the program answers now")

// TestReadmeTellsTheTruth replays the conversations in the README on the demo
// and compares every answer.
func TestReadmeTellsTheTruth(t *testing.T) {
	if underRace {
		t.Skip("the plain run holds the page to its word")
	}
	if runtime.GOARCH != "amd64" {
		t.Skip("processors that fuse a multiplication with an addition round the model's last digit differently")
	}
	holdReadme(t, "chat", func(said string) string { return conversation(t, questions(said)) })
	holdReadme(t, "reminder", func(said string) string { return evening(t, questions(said)) })
}

// holdReadme compares each block of the README that a word marks with what
// comes of it, or writes that into the page.
func holdReadme(t *testing.T, mark string, play func(said string) string) {
	t.Helper()
	page, err := os.ReadFile(readme)
	require.NoError(t, err)
	open, text, found := "```"+mark+"\n", string(page), 0
	var held strings.Builder
	for {
		before, rest, ok := strings.Cut(text, open)
		held.WriteString(before)
		if !ok {
			break
		}
		said, after, ok := strings.Cut(rest, "```\n")
		require.True(t, ok, "a block ends")
		got := play(said)
		if !*rewrite {
			assert.Equal(t, said, got)
		}
		held.WriteString(open + got + "```\n")
		text = after
		found++
	}
	require.NotZero(t, found, "the README holds a block marked %s", mark)
	if *rewrite {
		require.NoError(t, os.WriteFile(readme, []byte(held.String()), 0o644))
	}
}

// questions are the typed lines of a conversation.
func questions(conversation string) string {
	var lines strings.Builder
	for line := range strings.Lines(conversation) {
		if typed, ok := strings.CutPrefix(line, "millrace-lane> "); ok {
			lines.WriteString(typed)
		}
	}
	return lines.String()
}

// demoAt is the demo's record as it stands at a time, and the call of its host.
func demoAt(t *testing.T, now time.Time) (office, commands.Call) {
	t.Helper()
	db, err := storage.Open(t.Context(), filepath.Join(t.TempDir(), "record.db"))
	require.NoError(t, err)
	t.Cleanup(func() { require.NoError(t, db.Close()) })
	assistant := commands.New(db, slog.New(slog.DiscardHandler), commands.Under(demo.Weather{Now: now}))
	call := commands.Call{
		Place: heap.Place{Guild: localGuild, Channel: localChannel}, By: terminal.Person(demoHost), Organiser: true, Now: now,
	}
	require.NoError(t, demo.Load(t.Context(), assistant, call.Place, now, terminal.Person))
	return office{db, assistant, nil, func() time.Time { return now }}, call
}

// demoEvening is when the page's conversations are held.
var demoEvening = time.Date(2026, 11, 24, 19, 0, 0, 0, time.UTC)

// conversation types lines into the demo's chat at a fixed time.
func conversation(t *testing.T, lines string) string {
	t.Helper()
	o, call := demoAt(t, demoEvening)
	var out strings.Builder
	chat := &terminal.Chat{
		Assistant: o.assistant, Call: call, Now: o.now,
		In: terminal.NewPipe(strings.NewReader(lines), &out), Out: &out, Folder: t.TempDir(),
	}
	require.NoError(t, chat.Run(context.Background()))
	return strings.TrimSuffix(out.String(), "millrace-lane> ")
}

// evening is a conversation round the hour of the reminder: it comes before the
// first number, which presses one of its buttons.
func evening(t *testing.T, lines string) string {
	t.Helper()
	now := time.Date(2026, 11, 24, 17, 55, 0, 0, time.UTC)
	o, call := demoAt(t, now)
	o.now = func() time.Time { return now }
	var out strings.Builder
	chat := &terminal.Chat{Assistant: o.assistant, Call: call, Now: o.now, Out: &out, Folder: t.TempDir()}
	engine := o.engine(onScreen{o.db, chat}, slog.New(slog.DiscardHandler), storage.Reach{Only: call.Place})
	require.NoError(t, engine.Tick(t.Context()))
	chat.In = &clockwork{terminal.NewPipe(strings.NewReader(lines), &out), strings.Split(lines, "\n"), func() {
		now = time.Date(2026, 11, 24, 18, 0, 1, 0, time.UTC)
		require.NoError(t, engine.Tick(t.Context()))
	}}
	require.NoError(t, chat.Run(t.Context()))
	return strings.TrimSuffix(out.String(), "millrace-lane> ")
}

// clockwork strikes before the first line that is a number.
type clockwork struct {
	terminal.LineReader
	lines  []string
	strike func()
}

func (c *clockwork) ReadLine(ctx context.Context, prompt string) (string, error) {
	if len(c.lines) > 0 && c.strike != nil {
		if _, err := strconv.Atoi(c.lines[0]); err == nil {
			c.strike()
			c.strike = nil
		}
		c.lines = c.lines[1:]
	}
	return c.LineReader.ReadLine(ctx, prompt)
}
