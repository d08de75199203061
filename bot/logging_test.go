package main

import (
	"context"
	"encoding/json"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"heapside/bot/discord/discordtest"
)

// TestTheLogHoldsNoSecretAndNothingThatWasTyped reads the log of a whole run at
// its most talkative, mistakes included.
func TestTheLogHoldsNoSecretAndNothingThatWasTyped(t *testing.T) {
	p := discordtest.New(t)
	var out, log strings.Builder
	m := &Main{Out: &out, Err: &log, HTTP: p.Transport(), Now: time.Now, Getenv: getenv([]string{
		"HEAPSIDE_TOKEN=" + discordtest.Token, "HEAPSIDE_WEATHER=off", "HEAPSIDE_LOG=json", "HEAPSIDE_LOG_LEVEL=debug",
		"HEAPSIDE_DB=" + filepath.Join(t.TempDir(), "garden.db"),
	})}
	ctx, stop := context.WithCancel(context.WithoutCancel(t.Context()))
	defer stop()
	status := make(chan int, 1)
	go func() { status <- m.Main(ctx, []string{"serve"}) }()
	p.Registered()
	p.Command(wren, "heap start", map[string]string{"name": "Quince Corner"}).Answer()
	p.Command(odalys, "log note", map[string]string{"text": "xyzzy under the tarp"}).Answer()
	p.Command(odalys, "log temp", map[string]string{"reading": "plugh degrees"}).Answer()
	p.Command(odalys, "heap show", map[string]string{"heap": "Frobnitz"}).Answer()
	stop()
	require.Equal(t, 0, <-status, log.String())

	lines := strings.Split(strings.TrimSpace(log.String()), "\n")
	require.Greater(t, len(lines), 4, "every command left a line")
	for _, line := range lines {
		assert.True(t, json.Valid([]byte(line)), line)
	}
	for _, never := range []string{discordtest.Token, "Quince", "xyzzy", "plugh", "Frobnitz", "Odalys", "Wren", "interaction-token"} {
		assert.NotContains(t, log.String(), never)
	}
}
