package discord

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"heapside/commands"
)

func TestRepliesNameCommandsWithASlash(t *testing.T) {
	catalogue := []commands.Command{
		{Name: "ready", Options: []commands.Option{{Name: "heap"}}},
		{Name: "mix", Options: []commands.Option{{Name: "what", Words: true}}},
		{Name: "next", Options: []commands.Option{{Name: "heap", Words: true}}},
		{Name: "log", Subs: []commands.Command{{Name: "add"}, {Name: "temp"}}},
		{Name: "duty", Subs: []commands.Command{{Name: "join"}}},
	}
	a := &Adapter{slash: slashing(catalogue)}
	for said, want := range map[string]string{
		"log add 2 buckets of grass":              "/log add 2 buckets of grass",
		"Log what went in: log add 2 buckets":     "Log what went in: /log add 2 buckets",
		"nobody is on the rota (duty join).":      "nobody is on the rota (/duty join).",
		"Write “log temp 58”, or “/log temp 58”.": "Write “/log temp 58”, or “/log temp 58”.",
		"Mulch: ready. ready heap:\"Old Bay\"":    "Mulch: ready. /ready heap:\"Old Bay\"",
		"the backlog adds up, the log temperate":  "the backlog adds up, the log temperate",
		"Before it goes on: mix 2 buckets":        "Before it goes on: /mix 2 buckets",
		"Turn it in the next 3 days, mix 2 in":    "Turn it in the next 3 days, mix 2 in",
		"Understood as: duty join":                "Understood as: /duty join",
	} {
		lines := []string{said}
		r := a.slashed(commands.Reply{Headline: said, Body: []commands.Block{{Title: said, Lines: lines}}, Cautions: lines})
		assert.Equal(t, commands.Reply{Headline: want, Body: []commands.Block{{Title: want, Lines: []string{want}}}, Cautions: []string{want}}, r)
		assert.Equal(t, []string{said}, lines, "the reply itself stays")
	}
	assert.Nil(t, slashing(nil))
}
