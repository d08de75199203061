package maturity_test

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"heapside/calc/maturity"
	"heapside/calc/measure"
)

// standing ranks what a test says, the best highest.
func standing(f maturity.Finding) int {
	rank := map[maturity.Outcome]int{maturity.Against: 0, maturity.Fresh: 10, maturity.Finished: 20}[f.Outcome]
	for _, good := range []bool{f.Plants, f.Seedlings, f.Stable} {
		if good {
			rank++
		}
	}
	return rank
}

// TestBetterNumbersAreNeverWorse raises or lowers one number of a test step by step.
func TestBetterNumbersAreNeverWorse(t *testing.T) {
	for _, law := range []struct {
		name, test, format string
		from, to, step     float64 // from the worst to the best
	}{
		{"more radishes", "radish", "%.0f of 20 sprouted and grew on", 0, 20, 1},
		{"more radishes beside a control", "radish", "%.0f of 20, control 18 of 20", 0, 20, 1},
		{"a higher index", "germination", "GI %.0f", 0, 300, 1},
		{"longer roots", "germination", "18 of 20, roots %.0f mm, control 19 of 20, roots 34 mm", 0, 90, 1},
		{"a smaller rise", "self-heating", "rose %.1f", 70, 0, -0.5},
		{"less respiration", "lab", "respiration %.1f mg CO2-C/g OM/day", 60, 0, -0.1},
		{"less oxygen", "lab", "respiration %.0f mg O2/kg OM/h", 1000, 0, -10},
		{"less ammonium", "lab", "respiration 4.5 mg CO2-C/g OM/day, NH4-N %.0f ppm, NO3-N 50 ppm", 600, 0, -5},
	} {
		t.Run(law.name, func(t *testing.T) {
			last := -1
			for v := law.from; (law.to-v)*law.step >= 0; v += law.step {
				now := standing(judge(t, law.test, law.format, v))
				require.GreaterOrEqual(t, now, last, law.format, v)
				last = now
			}
			assert.GreaterOrEqual(t, last, 20, "the best passes")
		})
	}
}

// TestUnitsAgree says one respiration and one rise in every unit.
func TestUnitsAgree(t *testing.T) {
	for v := 0.5; v < 20; v += 0.5 {
		want := judge(t, "lab", "respiration %g mg CO2-C/g OM/day", v)
		for _, said := range []string{
			fmt.Sprintf("respiration %g g CO2-C/kg OM/day", v),
			fmt.Sprintf("respiration %.6f mg CO2-C/g OM/h", v/24),
			fmt.Sprintf("respiration %.6f mg CO2/g VS per day", v/maturity.CarbonOfDioxide(1)),
		} {
			got := judge(t, "lab", "%s", said)
			assert.InDelta(t, want.Values[0].Value, got.Values[0].Value, 1e-3, said)
			if v != 4 && v != 5 && v != 8 { // on a line the last digit decides
				assert.Equal(t, want.Outcome, got.Outcome, said)
			}
		}
		c, _, err := maturity.ReadTest("self-heating", fmt.Sprintf("rose %g C", v), measure.Measures{})
		require.NoError(t, err)
		f, _, err := maturity.ReadTest("self-heating", fmt.Sprintf("from 68 to %g", 68+v*9/5), measure.Measures{Fahrenheit: true})
		require.NoError(t, err)
		k, _ := c.Number("rise")
		same, _ := f.Number("rise")
		assert.InDelta(t, k.Value, same.Value, 1e-9)
	}
}
