package main

import (
	"log/slog"
	"path/filepath"
	"testing"
	"time"
	"unicode/utf8"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"heapside/bot/terminal"
	"heapside/calc/fault"
	"heapside/calc/heap"
	"heapside/commands"
	"heapside/storage"
)

// FuzzLine types anything at all into the production wiring.
func FuzzLine(f *testing.F) {
	for _, s := range []string{
		"mix 2 buckets of grass clippings and half a bucket coffee grounds", `log temp 58 heap:"North Bay" depth:40cm`,
		"log add 1½ sacks of leaves, 3 x 40 l bags of wood chips", "log temp 140F when:yesterday", "ready", "next", "history csv:yes",
		"undo 2-3", "heap start Old Bay size:1 m3", "garden measure our bucket holds 14 l", "stock define spent hops cn:12 moisture:80",
		"is the north bay ready?", "log add -1e309 buckets of @everyone", "log note '; DROP TABLE heaps; --", "log temp 58 heap:\u202Eyab", `"`, ":",
	} {
		f.Add(s)
	}
	db, err := storage.Open(f.Context(), filepath.Join(f.TempDir(), "garden.db"))
	require.NoError(f, err)
	f.Cleanup(func() { assert.NoError(f, db.Close()) })
	a := commands.New(db, slog.New(slog.DiscardHandler))
	call := commands.Call{
		Place: heap.Place{Guild: localGuild, Channel: localChannel},
		By:    terminal.Person("Wren"),
		Now:   time.Date(2026, 5, 3, 12, 0, 0, 0, time.UTC),
	}
	require.Nil(f, a.Line(f.Context(), call, "heap start North Bay").Err)
	f.Fuzz(func(t *testing.T, line string) {
		r := a.Line(t.Context(), call, line)
		assert.NotEmpty(t, r.Headline)
		assert.True(t, utf8.ValidString(r.Headline))
		if r.Err != nil {
			assert.NotEqual(t, fault.NotSaved, r.Err.Code, "an error of ours")
			assert.Equal(t, terminal.Clean(r.Err.Message), r.Err.Message)
		}
		terminal.Render(r)
		terminal.Complete(t.Context(), a, call, line)
	})
}
