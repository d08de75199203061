package discord

import (
	"errors"
	"net/http"

	"github.com/bwmarrin/discordgo"
	"github.com/gorilla/websocket"
)

// Gateway close codes. Source: discord-api-docs c98d64bc,
// topics/opcodes-and-status-codes.mdx.
const (
	closeAuthFailed     = 4004
	closeInvalidSeq     = 4007
	closeSessionExpired = 4009
	closeInvalidShard   = 4010 // this and up to 4014 say: do not connect again
	closeBadIntents     = 4014
)

// codeCommandsUsedUp is the code for more than 200 new commands in a day (same
// source); the client library has no name for it.
const codeCommandsUsedUp = 30034

// refused reports that the token is not accepted.
func refused(err error) bool {
	var rest *discordgo.RESTError
	if errors.As(err, &rest) && rest.Response != nil {
		return rest.Response.StatusCode == http.StatusUnauthorized
	}
	return websocket.IsCloseError(err, closeAuthFailed)
}

// hopeless reports a close code after which one must not connect again.
func hopeless(err error) bool {
	var closed *websocket.CloseError
	return errors.As(err, &closed) && closed.Code >= closeInvalidShard && closed.Code <= closeBadIntents
}

// clientError reports an answer that says the request was wrong.
func clientError(err error) bool {
	var rest *discordgo.RESTError
	return errors.As(err, &rest) && rest.Response != nil &&
		rest.Response.StatusCode >= 400 && rest.Response.StatusCode < 500
}

// delivered reports success, or that an earlier try of the same answer had
// arrived although the platform failed to say so.
func delivered(err error) bool {
	var rest *discordgo.RESTError
	if errors.As(err, &rest) && rest.Message != nil {
		return rest.Message.Code == discordgo.ErrCodeInteractionHasAlreadyBeenAcknowledged
	}
	return err == nil
}

// gone reports that the interaction is no longer known: it took too long.
func gone(err error) bool {
	var rest *discordgo.RESTError
	if !errors.As(err, &rest) || rest.Message == nil {
		return false
	}
	switch rest.Message.Code {
	case discordgo.ErrCodeUnknownInteraction, discordgo.ErrCodeUnknownWebhook, discordgo.ErrCodeInvalidWebhookTokenProvided:
		return true
	}
	return false
}

// tooManyCommands reports that the day's registrations are used up. Ending for
// that would have a supervisor start us over and over, and each start counts
// against the day's identifies.
func tooManyCommands(err error) bool {
	var rest *discordgo.RESTError
	return errors.As(err, &rest) && rest.Message != nil && rest.Message.Code == codeCommandsUsedUp
}
