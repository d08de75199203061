package main

import (
	"context"
	"os"
	"path/filepath"
	"strings"
	"sync/atomic"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"heapside/bot/discord/discordtest"
)

// Invented members of the invented garden, on the invented server.
var (
	wren      = discordtest.Caller{ID: "500000000000000001", Name: "Wren", Rights: discordtest.ManageChannels, Guild: "600000000000000001", Channel: "610000000000000001"}
	odalys    = discordtest.Caller{ID: "500000000000000002", Name: "Odalys", Guild: wren.Guild, Channel: wren.Channel}
	tobiasToo = discordtest.Caller{ID: "500000000000000003", Name: "Tobias", Guild: wren.Guild, Channel: wren.Channel}
	tobias    = discordtest.Caller{ID: "500000000000000003", Name: "Tobias", Guild: wren.Guild, Channel: "610000000000000002"}
)

// serving starts serve against a stand-in of the platform. The returned stop
// ends it and gives the exit status and the log.
func serving(t testing.TB, p *discordtest.Platform) (stop func() outcome) {
	t.Helper()
	stop, _ = servingAt(t, p, filepath.Join(t.TempDir(), "garden.db"), time.Now)
	return stop
}

// servingAt is serving on a record and by a clock; wait waits for the program to
// end by itself.
func servingAt(t testing.TB, p *discordtest.Platform, db string, now func() time.Time) (stop, wait func() outcome) {
	t.Helper()
	var out, errs strings.Builder
	m := &Main{
		In: strings.NewReader(""), Out: &out, Err: &errs, HTTP: p.Transport(), Now: now,
		Getenv: func(name string) string {
			return map[string]string{"HEAPSIDE_TOKEN": discordtest.Token, "HEAPSIDE_WEATHER": "off"}[name]
		},
	}
	ctx, cancel := context.WithCancel(context.WithoutCancel(t.Context()))
	status := make(chan int, 1)
	go func() { status <- m.Main(ctx, []string{"serve", "-db", db}) }()
	wait = func() outcome {
		s := <-status
		status <- s
		return outcome{s, out.String(), errs.String()}
	}
	stop = func() outcome {
		cancel()
		return wait()
	}
	t.Cleanup(func() { stop() })
	return stop, wait
}

func TestServeHoldsTheConversation(t *testing.T) {
	p := discordtest.New(t)
	stop := serving(t, p)
	p.Registered()

	started := p.Command(wren, "heap start", map[string]string{"name": "North Bay", "size": "1 m3"}).Answer()
	assert.Contains(t, started.Text(), "North Bay")
	mixed := p.Command(odalys, "mix", map[string]string{"what": "2 buckets of grass clippings"}).Answer()
	assert.Contains(t, mixed.Text(), "Add")
	logged := p.Command(odalys, "log temp", map[string]string{"reading": "58", "depth": "40cm"}).Answer()
	assert.Contains(t, logged.Text(), "58")
	assert.Contains(t, p.Command(wren, "ready", nil).Answer().Text(), "North Bay")
	undone := p.Press(odalys, logged, "Undo").Answer()
	assert.Contains(t, undone.Text(), "Taken back")

	wrong := p.Command(odalys, "log temp", map[string]string{"reading": "580"}).Answer()
	assert.Contains(t, wrong.Text(), "580")
	assert.True(t, wrong.Private, "only who typed it sees the mistake")

	assert.Len(t, p.Complete(odalys, "heap show", nil, "heap", "nor"), 1)
	assert.Empty(t, p.Complete(tobias, "heap show", nil, "heap", "nor"), "another channel has other heaps")
	assert.NotContains(t, p.Command(tobias, "history", nil).Answer().Text(), "North Bay")

	got := stop()
	assert.Equal(t, 0, got.status, got.err)
	assert.NotContains(t, got.err, discordtest.Token)
}

