package discord_test

import (
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"heapside/bot/discord"
	"heapside/bot/discord/discordtest"
)

// TestEverySendPath: however a message leaves, its text is shown literally, and
// it notifies the one person it is meant for when it comes, nobody when it takes
// the place of another or only its caller sees it. The stand-in holds that
// nobody else can be notified.
func TestEverySendPath(t *testing.T) {
	t.Parallel()
	prompt := play(t, func(c *discord.Config) { c.DeferAfter = time.Minute })
	slow := play(t, func(c *discord.Config) { c.DeferAfter = time.Millisecond })
	standing := func(s *scene, nonce string) discordtest.Message {
		s.ready(t)
		s.AddChannel(wren.Guild, wren.Channel)
		id, err := s.adapter.Post(t.Context(), wren.Channel, rude(), nonce)
		require.NoError(t, err)
		m, _ := s.Message(id)
		return m
	}
	press := func(s *scene, how string) *discordtest.Exchange {
		x := s.PressID(wren, standing(s, how), "1:rude "+how)
		if strings.Contains(how, "late") {
			require.True(t, x.Thinking())
			s.garden.release <- struct{}{}
		}
		return x
	}
	for _, tc := range []struct {
		name     string
		send     func() discordtest.Message
		notifies bool
		edits    int
	}{
		{"posted", func() discordtest.Message { return standing(prompt, "posted") }, true, 0},
		{"edited", func() discordtest.Message {
			m := standing(prompt, "edited")
			require.NoError(t, prompt.adapter.Edit(t.Context(), wren.Channel, m.ID, rude()))
			m, _ = prompt.Message(m.ID)
			return m
		}, true, 1},
		{"answered", func() discordtest.Message { return press(prompt, "now").Answer() }, true, 0},
		{"answered privately", func() discordtest.Message { return press(prompt, "private").Answer() }, false, 0},
		{"answered late", func() discordtest.Message { return press(slow, "late").Answer() }, true, 0},
		{"answered late and privately", func() discordtest.Message { return press(slow, "late private").FollowUp() }, false, 0},
		{"replaced", func() discordtest.Message { return press(prompt, "replace").Answer() }, true, 1},
		{"replaced late", func() discordtest.Message {
			x := press(slow, "late replace")
			x.Withdrawn()
			posts := slow.Posts(wren.Channel)
			return posts[len(posts)-1]
		}, true, 1},
		{"kept from replacing, being private", func() discordtest.Message { return press(prompt, "replace private").Answer() }, false, 0},
	} {
		t.Run(tc.name, func(t *testing.T) {
			m := tc.send()
			assert.Equal(t, tc.edits, m.Edits)
			var want []string
			if tc.notifies {
				want = []string{odalys.ID} // an edited message: by the post that made it
			}
			assert.Equal(t, want, m.Notified)
			assert.Equal(t, !tc.notifies, m.Private)
			said, ok := strings.CutPrefix(m.Content, "<@"+odalys.ID+">: ")
			require.True(t, ok, m.Content)
			for _, line := range strings.Split(said+"\n"+strings.TrimPrefix(m.Text(), m.Content), "\n") {
				literal(t, strings.TrimSuffix(strings.TrimPrefix(line, "**"), "**"))
			}
			assert.Len(t, m.Buttons, 2)
			assert.Len(t, m.Files, 1)
		})
	}
}

// TestReplaceAfterRestart: the button of a message that an earlier process
// posted still works, and its message is replaced.
func TestReplaceAfterRestart(t *testing.T) {
	t.Parallel()
	s := play(t, nil)
	s.ready(t)
	s.AddChannel(wren.Guild, wren.Channel)
	id, err := s.adapter.Post(t.Context(), wren.Channel, rude(), "monday")
	require.NoError(t, err)
	posted, _ := s.Message(id)
	s = s.restart(t)
	s.ready(t)
	x := s.Press(odalys, posted, "Turned")
	require.True(t, x.Replaced())
	assert.Equal(t, id, x.Answer().ID)
	assert.Len(t, s.Posts(wren.Channel), 1)
	assert.Equal(t, odalys.ID, s.garden.lastCall().By.ID)
	again, err := s.adapter.Post(t.Context(), wren.Channel, rude(), "monday")
	require.NoError(t, err)
	assert.Equal(t, id, again, "the same nonce after a restart")
}

// TestReplaceWhatIsGone: the message above was deleted meanwhile, or may not be
// changed; what it would have become is said all the same.
func TestReplaceWhatIsGone(t *testing.T) {
	t.Parallel()
	for _, tc := range []struct {
		name, how string
		trouble   func(*scene, string)
	}{
		{"deleted", "replace", func(s *scene, id string) { s.DeleteMessage(id) }},
		{"deleted, late", "replace late", func(s *scene, id string) { s.DeleteMessage(id) }},
		{"not ours to change, late", "replace late", func(s *scene, _ string) { s.Forbid(wren.Channel, 50001) }},
		{"refused", "replace", func(s *scene, _ string) {
			s.Fail(discordtest.AtCallback, discordtest.Fault{Status: 400, Code: 50035})
		}},
	} {
		t.Run(tc.name, func(t *testing.T) {
			t.Parallel()
			late := strings.Contains(tc.how, "late")
			s := play(t, func(c *discord.Config) {
				if c.DeferAfter = time.Minute; late {
					c.DeferAfter = time.Millisecond
				}
			})
			s.ready(t)
			s.AddChannel(wren.Guild, wren.Channel)
			id, err := s.adapter.Post(t.Context(), wren.Channel, rude(), "monday")
			require.NoError(t, err)
			posted, _ := s.Message(id)
			tc.trouble(s, id)
			x := s.PressID(wren, posted, "1:rude "+tc.how)
			if late {
				require.True(t, x.Thinking())
				s.garden.release <- struct{}{}
			}
			got := x.Answer()
			assert.NotEqual(t, id, got.ID)
			assert.Equal(t, posted.Content, got.Content)
			assert.False(t, got.Private)
		})
	}
}

// TestReplaceLateRidesOutHiccups: a late replacement is tried again as other
// late answers are.
func TestReplaceLateRidesOutHiccups(t *testing.T) {
	t.Parallel()
	s := play(t, func(c *discord.Config) { c.DeferAfter = time.Millisecond })
	s.ready(t)
	s.AddChannel(wren.Guild, wren.Channel)
	id, err := s.adapter.Post(t.Context(), wren.Channel, rude(), "monday")
	require.NoError(t, err)
	posted, _ := s.Message(id)
	limited := discordtest.Fault{Status: 429, RetryAfter: time.Millisecond}
	s.Fail(discordtest.AtEditMessage, discordtest.Fault{Status: 502, Arrived: true}, limited)
	s.Fail(discordtest.AtWithdraw, limited, discordtest.Fault{Status: 503})
	x := s.PressID(wren, posted, "1:rude replace late")
	require.True(t, x.Thinking())
	s.garden.release <- struct{}{}
	require.True(t, x.Withdrawn())
	m, _ := s.Message(id)
	assert.Equal(t, 2, m.Edits, "the one that arrived unheard, and its repetition")
	assert.NotContains(t, s.log.String(), "replacing")
}

// TestReplyToACommandReplacesNothing: there is no message above it.
func TestReplyToACommandReplacesNothing(t *testing.T) {
	t.Parallel()
	s := play(t, nil)
	x := s.Command(wren, "log temp", map[string]string{"reading": "replace"})
	assert.False(t, x.Replaced())
	assert.Equal(t, "Wren logged replace C.", x.Answer().Content)
}
