package discord_test

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"heapside/bot/discord"
	"heapside/bot/discord/discordtest"
	"heapside/calc/heap"
)

func TestRegisters(t *testing.T) {
	for _, tc := range []struct{ name, guild string }{{"everywhere", ""}, {"in one guild", wren.Guild}} {
		t.Run(tc.name, func(t *testing.T) {
			t.Parallel()
			s := play(t, func(c *discord.Config) { c.Guild = tc.guild })
			cmds, scope := s.Registered()
			s.ready(t)
			assert.Equal(t, tc.guild, scope)
			require.Len(t, cmds, 3)
			assert.Equal(t, "temp", cmds[1].Options[0].Name)
			assert.True(t, cmds[0].Options[1].Autocomplete, "heaps complete")
			assert.Len(t, cmds[1].Options[1].Options[0].Choices, 2, "a short pick is fixed choices")
			assert.Zero(t, s.Counts().Intents)
		})
	}
}

func TestConversation(t *testing.T) {
	t.Parallel()
	s := play(t, nil)

	mix := s.Command(wren, "mix", map[string]string{"what": "2 buckets of grass", "heap": "North Bay"}).Answer()
	assert.False(t, mix.Private)
	assert.Equal(t, "Add about 3 buckets of dry leaves.", mix.Content)
	require.Len(t, mix.Embeds, 1)
	assert.Equal(t, "Before and after\nC:N 17 -> 29\nmoisture 70 % -> 58 %", discordtest.Message{Content: mix.Embeds[0].Description}.Shown())
	assert.Equal(t, []discordtest.Field{{Name: "Take care", Value: "Wear gloves."}, {Name: "Rests on", Value: "the table of feedstocks"}}, mix.Embeds[0].Fields)

	call := s.garden.lastCall()
	assert.Equal(t, heap.Place{Guild: wren.Guild, Channel: wren.Channel}, call.Place)
	assert.Equal(t, heap.Person{ID: wren.ID, Name: "Wren"}, call.By)
	assert.Equal(t, map[string]string{"what": "2 buckets of grass", "heap": "North Bay"}, call.Args)
	assert.Equal(t, now, call.Now)
	assert.True(t, call.Organiser)

	elsewhere := odalys
	elsewhere.Channel = "610000000000000002"
	pressed := s.Press(elsewhere, mix, "Log it").Answer()
	assert.Equal(t, "Odalys pressed: /log temp 58", pressed.Content)
	call = s.garden.lastCall()
	assert.Equal(t, elsewhere.Channel, call.Place.Channel, "place and rights are those of the click")
	assert.False(t, call.Organiser)

	assert.Equal(t, []discordtest.Choice{{Name: "North Bay", Value: "North Bay"}},
		s.Complete(wren, "log temp", map[string]string{"reading": "58"}, "heap", "nor"))

	history := s.Command(odalys, "history", nil).Answer()
	assert.Equal(t, `Two entries by \@everyone and \*Wren\* \[here\]\(https\://example.invalid\)`, history.Content)
	assert.Equal(t, []discordtest.File{{Name: "history.csv", ContentType: "text/csv", Alt: "the record", Data: []byte("when,who\n")}}, history.Files)
}

func TestOrganiserRights(t *testing.T) {
	t.Parallel()
	s := play(t, nil)
	for _, tc := range []struct {
		name   string
		rights int64
		want   bool
	}{
		{"administrator", discordtest.Administrator, true},
		{"manages channels", discordtest.ManageChannels, true},
		{"manages the server", discordtest.ManageServer, true},
		{"may kick", 1 << 1, false},
		{"none", 0, false},
	} {
		t.Run(tc.name, func(t *testing.T) {
			who := odalys
			who.Rights = tc.rights
			s.Command(who, "log temp", map[string]string{"reading": "58"}).Answer()
			assert.Equal(t, tc.want, s.garden.lastCall().Organiser)
		})
	}
}

func TestPrivateAnswers(t *testing.T) {
	t.Parallel()
	s := play(t, nil)
	direct := wren
	direct.Guild = ""
	mix := s.Command(wren, "mix", map[string]string{"what": "grass"}).Answer()
	for _, tc := range []struct {
		name     string
		exchange *discordtest.Exchange
		says     string
	}{
		{"an error", s.Command(wren, "log temp", map[string]string{"reading": "580"}), "580"},
		{"a direct message", s.Command(direct, "mix", map[string]string{"what": "grass"}), "server"},
		{"a handler that panics", s.Command(wren, "log feel", map[string]string{"squeeze": "holds"}), "wrong on my side"},
		{"a button that panics", s.Press(wren, mix, "Explode"), "wrong on my side"},
		{"a button of another version", s.PressID(wren, mix, "0:heap finish"), "older message"},
		{"data of an unknown kind", s.Raw(wren, 5, map[string]any{"custom_id": "1:x", "components": []any{map[string]any{"type": 18}}}), "could not read"},
		{"no data", s.Raw(wren, 2, nil), "unknown"},
		{"options that are null", s.Raw(wren, 2, map[string]any{"name": "no such", "options": []any{nil}}), "unknown"},
	} {
		t.Run(tc.name, func(t *testing.T) {
			got := tc.exchange.Answer()
			assert.True(t, got.Private)
			assert.Contains(t, got.Shown(), tc.says)
		})
	}
	assert.Contains(t, s.log.String(), "a bug in a handler")
	assert.NotContains(t, s.log.String(), discordtest.Token)
}

func TestSuggestions(t *testing.T) {
	t.Parallel()
	s := play(t, nil)
	assert.Len(t, s.Complete(wren, "mix", nil, "heap", ""), 3)
	assert.Len(t, s.Complete(wren, "mix", nil, "what", "many"), 25, "no more than the platform takes")
	assert.Empty(t, s.Complete(wren, "mix", nil, "what", "panic"))
	direct := wren
	direct.Guild = ""
	assert.Empty(t, s.Complete(direct, "mix", nil, "heap", ""))
}

func TestSlowAnswers(t *testing.T) {
	t.Parallel()
	slow := func(c *discord.Config) { c.DeferAfter = time.Millisecond }

	t.Run("come later, for all", func(t *testing.T) {
		t.Parallel()
		s := play(t, slow)
		x := s.Command(wren, "log turn", nil)
		require.True(t, x.Thinking())
		close(s.garden.release)
		assert.Equal(t, "Turned.", x.Answer().Content)
		assert.False(t, x.Answer().Private)
	})
	t.Run("private ones follow the public part", func(t *testing.T) {
		t.Parallel()
		s := play(t, slow)
		x := s.Command(wren, "log turn", map[string]string{"note": "badly"})
		require.True(t, x.Thinking())
		close(s.garden.release)
		second := x.FollowUp()
		assert.True(t, second.Private)
		assert.Equal(t, "That cannot be turned.", second.Content)
		assert.NotContains(t, x.Answer().Content, "turned")
	})
	t.Run("are given up in the end", func(t *testing.T) {
		t.Parallel()
		s := play(t, func(c *discord.Config) { slow(c); c.AnswerIn = 20 * time.Millisecond })
		x := s.Command(wren, "log turn", nil)
		assert.Contains(t, x.FollowUp().Content, "took too long")
		close(s.garden.release)
	})
	t.Run("may finish while we stop", func(t *testing.T) {
		t.Parallel()
		s := play(t, slow)
		x := s.Command(wren, "log turn", nil)
		require.True(t, x.Thinking())
		s.stop()
		close(s.garden.release)
		assert.Equal(t, "Turned.", x.Answer().Content)
		require.NoError(t, s.end(t))
	})
}
