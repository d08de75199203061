package discord_test

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"heapside/bot/discord/discordtest"
	"heapside/reminders"
)

// TestRefusals: codes are those of discord-api-docs c98d64bc,
// topics/opcodes-and-status-codes.mdx. Each is met once, by a post and by an edit.
func TestRefusals(t *testing.T) {
	t.Parallel()
	s := poster(t)
	id, err := s.adapter.Post(t.Context(), wren.Channel, duty(), "standing")
	require.NoError(t, err)
	for _, tc := range []struct {
		name  string
		fault discordtest.Fault
		why   reminders.Refusal
	}{
		{"limited", discordtest.Fault{Status: 429, RetryAfter: 90 * time.Second}, reminders.RateLimited},
		{"unknown channel", discordtest.Fault{Status: 404, Code: 10003}, reminders.ChannelGone},
		{"unknown server", discordtest.Fault{Status: 404, Code: 10004}, reminders.GuildGone},
		{"unknown message", discordtest.Fault{Status: 404, Code: 10008}, reminders.MessageGone},
		{"message of somebody else", discordtest.Fault{Status: 403, Code: 50005}, reminders.MessageGone},
		{"missing access", discordtest.Fault{Status: 403, Code: 50001}, reminders.NoAccess},
		{"missing permissions", discordtest.Fault{Status: 403, Code: 50013}, reminders.NoAccess},
		{"channel without text", discordtest.Fault{Status: 400, Code: 50008}, reminders.NoAccess},
		{"wrong kind of channel", discordtest.Fault{Status: 400, Code: 50024}, reminders.NoAccess},
		{"archived thread", discordtest.Fault{Status: 400, Code: 50083}, reminders.NoAccess},
		{"locked thread", discordtest.Fault{Status: 403, Code: 160005}, reminders.NoAccess},
		{"blocked by the server's own rule", discordtest.Fault{Status: 400, Code: 200000}, reminders.NoAccess},
		{"forbidden for another reason", discordtest.Fault{Status: 403}, reminders.NoAccess},
		{"token refused", discordtest.Fault{Status: 401}, reminders.TokenRefused},
		{"bad form", discordtest.Fault{Status: 400, Code: 50035}, reminders.Malformed},
		{"bad for another reason", discordtest.Fault{Status: 400, Code: 50109}, reminders.Malformed},
		{"too large", discordtest.Fault{Status: 413, Code: 40005}, reminders.Malformed},
		{"slow mode", discordtest.Fault{Status: 400, Code: 20016}, reminders.Busy},
		{"announcements", discordtest.Fault{Status: 400, Code: 20022}, reminders.Busy},
		{"write limit of the channel", discordtest.Fault{Status: 400, Code: 20028}, reminders.Busy},
		{"write limit of the server", discordtest.Fault{Status: 400, Code: 20029}, reminders.Busy},
		{"edits of old messages", discordtest.Fault{Status: 400, Code: 30046}, reminders.Busy},
		{"sending switched off", discordtest.Fault{Status: 400, Code: 40004}, reminders.Busy},
		{"feature switched off", discordtest.Fault{Status: 400, Code: 40006}, reminders.Busy},
		{"overloaded", discordtest.Fault{Status: 400, Code: 130000}, reminders.Busy},
	} {
		t.Run(tc.name, func(t *testing.T) {
			check := func(err error) {
				t.Helper()
				var refused *reminders.Refused
				require.ErrorAs(t, err, &refused)
				assert.Equal(t, tc.why, refused.Why)
				assert.Equal(t, tc.fault.RetryAfter, refused.After)
				assert.NotContains(t, err.Error(), discordtest.Token)
			}
			s.Fail(discordtest.AtPost, tc.fault)
			_, err := s.adapter.Post(t.Context(), wren.Channel, duty(), tc.name[:4])
			check(err)
			s.Fail(discordtest.AtEditMessage, tc.fault)
			check(s.adapter.Edit(t.Context(), wren.Channel, id, duty()))
			s.Met(discordtest.AtPost)
			s.Met(discordtest.AtEditMessage)
		})
	}
	assert.Len(t, s.Posts(wren.Channel), 1, "nothing was posted")
	_, err = s.adapter.Post(t.Context(), wren.Channel, duty(), "at last")
	require.NoError(t, err)
}

// why is the refusal an error holds, 0 for no error.
func why(t *testing.T, err error) reminders.Refusal {
	t.Helper()
	if err == nil {
		return 0
	}
	var refused *reminders.Refused
	require.ErrorAs(t, err, &refused)
	return refused.Why
}
