package discordtest

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"slices"
	"strconv"
	"sync"
	"unicode/utf16"

	"github.com/santhosh-tekuri/jsonschema/v6"

	description "heapside/testdata/discord"
)

const (
	flagSuppressEmbeds = 1 << 2
	flagEphemeral      = 1 << 6
	flagComponentsV2   = 1 << 15
)

// Limits that the published description leaves out. Source:
// discord-api-docs c98d64bc, resources/message.mdx.
const (
	maxContent    = 2000
	maxEmbedTotal = 6000
	maxLegacyRows = 5
)

const (
	schemaCommand  = "ApplicationCommandUpdateRequest"
	schemaSuggest  = "ApplicationCommandAutocompleteCallbackRequest"
	schemaCreate   = "CreateMessageInteractionCallbackRequest"
	schemaEdit     = "IncomingWebhookUpdateRequestPartial"
	schemaFollowUp = "IncomingWebhookRequestPartial"
)

// schemas compiles the description once for all tests of a process.
var schemas = sync.OnceValues(func() (map[string]*jsonschema.Schema, error) {
	doc, err := jsonschema.UnmarshalJSON(bytes.NewReader(description.OpenAPI))
	if err != nil {
		return nil, err
	}
	compiler := jsonschema.NewCompiler()
	if err := compiler.AddResource("openapi.json", doc); err != nil {
		return nil, err
	}
	out := map[string]*jsonschema.Schema{}
	for _, name := range []string{schemaCommand, schemaSuggest, schemaCreate, schemaEdit, schemaFollowUp} {
		if out[name], err = compiler.Compile("openapi.json#/components/schemas/" + name); err != nil {
			return nil, fmt.Errorf("schema %s: %w", name, err)
		}
	}
	return out, nil
})

// conforms checks JSON against a schema of the description.
func conforms(name string, data []byte) error {
	all, err := schemas()
	if err != nil {
		return err
	}
	value, err := jsonschema.UnmarshalJSON(bytes.NewReader(data))
	if err != nil {
		return fmt.Errorf("not JSON: %w", err)
	}
	return all[name].Validate(value)
}

// checkCallback checks a first answer.
func checkCallback(body payload) error {
	var c struct {
		Type int             `json:"type"`
		Data json.RawMessage `json:"data"`
	}
	if err := json.Unmarshal(body.json, &c); err != nil {
		return err
	}
	switch c.Type {
	case kindMessage:
		return errors.Join(conforms(schemaCreate, body.json), checkMessage(payload{c.Data, body.files}))
	case kindDeferred:
		return errors.Join(conforms(schemaCreate, body.json), checkDeferral(c.Data))
	case kindSuggest:
		return errors.Join(conforms(schemaSuggest, body.json), checkSuggestions(c.Data))
	}
	return fmt.Errorf("an answer of type %d is not expected", c.Type)
}

func checkEdit(body payload) error {
	return errors.Join(conforms(schemaEdit, body.json), checkMessage(body))
}

func checkFollowUp(body payload) error {
	return errors.Join(conforms(schemaFollowUp, body.json), checkMessage(body))
}

// checkDeferral: the only thing a deferral can say is that the answer is private.
func checkDeferral(data json.RawMessage) error {
	if len(data) == 0 || string(data) == "null" {
		return nil
	}
	var d map[string]json.RawMessage
	if err := json.Unmarshal(data, &d); err != nil {
		return err
	}
	for key, value := range d {
		if key != "flags" || string(value) != strconv.Itoa(flagEphemeral) {
			return fmt.Errorf("a deferral carries %s: %s, it may carry flags: %d only", key, value, flagEphemeral)
		}
	}
	return nil
}

func checkSuggestions(data json.RawMessage) error {
	var d struct {
		Choices []Choice `json:"choices"`
	}
	if err := json.Unmarshal(data, &d); err != nil {
		return err
	}
	if d.Choices == nil {
		return errors.New("suggestions without choices")
	}
	names := map[string]bool{}
	for _, c := range d.Choices {
		if length(c.Value) > 100 || names[c.Name] {
			return fmt.Errorf("the suggestion %q is too long or comes twice", c.Name)
		}
		names[c.Name] = true
	}
	return nil
}

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
		Type       int `json:"type"`
		Components []struct {
			CustomID string `json:"custom_id"`
			Label    string `json:"label"`
		} `json:"components"`
	} `json:"components"`
	Attachments []struct {
		ID       json.RawMessage `json:"id"`
		Filename string          `json:"filename"`
	} `json:"attachments"`
	Flags int `json:"flags"`
}

// checkMessage holds the rules of messages that the description leaves out.
func checkMessage(body payload) error {
	var all map[string]json.RawMessage
	var m sent
	if err := errors.Join(json.Unmarshal(body.json, &all), json.Unmarshal(body.json, &m)); err != nil {
		return err
	}
	var errs []error
	for key := range all {
		if !slices.Contains(messageProperties, key) {
			errs = append(errs, fmt.Errorf("a message has no property %q", key))
		}
	}
	if a := m.AllowedMentions; a == nil || a.Parse == nil || len(*a.Parse)+len(a.Users)+len(a.Roles) > 0 {
		errs = append(errs, errors.New("allowed_mentions must be there and allow nothing"))
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
	return errors.Join(append(errs, checkLengths(m), checkButtons(m), checkFiles(m, body.files))...)
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

func checkButtons(m sent) error {
	seen := map[string]bool{}
	for _, row := range m.Components {
		for _, b := range row.Components {
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
