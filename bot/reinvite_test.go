package main

import (
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"heapside/bot/discord/discordtest"
	"heapside/calc/duty"
	"heapside/calc/heap"
	"heapside/storage"
)

// TestServeRemindsAgainAfterAnInvitation: a server that removed us hears nothing
// more; once we are invited again, the first thing logged there makes reminders
// go on with all that was set before.
func TestServeRemindsAgainAfterAnInvitation(t *testing.T) {
	p, clock, db := discordtest.New(t), new(moved), filepath.Join(t.TempDir(), "garden.db")
	clock.set("2026-06-10T08:00:00Z")
	servingAt(t, p, db, clock.now)
	p.Registered()
	p.AddChannel(wren.Guild, wren.Channel)
	p.AddChannel(tobias.Guild, tobias.Channel)
	for _, who := range []discordtest.Caller{wren, tobias} {
		p.Command(who, "heap start", map[string]string{"name": "North Bay"}).Answer()
		p.Command(who, "duty when", map[string]string{"when": "daily 18:00"}).Answer()
		p.Command(who, "log temp", map[string]string{"reading": "72"}).Answer()
	}
	p.RemoveBot(wren.Guild)
	awaitGone(t, db, heap.Place{Guild: wren.Guild, Channel: wren.Channel})
	p.Allow(wren.Channel)
	assert.Empty(t, p.Posts(wren.Channel))

	p.Command(wren, "log temp", map[string]string{"reading": "73"}).Answer()
	clock.set("2026-06-10T18:00:01Z")
	posts := p.AwaitPosts(wren.Channel, 1)
	assert.Contains(t, posts[0].Shown(), "North Bay")
	assert.Empty(t, p.Posts(tobias.Channel), "nothing was said where nobody came back")
}

// awaitGone waits until the record says that a place is gone: the platform's
// news and the commands after it are worked on side by side.
func awaitGone(t *testing.T, path string, at heap.Place) {
	t.Helper()
	db, err := storage.Open(t.Context(), path)
	require.NoError(t, err)
	defer db.Close()
	for range 100_000 {
		s, err := db.Standing(t.Context(), at)
		require.NoError(t, err)
		if s.Trouble == duty.Gone {
			return
		}
	}
	require.Fail(t, "never gone")
}
