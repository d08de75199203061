package discord

import (
	"strconv"

	"github.com/bwmarrin/discordgo"

	"heapside/commands"
)

// Limits of what is tapped. Source: discord-api-docs c98d64bc,
// components/reference.mdx.
const (
	maxRows        = 5
	maxRowButtons  = 5
	maxLabel       = 80
	maxCustomID    = 100
	maxMenuOptions = 25
	maxMenuText    = 100 // a label or a value of a menu
	maxMenuTitle   = 150
)

// buttonVersion leads every button id, and menuVersion every menu's, so that
// those of an older kind can be told apart: they stay on screen longer than any
// one process lives. What a menu's line is stands in the option that is picked.
const (
	buttonVersion = "1:"
	menuVersion   = "m1:"
)

// rows makes buttons of actions, each line once, a new row where one is asked
// for. A group has a row of its own, or is a menu when it is longer than a row.
// An action whose line is too long is left out: it can still be typed.
func rows(actions []commands.Action) []discordgo.ActionsRow {
	l := layout{seen: map[string]bool{}, fresh: true}
	for len(actions) > 0 {
		group := actions[:1]
		if title := actions[0].Group; title != "" {
			for len(group) < len(actions) && actions[len(group)].Group == title {
				group = actions[:len(group)+1]
			}
		}
		actions = actions[len(group):]
		if len(group) > maxRowButtons {
			l.menus(group)
			continue
		}
		l.fresh = l.fresh || group[0].Group != ""
		for _, a := range group {
			l.button(a)
		}
		l.fresh = l.fresh || group[0].Group != ""
	}
	return l.rows
}

// layout is the rows under a message so far.
type layout struct {
	rows  []discordgo.ActionsRow
	seen  map[string]bool // lines that stand there
	fresh bool            // the next button begins a row
}

// button adds a button while there is room.
func (l *layout) button(a commands.Action) {
	l.fresh = l.fresh || a.Row // kept for the next when this one is left out
	line, label := plain(a.Line), cut(oneLine(a.Label), maxLabel)
	id := buttonVersion + line
	if a.Line == "" || label == "" || units(id) > maxCustomID || l.seen[line] {
		return
	}
	if l.fresh || len(l.rows[len(l.rows)-1].Components) == maxRowButtons {
		if len(l.rows) == maxRows {
			return
		}
		l.rows = append(l.rows, discordgo.ActionsRow{})
	}
	l.seen[line], l.fresh = true, false
	row := &l.rows[len(l.rows)-1]
	row.Components = append(row.Components, discordgo.Button{Label: label, CustomID: id, Style: discordgo.SecondaryButton})
}

// menus adds lists to pick one of a group from, as many as it takes while there
// is room.
func (l *layout) menus(group []commands.Action) {
	var options []discordgo.SelectMenuOption
	for _, a := range group {
		value, label := plain(a.Line), cut(oneLine(a.Label), maxMenuText)
		if value == "" || label == "" || units(value) > maxMenuText || l.seen[value] {
			continue
		}
		l.seen[value] = true
		options = append(options, discordgo.SelectMenuOption{Label: label, Value: value})
	}
	for len(options) > 0 && len(l.rows) < maxRows {
		n := min(len(options), maxMenuOptions)
		l.rows = append(l.rows, discordgo.ActionsRow{Components: []discordgo.MessageComponent{discordgo.SelectMenu{
			MenuType: discordgo.StringSelectMenu, CustomID: menuVersion + strconv.Itoa(len(l.rows)),
			Placeholder: cut(oneLine(group[0].Group), maxMenuTitle), Options: options[:n],
		}}})
		options = options[n:]
	}
	l.fresh = true
}
