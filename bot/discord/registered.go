package discord

import (
	"context"
	"encoding/json"
	"fmt"
	"maps"
	"net/http"
	"net/url"
	"slices"

	"github.com/bwmarrin/discordgo"
)

// Differences are the names of commands that are not registered everywhere as
// the catalogue has them.
type Differences struct {
	Missing  []string
	Outdated []string // registered otherwise
	Unknown  []string // registered, but not in the catalogue
}

// None reports that all is as it should be.
func (d Differences) None() bool { return len(d.Missing)+len(d.Outdated)+len(d.Unknown) == 0 }

// Trial is a server that has commands of its own, as a trial leaves them. Beside
// those for everywhere each of them appears twice.
type Trial struct {
	Guild, Name string
	Commands    int
}

const withLocalizations = "?with_localizations=true"

// Differences compares what is registered everywhere with the catalogue.
func (i *Inspector) Differences(ctx context.Context) (Differences, error) {
	var found []*discordgo.ApplicationCommand
	var d Differences
	if err := i.ask(ctx, http.MethodGet, discordgo.EndpointApplicationGlobalCommands(i.account.App)+withLocalizations, nil, &found); err != nil {
		return d, err
	}
	registered := map[string]*discordgo.ApplicationCommand{}
	for _, c := range found {
		registered[c.Name] = c
	}
	for _, w := range i.wanted {
		switch c := registered[w.Name]; {
		case c == nil:
			d.Missing = append(d.Missing, w.Name)
		case gist(c) != gist(w):
			d.Outdated = append(d.Outdated, w.Name)
		}
		delete(registered, w.Name)
	}
	d.Unknown = slices.Sorted(maps.Keys(registered))
	return d, nil
}

// Register puts the catalogue in the place of what is registered everywhere.
func (i *Inspector) Register(ctx context.Context) error {
	return i.ask(ctx, http.MethodPut, discordgo.EndpointApplicationGlobalCommands(i.account.App), i.wanted, new(any))
}

// Servers asks which servers the bot is in and returns how many they are.
func (i *Inspector) Servers(ctx context.Context) (int, error) {
	const page = 200 // the most that one answer lists; discord-api-docs c98d64bc, resources/user.mdx
	for after := ""; ; {
		query := url.Values{"limit": {fmt.Sprint(page)}}
		if after != "" {
			query.Set("after", after)
		}
		var found []*discordgo.UserGuild
		if err := i.ask(ctx, http.MethodGet, discordgo.EndpointUserGuilds("@me")+"?"+query.Encode(), nil, &found); err != nil {
			return len(i.servers), err
		}
		for _, g := range found {
			i.servers[g.ID] = g.Name
			after = g.ID
		}
		if len(found) < page {
			return len(i.servers), nil
		}
	}
}

// Trials looks for servers with commands of their own, in all that Servers
// found. Besides an error it returns those it came to see.
func (i *Inspector) Trials(ctx context.Context) ([]Trial, error) {
	var trials []Trial
	for _, id := range slices.Sorted(maps.Keys(i.servers)) {
		var found []*discordgo.ApplicationCommand
		err := i.ask(ctx, http.MethodGet, discordgo.EndpointApplicationGuildCommands(i.account.App, id), nil, &found)
		switch {
		case i.stopped != nil:
			return trials, err
		case err == nil && len(found) > 0:
			trials = append(trials, Trial{id, i.servers[id], len(found)})
		}
	}
	return trials, nil
}

// Clear takes a server's own commands away. Those for everywhere stay.
func (i *Inspector) Clear(ctx context.Context, guild string) error {
	return i.ask(ctx, http.MethodPut, discordgo.EndpointApplicationGuildCommands(i.account.App, guild), []*discordgo.ApplicationCommand{}, new(any))
}

// gist is all of a command that people meet, as text to compare. What the
// platform adds, and how it writes what is empty, is left out.
func gist(c *discordgo.ApplicationCommand) string {
	var words map[discordgo.Locale]string
	if c.DescriptionLocalizations != nil {
		words = *c.DescriptionLocalizations
	}
	return asText(struct {
		Kind     discordgo.ApplicationCommandType
		Contexts []discordgo.InteractionContextType     `json:",omitempty"`
		Installs []discordgo.ApplicationIntegrationType `json:",omitempty"`
		part
	}{
		c.Type, sorted(c.Contexts), sorted(c.IntegrationTypes),
		part{Name: c.Name, Description: c.Description, Words: words, Options: gists(c.Options)},
	})
}

// part is a command, an option or a choice.
type part struct {
	Type         discordgo.ApplicationCommandOptionType `json:",omitempty"`
	Name         string
	Description  string                      `json:",omitempty"`
	Words        map[discordgo.Locale]string `json:",omitempty"`
	Value        string                      `json:",omitempty"`
	Required     bool                        `json:",omitempty"`
	Autocomplete bool                        `json:",omitempty"`
	Choices      []part                      `json:",omitempty"`
	Options      []part                      `json:",omitempty"`
}

func gists(options []*discordgo.ApplicationCommandOption) []part {
	var out []part
	for _, o := range options {
		p := part{
			Type: o.Type, Name: o.Name, Description: o.Description, Words: o.DescriptionLocalizations,
			Required: o.Required, Autocomplete: o.Autocomplete, Options: gists(o.Options),
		}
		for _, c := range o.Choices {
			p.Choices = append(p.Choices, part{Name: c.Name, Words: c.NameLocalizations, Value: fmt.Sprint(c.Value)})
		}
		out = append(out, p)
	}
	return out
}

// asText is a value as text; maps come in the order of their keys.
func asText(value any) string {
	data, err := json.Marshal(value)
	if err != nil {
		return err.Error() // of texts and numbers alone: cannot be
	}
	return string(data)
}

func sorted[T ~uint](list *[]T) []T {
	if list == nil {
		return nil
	}
	return slices.Sorted(slices.Values(*list))
}