func TestServeEndsWhenItsTokenIsRefused(t *testing.T) {
	p := discordtest.New(t)
	p.RefuseToken()
	var errs strings.Builder
	m := &Main{
		Out: &strings.Builder{}, Err: &errs, HTTP: p.Transport(),
		Getenv: func(name string) string { return map[string]string{"HEAPSIDE_TOKEN": discordtest.Token}[name] },
	}
	assert.Equal(t, 3, m.Main(t.Context(), []string{"serve", "-db", filepath.Join(t.TempDir(), "garden.db")}))
	assert.Contains(t, errs.String(), "token")
	assert.NotContains(t, errs.String(), discordtest.Token)
}

func TestToken(t *testing.T) {
	file := func(mode os.FileMode, content string) string {
		path := filepath.Join(t.TempDir(), "token")
		require.NoError(t, os.WriteFile(path, []byte(content), 0o600))
		require.NoError(t, os.Chmod(path, mode))
		return path
	}
	tests := []struct {
		name string
		env  map[string]string
		want string
		err  string
	}{
		{"from the environment", map[string]string{"HEAPSIDE_TOKEN": "abc"}, "abc", ""},
		{"from a file of one's own", map[string]string{"HEAPSIDE_TOKEN_FILE": file(0o600, "abc\n")}, "abc", ""},
		{"from a read-only file of one's own", map[string]string{"HEAPSIDE_TOKEN_FILE": file(0o400, "abc")}, "abc", ""},
		{"the group can read it", map[string]string{"HEAPSIDE_TOKEN_FILE": file(0o640, "abc")}, "", "chmod 600"},
		{"anyone can read it", map[string]string{"HEAPSIDE_TOKEN_FILE": file(0o604, "abc")}, "", "chmod 600"},
		{"a folder", map[string]string{"HEAPSIDE_TOKEN_FILE": t.TempDir()}, "", "is no plain file"},
		{"an empty file", map[string]string{"HEAPSIDE_TOKEN_FILE": file(0o600, " \n")}, "", "is empty"},
		{"no such file", map[string]string{"HEAPSIDE_TOKEN_FILE": filepath.Join(t.TempDir(), "absent")}, "", "no such file"},
		{"both", map[string]string{"HEAPSIDE_TOKEN": "abc", "HEAPSIDE_TOKEN_FILE": file(0o600, "abc")}, "", "both"},
		{"neither", nil, "", "HEAPSIDE_TOKEN"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			m := &Main{Getenv: func(name string) string { return tt.env[name] }}
			got, err := m.token()
			assert.Equal(t, tt.want, got)
			if tt.err != "" {
				assert.ErrorContains(t, err, tt.err)
			} else {
				assert.NoError(t, err)
			}
		})
	}
}

// moved is a clock that a test sets.
type moved struct{ at atomic.Pointer[time.Time] }

func (m *moved) set(text string) {
	at, err := time.Parse(time.RFC3339, text)
	if err != nil {
		panic(err)
	}
	m.at.Store(&at)
}

func (m *moved) now() time.Time { return *m.at.Load() }

func (m *moved) add(d time.Duration) {
	at := m.now().Add(d)
	m.at.Store(&at)
}

// clockOf is a clock that stands.
func clockOf(text string) func() time.Time {
	clock := new(moved)
	clock.set(text)
	return clock.now
}

