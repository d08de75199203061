package discord_test

import (
	"errors"
	"net/http"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"heapside/bot/discord"
	"heapside/bot/discord/discordtest"
	"heapside/calc/fault"
	"heapside/calc/heap"
	"heapside/commands"
	"heapside/reminders"
)

// longest is a nonce of as many characters as there may be.
var longest = strings.Repeat("a", 25)

// duty is a reminder for Odalys.
func duty() commands.Reply {
	return commands.Reply{
		Headline: "Turn North Bay today.", To: heap.Person{ID: odalys.ID, Name: "Odalys"},
		Body: []commands.Block{{Lines: []string{"68 C at 40 cm"}}},
		Actions: []commands.Action{
			{Label: "Turned", Line: "duty done 12"}, {Label: "Later", Line: "duty later 12"},
			{Label: "Watered", Line: "duty done 13", Row: true},
		},
		Files: []commands.File{{Name: "week.csv", ContentType: "text/csv", Alt: "the week", Data: []byte("day\n")}},
	}
}

// poster is a scene whose adapter only posts: no gateway is open.
func poster(t testing.TB) *scene {
	t.Helper()
	s := prepare(t, nil)
	s.AddChannel(wren.Guild, wren.Channel)
	return s
}

func TestPost(t *testing.T) {
	t.Parallel()
	s := poster(t)
	id, err := s.adapter.Post(t.Context(), wren.Channel, duty(), longest)
	require.NoError(t, err)
	posts := s.Posts(wren.Channel)
	require.Len(t, posts, 1)
	m := posts[0]
	assert.Equal(t, id, m.ID)
	assert.Equal(t, longest, m.Nonce)
	assert.Equal(t, "<@"+odalys.ID+">: Turn North Bay today.", m.Content)
	assert.Equal(t, []string{odalys.ID}, m.Notified)
	assert.Equal(t, "68 C at 40 cm", m.Embeds[0].Description)
	assert.Equal(t, []discordtest.Button{
		{Label: "Turned", ID: "1:duty done 12"}, {Label: "Later", ID: "1:duty later 12"}, {Label: "Watered", ID: "1:duty done 13", Row: 1},
	}, m.Buttons)
	assert.Equal(t, "week.csv", m.Files[0].Name)
	assert.Zero(t, s.Counts().Connected, "the gateway is not needed")

	nobody := duty()
	nobody.To = heap.Person{}
	_, err = s.adapter.Post(t.Context(), wren.Channel, nobody, "another day")
	require.NoError(t, err)
	posts = s.Posts(wren.Channel)
	require.Len(t, posts, 2)
	assert.Equal(t, "Turn North Bay today.", posts[1].Content)
	assert.Empty(t, posts[1].Notified)
}

func TestPostTwiceIsOneMessage(t *testing.T) {
	t.Parallel()
	s := poster(t)
	first, err := s.adapter.Post(t.Context(), wren.Channel, duty(), "monday")
	require.NoError(t, err)
	again, err := s.adapter.Post(t.Context(), wren.Channel, duty(), "monday")
	require.NoError(t, err)
	assert.Equal(t, first, again)
	assert.Len(t, s.Posts(wren.Channel), 1)
	other, err := s.adapter.Post(t.Context(), wren.Channel, duty(), "tuesday")
	require.NoError(t, err)
	assert.NotEqual(t, first, other)
	s.ForgetNonces()
	late, err := s.adapter.Post(t.Context(), wren.Channel, duty(), "monday")
	require.NoError(t, err)
	assert.NotEqual(t, first, late, "the platform remembers for minutes only")
	assert.Len(t, s.Posts(wren.Channel), 3)
}

