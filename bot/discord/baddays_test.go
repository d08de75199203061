package discord_test

import (
	"fmt"
	"net/http"
	"slices"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"

	"heapside/bot/discord"
	"heapside/bot/discord/discordtest"
	"heapside/calc/fault"
	"heapside/commands"
)

// badDay is something that befalls an adapter: what the platform does, what is
// defined to come of it, and a test that tells what came.
type badDay struct {
	name, does, defined string

	set    func(*discord.Config)
	before func(*scene) // runs the adapter; nil: it does nothing before
	play   func(*testing.T, *scene) (seen string)
}

// TestBadDays plays all that can befall an adapter. Which code refuses a
// reminder is in TestRefusals, and how the program goes on once it is invited
// again in TestServeRemindsAgainAfterAnInvitation.
//
//	go test ./bot/discord -run BadDays -v     # prints a table
func TestBadDays(t *testing.T) {
	t.Parallel()
	days := slices.Concat(gatewayDays, endingDays, answerDays, postDays, serverDays)
	seen := make([]string, len(days))
	t.Run("play", func(t *testing.T) {
		for n, day := range days {
			t.Run(day.name, func(t *testing.T) {
				t.Parallel()
				seen[n] = day.live(t)
			})
		}
	})
	if t.Failed() || !testing.Verbose() {
		return
	}
	var table strings.Builder
	table.WriteString("\n| scenario | the platform | defined | seen |\n|---|---|---|---|\n")
	for n, day := range days {
		fmt.Fprintf(&table, "| %s | %s | %s | %s |\n", day.name, day.does, day.defined, seen[n])
	}
	fmt.Println(table.String()) // not logged: it is to be pasted as it is
}

// live lets one day pass. Nothing secret is ever logged.
func (d badDay) live(t *testing.T) (seen string) {
	gone := make(chan string, 10)
	s := prepare(t, func(c *discord.Config) {
		c.DeferAfter, c.Gone = time.Minute, func(guild string) { gone <- guild }
		if d.set != nil {
			d.set(c)
		}
		c.HTTP = &counting{RoundTripper: c.HTTP}
	})
	s.gone = gone
	s.AddChannel(wren.Guild, wren.Channel)
	if d.before != nil {
		d.before(s)
	}
	s.run(t)
	seen = d.play(t, s)
	for _, secret := range []string{discordtest.Token, "interaction-token", "Turned", "Two entries"} {
		assert.NotContains(t, s.log.String(), secret)
	}
	return seen
}

// soon postpones each answer at once.
func soon(c *discord.Config) { c.DeferAfter = time.Millisecond }

// answered makes sure that the next command is answered.
func answered(t *testing.T, s *scene) string {
	t.Helper()
	got := s.Command(wren, "log temp", map[string]string{"reading": "58"}).Answer()
	assert.Equal(t, "Wren logged 58 C.", got.Content)
	return "the next command was answered"
}

// stopped ends the adapter, so that all it does is done.
func stopped(t *testing.T, s *scene) {
	t.Helper()
	s.stop()
	assert.NoError(t, s.end(t))
}

// times is a count in words.
func times(n int, one, many string) string {
	if n == 1 {
		return "1 " + one
	}
	return fmt.Sprintf("%d %s", n, many)
}

// counting counts the answers, first and late, sent through a transport.
type counting struct {
	http.RoundTripper
	mu   sync.Mutex
	sent map[string]int // by address
}

func (c *counting) RoundTrip(r *http.Request) (*http.Response, error) {
	if strings.HasSuffix(r.URL.Path, "/callback") || strings.HasSuffix(r.URL.Path, "/@original") {
		c.mu.Lock()
		if c.sent == nil {
			c.sent = map[string]int{}
		}
		c.sent[r.URL.Path]++
		c.mu.Unlock()
	}
	return c.RoundTripper.RoundTrip(r)
}

// answers is how many requests carried answers so far, and how many at most the
// same one.
func (s *scene) answers() (all, most int) {
	c := s.config.HTTP.(*counting)
	c.mu.Lock()
	defer c.mu.Unlock()
	for _, n := range c.sent {
		all, most = all+n, max(most, n)
	}
	return all, most
}

// flooded is what the assistant answers to one call too many.
func flooded() commands.Reply {
	r := failed(fault.TooMany, "too many")
	r.Private, r.Quiet = true, true
	return r
}
