package discord_test

import (
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"heapside/bot/discord"
	"heapside/bot/discord/discordtest"
)

// answerDays are troubles of an answer to somebody. Codes are those of
// discord-api-docs c98d64bc, topics/opcodes-and-status-codes.mdx.
var answerDays = []badDay{
	{name: "first answer limited", does: "answers 429 twice", defined: "waits as told, sends it again", play: getsThrough(discordtest.AtCallback, limited, limited)},
	{name: "first answer 500", does: "answers 500", defined: "sends it again", play: getsThrough(discordtest.AtCallback, discordtest.Fault{Status: 500})},
	{name: "first answer 503, 504", does: "answers 503, then 504", defined: "sends it again", play: getsThrough(discordtest.AtCallback, down, discordtest.Fault{Status: 504})},
	{name: "first answer was taken (40060)", does: "takes it and answers 502", defined: "sends it again, hears that it stands, is content",
		play: getsThrough(discordtest.AtCallback, discordtest.Fault{Status: 502, Arrived: true})},
	{name: "late answer limited", does: "answers 429", defined: "waits as told, sends it again", set: soon, play: getsThrough(discordtest.AtEdit, limited)},
	{name: "late answer 500, 503", does: "answers 500, then takes it and answers 503", defined: "sends it again", set: soon,
		play: getsThrough(discordtest.AtEdit, discordtest.Fault{Status: 500}, discordtest.Fault{Status: 503, Arrived: true})},
	{name: "a storm of 429s", does: "answers 429 to all of five answers", defined: "at most four requests each, then given up",
		play: func(t *testing.T, s *scene) string {
			const asked, tries = 5, 4
			s.Fail(discordtest.AtCallback, slices.Repeat([]discordtest.Fault{limited}, asked*tries)...)
			for range asked {
				s.Command(wren, "history", nil)
			}
			s.Met(discordtest.AtCallback)
			all, most := s.answers()
			assert.Equal(t, tries, most)
			return times(all, "request", "requests") + " for 5 answers; " + answered(t, s)
		}},
	{name: "a 429 beyond the deadline", does: "asks to wait for a minute", defined: "given up: the answer must be there in 3 s",
		play: isLost(discordtest.AtCallback, discordtest.Fault{Status: 429, RetryAfter: time.Minute}, "sending an answer")},
	{name: "no word after the first answer", does: "takes the request, says nothing", defined: "given up after 3 s",
		play: isLost(discordtest.AtCallback, discordtest.Fault{Silent: true}, "sending an answer")},
	{name: "token expired at the first answer (10062)", does: "answers 404, 10062", defined: "one request, one line in the log",
		play: isLost(discordtest.AtCallback, discordtest.Fault{Status: 404, Code: 10062}, "sending an answer")},
	{name: "token expired before a late answer (10015)", does: "answers 404, 10015", defined: "one request, one line in the log", set: soon,
		play: isLost(discordtest.AtEdit, discordtest.Fault{Status: 404, Code: 10015}, "sending a late answer")},
	// The status is from memory.
	{name: "token expired before a late answer (50027)", does: "answers 401, 50027", defined: "one request, one line in the log; our own token is not blamed", set: soon,
		play: isLost(discordtest.AtEdit, discordtest.Fault{Status: 401, Code: 50027}, "sending a late answer")},
	{name: "an answer is refused (50035)", does: "answers 400, 50035", defined: "says that the answer cannot be shown",
		play: func(t *testing.T, s *scene) string {
			s.Fail(discordtest.AtCallback, discordtest.Fault{Status: 400, Code: 50035})
			got := s.Command(wren, "history", nil).Answer()
			assert.True(t, got.Private)
			assert.Contains(t, got.Content, "could not be shown")
			return "answered: " + got.Content
		}},
	{name: "a slow reply", does: "waits for us", defined: "“thinking” after 1.5 s, then the reply in its place", set: soon,
		play: func(t *testing.T, s *scene) string {
			x := s.Command(wren, "log turn", nil)
			require.True(t, x.Thinking())
			s.garden.release <- struct{}{}
			assert.Equal(t, "Turned.", x.Answer().Content)
			return "thinking, then the reply"
		}},
	{name: "a reply that never comes", does: "waits for us", defined: "after a minute it says so",
		set: func(c *discord.Config) { soon(c); c.AnswerIn = 20 * time.Millisecond },
		play: func(t *testing.T, s *scene) string {
			said := s.Command(wren, "log turn", nil).FollowUp()
			assert.Contains(t, said.Content, "took too long")
			s.garden.release <- struct{}{}
			return "answered: " + said.Content
		}},
	{name: "a slow reply while stopping", does: "waits for us", defined: "what is under way is answered before the end", set: soon,
		play: func(t *testing.T, s *scene) string {
			x := s.Command(wren, "log turn", nil)
			require.True(t, x.Thinking())
			s.stop()
			s.garden.release <- struct{}{}
			assert.Equal(t, "Turned.", x.Answer().Content)
			assert.NoError(t, s.end(t))
			return "the reply, then the end"
		}},
	{name: "a button is pressed twice at once", does: "sends both", defined: "both are answered, the message stands once",
		play: func(t *testing.T, s *scene) string {
			s.ready(t)
			id, err := s.adapter.Post(t.Context(), wren.Channel, rude(), "monday")
			require.NoError(t, err)
			posted, _ := s.Message(id)
			first, second := s.Press(odalys, posted, "Turned"), s.Press(odalys, posted, "Turned")
			assert.True(t, first.Replaced())
			assert.True(t, second.Replaced())
			assert.Len(t, s.Posts(wren.Channel), 1)
			return "2 answers, " + times(len(s.Posts(wren.Channel)), "message", "messages")
		}},
	{name: "a button of an older version", does: "sends it", defined: "says to type the command",
		play: func(t *testing.T, s *scene) string {
			mix := s.Command(wren, "mix", map[string]string{"what": "grass"}).Answer()
			said := s.PressID(wren, mix, "0:heap finish").Answer()
			assert.True(t, said.Private)
			assert.Contains(t, said.Content, "older message")
			return "answered: " + said.Content
		}},
	{name: "an interaction we cannot read", does: "sends a kind of input that is new to us", defined: "says so, goes on",
		play: func(t *testing.T, s *scene) string {
			said := s.Raw(wren, 5, map[string]any{"custom_id": "1:x", "components": []any{map[string]any{"type": 18}}}).Answer()
			assert.Contains(t, said.Content, "could not read")
			return "answered: " + said.Content + " Then " + answered(t, s)
		}},
	{name: "too much at once", does: "sends three, two are worked on", defined: "the third is told to try again",
		set: func(c *discord.Config) { c.AtOnce = 2 },
		play: func(t *testing.T, s *scene) string {
			first, second := s.Command(wren, "log turn", nil), s.Command(wren, "log turn", nil)
			<-s.garden.began
			<-s.garden.began
			third := s.Command(odalys, "mix", map[string]string{"what": "grass"}).Answer()
			assert.True(t, third.Private)
			assert.Contains(t, third.Content, "Try again")
			close(s.garden.release)
			assert.Equal(t, "Turned.", first.Answer().Content)
			assert.Equal(t, "Turned.", second.Answer().Content)
			return "answered: " + third.Content
		}},
	{name: "a person floods", does: "sends more than a person may ask", defined: "no answer; others are answered",
		play: func(t *testing.T, s *scene) string {
			quiet := s.Raw(wren, 2, map[string]any{"name": "flood", "type": 1})
			seen := answered(t, s)
			stopped(t, s)
			all, _ := s.answers()
			assert.Equal(t, 1, all, "%v got no answer", quiet)
			return seen
		}},
}

