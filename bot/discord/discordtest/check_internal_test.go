package discordtest

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

const quiet = `"allowed_mentions":{"parse":[]}`

// TestCheckMessage: each rule lets the good pass and stops the bad. Limits as
// in discord-api-docs c98d64bc and, where it has them, the published description.
func TestCheckMessage(t *testing.T) {
	row := func(buttons string) string { return `"components":[{"type":1,"components":[` + buttons + `]}]` }
	button := func(id string) string {
		return fmt.Sprintf(`{"type":2,"style":2,"label":"Undo","custom_id":%q}`, id)
	}
	menu := func(values ...string) string {
		for i, v := range values {
			values[i] = fmt.Sprintf(`{"label":"o","value":%q}`, v)
		}
		return `{"type":3,"custom_id":"m1:0","options":[` + strings.Join(values, ",") + `]}`
	}
	field := `{"name":"n","value":"` + strings.Repeat("v", 1000) + `"}`
	for _, tc := range []struct {
		name, data string
		files      []File
		says       string // empty: passes
	}{
		{"plain", `{"content":"hello",` + quiet + `}`, nil, ""},
		{"private", `{"content":"hello","flags":64,` + quiet + `}`, nil, ""},
		{"button", `{"content":"x",` + quiet + `,` + row(button("1:undo")) + `}`, nil, ""},
		{"file", `{"content":"x",` + quiet + `,"attachments":[{"id":"0","filename":"a.csv"}]}`, []File{{Name: "a.csv"}}, ""},
		{"mentions not switched off", `{"content":"hello"}`, nil, "allowed_mentions"},
		{"mentions null", `{"content":"hello","allowed_mentions":{"parse":null}}`, nil, "allowed_mentions"},
		{"mentions of everyone", `{"content":"hello","allowed_mentions":{"parse":["everyone"]}}`, nil, "allowed_mentions"},
		{"mention of two", `{"content":"<@1> <@2>","allowed_mentions":{"parse":[],"users":["1","2"]}}`, nil, "allowed_mentions"},
		{"mention of a role", `{"content":"<@&1>","allowed_mentions":{"parse":[],"roles":["1"]}}`, nil, "allowed_mentions"},
		{"mention of one who cannot see it", `{"content":"<@1>","flags":64,"allowed_mentions":{"parse":[],"users":["1"]}}`, nil, "allowed_mentions"},
		{"mention of one who is not named", `{"content":"hello","allowed_mentions":{"parse":[],"users":["500000000000000001"]}}`, nil, "allowed_mentions"},
		{"nothing in it", `{"content":"",` + quiet + `}`, nil, "empty message"},
		{"unknown property", `{"content":"x","contents":"y",` + quiet + `}`, nil, "no property"},
		{"content of 2001", `{"content":"` + strings.Repeat("x", 2001) + `",` + quiet + `}`, nil, "maxLength"},
		{"content of 1001 pairs", `{"content":"` + strings.Repeat("🌱", 1001) + `",` + quiet + `}`, nil, "characters of content"},
		{"embed title of 257", `{"embeds":[{"title":"` + strings.Repeat("x", 257) + `"}],` + quiet + `}`, nil, "maxLength"},
		{"embeds of 6001 in all", `{"embeds":[{"fields":[` + strings.Repeat(field+",", 5) + field + `]}],` + quiet + `}`, nil, "6006 in embeds"},
		{"empty field", `{"embeds":[{"fields":[{"name":"n","value":""}]}],` + quiet + `}`, nil, "field is empty"},
		{"six buttons in a row", `{"content":"x",` + quiet + `,` + row(strings.Repeat(button("a")+",", 5)+button("b")) + `}`, nil, "maxItems"},
		{"the same button twice", `{"content":"x",` + quiet + `,` + row(button("a")+","+button("a")) + `}`, nil, "there twice"},
		{"menu", `{"content":"x",` + quiet + `,` + row(menu("1")) + `}`, nil, ""},
		{"menu beside a button", `{"content":"x",` + quiet + `,` + row(menu("1")+","+button("a")) + `}`, nil, "row to itself"},
		{"menu without options", `{"content":"x",` + quiet + `,` + row(menu()) + `}`, nil, "1 to 25"},
		{"menu of 26", `{"content":"x",` + quiet + `,` + row(menu(strings.Split(strings.Repeat("x,", 25)+"y", ",")...)) + `}`, nil, "maxItems"},
		{"menu with the same option twice", `{"content":"x",` + quiet + `,` + row(menu("1", "1")) + `}`, nil, "there twice"},
		{"menu with a long option", `{"content":"x",` + quiet + `,` + row(menu(strings.Repeat("x", 101))) + `}`, nil, "maxLength"},
		{"flags of others", `{"content":"x","flags":1,` + quiet + `}`, nil, "flags"},
		{"components flag with content", `{"content":"x","flags":32768,` + quiet + `}`, nil, "neither content"},
		{"file not described", `{"content":"x",` + quiet + `}`, []File{{Name: "a"}}, "described"},
		{"file under another name", `{"content":"x",` + quiet + `,"attachments":[{"id":"0","filename":"b"}]}`, []File{{Name: "a"}}, "described as"},
	} {
		t.Run(tc.name, func(t *testing.T) {
			err := checkCallback(payload{json: []byte(`{"type":4,"data":` + tc.data + `}`), files: tc.files})
			expect(t, tc.says, err)
			expect(t, tc.says, checkEdit(payload{json: []byte(tc.data), files: tc.files}))
			expect(t, tc.says, checkFollowUp(payload{json: []byte(tc.data), files: tc.files}))
		})
	}
}

