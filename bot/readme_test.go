package main

import (
	"context"
	"flag"
	"log/slog"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"heapside/bot/terminal"
	"heapside/calc/heap"
	"heapside/commands"
	"heapside/storage"
	"heapside/testdata/demo"
)

var rewrite = flag.Bool("rewrite", false, "write the README's conversation as the program answers now")

// TestReadmeTellsTheTruth replays the conversation in the README on the demo
// and compares every answer.
func TestReadmeTellsTheTruth(t *testing.T) {
	if runtime.GOARCH != "amd64" {
		t.Skip("processors that fuse a multiplication with an addition round the model's last digit differently")
	}
	const readme = "../README.md"
	page, err := os.ReadFile(readme)
	require.NoError(t, err)
	before, rest, ok := strings.Cut(string(page), "```chat\n")
	require.True(t, ok, "the README holds a conversation")
	said, after, ok := strings.Cut(rest, "```\n")
	require.True(t, ok)

	got := converse(t, time.Date(2026, 11, 24, 19, 0, 0, 0, time.UTC), questions(said))
	if *rewrite {
		require.NoError(t, os.WriteFile(readme, []byte(before+"```chat\n"+got+"```\n"+after), 0o644))
		return
	}
	require.Equal(t, said, got)
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
func demoAt(t *testing.T, now time.Time) (*commands.Assistant, commands.Call) {
	t.Helper()
	db, err := storage.Open(t.Context(), filepath.Join(t.TempDir(), "record.db"))
	require.NoError(t, err)
	t.Cleanup(func() { require.NoError(t, db.Close()) })
	assistant := commands.New(db, slog.New(slog.DiscardHandler), commands.Under(demo.Weather{Now: now}))
	call := commands.Call{
		Place: heap.Place{Guild: localGuild, Channel: localChannel}, By: terminal.Person(demoHost), Organiser: true, Now: now,
	}
	require.NoError(t, demo.Load(t.Context(), assistant, call.Place, now, terminal.Person))
	return assistant, call
}

// converse types lines into the demo's chat at a fixed time.
func converse(t *testing.T, now time.Time, lines string) string {
	t.Helper()
	assistant, call := demoAt(t, now)
	var out strings.Builder
	chat := &terminal.Chat{
		Assistant: assistant, Call: call, Now: func() time.Time { return now },
		In: terminal.NewPipe(strings.NewReader(lines), &out), Out: &out, Folder: t.TempDir(),
	}
	require.NoError(t, chat.Run(context.Background()))
	return strings.TrimSuffix(out.String(), "millrace-lane> ")
}
