package discord

import (
	"github.com/bwmarrin/discordgo"

	"heapside/commands"
)

// formVersion leads the id of every form, as buttonVersion that of a button.
const formVersion = "f1:"

// Limits of a form. Source: discord-api-docs c98d64bc, components/reference.mdx
// and interactions/receiving-and-responding.mdx.
const (
	maxFormTitle   = 45
	maxFieldLabel  = 45
	maxPlaceholder = 100
	maxFieldValue  = 4000
	maxFormFields  = 5
)

// openForm is the button that stands for a form which could not be opened at
// once: after an answer was postponed, or as the answer to a form.
const openForm = "Open the form"

// form is a form on the wire.
type form struct {
	ID     string                 `json:"custom_id"`
	Title  string                 `json:"title"`
	Fields []discordgo.ActionsRow `json:"components"`
}

// newForm lays a form out; false when it would be refused.
func newForm(f *commands.Form) (form, bool) {
	if f == nil {
		return form{}, false
	}
	out := form{ID: formVersion + plain(f.Line), Title: cut(oneLine(f.Title), maxFormTitle)}
	seen := map[string]bool{}
	for _, field := range f.Fields {
		label := cut(oneLine(field.Label), maxFieldLabel)
		if label == "" || field.Option == "" || seen[field.Option] {
			return form{}, false
		}
		seen[field.Option] = true
		input := discordgo.TextInput{
			CustomID: field.Option, Label: label, Style: discordgo.TextInputShort, Required: field.Required,
			Placeholder: cut(oneLine(field.Example), maxPlaceholder), Value: cut(plain(field.Value), maxFieldValue),
		}
		if field.Long {
			input.Style = discordgo.TextInputParagraph
		}
		out.Fields = append(out.Fields, discordgo.ActionsRow{Components: []discordgo.MessageComponent{input}})
	}
	ok := f.Line != "" && units(out.ID) <= maxCustomID && out.Title != "" && len(out.Fields) > 0 && len(out.Fields) <= maxFormFields
	return out, ok
}

// opens is the form that answers an interaction, if there is one. A form cannot
// answer another one.
func (x *exchange) opens(r commands.Reply) (form, bool) {
	if x.Type != discordgo.InteractionApplicationCommand && x.Type != discordgo.InteractionMessageComponent {
		return form{}, false
	}
	return newForm(r.Form)
}

// open shows a form as the first answer.
func (x *exchange) open(f form) error {
	return x.call(callback{Type: discordgo.InteractionResponseModal, Data: f}, nil)
}

// filledIn is what stands in the fields of a form, by their ids. Components of
// kinds that we never send are passed over.
func filledIn(components []discordgo.MessageComponent) map[string]string {
	filled := map[string]string{}
	for _, c := range components {
		row, ok := c.(*discordgo.ActionsRow)
		if !ok || row == nil {
			continue
		}
		for _, cell := range row.Components {
			if input, ok := cell.(*discordgo.TextInput); ok && input != nil {
				filled[input.CustomID] = input.Value
			}
		}
	}
	return filled
}
