package discordtest

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"slices"
	"strconv"
	"strings"
	"unicode/utf16"
)

const (
	flagSuppressEmbeds = 1 << 2
	flagEphemeral      = 1 << 6
	flagComponentsV2   = 1 << 15

	typeMenu = 3
)

// Limits that the published description leaves out. Source:
// discord-api-docs c98d64bc, resources/message.mdx.
const (
	maxContent    = 2000
	maxEmbedTotal = 6000
	maxLegacyRows = 5
)

// messageProperties are what a message may hold; the description lets
// anything pass.
var messageProperties = []string{
	"content", "embeds", "components", "allowed_mentions", "attachments", "flags", "tts", "poll",
}

// sent is the part of a message that the rules look at.
type sent struct {
	Content         string            `json:"content"`
	Embeds          []json.RawMessage `json:"embeds"`
	AllowedMentions *struct {
		Parse *[]string `json:"parse"`
		Users []string  `json:"users"`
		Roles []string  `json:"roles"`
	} `json:"allowed_mentions"`
	Components []struct {
		Type       int        `json:"type"`
		Components []tappable `json:"components"`
	} `json:"components"`
	Attachments []struct {
		ID       json.RawMessage `json:"id"`
		Filename string          `json:"filename"`
	} `json:"attachments"`
	Flags int `json:"flags"`
}

// checkMessage holds the rules of messages that the description leaves out.
// Besides the usual properties it may have those named.
func checkMessage(body payload, besides ...string) error {
	var all map[string]json.RawMessage
	var m sent
	if err := errors.Join(json.Unmarshal(body.json, &all), json.Unmarshal(body.json, &m)); err != nil {
		return err
	}
	var errs []error
	for key := range all {
		if !slices.Contains(messageProperties, key) && !slices.Contains(besides, key) {
			errs = append(errs, fmt.Errorf("a message has no property %q", key))
		}
	}
	if m.Flags&^(flagEphemeral|flagSuppressEmbeds|flagComponentsV2) != 0 {
		errs = append(errs, fmt.Errorf("flags %d are not for us to set", m.Flags))
	}
	v2 := m.Flags&flagComponentsV2 != 0
	if v2 && (m.Content != "" || len(m.Embeds) > 0) {
		errs = append(errs, errors.New("a message of components has neither content nor embeds"))
	}
	if !v2 && len(m.Components) > maxLegacyRows {
		errs = append(errs, fmt.Errorf("%d rows, at most %d", len(m.Components), maxLegacyRows))
	}
	if m.Content == "" && len(m.Embeds)+len(m.Components)+len(body.files) == 0 {
		errs = append(errs, errors.New("an empty message"))
	}
	return errors.Join(append(errs, checkMentions(m), checkLengths(m), checkButtons(m), checkFiles(m, body.files))...)
}

// checkMentions: nobody is notified but one person, who is mentioned and sees it.
func checkMentions(m sent) error {
	a := m.AllowedMentions
	if a == nil || a.Parse == nil || len(*a.Parse)+len(a.Roles) > 0 || len(a.Users) > 1 {
		return errors.New("allowed_mentions must be there and allow nothing but one person")
	}
	for _, id := range a.Users {
		if !strings.Contains(m.Content, "<@"+id+">") || m.Flags&flagEphemeral != 0 {
			return fmt.Errorf("allowed_mentions names %s, whom the message does not mention or who cannot see it", id)
		}
	}
	return nil
}

func checkLengths(m sent) error {
	total := 0
	for _, raw := range m.Embeds {
		var e Embed
		if err := json.Unmarshal(raw, &e); err != nil {
			return err
		}
		total += length(e.Title) + length(e.Description)
		for _, f := range e.Fields {
			if f.Name == "" || f.Value == "" {
				return errors.New("an embed field is empty")
			}
			total += length(f.Name) + length(f.Value)
		}
	}
	if total > maxEmbedTotal || length(m.Content) > maxContent {
		return fmt.Errorf("%d characters of content, %d in embeds: at most %d and %d",
			length(m.Content), total, maxContent, maxEmbedTotal)
	}
	return nil
}

// tappable is a button (type 2) or a menu (type 3).
type tappable struct {
	Type        int    `json:"type"`
	CustomID    string `json:"custom_id"`
	Label       string `json:"label"`
	Placeholder string `json:"placeholder"`
	Options     []struct {
		Label string `json:"label"`
		Value string `json:"value"`
	} `json:"options"`
}

// check holds the rules of menus; 25 options of 100 characters are possible.
func (m tappable) check() error {
	if m.CustomID == "" || len(m.Options) == 0 || len(m.Options) > 25 || length(m.CustomID) > 100 || length(m.Placeholder) > 150 {
		return fmt.Errorf("the menu %q has no id, a text that is too long, or not 1 to 25 options", m.CustomID)
	}
	seen := map[string]bool{}
	for _, o := range m.Options {
		if o.Label == "" || o.Value == "" || seen[o.Value] || length(o.Label) > 100 || length(o.Value) > 100 {
			return fmt.Errorf("the option %q has no label, a text that is too long, or is there twice", o.Label)
		}
		seen[o.Value] = true
	}
	return nil
}

func checkButtons(m sent) error {
	seen := map[string]bool{}
	for _, row := range m.Components {
		for _, b := range row.Components {
			if b.Type == typeMenu {
				if len(row.Components) != 1 || seen[b.CustomID] {
					return fmt.Errorf("the menu %q does not have its row to itself, or its id is there twice", b.CustomID)
				}
				if err := b.check(); err != nil {
					return err
				}
				seen[b.CustomID] = true
				continue
			}
			if b.CustomID == "" || seen[b.CustomID] || b.Label == "" || length(b.CustomID) > 100 {
				return fmt.Errorf("the button %q has no label, or an id that is empty, too long or there twice", b.CustomID)
			}
			seen[b.CustomID] = true
		}
	}
	return nil
}

func checkFiles(m sent, files []File) error {
	if len(m.Attachments) != len(files) {
		return fmt.Errorf("%d files are described and %d sent", len(m.Attachments), len(files))
	}
	for i, a := range m.Attachments {
		if string(bytes.Trim(a.ID, `"`)) != strconv.Itoa(i) || a.Filename != files[i].Name {
			return fmt.Errorf("file %d is described as %s %q and sent as %q", i, a.ID, a.Filename, files[i].Name)
		}
	}
	return nil
}

// length counts UTF-16 units, the longest way to count.
func length(s string) int { return len(utf16.Encode([]rune(s))) }
