package commands_test

import (
	"context"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"heapside/calc/heap"
	"heapside/commands"
)

// TestMixIsLoggedAsAnswered: the button under a recipe puts on record what
// arrived and just what the recipe adds, its water too, as one thing to undo.
func TestMixIsLoggedAsAnswered(t *testing.T) {
	for _, tc := range []struct {
		name, units, line string
		fits              bool
	}{
		{"one thing", "metric", "mix 2 buckets of grass clippings", true},
		{"two things", "metric", "mix 1 bucket of grass and 1 bucket of coffee grounds", true},
		{"from one thing only", "metric", "mix 3 buckets of kitchen scraps from:straw", true},
		{"dry, so that water is wanted", "metric", "mix 2 sacks of dry leaves and 1 bucket of coffee grounds", true},
		{"US gallons", "us", "mix 2 sacks of dry leaves and 1 bucket of coffee grounds", true},
		{"with line breaks", "metric", "mix 2 buckets of grass\n1 bucket of coffee grounds", true},
		{"nothing that works", "metric", "mix 2 buckets of grass from:straw moisture:55", false},
		{"as much as a button holds", "metric", "mix three quarters of a barrow of horse muck and a sack of leaves", true},
		{"more than a button holds", "metric", "mix two and a half buckets of grass, one and a half sacks of coffee grounds and a couple of crates of kitchen scraps", false},
	} {
		t.Run(tc.name, func(t *testing.T) {
			db := record(t)
			a := assistantOver(db)
			say := func(line string) commands.Reply {
				r := a.Line(context.Background(), commands.Call{Place: millrace, By: person("Wren"), Now: summer}, line)
				require.Nil(t, r.Err, line)
				return r
			}
			say("garden units " + tc.units)
			say("heap start Bay")
			answer := say(tc.line)
			if !tc.fits {
				assert.Empty(t, answer.Actions)
				return
			}
			require.Len(t, answer.Actions, 1, answer.Headline)
			require.LessOrEqual(t, len(answer.Actions[0].Line), 97)
			say(answer.Actions[0].Line)
			entries, err := db.Latest(context.Background(), millrace, 20)
			require.NoError(t, err)
			added, water := map[string]float64{}, 0.0
			for _, e := range entries {
				switch p := e.Payload.(type) {
				case heap.Added:
					added[p.Material] += p.VolumeL
				case heap.Watered:
					water += p.Litres
				}
			}
			recipe := 0
			for name, v := range answer.Values {
				material, of := strings.CutPrefix(name, "add.")
				if material, volume := strings.CutSuffix(material, ".volume"); of && volume {
					assert.InEpsilon(t, v.Value, added[material], 0.01, material)
					recipe++
				}
			}
			assert.InDelta(t, answer.Values["water.volume"].Value, water, 0.1)
			assert.Greater(t, len(added)+recipe, 1)
			say("undo")
			assert.NotNil(t, a.Line(context.Background(), commands.Call{Place: millrace, By: person("Wren"), Now: summer}, "undo").Err, "one undo takes back all of it")
		})
	}
}

// BenchmarkMixFits counts how often the line of such a button fits: two names
// of everyday materials with short amounts, for a heap of nine letters.
func BenchmarkMixFits(b *testing.B) {
	a := assistant(b)
	call := commands.Call{Place: millrace, By: person("Wren"), Now: summer}
	require.Nil(b, a.Line(context.Background(), call, "heap start North Bay").Err)
	names := []string{"grass clippings", "coffee grounds", "kitchen scraps", "dry leaves", "straw", "green weeds"}
	for b.Loop() {
		fit, all := 0, 0
		for i, first := range names {
			for _, second := range append([]string{""}, names[i+1:]...) {
				line := "mix 2 buckets of " + first
				if second != "" {
					line += " and 1 bucket of " + second
				}
				r := a.Line(context.Background(), call, line)
				if !strings.HasPrefix(r.Headline, "Add about") {
					continue
				}
				all++
				if len(r.Actions) > 0 {
					fit++
				}
			}
		}
		b.ReportMetric(float64(fit)/float64(all), "fit")
	}
}
