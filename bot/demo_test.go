package main

import (
	"log/slog"
	"path/filepath"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"heapside/bot/discord"
	"heapside/bot/terminal"
	"heapside/calc/heap"
	"heapside/commands"
	"heapside/storage"
	"heapside/testdata/demo"
)

func TestDemoLoadsAtAnyTime(t *testing.T) {
	tests := []struct{ name, now string }{
		{"a spring afternoon", "2026-04-18T15:30:00Z"},
		{"a minute after midnight", "2026-07-01T00:01:00+01:00"},
		{"six weeks over the start of summer time", "2026-04-20T23:59:00+01:00"},
		{"six weeks over its end", "2026-11-24T08:00:00Z"},
		{"a leap day, seen from far east", "2028-02-29T02:00:00+13:00"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			now, err := time.Parse(time.RFC3339, tt.now)
			require.NoError(t, err)
			db, err := storage.Open(t.Context(), filepath.Join(t.TempDir(), "garden.db"))
			require.NoError(t, err)
			defer db.Close()
			place := heap.Place{Guild: localGuild, Channel: localChannel}
			a := commands.New(db, slog.New(slog.DiscardHandler))
			require.NoError(t, demo.Load(t.Context(), a, place, now, terminal.Person))

			heaps, err := db.Heaps(t.Context(), place)
			require.NoError(t, err)
			assert.Len(t, heaps, 3)
			entries, err := db.Latest(t.Context(), place, 1000)
			require.NoError(t, err)
			people := map[string]bool{}
			for i, e := range entries {
				people[e.By.Name] = true
				assert.True(t, e.Logged.Before(now), "entry %d lies in the past", e.ID)
				if i > 0 {
					assert.False(t, e.Logged.After(entries[i-1].Logged), "entry %d was logged before the next", e.ID)
				}
			}
			assert.Len(t, people, 4)
			assert.Less(t, now.Sub(entries[0].At), 48*time.Hour, "the newest entry is fresh")
		})
	}
}

// TestDemoAnswersFitOneMessage holds that what people ask most is answered on
// the platform whole, without an attachment for what had no room.
func TestDemoAnswersFitOneMessage(t *testing.T) {
	if underRace {
		t.Skip("the plain run asks the demo")
	}
	o, call := demoAt(t, time.Date(2026, 11, 24, 19, 0, 0, 0, time.UTC))
	for _, line := range []string{
		"mix 2 buckets of grass clippings and half a bucket coffee grounds", `mix heap:"Kitchen Bin" from:stock`,
		`log temp 58 heap:"North Bay" depth:40cm`, "ready", "ready Old Bay", "next", "outlook North Bay", "outlook Kitchen Bin",
		"history", "history North Bay", "heap list", "heap show North Bay", "stock list", "garden show", "guide", "guide sources", "guide manure", `trouble ammonia heap:"North Bay"`, `trouble it is wet and slimy heap:"Kitchen Bin"`, `trouble it has shrunk and stopped heap:"Old Bay"`,
	} {
		t.Run(line, func(t *testing.T) {
			r := o.assistant.Line(t.Context(), call, line)
			require.Nil(t, r.Err)
			assert.Len(t, discord.Render(r).Files, len(r.Files))
		})
	}
}
