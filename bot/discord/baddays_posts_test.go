package discord_test

import (
	"context"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"heapside/bot/discord/discordtest"
	"heapside/reminders"
)

// postDays are troubles of a reminder that is posted. None of them needs the
// gateway.
var postDays = []badDay{
	{name: "a post is limited", does: "answers 429, wait 90 s", defined: "refused; all posts wait that long",
		play: isRefused(discordtest.Fault{Status: 429, RetryAfter: 90 * time.Second}, reminders.RateLimited)},
	{name: "slow mode, write limits", does: "answers 20028", defined: "refused; tried again a minute later",
		play: isRefused(discordtest.Fault{Status: 400, Code: 20028}, reminders.Busy)},
	{name: "a post is refused (50035)", does: "answers 400, 50035", defined: "refused; given up: a mistake of ours",
		play: isRefused(discordtest.Fault{Status: 400, Code: 50035}, reminders.Malformed)},
	{name: "a post meets 401", does: "does not take the token", defined: "refused; the program ends, for good",
		play: isRefused(discordtest.Fault{Status: 401}, reminders.TokenRefused)},
	{name: "a post meets 500", does: "answers 500", defined: "outcome unknown; the same nonce again", play: isUnknown(discordtest.Fault{Status: 500})},
	{name: "a post meets 502", does: "answers 502", defined: "outcome unknown; the same nonce again", play: isUnknown(discordtest.Fault{Status: 502})},
	{name: "a post meets 503 with a code", does: "answers 503, 130000", defined: "outcome unknown; the same nonce again", play: isUnknown(discordtest.Fault{Status: 503, Code: 130000})},
	{name: "a post meets 404 without a code", does: "answers 404", defined: "outcome unknown; the same nonce again", play: isUnknown(discordtest.Fault{Status: 404})},
	{name: "a post meets 502, though it is there", does: "takes it and answers 502", defined: "outcome unknown; the same nonce finds it",
		play: isUnknown(discordtest.Fault{Status: 502, Arrived: true})},
	{name: "the connection is cut", does: "closes it", defined: "outcome unknown; the same nonce again", play: isUnknown(discordtest.Fault{Cut: true})},
	{name: "the connection is cut, though it is there", does: "takes it and closes the connection", defined: "outcome unknown; the same nonce finds it",
		play: isUnknown(discordtest.Fault{Cut: true, Arrived: true})},
	{name: "no word after a post", does: "says nothing", defined: "outcome unknown; the same nonce again", play: isUnknown(discordtest.Fault{Silent: true})},
	{name: "no word after a post, though it is there", does: "takes it and says nothing", defined: "outcome unknown; the same nonce finds it",
		play: isUnknown(discordtest.Fault{Silent: true, Arrived: true})},
}

// isRefused is a post that is certainly not there, and says why.
func isRefused(f discordtest.Fault, want reminders.Refusal) func(*testing.T, *scene) string {
	return func(t *testing.T, s *scene) string {
		s.Fail(discordtest.AtPost, f)
		_, err := s.adapter.Post(t.Context(), wren.Channel, duty(), "monday")
		assert.Equal(t, want, why(t, err))
		assert.Empty(t, s.Posts(wren.Channel))
		return "refused: " + want.String() + ", no message"
	}
}

