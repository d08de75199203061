package discord

import (
	"bytes"
	"context"
	"time"

	"github.com/bwmarrin/discordgo"
)

// body is a message on the wire. It is built in one place, so that no message
// can leave without switching every mention off but the one meant: the
// platform's defaults notify whoever's id or name stands in the text.
type body struct {
	Content         string                    `json:"content"`
	Embeds          []*discordgo.MessageEmbed `json:"embeds"`
	Components      []discordgo.ActionsRow    `json:"components"`
	AllowedMentions mentions                  `json:"allowed_mentions"`
	Attachments     []attachment              `json:"attachments,omitzero"`
	Flags           discordgo.MessageFlags    `json:"flags,omitempty"`

	files []*discordgo.File
}

type mentions struct {
	Parse []string `json:"parse"`
	Users []string `json:"users,omitempty"`
}

// attachment describes an uploaded file; its id is the file's number.
type attachment struct {
	ID          int    `json:"id,string"`
	Filename    string `json:"filename"`
	Description string `json:"description,omitempty"`
}

func newBody(m Message) *body {
	b := &body{
		Content: m.Content, Embeds: m.Embeds, Components: m.Rows,
		AllowedMentions: mentions{Parse: []string{}},
	}
	if b.Embeds == nil {
		b.Embeds = []*discordgo.MessageEmbed{}
	}
	if b.Components == nil {
		b.Components = []discordgo.ActionsRow{}
	}
	if m.Notify != "" {
		b.AllowedMentions.Users = []string{m.Notify}
	}
	for i, f := range m.Files {
		b.Attachments = append(b.Attachments, attachment{ID: i, Filename: f.Name, Description: f.Alt})
		b.files = append(b.files, &discordgo.File{
			Name: f.Name, ContentType: f.ContentType, Reader: bytes.NewReader(f.Data),
		})
	}
	return b
}

// replacement is a message in the place of another: it notifies nobody, for
// that one did, and none of the other's files stay.
func replacement(m Message) *body {
	m.Notify = ""
	b := newBody(m)
	if b.Attachments == nil {
		b.Attachments = []attachment{}
	}
	return b
}

// callback is the first answer to an interaction.
type callback struct {
	Type discordgo.InteractionResponseType `json:"type"`
	Data any                               `json:"data,omitempty"`
}

type suggestions struct {
	Choices []suggestion `json:"choices"`
}

type suggestion struct {
	Name  string `json:"name"`
	Value string `json:"value"`
}

// Times to send in. The first answer must arrive 3 s after the interaction
// began; its token lives 15 minutes (discord-api-docs c98d64bc,
// interactions/receiving-and-responding.mdx).
const (
	firstAnswerIn = discordgo.InteractionDeadline
	laterAnswerIn = 30 * time.Second
)

// respond sends the first answer.
func (x *exchange) respond(m Message) error {
	b := newBody(m)
	if m.Private {
		b.Flags = discordgo.MessageFlagsEphemeral
	}
	return x.call(callback{Type: discordgo.InteractionResponseChannelMessageWithSource, Data: b}, b.files)
}

// replace puts a message in the place of the one whose button was pressed.
func (x *exchange) replace(m Message) error {
	b := replacement(m)
	return x.call(callback{Type: discordgo.InteractionResponseUpdateMessage, Data: b}, b.files)
}

// postpone tells the platform that the answer comes later, for all to see.
func (x *exchange) postpone() error {
	return x.call(callback{Type: discordgo.InteractionResponseDeferredChannelMessageWithSource}, nil)
}

// suggest answers a completion.
func (x *exchange) suggest(choices []suggestion) error {
	return x.call(callback{
		Type: discordgo.InteractionApplicationCommandAutocompleteResult,
		Data: suggestions{Choices: choices},
	}, nil)
}

func (x *exchange) call(c callback, files []*discordgo.File) error {
	ctx, cancel := context.WithDeadline(context.Background(), x.received.Add(firstAnswerIn))
	defer cancel()
	err := x.send(ctx, "POST", discordgo.EndpointInteractionResponse(x.ID, x.Token), c, files)
	if delivered(err) {
		return nil
	}
	return err
}

// edit puts a message in the place of the postponed answer.
func (x *exchange) edit(m Message) error {
	ctx, cancel := context.WithTimeout(context.Background(), laterAnswerIn)
	defer cancel()
	b := newBody(m)
	return x.send(ctx, "PATCH", discordgo.EndpointInteractionResponseActions(x.AppID, x.Token), b, b.files)
}

// replaceLate puts a message in the place of the one whose button was pressed,
// after the answer was postponed.
func (x *exchange) replaceLate(m Message) error {
	ctx, cancel := context.WithTimeout(context.Background(), laterAnswerIn)
	defer cancel()
	b := replacement(m)
	return x.send(ctx, "PATCH", discordgo.EndpointChannelMessage(x.ChannelID, x.Message.ID), b, b.files)
}

// withdraw takes the postponed answer back, so that nothing stays of it.
func (x *exchange) withdraw() error {
	ctx, cancel := context.WithTimeout(context.Background(), laterAnswerIn)
	defer cancel()
	return x.send(ctx, "DELETE", discordgo.EndpointInteractionResponseActions(x.AppID, x.Token), nil, nil)
}

// follow sends a second message that only the caller sees.
func (x *exchange) follow(m Message) error {
	ctx, cancel := context.WithTimeout(context.Background(), laterAnswerIn)
	defer cancel()
	b := newBody(m)
	b.Flags = discordgo.MessageFlagsEphemeral
	return x.send(ctx, "POST", discordgo.EndpointFollowupMessage(x.AppID, x.Token), b, b.files)
}

// send makes one request. It gets a rate limiter of its own: addresses of
// interactions are used once, the library's shared limiter would keep each for
// ever, and one slow edit would hold up all others.
func (x *exchange) send(ctx context.Context, method, url string, payload any, files []*discordgo.File) error {
	contentType, data, err := encode(payload, files)
	if err != nil {
		return err
	}
	bucket := discordgo.NewRatelimiter().LockBucket(url)
	_, err = x.rest.RequestWithLockedBucket(method, url, contentType, data, bucket, 0, discordgo.WithContext(ctx))
	return err
}

// encode is what a request carries: JSON alone, or in parts with files, or
// nothing.
func encode(payload any, files []*discordgo.File) (contentType string, data []byte, err error) {
	if payload == nil {
		return "", nil, nil
	}
	if len(files) > 0 {
		return discordgo.MultipartBodyWithJSON(payload, files)
	}
	data, err = discordgo.Marshal(payload)
	return "application/json", data, err
}