// TestCheckPostAndReplacement: a post must not come twice, and a replacement
// leaves nothing of what was there and notifies nobody.
func TestCheckPostAndReplacement(t *testing.T) {
	const (
		rest    = `"embeds":[],"components":[],"attachments":[],` + quiet
		once    = `,"nonce":"n","enforce_nonce":true`
		mention = `"allowed_mentions":{"parse":[],"users":["500000000000000001"]}`
	)
	for _, tc := range []struct{ name, json, says string }{
		{"plain", `{"content":"x",` + quiet + once + `}`, ""},
		{"mentions one", `{"content":"<@500000000000000001>",` + mention + once + `}`, ""},
		{"without a nonce", `{"content":"x",` + quiet + `,"enforce_nonce":true}`, "nonce"},
		{"with an empty nonce", `{"content":"x",` + quiet + `,"nonce":"","enforce_nonce":true}`, "nonce"},
		{"nonce not enforced", `{"content":"x",` + quiet + `,"nonce":"n"}`, "nonce"},
		{"nonce of 26", `{"content":"x",` + quiet + `,"nonce":"` + strings.Repeat("n", 26) + `","enforce_nonce":true}`, "nonce"},
		{"mentions everyone", `{"content":"x","allowed_mentions":{"parse":["everyone"]}` + once + `}`, "allowed_mentions"},
		{"unknown property", `{"content":"x","to":"y",` + quiet + once + `}`, "no property"},
	} {
		t.Run("post "+tc.name, func(t *testing.T) { expect(t, tc.says, checkPost(payload{json: []byte(tc.json)})) })
	}
	for _, tc := range []struct{ name, json, says string }{
		{"whole", `{"content":"x",` + rest + `}`, ""},
		{"without embeds", `{"content":"x","components":[],"attachments":[],` + quiet + `}`, "embeds of the message before"},
		{"with embeds null", `{"content":"x","embeds":null,"components":[],"attachments":[],` + quiet + `}`, "embeds of the message before"},
		{"without attachments", `{"content":"x","embeds":[],"components":[],` + quiet + `}`, "attachments of the message before"},
		{"that notifies", `{"content":"<@500000000000000001>","embeds":[],"components":[],"attachments":[],` + mention + `}`, "allow nothing"},
		{"with a nonce", `{"content":"x",` + rest + once + `}`, "no property"},
		{"with nothing in it", `{"content":"",` + rest + `}`, "empty message"},
	} {
		t.Run("replacement "+tc.name, func(t *testing.T) {
			expect(t, tc.says, checkChange(payload{json: []byte(tc.json)}))
			expect(t, tc.says, checkCallback(payload{json: []byte(`{"type":7,"data":` + tc.json + `}`)}))
		})
	}
}

