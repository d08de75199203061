package discord_test

import (
	"fmt"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"heapside/bot/discord"
	"heapside/bot/discord/discordtest"
)

// Codes of the gateway are those of discord-api-docs c98d64bc,
// topics/opcodes-and-status-codes.mdx.

// gatewayDays are troubles of the connection that it recovers from.
var gatewayDays = []badDay{
	{name: "the gateway drops", does: "cuts the socket", defined: "the session is resumed",
		play: recovers(func(s *scene) { s.Drop() }, wasResumed)},
	{name: "op 7", does: "asks to connect again", defined: "the session is resumed",
		play: recovers(func(s *scene) { s.Reconnect() }, wasResumed)},
	{name: "close 4000", does: "closes for an unknown error", defined: "the session is resumed",
		play: recovers(func(s *scene) { s.CloseWith(4000) }, wasResumed)},
	{name: "close 4008", does: "closes for too many packets", defined: "the session is resumed",
		play: recovers(func(s *scene) { s.CloseWith(4008) }, wasResumed)},
	{name: "op 9", does: "calls the session invalid", defined: "a new session on the same connection",
		play: recovers(func(s *scene) { s.Invalidate() }, func(c discordtest.Counts) bool { return c.Identified == 2 && c.Connected == 1 })},
	{name: "op 9 on resume", does: "has forgotten the session", defined: "a new session on the new connection",
		play: recovers(func(s *scene) { s.ForgetSession(); s.Drop() }, func(c discordtest.Counts) bool { return c.Identified == 2 && c.Connected == 2 })},
	{name: "close 4007 on resume", does: "does not take the sequence number", defined: "a new session on a third connection",
		play: recovers(func(s *scene) { s.CloseNext(discordtest.OpResume, 4007); s.Drop() }, wasRenewed)},
	{name: "close 4009 on resume", does: "calls the session too old", defined: "a new session on a third connection",
		play: recovers(func(s *scene) { s.CloseNext(discordtest.OpResume, 4009); s.Drop() }, wasRenewed)},
	{name: "away at the start", does: "answers 503, four times", defined: "tries again with growing pauses",
		before: func(s *scene) { s.Fail(discordtest.AtGateway, down, down, down, down) }, play: startsLate(discordtest.AtGateway)},
	{name: "registering fails", does: "answers 503", defined: "tries again with growing pauses",
		before: func(s *scene) { s.Fail(discordtest.AtRegister, down) }, play: startsLate(discordtest.AtRegister)},
	{name: "registering is limited", does: "answers 429, five times", defined: "waits as told, then tries again",
		before: func(s *scene) { s.Fail(discordtest.AtRegister, limited, limited, limited, limited, limited) }, play: startsLate(discordtest.AtRegister)},
	{name: "200 new commands a day are used up", does: "answers 30034", defined: "serves those it has, tries again, does not end",
		before: func(s *scene) { s.Fail(discordtest.AtRegister, discordtest.Fault{Status: 400, Code: 30034}) },
		play: func(t *testing.T, s *scene) string {
			s.Met(discordtest.AtRegister)
			seen := answered(t, s)
			s.ready(t)
			assert.Contains(t, s.log.String(), "cannot register the commands, trying again")
			return seen + " meanwhile, " + times(s.Counts().Identified, "identify", "identifies")
		}},
}

var (
	down    = discordtest.Fault{Status: 503}
	limited = discordtest.Fault{Status: 429, RetryAfter: time.Millisecond}
)

func wasResumed(c discordtest.Counts) bool {
	return c.Resumed == 1 && c.Identified == 1 && c.Connected == 2
}

func wasRenewed(c discordtest.Counts) bool { return c.Identified == 2 && c.Connected == 3 }

// recovers is a trouble after which the connection stands again.
func recovers(trouble func(*scene), over func(discordtest.Counts) bool) func(*testing.T, *scene) string {
	return func(t *testing.T, s *scene) string {
		s.ready(t)
		trouble(s)
		s.Await("the gateway to be well again", over)
		seen, c := answered(t, s), s.Counts()
		assert.Equal(t, 1, c.Registered, "once for each process")
		return fmt.Sprintf("%s, %s, %s; %s", times(c.Connected, "connection", "connections"),
			times(c.Identified, "identify", "identifies"), times(c.Resumed, "resume", "resumes"), seen)
	}
}

// startsLate is a start that meets faults.
func startsLate(at discordtest.Point) func(*testing.T, *scene) string {
	return func(t *testing.T, s *scene) string {
		s.ready(t)
		s.Met(at)
		return "registered at last; " + answered(t, s)
	}
}

