package main

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"heapside/bot/discord/discordtest"
)

// TestServeAsksWithATap: who never reads the help gets through by tapping what
// is offered, from an empty channel to a recipe and its log.
func TestServeAsksWithATap(t *testing.T) {
	p := discordtest.New(t)
	serving(t, p)
	p.Registered()

	empty := p.Command(odalys, "log turn", nil).Answer()
	name := p.Press(odalys, empty, "Start a heap").Form()
	require.Len(t, name.Inputs, 1)
	assert.Contains(t, p.Submit(odalys, name, map[string]string{"name": "North Bay"}).Answer().Shown(), "North Bay is started")

	what := p.Command(odalys, "mix", nil).Form()
	assert.Equal(t, "What arrived", what.Inputs[0].Label)
	noAmount := p.Submit(odalys, what, map[string]string{"what": "grass"}).Answer()
	assert.True(t, noAmount.Private)
	recipe := p.Press(odalys, noAmount, "2 buckets").Answer()
	assert.Contains(t, recipe.Shown(), "Add about")

	which := p.Command(odalys, "log add", map[string]string{"what": "3 buckets of manure"}).Answer()
	assert.Contains(t, p.Press(odalys, which, "horse manure").Answer().Shown(), "3 buckets of horse manure", "the amount is kept")
	wrong := p.Command(odalys, "log temp", map[string]string{"reading": "580"}).Answer()
	again := p.Press(odalys, wrong, "Fill it in again").Form()
	assert.Contains(t, p.Submit(odalys, again, map[string]string{"reading": "58"}).Answer().Shown(), "58")
	unclear := p.Command(odalys, "ask", map[string]string{"words": "hello there"}).Answer()
	assert.Contains(t, p.Press(odalys, unclear, unclear.Buttons[0].Label).Answer().Shown(), "North Bay")
}
