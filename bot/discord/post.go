package discord

import (
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"net/http"

	"github.com/bwmarrin/discordgo"

	"heapside/commands"
	"heapside/reminders"
)

const (
	maxNonce  = 25      // discord-api-spec 74fda0f, MessageCreateRequest
	maxAnswer = 1 << 20 // own choice: the platform's answers hold the message and little else
)

// posting is a message that nobody asked for. The platform makes no second one
// of the same nonce within "the past few minutes" but answers with the first
// (discord-api-docs c98d64bc, resources/message.mdx).
type posting struct {
	*body
	Nonce        string `json:"nonce"`
	EnforceNonce bool   `json:"enforce_nonce"`
}

// Post says a reply in a channel and returns the id of the message. It mentions
// and notifies the person in Reply.To, if the platform knows the id, and nobody
// else. The nonce has 1 to 25 characters.
//
// It makes one request and waits for nothing but the answer. When the platform
// certainly took nothing the error is a *reminders.Refused; after any other
// error the message may be there, and posting again with the same nonce within
// minutes does not make a second. Posting needs no open gateway.
func (a *Adapter) Post(ctx context.Context, channel string, r commands.Reply, nonce string) (message string, err error) {
	m := Render(a.slashed(r))
	switch {
	case !snowflake(channel):
		return "", notOurs(reminders.ChannelGone, "channel", channel)
	case m.Private:
		return "", &reminders.Refused{Why: reminders.Malformed, Err: errors.New("discord: what is private cannot be posted for all")}
	case nonce == "" || units(nonce) > maxNonce:
		return "", &reminders.Refused{Why: reminders.Malformed, Err: fmt.Errorf("discord: the nonce %q has not 1 to %d characters", nonce, maxNonce)}
	}
	b := newBody(m)
	said, err := a.request(ctx, http.MethodPost, discordgo.EndpointChannelMessages(channel), posting{b, nonce, true}, b.files)
	if err != nil {
		return "", err
	}
	var posted struct {
		ID string `json:"id"`
	}
	if err := json.Unmarshal(said, &posted); err != nil {
		return "", fmt.Errorf("discord: reading what was posted: %w", err)
	}
	if !snowflake(posted.ID) {
		return "", fmt.Errorf("discord: what was posted has the id %q", posted.ID)
	}
	return posted.ID, nil
}

// Edit puts a reply in the place of a message that Post made; what stood there
// goes, files and buttons too. It notifies nobody and may be repeated. Errors
// are as those of Post, with MessageGone besides.
func (a *Adapter) Edit(ctx context.Context, channel, message string, r commands.Reply) error {
	switch {
	case !snowflake(channel):
		return notOurs(reminders.ChannelGone, "channel", channel)
	case !snowflake(message):
		return notOurs(reminders.MessageGone, "message", message)
	}
	b := replacement(Render(a.slashed(r)))
	_, err := a.request(ctx, http.MethodPatch, discordgo.EndpointChannelMessage(channel, message), b, b.files)
	return err
}

// notOurs is the refusal of an id that the platform cannot have given, as those
// of a local chat are: nothing is sent to an address made of it.
func notOurs(why reminders.Refusal, what, id string) error {
	return &reminders.Refused{Why: why, Err: fmt.Errorf("discord: %q is no id of a %s", id, what)}
}

// request makes a request once and reads the answer. It goes by the client
// library and its retries: whether a post is sent again is for the sender to
// decide, who keeps the nonce and the time.
func (a *Adapter) request(ctx context.Context, method, url string, payload any, files []*discordgo.File) ([]byte, error) {
	contentType, data, err := encode(payload, files)
	if err != nil {
		return nil, err
	}
	req, err := http.NewRequestWithContext(ctx, method, url, bytes.NewReader(data))
	if err != nil {
		return nil, err
	}
	req.Header.Set("Authorization", a.rest.Token)
	req.Header.Set("Content-Type", contentType)
	req.Header.Set("User-Agent", a.rest.UserAgent)
	resp, err := a.once.Do(req)
	if err != nil {
		return nil, err
	}
	defer resp.Body.Close()
	said, err := io.ReadAll(io.LimitReader(resp.Body, maxAnswer))
	if resp.StatusCode == http.StatusOK {
		return said, err
	}
	return nil, outcome(resp.StatusCode, resp.Header, said)
}