// endingDays are those that a supervisor has to mend: a new process, or a person.
var endingDays = []badDay{
	{name: "close 4004 at the start", does: "does not take the token", defined: "ends at once, for good",
		before: func(s *scene) { s.RefuseToken() }, play: ends(nil, discord.ErrToken)},
	{name: "401 at the start", does: "does not take the token", defined: "ends at once, for good",
		before: func(s *scene) { s.Fail(discordtest.AtGateway, discordtest.Fault{Status: 401}) }, play: ends(nil, discord.ErrToken)},
	{name: "401 when registering", does: "does not take the token", defined: "ends at once, for good",
		before: func(s *scene) { s.Fail(discordtest.AtRegister, discordtest.Fault{Status: 401}) }, play: ends(nil, discord.ErrToken)},
	{name: "close 4004 while running", does: "the token was reset", defined: "ends at once, for good",
		play: ends(func(s *scene) { s.RefuseToken(); s.CloseWith(4004) }, discord.ErrToken)},
	{name: "close 4011", does: "demands sharding", defined: "ends: connecting again is not allowed",
		before: func(s *scene) { s.CloseNext(discordtest.OpIdentify, 4011) }, play: ends(nil, nil)},
	{name: "close 4014 while running", does: "does not allow the intents", defined: "ends: connecting again is not allowed",
		play: ends(func(s *scene) { s.CloseNext(discordtest.OpResume, 4014); s.CloseWith(4014) }, nil)},
	{name: "commands refused", does: "answers 50035 when registering", defined: "ends: a mistake of ours",
		before: func(s *scene) { s.Fail(discordtest.AtRegister, discordtest.Fault{Status: 400, Code: 50035}) }, play: ends(nil, nil)},
	{name: "silence at the start", does: "takes the connection, says nothing", defined: "ends, to be started again", set: hasty,
		before: func(s *scene) { s.Silence() }, play: ends(nil, discord.ErrStalled)},
	{name: "Open is locked up by op 11", does: "acknowledges a heartbeat before READY", defined: "ends, to be started again", set: hasty,
		before: func(s *scene) { s.AckFirst() }, play: ends(nil, discord.ErrStalled)},
	{name: "Open is locked up by op 7", does: "asks to connect again before READY", defined: "ends, to be started again", set: hasty,
		before: func(s *scene) { s.ReconnectFirst() }, play: ends(nil, discord.ErrStalled)},
	{name: "silence while running", does: "acknowledges no heartbeat", defined: "ends, to be started again", set: hasty,
		before: func(s *scene) { s.Heartbeat(time.Second) }, play: ends(func(s *scene) { s.Silence() }, discord.ErrStalled)},
}

// hasty gives up within seconds.
func hasty(c *discord.Config) { c.OpenIn, c.Patience = 3*time.Second, 4*time.Second }

// ends is a trouble, at the start or while running, that ends Run.
func ends(during func(*scene), want error) func(*testing.T, *scene) string {
	return func(t *testing.T, s *scene) string {
		if during != nil {
			s.ready(t)
			during(s)
		}
		err := s.end(t)
		require.Error(t, err)
		if want != nil {
			require.ErrorIs(t, err, want)
		}
		assert.NotContains(t, err.Error(), discordtest.Token)
		return "ended: " + strings.Join(strings.Fields(strings.TrimPrefix(err.Error(), "discord: ")), " ")
	}
}

// TestHeartbeatsKeepItAlive: the watchdog does not bite what is well.
func TestHeartbeatsKeepItAlive(t *testing.T) {
	t.Parallel()
	const beat = 400 * time.Millisecond // the library gives up after five; a busy machine may hold it up for one or two
	s := prepare(t, func(c *discord.Config) { c.Patience = 8 * beat })
	s.Heartbeat(beat)
	s.run(t)
	s.Await("heartbeats for longer than patience lasts", func(c discordtest.Counts) bool { return c.Heartbeats > 11 })
	answered(t, s)
	assert.Equal(t, 1, s.Counts().Connected)
}

func TestStops(t *testing.T) {
	t.Parallel()
	for name, stop := range map[string]func(*scene){
		"when the context ends": func(s *scene) { s.stop() },
		"when closed":           func(s *scene) { s.adapter.Close(); s.adapter.Close() },
	} {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			s := play(t, nil)
			s.ready(t)
			stop(s)
			require.NoError(t, s.end(t))
			require.Error(t, s.adapter.Run(t.Context()), "once is enough")
		})
	}
}
