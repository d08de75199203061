package main

import (
	"context"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"heapside/bot/discord/discordtest"
)

// Invented members of the invented garden, on the invented server.
var (
	wren   = discordtest.Caller{ID: "500000000000000001", Name: "Wren", Rights: discordtest.ManageChannels, Guild: "600000000000000001", Channel: "610000000000000001"}
	odalys = discordtest.Caller{ID: "500000000000000002", Name: "Odalys", Guild: wren.Guild, Channel: wren.Channel}
	tobias = discordtest.Caller{ID: "500000000000000003", Name: "Tobias", Guild: wren.Guild, Channel: "610000000000000002"}
)

// serving starts serve against a stand-in of the platform. The returned stop
// ends it and gives the exit status and the log.
func serving(t testing.TB, p *discordtest.Platform) (stop func() outcome) {
	t.Helper()
	var out, errs strings.Builder
	m := &Main{
		In: strings.NewReader(""), Out: &out, Err: &errs, HTTP: p.Transport(),
		Getenv: func(name string) string { return map[string]string{"HEAPSIDE_TOKEN": discordtest.Token}[name] },
	}
	ctx, cancel := context.WithCancel(context.WithoutCancel(t.Context()))
	status := make(chan int, 1)
	db := filepath.Join(t.TempDir(), "garden.db")
	go func() { status <- m.Main(ctx, []string{"serve", "-db", db}) }()
	stop = func() outcome {
		cancel()
		s := <-status
		status <- s
		return outcome{s, out.String(), errs.String()}
	}
	t.Cleanup(func() { stop() })
	return stop
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
	assert.Equal(t, 1, m.Main(t.Context(), []string{"serve", "-db", filepath.Join(t.TempDir(), "garden.db")}))
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
