package discordtest

import (
	"slices"
	"strconv"
	"strings"
)

// Rights a person can have. Source: discord-api-docs c98d64bc,
// topics/permissions.mdx.
const (
	Administrator  int64 = 1 << 3
	ManageChannels int64 = 1 << 4
	ManageServer   int64 = 1 << 5
	sendMessages   int64 = 1 << 11
)

// Caller is a person in a channel. An empty guild means a direct message.
type Caller struct {
	ID, Name, Nick string
	Rights         int64
	Guild, Channel string
}

// Interaction types.
const (
	typeCommand      = 2
	typeComponent    = 3
	typeAutocomplete = 4
	typeForm         = 5
)

// Command types a registered command. As in the client, only what is
// registered can be typed: anything else fails the test.
func (p *Platform) Command(by Caller, path string, options map[string]string) *Exchange {
	p.t.Helper()
	data, ok := p.typed(path, options, "", "")
	if !ok {
		return &Exchange{p: p, void: true}
	}
	return p.interact(by, typeCommand, data, nil)
}

// Complete types part of an option's value and returns what is suggested.
func (p *Platform) Complete(by Caller, path string, options map[string]string, option, typed string) []Choice {
	p.t.Helper()
	data, ok := p.typed(path, options, option, typed)
	if !ok {
		return nil
	}
	return p.interact(by, typeAutocomplete, data, nil).choices()
}

// Press presses the button of a message that has this label.
func (p *Platform) Press(by Caller, m Message, label string) *Exchange {
	p.t.Helper()
	for _, b := range m.Buttons {
		if b.Label == label {
			return p.PressID(by, m, b.ID)
		}
	}
	p.fail("there is no button %q, only %q", label, m.Buttons)
	return &Exchange{p: p, void: true}
}

// PressID presses a button by its id, which may be one that no longer exists.
func (p *Platform) PressID(by Caller, m Message, id string) *Exchange {
	p.t.Helper()
	return p.interact(by, typeComponent, map[string]any{"custom_id": id, "component_type": 2}, &m)
}

// Pick picks the option of a message's menus that has this label.
func (p *Platform) Pick(by Caller, m Message, label string) *Exchange {
	p.t.Helper()
	for _, menu := range m.Menus {
		for _, o := range menu.Options {
			if o.Label == label {
				return p.interact(by, typeComponent, map[string]any{"custom_id": menu.ID, "component_type": 3, "values": []any{o.ID}}, &m)
			}
		}
	}
	p.fail("there is no option %q, only %q", label, m.Menus)
	return &Exchange{p: p, void: true}
}

// Raw sends an interaction with any data.
func (p *Platform) Raw(by Caller, kind int, data any) *Exchange {
	p.t.Helper()
	return p.interact(by, kind, data, nil)
}

// typed is a command's data as the client sends it: only what is registered,
// the required options given, choices among those offered.
func (p *Platform) typed(path string, given map[string]string, focused, typed string) (map[string]any, bool) {
	p.t.Helper()
	commands, _ := p.Registered()
	words := strings.Fields(path)
	if len(words) == 0 {
		p.fail("no command to type")
		return nil, false
	}
	at := slices.IndexFunc(commands, func(c Command) bool { return c.Name == words[0] })
	if at < 0 {
		p.fail("the command %q is not registered", words[0])
		return nil, false
	}
	data := map[string]any{"id": App, "name": words[0], "type": 1}
	options, node := commands[at].Options, data
	for _, word := range words[1:] {
		at := slices.IndexFunc(options, func(o Option) bool { return o.Name == word && o.Type <= 2 })
		if at < 0 {
			p.fail("the command %q has no subcommand %q", path, word)
			return nil, false
		}
		sub := map[string]any{"name": word, "type": options[at].Type}
		node["options"] = []any{sub}
		options, node = options[at].Options, sub
	}
	if len(options) > 0 && options[0].Type <= 2 {
		p.fail("the command %q needs a subcommand", path)
		return nil, false
	}
	filled, ok := p.fill(path, options, given, focused, typed)
	node["options"] = filled
	return data, ok
}

// fill makes the values of options.
func (p *Platform) fill(path string, options []Option, given map[string]string, focused, typed string) ([]any, bool) {
	p.t.Helper()
	out, used := []any{}, 0
	for _, o := range options {
		value, has := given[o.Name]
		switch {
		case o.Name == focused && !o.Autocomplete:
			p.fail("option %q of %q completes nothing", o.Name, path)
			return nil, false
		case o.Name == focused:
			out = append(out, map[string]any{"name": o.Name, "type": o.Type, "value": typed, "focused": true})
			continue
		case !has && o.Required && focused == "":
			p.fail("option %q of %q is required", o.Name, path)
			return nil, false
		case !has:
			continue
		case len(o.Choices) > 0 && !slices.ContainsFunc(o.Choices, func(c Choice) bool { return c.Value == value }):
			p.fail("option %q of %q offers no %q", o.Name, path, value)
			return nil, false
		}
		used++
		out = append(out, map[string]any{"name": o.Name, "type": o.Type, "value": value})
	}
	if used != len(given) {
		p.fail("not all of the options %v are registered for %q", given, path)
		return nil, false
	}
	return out, true
}

// interact sends an interaction and returns the exchange it begins.
func (p *Platform) interact(by Caller, kind int, data any, m *Message) *Exchange {
	p.t.Helper()
	x := &Exchange{p: p, id: p.snowflake(), channel: by.Channel, began: kind}
	x.token = "interaction-token-" + x.id
	user := map[string]any{"id": by.ID, "username": by.Name, "global_name": by.Name}
	event := map[string]any{
		"id": x.id, "application_id": App, "type": kind, "data": data, "token": x.token, "version": 1,
		"channel_id": by.Channel, "locale": "en-GB", "app_permissions": digits(p.rights(by)),
	}
	if by.Guild == "" {
		event["user"], event["context"] = user, 1
	} else {
		event["guild_id"], event["context"] = by.Guild, 0
		event["member"] = map[string]any{
			"user": user, "nick": by.Nick, "roles": []any{},
			"permissions": strconv.FormatInt(by.Rights|sendMessages, 10),
		}
	}
	if m != nil {
		x.pressed = m.ID
		event["message"] = map[string]any{"id": m.ID, "channel_id": by.Channel, "content": m.Content}
	}
	if by.Guild != "" {
		p.AddChannel(by.Guild, by.Channel)
	}
	p.update(func() { p.exchanges[x.token] = x })
	p.Dispatch("INTERACTION_CREATE", event)
	return x
}

// Forget drops all exchanges and the messages that answered them, as of a long
// load: answers that come later are refused.
func (p *Platform) Forget() {
	p.update(func() {
		clear(p.exchanges)
		for id, m := range p.messages {
			if m.Nonce == "" {
				delete(p.messages, id)
			}
		}
	})
}
