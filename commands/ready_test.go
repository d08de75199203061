package commands_test

import (
	"context"
	"testing"

	"github.com/stretchr/testify/assert"

	"heapside/commands"
)

// TestHeatIsCountedForScripts: sixteen daily readings at 60 °C are fifteen days,
// and five turnings while hot meet the rule for turned heaps.
func TestHeatIsCountedForScripts(t *testing.T) {
	p := newPlot(t)
	p.say(0, `heap start Bay container:"pallet bay" size:"1 m3"`)
	p.say(0, "log add 20 buckets of horse manure and 20 buckets of dry leaves")
	for day := range 16 {
		p.say(float64(24*day+1), "log temp 60 depth:40cm")
		if day%3 == 1 {
			p.say(float64(24*day+2), "log turn")
		}
	}
	r := p.say(15*24+2, "ready")
	assert.Equal(t, commands.Value{Value: "reached", Unit: ""}, r.Values["hygiene.pfrp-windrow.status"])
	assert.Equal(t, commands.Value{Value: 15.0, Unit: "d"}, r.Values["hygiene.pfrp-windrow.hot_days"])
	assert.Equal(t, commands.Value{Value: 5.0, Unit: "1"}, r.Values["hygiene.pfrp-windrow.turns"])
	assert.Equal(t, "not reached", r.Values["hygiene.uk-reactor-70.status"].Value)
	assert.Len(t, r.Cautions, 2)
}

// TestNoAnswerOnHeatPromises holds that none calls anything safe, and that each
// that compares carries its caution.
func TestNoAnswerOnHeatPromises(t *testing.T) {
	p := newPlot(t)
	p.say(0, `heap start Bay aim:hygienic`)
	p.say(0, "log add 20 buckets of horse manure and 20 buckets of dry leaves")
	for day := range 5 {
		p.say(float64(24*day+1), "log temp 66 depth:40cm")
	}
	pests := p.a.Complete(context.Background(), withPath(p.call, "ready"), "against", "")
	assert.Len(t, pests, 25)
	for _, choice := range append(pests, commands.Choice{Value: "bindweed"}, commands.Choice{Value: "clubroot"}, commands.Choice{Value: "wilt"}) {
		r := p.say(4*24+2, "ready against:\""+choice.Value+"\"")
		assert.NotRegexp(t, `(?i)\bsafe`, show(r), choice.Value)
		assert.Len(t, r.Cautions, 1, choice.Value)
	}
	assert.Equal(t, []commands.Choice{{Name: "clubroot", Value: "clubroot"}},
		p.a.Complete(context.Background(), withPath(p.call, "ready"), "against", "Club"))
}
