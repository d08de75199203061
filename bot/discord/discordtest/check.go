package discordtest

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"strconv"
	"sync"

	"github.com/santhosh-tekuri/jsonschema/v6"

	description "heapside/testdata/discord"
)

const (
	schemaCommand  = "ApplicationCommandUpdateRequest"
	schemaSuggest  = "ApplicationCommandAutocompleteCallbackRequest"
	schemaCreate   = "CreateMessageInteractionCallbackRequest"
	schemaEdit     = "IncomingWebhookUpdateRequestPartial"
	schemaFollowUp = "IncomingWebhookRequestPartial"
	schemaUpdate   = "UpdateMessageInteractionCallbackRequest"
	schemaPost     = "MessageCreateRequest"
	schemaChange   = "MessageEditRequestPartial"
	schemaForm     = "ModalInteractionCallbackRequest"

	schemaMe         = "UserPIIResponse"
	schemaApp        = "PrivateApplicationResponse"
	schemaMyGuild    = "MyGuildResponse"
	schemaRegistered = "ApplicationCommandResponse"
	schemaGuild      = "GuildWithCountsResponse"
	schemaMember     = "GuildMemberResponse"
	schemaChannel    = "GuildChannelResponse"
	schemaThread     = "ThreadResponse"
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
	for _, name := range []string{
		schemaCommand, schemaSuggest, schemaCreate, schemaEdit, schemaFollowUp, schemaUpdate, schemaPost, schemaChange, schemaForm,
		schemaMe, schemaApp, schemaMyGuild, schemaRegistered, schemaGuild, schemaMember, schemaChannel, schemaThread,
	} {
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
	case kindUpdate:
		return errors.Join(conforms(schemaUpdate, body.json), checkReplacement(payload{c.Data, body.files}))
	case kindForm:
		return errors.Join(conforms(schemaForm, body.json), checkForm(c.Data))
	}
	return fmt.Errorf("an answer of type %d is not expected", c.Type)
}

func checkEdit(body payload) error {
	return errors.Join(conforms(schemaEdit, body.json), checkMessage(body))
}

func checkFollowUp(body payload) error {
	return errors.Join(conforms(schemaFollowUp, body.json), checkMessage(body))
}

// checkPost checks a message that nobody asked for: it must not come twice.
func checkPost(body payload) error {
	var p struct {
		Nonce   string `json:"nonce"`
		Enforce bool   `json:"enforce_nonce"`
	}
	if err := json.Unmarshal(body.json, &p); err != nil {
		return err
	}
	err := errors.Join(conforms(schemaPost, body.json), checkMessage(body, "nonce", "enforce_nonce"))
	if p.Nonce == "" || !p.Enforce {
		return errors.Join(err, errors.New("nonce and enforce_nonce must be there"))
	}
	return err
}

func checkChange(body payload) error {
	return errors.Join(conforms(schemaChange, body.json), checkReplacement(body))
}

// checkReplacement checks a message that takes the place of another. What it
// leaves out would stay of that one, so it leaves nothing out; and it notifies
// nobody.
func checkReplacement(body payload) error {
	var all map[string]json.RawMessage
	var m sent
	if err := errors.Join(json.Unmarshal(body.json, &all), json.Unmarshal(body.json, &m)); err != nil {
		return err
	}
	err := checkMessage(body)
	for _, part := range []string{"content", "embeds", "components", "attachments"} {
		if value, has := all[part]; !has || string(value) == "null" {
			err = errors.Join(err, fmt.Errorf("%s of the message before would stay", part))
		}
	}
	if m.AllowedMentions != nil && len(m.AllowedMentions.Users) > 0 {
		err = errors.Join(err, errors.New("allowed_mentions of a replacement must allow nothing"))
	}
	return err
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