// TestNotSent: what the platform cannot take is refused before it is asked.
func TestNotSent(t *testing.T) {
	t.Parallel()
	s := poster(t)
	private, wrong := duty(), duty()
	private.Private = true
	wrong.Err = fault.New(fault.NotSaved, "x")
	for _, tc := range []struct {
		name, channel string
		reply         commands.Reply
		nonce         string
		why           reminders.Refusal
	}{
		{"a channel of a local chat", "local", duty(), "a", reminders.ChannelGone},
		{"no channel", "", duty(), "a", reminders.ChannelGone},
		{"a channel that leads elsewhere", "1/../2", duty(), "a", reminders.ChannelGone},
		{"private", wren.Channel, private, "a", reminders.Malformed},
		{"an error", wren.Channel, wrong, "a", reminders.Malformed},
		{"no nonce", wren.Channel, duty(), "", reminders.Malformed},
		{"a long nonce", wren.Channel, duty(), longest + "a", reminders.Malformed},
	} {
		t.Run(tc.name, func(t *testing.T) {
			var refused *reminders.Refused
			_, err := s.adapter.Post(t.Context(), tc.channel, tc.reply, tc.nonce)
			require.ErrorAs(t, err, &refused)
			assert.Equal(t, tc.why, refused.Why)
		})
	}
	var refused *reminders.Refused
	require.ErrorAs(t, s.adapter.Edit(t.Context(), "local", "1", duty()), &refused)
	assert.Equal(t, reminders.ChannelGone, refused.Why)
	require.ErrorAs(t, s.adapter.Edit(t.Context(), wren.Channel, "1/crosspost", duty()), &refused)
	assert.Equal(t, reminders.MessageGone, refused.Why)
	assert.Empty(t, s.Posts(wren.Channel))
}

func TestEdit(t *testing.T) {
	t.Parallel()
	s := poster(t)
	id, err := s.adapter.Post(t.Context(), wren.Channel, duty(), "monday")
	require.NoError(t, err)
	done := duty()
	done.Headline, done.Body, done.Actions, done.Files = "Wren turned North Bay.", nil, nil, nil
	for range 2 { // it may be repeated
		require.NoError(t, s.adapter.Edit(t.Context(), wren.Channel, id, done))
	}
	posts := s.Posts(wren.Channel)
	require.Len(t, posts, 1)
	m := posts[0]
	assert.Equal(t, "<@"+odalys.ID+">: Wren turned North Bay.", m.Content)
	assert.Equal(t, 2, m.Edits)
	assert.Empty(t, m.Embeds, "nothing of the first stays")
	assert.Empty(t, m.Buttons)
	assert.Empty(t, m.Files)
	assert.Equal(t, []string{odalys.ID}, m.Notified, "once, by the post")

	s.Fail(discordtest.AtEditMessage, discordtest.Fault{Status: 502, Arrived: true})
	err = s.adapter.Edit(t.Context(), wren.Channel, id, duty())
	require.Error(t, err)
	require.False(t, errors.As(err, new(*reminders.Refused)))
	m, _ = s.Message(id)
	assert.Equal(t, "week.csv", m.Files[0].Name)
}

// TestGone: a server that removes us is reported once, one that is out of order
// is not, and nothing else is asked of the platform for it.
func TestGone(t *testing.T) {
	t.Parallel()
	gone := make(chan string, 10)
	s := play(t, func(c *discord.Config) {
		c.Gone = func(guild string) {
			gone <- guild
			if guild == wren.Guild {
				panic("a bug in what hears of it")
			}
		}
	})
	s.ready(t)
	assert.Equal(t, 1, s.Counts().Intents, "news of servers, nothing else")
	const other = "600000000000000002"
	s.Dispatch("GUILD_CREATE", map[string]any{"id": wren.Guild, "name": "Millrace Lane", "channels": []any{map[string]any{"id": wren.Channel, "type": 0}}})
	s.Outage(wren.Guild)
	s.RemoveBot(wren.Guild)
	assert.Equal(t, wren.Guild, <-gone)
	s.RemoveBot(other)
	assert.Equal(t, other, <-gone, "one bug does not end it")
	s.stop()
	require.NoError(t, s.end(t))
	assert.Empty(t, gone)
	assert.Contains(t, s.log.String(), "a bug in what hears of it")
}

// TestPostIsMadeOnce: what the platform puts off is not repeated here.
func TestPostIsMadeOnce(t *testing.T) {
	t.Parallel()
	s := poster(t)
	limited := discordtest.Fault{Status: http.StatusTooManyRequests, RetryAfter: time.Millisecond}
	s.Fail(discordtest.AtPost, limited, discordtest.Fault{Status: 502}, limited)
	for range 3 {
		_, err := s.adapter.Post(t.Context(), wren.Channel, duty(), "monday")
		require.Error(t, err)
	}
	s.Met(discordtest.AtPost)
	_, err := s.adapter.Post(t.Context(), wren.Channel, duty(), "monday")
	require.NoError(t, err)
}