// getsThrough is an answer that meets faults and arrives all the same, without
// a word in the log.
func getsThrough(at discordtest.Point, faults ...discordtest.Fault) func(*testing.T, *scene) string {
	return func(t *testing.T, s *scene) string {
		s.ready(t)
		s.Fail(at, faults...)
		x := s.Command(wren, "log turn", nil)
		if at == discordtest.AtEdit {
			require.True(t, x.Thinking())
		}
		s.garden.release <- struct{}{}
		assert.Equal(t, "Turned.", x.Answer().Content)
		s.Met(at)
		assert.NotContains(t, s.log.String(), "answer", "nothing to complain of")
		return "the answer came"
	}
}

// isLost is an answer that cannot arrive: that is logged once, and the next
// answer is none the worse.
func isLost(at discordtest.Point, f discordtest.Fault, logged string) func(*testing.T, *scene) string {
	return func(t *testing.T, s *scene) string {
		s.ready(t)
		s.Fail(at, f)
		if at == discordtest.AtCallback {
			s.Command(wren, "history", nil)
		} else {
			x := s.Command(wren, "log turn", nil)
			require.True(t, x.Thinking())
			s.garden.release <- struct{}{}
		}
		s.Met(at)
		seen := ""
		if at == discordtest.AtCallback {
			seen = "; " + answered(t, s)
		}
		stopped(t, s)
		_, most := s.answers()
		assert.Equal(t, 1, most)
		assert.Equal(t, 1, strings.Count(s.log.String(), logged))
		return "1 request, 1 line in the log" + seen
	}
}
