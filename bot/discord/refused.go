package discord

import (
	"bytes"
	"encoding/json"
	"fmt"
	"net/http"

	"github.com/bwmarrin/discordgo"

	"heapside/reminders"
)

// codeBlocked is the code of a message that a rule of the server's own stopped
// (from memory; the client library has no name for it).
const codeBlocked = 200000

// refusals is what the platform's own codes mean to a sender. Source:
// discord-api-docs c98d64bc, topics/opcodes-and-status-codes.mdx and
// topics/threads.mdx.
var refusals = map[int]reminders.Refusal{
	discordgo.ErrCodeUnknownChannel: reminders.ChannelGone,
	discordgo.ErrCodeUnknownGuild:   reminders.GuildGone,
	discordgo.ErrCodeUnknownMessage: reminders.MessageGone,

	discordgo.ErrCodeMissingAccess:                        reminders.NoAccess,
	discordgo.ErrCodeMissingPermissions:                   reminders.NoAccess,
	discordgo.ErrCodeCannotSendMessagesInVoiceChannel:     reminders.NoAccess,
	discordgo.ErrCodeCannotExecuteActionOnThisChannelType: reminders.NoAccess,
	discordgo.ErrCodePerformedOperationOnArchivedThread:   reminders.NoAccess,
	discordgo.ErrCodeThreadIsLocked:                       reminders.NoAccess,
	codeBlocked:                                           reminders.NoAccess,
	discordgo.ErrCodeCannotEditFromAnotherUser:            reminders.MessageGone,

	discordgo.ErrCodeThisActionCannotBePerformedDueToSlowmodeRateLimit:                reminders.Busy,
	discordgo.ErrCodeMessageCannotBeEditedDueToAnnouncementRateLimits:                 reminders.Busy,
	discordgo.ErrCodeChannelHasHitWriteRateLimit:                                      reminders.Busy,
	discordgo.ErrCodeTheWriteActionYouArePerformingOnTheServerHasHitTheWriteRateLimit: reminders.Busy,
	discordgo.ErrCodeMaximumNumberOfEditsToMessagesOlderThanOneHourReached:            reminders.Busy,
	discordgo.ErrCodeSendMessagesHasBeenTemporarilyDisabled:                           reminders.Busy,
	discordgo.ErrCodeFeatureTemporarilyDisabledServerSide:                             reminders.Busy,
	discordgo.ErrCodeAPIResourceIsCurrentlyOverloaded:                                 reminders.Busy,

	discordgo.ErrCodeInvalidFormBody: reminders.Malformed,
}

// byStatus is what a status means whose code is none of those above.
var byStatus = map[int]reminders.Refusal{
	http.StatusBadRequest:            reminders.Malformed,
	http.StatusForbidden:             reminders.NoAccess,
	http.StatusRequestEntityTooLarge: reminders.Malformed,
}

// outcome is the error of an answer other than 200: a refusal when the platform
// certainly did nothing, anything else when that is unknown.
func outcome(status int, header http.Header, said []byte) error {
	const longest = 1000
	answer := fmt.Errorf("discord: HTTP %d, %s", status, cut(string(bytes.TrimSpace(said)), longest))
	switch {
	case status == http.StatusTooManyRequests:
		return &reminders.Refused{Why: reminders.RateLimited, After: retryAfter(header), Err: answer}
	case status == http.StatusUnauthorized:
		return &reminders.Refused{Why: reminders.TokenRefused, Err: answer}
	case status < 400 || status >= 500:
		return answer
	}
	var body struct {
		Code int `json:"code"`
	}
	_ = json.Unmarshal(said, &body) // what is no JSON has no code
	why, known := refusals[body.Code]
	if !known {
		why, known = byStatus[status]
	}
	if !known {
		return answer
	}
	return &reminders.Refused{Why: why, Err: answer}
}
