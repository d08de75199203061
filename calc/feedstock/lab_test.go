package feedstock_test

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"heapside/calc/fault"
	"heapside/calc/feedstock"
)

func TestFromLab(t *testing.T) {
	for _, row := range []struct {
		name                                  string
		sheet                                 feedstock.Lab
		kind                                  feedstock.Kind
		carbon, ratio, moisture, density, vol float64
		why                                   string
	}{
		{"all given", feedstock.Lab{CN: 20, Carbon: 42, Organic: 86, Moisture: 80, Density: 900},
			feedstock.Green, 42, 20, 80, 900, 86, "as given"},
		{"nitrogen and carbon", feedstock.Lab{Nitrogen: 2, Carbon: 44, Moisture: 50, Density: 100},
			feedstock.Green, 44, 22, 50, 100, 90.2, "44/2; 44 x 2.05 (SWOLF fit)"},
		{"ash only", feedstock.Lab{CN: 60, Ash: 18, Moisture: 12, Density: 60},
			feedstock.Brown, 40, 60, 12, 60, 82, "(100 - 18)/2.05 (SWOLF fit)"},
		{"a weighed bucket", feedstock.Lab{CN: 30, Carbon: 45, Ash: 10, Moisture: 60, KgPerLitre: 0.31},
			feedstock.Green, 45, 30, 60, 310, 90, "0.31 kg/l = 310 kg/m3"},
		{"ratio alone, green", feedstock.Lab{CN: 15}, feedstock.Green, 45, 15, 75, 300, 92.25, "own choices"},
		{"ratio alone, brown", feedstock.Lab{CN: 90}, feedstock.Brown, 45, 90, 20, 120, 92.25, "own choices"},
	} {
		t.Run(row.name, func(t *testing.T) {
			f, err := feedstock.FromLab("Brewery  Sludge", row.sheet)
			require.NoError(t, err)
			assert.Equal(t, "brewery-sludge", f.ID)
			assert.Equal(t, "brewery sludge", f.Name)
			assert.Equal(t, row.kind, f.Kind)
			assert.InDelta(t, row.carbon, f.Carbon.Typical, 0.01, row.why)
			assert.InDelta(t, row.ratio, f.CN.Typical, 0.01, row.why)
			assert.InDelta(t, row.moisture, f.Moisture.Typical, 0.01, row.why)
			assert.InDelta(t, row.density, f.Density.Typical, 0.01, row.why)
			assert.InDelta(t, row.vol, f.Volatile.Typical, 0.01, row.why)
			for _, p := range []feedstock.Property{f.Carbon, f.CN, f.Moisture, f.Density, f.Volatile, f.Degradable} {
				assertWithin(t, p, 0, 1600)
			}
		})
	}
}

// What is not measured is less certain than what is.
func TestFromLabWidensWhatIsMissing(t *testing.T) {
	bare, err := feedstock.FromLab("sludge", feedstock.Lab{CN: 20})
	require.NoError(t, err)
	full, err := feedstock.FromLab("sludge", feedstock.Lab{CN: 20, Carbon: 45, Moisture: 75, Density: 300})
	require.NoError(t, err)
	width := func(p feedstock.Property) float64 { return p.High - p.Low }
	assert.Greater(t, width(bare.Carbon), width(full.Carbon))
	assert.Greater(t, width(bare.Moisture), width(full.Moisture))
	assert.Greater(t, width(bare.Density), width(full.Density))
	assert.Equal(t, "judgement", bare.Density.Source)
	assert.Equal(t, "group", full.Density.Source)
}

func TestFromLabRefuses(t *testing.T) {
	for _, row := range []struct {
		name   string
		called string
		sheet  feedstock.Lab
		code   fault.Code
		says   string
	}{
		{"neither ratio nor nitrogen", "sludge", feedstock.Lab{Moisture: 80}, fault.Missing, "C:N or its nitrogen"},
		{"ratio too low", "sludge", feedstock.Lab{CN: 0.4}, fault.OutOfRange, "cannot be 0.4"},
		{"ratio too high", "sludge", feedstock.Lab{CN: 1501}, fault.OutOfRange, "1 to 1500"},
		{"negative ratio", "sludge", feedstock.Lab{CN: -20}, fault.OutOfRange, "-20"},
		{"not a number", "sludge", feedstock.Lab{CN: math.NaN()}, fault.OutOfRange, "NaN"},
		{"endless", "sludge", feedstock.Lab{CN: 20, Density: math.Inf(1)}, fault.OutOfRange, "density"},
		{"moisture", "sludge", feedstock.Lab{CN: 20, Moisture: 99}, fault.OutOfRange, "1 to 98"},
		{"carbon", "sludge", feedstock.Lab{CN: 20, Carbon: 66}, fault.OutOfRange, "1 to 65"},
		{"density", "sludge", feedstock.Lab{CN: 20, Density: 4}, fault.OutOfRange, "5 to 1600"},
		{"kilograms for grams", "sludge", feedstock.Lab{CN: 20, KgPerLitre: 310}, fault.OutOfRange, "0.005 to 1.6"},
		{"three that disagree", "sludge", feedstock.Lab{CN: 20, Carbon: 40, Nitrogen: 4}, fault.OutOfRange, "makes 2 % nitrogen"},
		{"ash and organic matter", "sludge", feedstock.Lab{CN: 20, Ash: 40, Organic: 90}, fault.OutOfRange, "add up to 100"},
		{"more carbon than organic matter", "sludge", feedstock.Lab{CN: 20, Carbon: 50, Organic: 40}, fault.OutOfRange, "more than its organic"},
		{"far too little nitrogen", "sludge", feedstock.Lab{Nitrogen: 0.02, Carbon: 50}, fault.OutOfRange, "C:N of"},
		{"no name", "  ", feedstock.Lab{CN: 20}, fault.Missing, "no name"},
		{"only noise", "some of the", feedstock.Lab{CN: 20}, fault.Missing, "no name"},
		{"everyone", "@everyone", feedstock.Lab{CN: 20}, fault.NotUnderstood, "@everyone"},
		{"markup", "**sludge**", feedstock.Lab{CN: 20}, fault.NotUnderstood, "cannot be a material's name"},
		{"long", strings.Repeat("sludge ", 50), feedstock.Lab{CN: 20}, fault.TooLong, "at most 60"},
		{"long and wide", strings.Repeat("é", 61), feedstock.Lab{CN: 20}, fault.TooLong, "at most 60"},
	} {
		t.Run(row.name, func(t *testing.T) {
			_, err := feedstock.FromLab(row.called, row.sheet)
			e, ok := fault.As(err)
			require.True(t, ok)
			assert.Equal(t, row.code, e.Code)
			assert.Contains(t, e.Message, row.says)
			assert.Less(t, len(e.Message), 300)
		})
	}
}
