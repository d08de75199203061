package discord_test

import (
	"net/http"
	"slices"
	"strings"
	"sync/atomic"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"heapside/bot/discord"
	"heapside/bot/discord/discordtest"
	"heapside/calc/fault"
	"heapside/commands"
)

// badDays are what can befall an adapter that serves, beside the troubles of the
// gateway (TestGatewayTroubles), what ends Run (TestGivesUp) and posts of
// unknown outcome (TestPostOfUnknownOutcome). -v prints them as a table.
var badDays = []struct {
	name, outcome string
	change        func(*discord.Config)
	play          func(*testing.T, *scene)
}{
	{"a reminder's button is pressed twice at once", "both are answered, the message stands once", nil, func(t *testing.T, s *scene) {
		id, err := s.adapter.Post(t.Context(), wren.Channel, rude(), "monday")
		require.NoError(t, err)
		posted, _ := s.Message(id)
		first, second := s.Press(odalys, posted, "Turned"), s.Press(odalys, posted, "Turned")
		assert.True(t, first.Replaced())
		assert.True(t, second.Replaced())
		assert.Len(t, s.Posts(wren.Channel), 1)
	}},
	{"the same answer was given before (40060)", "taken as given, nothing is sent again", nil, func(t *testing.T, s *scene) {
		s.Fail(discordtest.AtCallback, discordtest.Fault{Status: 502, Arrived: true})
		assert.Contains(t, s.Command(wren, "log temp", map[string]string{"reading": "58"}).Answer().Content, "58")
		s.Met(discordtest.AtCallback)
	}},
	{"the interaction's token expired at the first answer (10062)", "one try, one line in the log without the token", nil, func(t *testing.T, s *scene) {
		s.Fail(discordtest.AtCallback, discordtest.Fault{Status: 404, Code: 10062})
		s.Command(wren, "history", nil)
		s.Met(discordtest.AtCallback)
		s.stop()
		require.NoError(t, s.end(t))
		assert.Equal(t, 1, strings.Count(s.log.String(), "sending an answer"))
	}},
	{"the interaction's token expired before a late answer (10015)", "no second message is tried", soon, func(t *testing.T, s *scene) {
		x := s.Command(wren, "log turn", nil)
		require.True(t, x.Thinking())
		s.Fail(discordtest.AtEdit, discordtest.Fault{Status: 404, Code: 10015})
		s.garden.release <- struct{}{}
		s.Met(discordtest.AtEdit)
		s.stop()
		require.NoError(t, s.end(t))
		assert.Equal(t, 1, strings.Count(s.log.String(), "sending a late answer"))
	}},
	{"a storm of 429s on first answers", "at most four requests each, then it is given up", nil, func(t *testing.T, s *scene) {
		const asked, tries = 5, 4
		limited := discordtest.Fault{Status: 429, RetryAfter: time.Millisecond}
		s.Fail(discordtest.AtCallback, slices.Repeat([]discordtest.Fault{limited}, asked*tries)...)
		for range asked {
			s.Command(wren, "history", nil)
		}
		s.Met(discordtest.AtCallback)
		assert.Contains(t, s.Command(wren, "log temp", map[string]string{"reading": "58"}).Answer().Content, "58", "the next one finds no fault left")
	}},
	{"a person floods (a quiet reply)", "nothing is sent, the next command is answered", nil, func(t *testing.T, s *scene) {
		before := requests(s).Load()
		quiet := s.Raw(wren, 2, map[string]any{"name": "flood", "type": 1})
		assert.Contains(t, s.Command(odalys, "log temp", map[string]string{"reading": "58"}).Answer().Content, "58")
		s.stop()
		require.NoError(t, s.end(t))
		assert.Equal(t, before+1, requests(s).Load(), "%v got no answer", quiet)
	}},
}

// soon postpones each answer at once.
func soon(c *discord.Config) { c.DeferAfter = time.Millisecond }

// counting counts the first answers sent through a transport.
type counting struct {
	http.RoundTripper
	answers atomic.Int64
}

func (c *counting) RoundTrip(r *http.Request) (*http.Response, error) {
	if strings.HasSuffix(r.URL.Path, "/callback") {
		c.answers.Add(1)
	}
	return c.RoundTripper.RoundTrip(r)
}

func requests(s *scene) *atomic.Int64 { return &s.config.HTTP.(*counting).answers }

func TestBadDays(t *testing.T) {
	t.Parallel()
	for _, day := range badDays {
		t.Run(day.name, func(t *testing.T) {
			t.Parallel()
			s := play(t, func(c *discord.Config) {
				c.DeferAfter = time.Minute
				if day.change != nil {
					day.change(c)
				}
				c.HTTP = &counting{RoundTripper: c.HTTP}
			})
			s.ready(t)
			s.AddChannel(wren.Guild, wren.Channel)
			day.play(t, s)
			for _, secret := range []string{discordtest.Token, "interaction-token", "Turned", "Two entries"} {
				assert.NotContains(t, s.log.String(), secret)
			}
			t.Logf("%-62s -> %s", day.name, day.outcome)
		})
	}
}

// TestCommandsUsedUp: no more commands are taken today (30034). What was
// registered before is served, and registering is tried again.
func TestCommandsUsedUp(t *testing.T) {
	t.Parallel()
	s := prepare(t, nil)
	s.Fail(discordtest.AtRegister, discordtest.Fault{Status: 400, Code: 30034})
	s.run(t)
	s.Met(discordtest.AtRegister)
	s.ready(t)
	assert.Equal(t, 1, s.Counts().Identified)
	assert.Contains(t, s.log.String(), "cannot register the commands, trying again")
}

// flooded is what the assistant answers to one call too many.
func flooded() commands.Reply {
	r := failed(fault.TooMany, "too many")
	r.Private, r.Quiet = true, true
	return r
}
