package discord

import (
	"context"
	"encoding/json"
	"log/slog"
	"testing"
	"time"
	"unicode/utf8"

	"github.com/bwmarrin/discordgo"
	"github.com/stretchr/testify/require"

	"heapside/commands"
)

// echo is an assistant that answers with what it was asked.
type echo struct{ calls []commands.Call }

func (*echo) Commands() []commands.Command { return nil }

func (e *echo) Do(_ context.Context, c commands.Call) commands.Reply {
	e.calls = append(e.calls, c)
	return commands.Reply{Headline: c.Path}
}

func (e *echo) Line(_ context.Context, c commands.Call, line string) commands.Reply {
	e.calls = append(e.calls, c)
	return commands.Reply{Headline: line}
}

func (e *echo) Fill(_ context.Context, c commands.Call, line string, filled map[string]string) commands.Reply {
	e.calls = append(e.calls, c)
	return commands.Reply{Headline: line, Form: &commands.Form{Title: line, Line: line, Fields: []commands.Field{{Option: line, Label: line, Value: filled["temp"]}}}}
}

func (e *echo) Complete(_ context.Context, c commands.Call, _, typed string) []commands.Choice {
	e.calls = append(e.calls, c)
	return []commands.Choice{{Name: typed, Value: typed}}
}

// FuzzInteraction: whatever an interaction holds, reading it never panics, and
// a call is only made of one that says who asks and where.
func FuzzInteraction(f *testing.F) {
	const who = `"guild_id":"6","channel_id":"61","member":{"user":{"id":"5","username":"wren"},"permissions":"16"}`
	for _, s := range []string{
		`{"id":"1","token":"t","type":2,` + who + `,"data":{"name":"log","options":[{"name":"temp","type":1,"options":[{"name":"reading","type":3,"value":"58"}]}]}}`,
		`{"id":"1","token":"t","type":4,` + who + `,"data":{"name":"mix","options":[{"name":"heap","type":3,"value":"nor","focused":true}]}}`,
		`{"id":"1","token":"t","type":4,` + who + `,"data":{"name":"mix","options":[{"name":"n","type":4,"value":12,"focused":true},{"name":"b","type":5,"value":true}]}}`,
		`{"id":"1","token":"t","type":3,` + who + `,"data":{"custom_id":"1:undo 3","component_type":2}}`,
		`{"id":"1","token":"t","type":5,` + who + `,"data":{"custom_id":"1:x","components":[{"type":18}]}}`,
		`{"id":"1","token":"t","type":5,` + who + `,"data":{"custom_id":"f1:log visit","components":[{"type":1,"components":[{"type":4,"custom_id":"temp","value":"58"}]},null]}}`,
		`{"id":"1","token":"t","type":3,` + who + `,"data":{"custom_id":"m1:0","component_type":3,"values":["next"]}}`,
		`{"id":"1","token":"t","type":2,` + who + `,"data":{"name":"log","options":[null]}}`,
		`{"id":"1","token":"t","type":2,"guild_id":"6","member":null,"data":null}`,
		`{"id":"1","token":"t","type":2,"user":{"id":"5"},"data":{"name":"mix"}}`,
		`{"type":3,"data":[]}`, `{}`, `null`, `[]`,
	} {
		f.Add([]byte(s))
	}
	f.Fuzz(func(t *testing.T, raw []byte) {
		var event discordgo.InteractionCreate
		_ = json.Unmarshal(raw, &event) // as the library does: what was read is handed on even then
		if event.Interaction == nil {
			return
		}
		assistant := &echo{}
		x := &exchange{
			Adapter: &Adapter{
				assistant: assistant, log: slog.New(slog.DiscardHandler),
				cfg: Config{Now: func() time.Time { return time.Time{} }},
			},
			Interaction: event.Interaction,
		}
		r := x.ask(t.Context())
		if f, ok := newForm(r.Form); ok {
			require.True(t, units(f.ID) <= maxCustomID && units(f.Title) <= maxFormTitle && len(f.Fields) == 1)
		}
		for _, s := range x.suggestions(t.Context()) {
			require.True(t, s.Name != "" && units(s.Name) <= maxChoice && units(s.Value) <= maxChoice)
		}
		for _, c := range assistant.calls {
			require.NotEmpty(t, c.Place.Guild)
			require.NotEmpty(t, c.Place.Channel)
			require.NotEmpty(t, c.By.ID)
			require.True(t, c.By.Name != "" && utf8.ValidString(c.By.Name) && units(c.By.Name) <= longestName)
		}
	})
}

// TestLacking: what a post would need is told apart from what is only handy.
func TestLacking(t *testing.T) {
	const view, send, threads, embed = discordgo.PermissionViewChannel, discordgo.PermissionSendMessages, discordgo.PermissionSendMessagesInThreads, discordgo.PermissionEmbedLinks
	for _, tc := range []struct {
		name   string
		rights int64
		want   []string
	}{
		{"not told", 0, nil},
		{"all that is needed", view | send | embed, nil},
		{"in a thread", view | threads | embed, nil},
		{"an administrator", discordgo.PermissionAdministrator, nil},
		{"no writing", view | embed, []string{"Send Messages"}},
		{"no framed texts", view | send | discordgo.PermissionAttachFiles, []string{"Embed Links"}},
		{"nothing of it", discordgo.PermissionReadMessageHistory, []string{"View Channel", "Send Messages", "Embed Links"}},
	} {
		require.Equal(t, tc.want, lacking(tc.rights), tc.name)
	}
}