// isUnknown is a post of which nobody knows whether it is there: one request is
// made, and the next try with the same nonce leaves exactly one message.
func isUnknown(f discordtest.Fault) func(*testing.T, *scene) string {
	return func(t *testing.T, s *scene) string {
		s.Fail(discordtest.AtPost, f)
		ctx, cancel := context.WithCancel(t.Context())
		defer cancel()
		if f.Silent {
			go func() {
				if f.Arrived {
					s.AwaitPosts(wren.Channel, 1)
				}
				s.Met(discordtest.AtPost)
				cancel()
			}()
		}
		_, err := s.adapter.Post(ctx, wren.Channel, duty(), "monday")
		require.Error(t, err)
		var refused *reminders.Refused
		require.NotErrorAs(t, err, &refused)
		assert.NotContains(t, err.Error(), discordtest.Token)
		first := len(s.Posts(wren.Channel))
		assert.Equal(t, f.Arrived, first == 1)

		_, err = s.adapter.Post(t.Context(), wren.Channel, duty(), "monday")
		require.NoError(t, err)
		posts := s.Posts(wren.Channel)
		require.Len(t, posts, 1)
		assert.Equal(t, []string{odalys.ID}, posts[0].Notified)
		return times(first, "message", "messages") + " after the first try, 1 after the second, 1 person notified once"
	}
}

// serverDays are what people do to us with their channels and servers.
var serverDays = []badDay{
	{name: "permissions are lost and given back", does: "answers 50013, then takes posts", defined: "refused; asked again, it comes once",
		play: func(t *testing.T, s *scene) string {
			s.Forbid(wren.Channel, 50013)
			assert.Equal(t, reminders.NoAccess, s.posts(t, wren.Channel, "a"))
			s.Allow(wren.Channel)
			assert.Zero(t, s.posts(t, wren.Channel, "a"), "a refused post left no trace of its nonce")
			return "refused: no access; then " + times(len(s.Posts(wren.Channel)), "message", "messages")
		}},
	{name: "our message is deleted", does: "answers 10008 to an edit", defined: "left alone, never posted again",
		play: func(t *testing.T, s *scene) string {
			require.Zero(t, s.posts(t, wren.Channel, "a"))
			id := s.Posts(wren.Channel)[0].ID
			s.DeleteMessage(id)
			got := why(t, s.adapter.Edit(t.Context(), wren.Channel, id, duty()))
			assert.Equal(t, reminders.MessageGone, got)
			assert.Empty(t, s.Posts(wren.Channel))
			return "refused: " + got.String()
		}},
	{name: "the channel is deleted", does: "answers 10003", defined: "its reminders end, its record is kept",
		play: func(t *testing.T, s *scene) string {
			require.Zero(t, s.posts(t, wren.Channel, "a"))
			id := s.Posts(wren.Channel)[0].ID
			s.DeleteChannel(wren.Channel)
			got := s.posts(t, wren.Channel, "b")
			assert.Equal(t, reminders.ChannelGone, got)
			assert.Equal(t, got, why(t, s.adapter.Edit(t.Context(), wren.Channel, id, duty())))
			return "refused: " + got.String()
		}},
	{name: "a server is out of order", does: "calls it unavailable", defined: "nothing changes",
		play: func(t *testing.T, s *scene) string {
			s.ready(t)
			s.Outage(wren.Guild)
			seen := answered(t, s)
			require.Zero(t, s.posts(t, wren.Channel, "a"))
			stopped(t, s)
			assert.Empty(t, s.gone)
			return "not taken for gone; " + seen + ", a post came"
		}},
	{name: "we are removed and invited again", does: "tells that the server is gone, answers 50001; then takes us back", defined: "told once, posts refused; then all as before",
		play: func(t *testing.T, s *scene) string {
			s.ready(t)
			s.RemoveBot(wren.Guild)
			assert.Equal(t, wren.Guild, <-s.gone)
			assert.Equal(t, reminders.NoAccess, s.posts(t, wren.Channel, "a"))
			s.Allow(wren.Channel)
			seen := answered(t, s)
			require.Zero(t, s.posts(t, wren.Channel, "a"))
			stopped(t, s)
			assert.Empty(t, s.gone)
			return "told once, refused: no access; then " + seen + ", a post came"
		}},
}

// posts posts a reminder, and says why it was refused, if it was.
func (s *scene) posts(t *testing.T, channel, nonce string) reminders.Refusal {
	t.Helper()
	_, err := s.adapter.Post(t.Context(), channel, duty(), nonce)
	return why(t, err)
}
