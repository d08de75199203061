package discord_test

import (
	"net/http"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"heapside/bot/discord"
	"heapside/bot/discord/discordtest"
)

// TestFaultyRequests: the platform fails now and then; the answer comes through.
func TestFaultyRequests(t *testing.T) {
	t.Parallel()
	scenes := map[discordtest.Point]*scene{
		discordtest.AtCallback: play(t, func(c *discord.Config) { c.DeferAfter = time.Minute }),
		discordtest.AtEdit:     play(t, func(c *discord.Config) { c.DeferAfter = time.Millisecond }),
	}
	for _, s := range scenes {
		s.ready(t)
	}
	limited := discordtest.Fault{Status: http.StatusTooManyRequests, RetryAfter: 20 * time.Millisecond}
	for _, tc := range []struct {
		name   string
		at     discordtest.Point
		faults []discordtest.Fault
	}{
		{"first answer limited twice", discordtest.AtCallback, []discordtest.Fault{limited, limited}},
		{"first answer 500", discordtest.AtCallback, []discordtest.Fault{{Status: 500}}},
		{"first answer 502", discordtest.AtCallback, []discordtest.Fault{{Status: 502}}},
		{"first answer 503", discordtest.AtCallback, []discordtest.Fault{{Status: 503}, {Status: 504}}},
		{"first answer arrived but 502", discordtest.AtCallback, []discordtest.Fault{{Status: 502, Arrived: true}}},
		{"later answer limited", discordtest.AtEdit, []discordtest.Fault{limited}},
		{"later answer 500", discordtest.AtEdit, []discordtest.Fault{{Status: 500}, {Status: 503, Arrived: true}}},
	} {
		t.Run(tc.name, func(t *testing.T) {
			s := scenes[tc.at]
			s.Fail(tc.at, tc.faults...)
			x := s.Command(wren, "log turn", nil)
			if tc.at == discordtest.AtEdit {
				require.True(t, x.Thinking())
			}
			s.garden.release <- struct{}{}
			assert.Equal(t, "Turned.", x.Answer().Content)
			s.Met(tc.at)
			assert.NotContains(t, s.log.String(), "answer", "nothing to complain of")
		})
	}
}

// TestUndeliverable: what cannot be delivered is logged, without secrets, and
// the next answer is none the worse.
func TestUndeliverable(t *testing.T) {
	t.Parallel()
	for _, tc := range []struct {
		name  string
		fault discordtest.Fault
	}{
		{"too late", discordtest.Fault{Status: 404, Code: 10062}},
		{"limited beyond the deadline", discordtest.Fault{Status: 429, RetryAfter: time.Minute}},
	} {
		t.Run(tc.name, func(t *testing.T) {
			t.Parallel()
			s := play(t, nil)
			s.ready(t)
			s.Fail(discordtest.AtCallback, tc.fault)
			s.Command(wren, "history", nil)
			s.Met(discordtest.AtCallback)
			assert.Equal(t, "Wren logged 58 C.", s.Command(wren, "log temp", map[string]string{"reading": "58"}).Answer().Content)
			s.stop()
			require.NoError(t, s.end(t))
			assert.Contains(t, s.log.String(), "sending an answer")
			assert.NotContains(t, s.log.String(), "interaction-token")
		})
	}
}

// TestRefusedForm: an answer the platform refuses is answered all the same.
func TestRefusedForm(t *testing.T) {
	t.Parallel()
	s := play(t, nil)
	s.ready(t)
	s.Fail(discordtest.AtCallback, discordtest.Fault{Status: 400, Code: 50035})
	got := s.Command(wren, "history", nil).Answer()
	assert.True(t, got.Private)
	assert.Contains(t, got.Content, "could not be shown")
}