// TestServeRemindsOnceAndShowsWhoDidIt is one reminder from finding to done:
// said at its hour to whoever's turn it is, done by a button after a restart,
// and shown as done when somebody logs it otherwise.
func TestServeRemindsOnceAndShowsWhoDidIt(t *testing.T) {
	p, clock, db := discordtest.New(t), new(moved), filepath.Join(t.TempDir(), "garden.db")
	clock.set("2026-06-10T08:00:00Z")
	stop, _ := servingAt(t, p, db, clock.now)
	p.Registered()
	p.AddChannel(wren.Guild, wren.Channel)
	p.Command(wren, "heap start", map[string]string{"name": "North Bay", "size": "1 m3", "aim": "fast"}).Answer()
	p.Command(wren, "log add", map[string]string{"what": "10 barrows of grass clippings and 12 barrows of dry leaves"}).Answer()
	p.Command(wren, "log feel", map[string]string{"squeeze": "drops"}).Answer()
	assert.Contains(t, p.Command(odalys, "duty join", nil).Answer().Shown(), "Odalys")
	said := p.Command(wren, "duty when", map[string]string{"when": "daily 18:00"}).Answer().Shown()
	assert.Contains(t, said, "today 18:00")
	clock.set("2026-06-10T17:00:00Z")
	p.Command(wren, "log temp", map[string]string{"reading": "66", "depth": "40cm"}).Answer()

	clock.set("2026-06-10T18:00:01Z")
	first := p.AwaitPosts(wren.Channel, 1)[0]
	assert.Contains(t, first.Content, "<@"+odalys.ID+">: it is your turn: turn North Bay")
	assert.Equal(t, []string{odalys.ID}, first.Notified)
	stop()

	stop, _ = servingAt(t, p, db, clock.now)
	p.Await("the second start", func(c discordtest.Counts) bool { return c.Registered == 2 })
	done := p.Press(tobiasToo, first, "Done: turn North Bay")
	assert.True(t, done.Replaced(), "the message is edited")
	shown, _ := p.Message(first.ID)
	assert.Contains(t, shown.Shown(), "Tobias did it")
	assert.Contains(t, p.Press(odalys, first, "Done: turn North Bay").Answer().Shown(), "Tobias")

	clock.set("2026-06-14T09:00:00Z")
	p.Command(wren, "log temp", map[string]string{"reading": "67", "depth": "40cm"}).Answer()
	clock.set("2026-06-14T18:00:01Z")
	posts := p.AwaitPosts(wren.Channel, 2)
	require.Len(t, posts, 2)
	p.Command(tobiasToo, "log turn", nil).Answer()
	p.AwaitMessage("the turning in the reminder", posts[1].ID, func(m discordtest.Message) bool { return strings.Contains(m.Shown(), "Tobias did it") })
	assert.Len(t, p.Posts(wren.Channel), 2, "nothing is said twice")
	assert.Equal(t, 0, stop().status)
}

// TestServeEndsWhenAReminderFindsTheTokenRefused: sending does not need the
// gateway to learn that the token was revoked.
func TestServeEndsWhenAReminderFindsTheTokenRefused(t *testing.T) {
	p, clock, db := discordtest.New(t), new(moved), filepath.Join(t.TempDir(), "garden.db")
	clock.set("2026-06-10T08:00:00Z")
	_, wait := servingAt(t, p, db, clock.now)
	p.Registered()
	p.AddChannel(wren.Guild, wren.Channel)
	p.Command(wren, "heap start", map[string]string{"name": "North Bay"}).Answer()
	p.Command(wren, "duty when", map[string]string{"when": "daily 18:00"}).Answer()
	p.Command(wren, "log temp", map[string]string{"reading": "72"}).Answer()
	p.RefuseToken()
	clock.set("2026-06-10T18:00:01Z")
	got := wait()
	assert.Equal(t, 3, got.status)
	assert.NotContains(t, got.err, discordtest.Token)
}

// TestServeSaysAtOnceThatItMayNotPost: who sets reminders where the bot may not
// write learns it then, not from a reminder that never comes.
func TestServeSaysAtOnceThatItMayNotPost(t *testing.T) {
	p := discordtest.New(t)
	serving(t, p)
	p.Registered()
	p.AddChannel(wren.Guild, wren.Channel)
	set := func() string {
		return p.Command(wren, "duty when", map[string]string{"when": "daily 18:00"}).Answer().Shown()
	}
	assert.NotContains(t, set(), "lack")
	p.Overwrite(wren.Channel, wren.Guild, 0, discordtest.EmbedLinks)
	assert.Contains(t, set(), "I may not post reminders in this channel: I lack Embed Links.")
	p.Overwrite(wren.Channel, discordtest.Bot, discordtest.EmbedLinks, 0)
	assert.NotContains(t, set(), "lack")
}