func TestCheckOtherAnswers(t *testing.T) {
	field := func(id string) string {
		return fmt.Sprintf(`{"type":4,"custom_id":%q,"label":"What","style":1,"required":false}`, id)
	}
	form := func(title string, fields ...string) string {
		for i, f := range fields {
			fields[i] = `{"type":1,"components":[` + f + `]}`
		}
		return fmt.Sprintf(`{"type":9,"data":{"custom_id":"f1:x","title":%q,"components":[%s]}}`, title, strings.Join(fields, ","))
	}
	for _, tc := range []struct{ name, json, says string }{
		{"deferral", `{"type":5}`, ""},
		{"private deferral", `{"type":5,"data":{"flags":64}}`, ""},
		{"deferral with other flags", `{"type":5,"data":{"flags":32832}}`, "deferral"},
		{"deferral with text", `{"type":5,"data":{"content":"soon"}}`, "deferral"},
		{"suggestions", `{"type":8,"data":{"choices":[{"name":"a","value":"a"}]}}`, ""},
		{"no suggestions", `{"type":8,"data":{"choices":[]}}`, ""},
		{"suggestions missing", `{"type":8,"data":{}}`, "without choices"},
		{"too many suggestions", `{"type":8,"data":{"choices":[` + strings.Repeat(`{"name":"a","value":"a"},`, 25) + `{"name":"b","value":"b"}]}}`, "maxItems"},
		{"the same suggestion twice", `{"type":8,"data":{"choices":[{"name":"a","value":"a"},{"name":"a","value":"b"}]}}`, "twice"},
		{"something else", `{"type":10,"data":{}}`, "not expected"},
		{"form", form("visit", field("temp")), ""},
		{"form without fields", form("visit"), "1 to 5"},
		{"form of six", form("visit", field("a"), field("b"), field("c"), field("d"), field("e"), field("f")), "1 to 5"},
		{"form with a long title", form(strings.Repeat("x", 46), field("temp")), "maxLength"},
		{"form with a title of 23 pairs", form(strings.Repeat("🌱", 23), field("temp")), "title is too long"},
		{"form with the same field twice", form("visit", field("temp"), field("temp")), "there twice"},
		{"form with two fields in a row", form("visit", field("temp")+","+field("note")), "row of its own"},
		{"form with a long label", form("visit", strings.Replace(field("temp"), "What", strings.Repeat("x", 46), 1)), "label"},
		{"not JSON", `{`, "unexpected end"},
	} {
		t.Run(tc.name, func(t *testing.T) { expect(t, tc.says, checkCallback(payload{json: []byte(tc.json)})) })
	}
}

func TestCheckCommands(t *testing.T) {
	command := func(rest string) string { return `[{"type":1,"name":"mix","description":"d"` + rest + `}]` }
	option := func(name, rest string) string {
		return fmt.Sprintf(`{"type":3,"name":%q,"description":"d"%s}`, name, rest)
	}
	choice := `{"name":"%d` + strings.Repeat("n", 98) + `","value":"` + strings.Repeat("v", 100) + `"}`
	var choices []string
	for i := range 25 {
		choices = append(choices, fmt.Sprintf(choice, i%10+i/10*10))
	}
	heavy := option("a", `,"choices":[`+strings.Join(choices, ",")+`]`)
	for _, tc := range []struct{ name, json, says string }{
		{"plain", command(""), ""},
		{"permissions as text", command(`,"default_member_permissions":"16"`), ""},
		{"permissions as a number", command(`,"default_member_permissions":16`), "default_member_permissions"},
		{"a blank in the name", strings.Replace(command(""), "mix", "mix it", 1), "not allowed"},
		{"a capital", strings.Replace(command(""), "mix", "Mix", 1), "not allowed"},
		{"a name of 33", strings.Replace(command(""), "mix", strings.Repeat("m", 33), 1), "not allowed"},
		{"a description of 101", strings.Replace(command(""), `"d"`, `"`+strings.Repeat("d", 101)+`"`, 1), "maxLength"},
		{"required after optional", command(`,"options":[` + option("a", "") + "," + option("b", `,"required":true`) + `]`), "required"},
		{"the same option twice", command(`,"options":[` + option("a", "") + "," + option("a", "") + `]`), "twice"},
		{"the same command twice", `[{"name":"a","description":"d"},{"name":"a","description":"d"}]`, "twice"},
		{"choices and completion", command(`,"options":[` + option("a", `,"autocomplete":true,"choices":[{"name":"x","value":"y"}]`) + `]`), "exclude"},
		{"more than 8000 characters", command(`,"options":[` + heavy + "," + strings.Replace(heavy, `"a"`, `"b"`, 1) + `]`), "characters in all"},
		{"options beside subcommands", command(`,"options":[{"type":1,"name":"s","description":"d"},` + option("a", "") + `]`), "beside"},
	} {
		t.Run(tc.name, func(t *testing.T) { expect(t, tc.says, checkCommands(payload{json: []byte(tc.json)})) })
	}
}

func expect(t *testing.T, says string, err error) {
	t.Helper()
	if says == "" {
		assert.NoError(t, err)
		return
	}
	require.Error(t, err)
	assert.Contains(t, fmt.Sprintf("%v %#v", err, err), says)
}