// TestGatewayTroubles: whatever happens to the connection, the next question
// is answered.
func TestGatewayTroubles(t *testing.T) {
	t.Parallel()
	for _, tc := range []struct {
		name    string
		trouble func(*scene)
		over    func(discordtest.Counts) bool
	}{
		{"dropped socket is resumed", func(s *scene) { s.Drop() },
			func(c discordtest.Counts) bool { return c.Resumed == 1 && c.Identified == 1 }},
		{"asked to reconnect (op 7) is resumed", func(s *scene) { s.Reconnect() },
			func(c discordtest.Counts) bool { return c.Resumed == 1 && c.Identified == 1 }},
		{"invalid session (op 9) identifies on the spot", func(s *scene) { s.Invalidate() },
			func(c discordtest.Counts) bool { return c.Identified == 2 && c.Connected == 1 }},
		{"resume refused (op 9)", func(s *scene) { s.ForgetSession(); s.Drop() },
			func(c discordtest.Counts) bool { return c.Identified == 2 && c.Connected == 2 }},
		{"resume closed with 4007", func(s *scene) { s.CloseNext(discordtest.OpResume, 4007); s.Drop() },
			func(c discordtest.Counts) bool { return c.Identified == 2 && c.Connected == 3 }},
		{"resume closed with 4009", func(s *scene) { s.CloseNext(discordtest.OpResume, 4009); s.Drop() },
			func(c discordtest.Counts) bool { return c.Identified == 2 && c.Connected == 3 }},
		{"closed with 4000", func(s *scene) { s.CloseWith(4000) },
			func(c discordtest.Counts) bool { return c.Resumed == 1 }},
	} {
		t.Run(tc.name, func(t *testing.T) {
			t.Parallel()
			s := play(t, nil)
			s.ready(t)
			tc.trouble(s)
			s.Await("the gateway to be well again", tc.over)
			got := s.Command(wren, "log temp", map[string]string{"reading": "58"}).Answer()
			assert.Equal(t, "Wren logged 58 C.", got.Content)
			assert.Equal(t, 1, s.Counts().Registered, "registered once for each process")
			assert.NotContains(t, s.log.String(), discordtest.Token)
		})
	}
}

// TestGivesUp: what cannot get better ends Run with an error.
func TestGivesUp(t *testing.T) {
	t.Parallel()
	hasty := func(c *discord.Config) { c.OpenIn = 3 * time.Second; c.Patience = 4 * time.Second }
	for _, tc := range []struct {
		name   string
		before func(*scene)
		during func(*scene)
		want   error
	}{
		{"token refused at the gateway", func(s *scene) { s.RefuseToken() }, nil, discord.ErrToken},
		{"token refused with 401", func(s *scene) { s.Fail(discordtest.AtGateway, discordtest.Fault{Status: 401}) }, nil, discord.ErrToken},
		{"token refused at registration", func(s *scene) { s.Fail(discordtest.AtRegister, discordtest.Fault{Status: 401}) }, nil, discord.ErrToken},
		{"token reset while running", nil, func(s *scene) { s.RefuseToken(); s.CloseWith(4004) }, discord.ErrToken},
		{"silent from the start", func(s *scene) { s.Silence() }, nil, discord.ErrStalled},
		{"locked up by an acknowledgement before READY", func(s *scene) { s.AckFirst() }, nil, discord.ErrStalled},
		{"silent while running", func(s *scene) { s.Heartbeat(time.Second) }, func(s *scene) { s.Silence() }, discord.ErrStalled},
		{"sharding demanded", func(s *scene) { s.CloseNext(discordtest.OpIdentify, 4011) }, nil, nil},
		{"commands refused", func(s *scene) { s.Fail(discordtest.AtRegister, discordtest.Fault{Status: 400, Code: 50035}) }, nil, nil},
	} {
		t.Run(tc.name, func(t *testing.T) {
			t.Parallel()
			s := prepare(t, hasty)
			if tc.before != nil {
				tc.before(s)
			}
			s.run(t)
			if tc.during != nil {
				s.ready(t)
				tc.during(s)
			}
			err := s.end(t)
			require.Error(t, err)
			if tc.want != nil {
				require.ErrorIs(t, err, tc.want)
			}
			assert.NotContains(t, err.Error(), discordtest.Token)
		})
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
	assert.Equal(t, "Wren logged 58 C.", s.Command(wren, "log temp", map[string]string{"reading": "58"}).Answer().Content)
	assert.Equal(t, 1, s.Counts().Connected)
}

// TestGatewayAwayAtStart: the platform is down when we start, then comes back.
func TestGatewayAwayAtStart(t *testing.T) {
	t.Parallel()
	s := prepare(t, nil)
	down := discordtest.Fault{Status: 503}
	s.Fail(discordtest.AtGateway, down, down, down, down)
	s.Fail(discordtest.AtRegister, down)
	s.run(t)
	s.ready(t)
	assert.Equal(t, "Wren logged 58 C.", s.Command(wren, "log temp", map[string]string{"reading": "58"}).Answer().Content)
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
