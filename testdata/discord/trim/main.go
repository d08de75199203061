// Command trim cuts the published API description down to the schemas that
// the tests check messages against, and everything those refer to.
//
//	go run ./testdata/discord/trim < openapi-full.json > testdata/discord/openapi.json
package main

import (
	"encoding/json"
	"fmt"
	"io"
	"os"
	"strings"
)

// roots are the bodies the adapter sends, and the answers it reads when it looks
// at an account.
var roots = []string{
	"ApplicationCommandUpdateRequest",
	"ApplicationCommandAutocompleteCallbackRequest",
	"CreateMessageInteractionCallbackRequest",
	"UpdateMessageInteractionCallbackRequest",
	"IncomingWebhookUpdateRequestPartial",
	"IncomingWebhookRequestPartial",
	"ModalInteractionCallbackRequest",
	"MessageCreateRequest",
	"MessageEditRequestPartial",

	"UserPIIResponse",
	"PrivateApplicationResponse",
	"MyGuildResponse",
	"ApplicationCommandResponse",
	"GuildWithCountsResponse",
	"GuildMemberResponse",
	"GuildChannelResponse",
	"ThreadResponse",
}

const refPrefix = "#/components/schemas/"

func main() {
	if err := trim(os.Stdin, os.Stdout); err != nil {
		fmt.Fprintln(os.Stderr, "trim:", err)
		os.Exit(1)
	}
}

func trim(r io.Reader, w io.Writer) error {
	var full struct {
		OpenAPI    string `json:"openapi"`
		Info       any    `json:"info"`
		Components struct {
			Schemas map[string]any `json:"schemas"`
		} `json:"components"`
	}
	dec := json.NewDecoder(r)
	dec.UseNumber() // bit sets do not fit a float64
	if err := dec.Decode(&full); err != nil {
		return fmt.Errorf("reading the description: %w", err)
	}
	kept := map[string]any{}
	for _, name := range roots {
		if err := keep(name, full.Components.Schemas, kept); err != nil {
			return err
		}
	}
	for _, schema := range kept {
		allowTextPermissions(schema)
	}
	enc := json.NewEncoder(w)
	enc.SetEscapeHTML(false)
	enc.SetIndent("", " ")
	return enc.Encode(map[string]any{
		"openapi":    full.OpenAPI,
		"info":       full.Info,
		"components": map[string]any{"schemas": kept},
	})
}

// keep copies a schema and all it refers to.
func keep(name string, all, kept map[string]any) error {
	if _, done := kept[name]; done {
		return nil
	}
	schema, ok := all[name]
	if !ok {
		return fmt.Errorf("the description has no schema %q", name)
	}
	kept[name] = schema
	for _, ref := range refs(schema, nil) {
		if !strings.HasPrefix(ref, refPrefix) {
			return fmt.Errorf("schema %q refers to %q, outside the schemas", name, ref)
		}
		if err := keep(strings.TrimPrefix(ref, refPrefix), all, kept); err != nil {
			return err
		}
	}
	return nil
}

func refs(node any, found []string) []string {
	switch n := node.(type) {
	case map[string]any:
		for key, value := range n {
			if ref, ok := value.(string); ok && key == "$ref" {
				found = append(found, ref)
				continue
			}
			found = refs(value, found)
		}
	case []any:
		for _, value := range n {
			found = refs(value, found)
		}
	}
	return found
}

// allowTextPermissions repairs the one node where the description contradicts
// the documentation: a permission set travels as a string of digits.
func allowTextPermissions(schema any) {
	object, _ := schema.(map[string]any)
	properties, _ := object["properties"].(map[string]any)
	if _, ok := properties["default_member_permissions"]; ok {
		properties["default_member_permissions"] = map[string]any{
			"type": []string{"string", "null"}, "pattern": "^[0-9]{1,20}$",
		}
	}
}
