package chart

import (
	"cmp"
	"slices"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestThinnedDotsKeepTheExtremes(t *testing.T) {
	d := threeYears(time.UTC, noon)
	v, err := look(d)
	require.NoError(t, err)
	dots := v.dots(v.readings)
	byDegree := func(a, b Reading) int { return cmp.Compare(a.C, b.C) }
	assert.Equal(t, slices.MinFunc(v.readings, byDegree), slices.MinFunc(dots, byDegree))
	assert.Equal(t, slices.MaxFunc(v.readings, byDegree), slices.MaxFunc(dots, byDegree))
	assert.LessOrEqual(t, len(dots), int(2*(1/dotShare+1)), "two for each slice of the window")
}

func TestRibbonsMeetAndKeepTheirEnds(t *testing.T) {
	v, err := look(northBay(t))
	require.NoError(t, err)
	ribbons := v.ribbons()
	require.Len(t, ribbons, 2, "an estimate and an outlook")
	estimate, outlook := ribbons[0], ribbons[1]
	last := estimate[len(estimate)-1]
	assert.Equal(t, last.At, outlook[0].At, "the outlook starts where the estimate ends")
	assert.Equal(t, last.Mid, outlook[0].Mid)
	assert.True(t, outlook[0].Forecast)
	slice := time.Duration(bandShare * float64(v.to.Sub(v.from)))
	assert.WithinDuration(t, v.band[0].At, estimate[0].At, slice)
	assert.WithinDuration(t, v.band[len(v.band)-1].At, outlook[len(outlook)-1].At, slice)
	for _, ribbon := range ribbons {
		for _, b := range ribbon {
			require.True(t, b.Low <= b.Mid && b.Mid <= b.High)
		}
	}
}

func TestAirOfALongWindowIsTheMeanOfEachDay(t *testing.T) {
	d := Data{Now: noon}
	for h := -20 * 24; h < 6; h++ { // ends with six hours of a day after eighteen of it
		at := noon.Add(time.Duration(h) * time.Hour)
		d.Air = append(d.Air, AirPoint{At: at, C: float64(at.Hour())})
	}
	v, err := look(d)
	require.NoError(t, err)
	require.Len(t, v.air, 21, "the first day has its half")
	for _, a := range v.air[1 : len(v.air)-1] {
		assert.InDelta(t, 11.5, a.C, 1e-9, "the mean of 0 to 23")
		assert.Equal(t, 12, a.At.Hour())
	}
}

func TestWordsCountWhatReachedTheThreshold(t *testing.T) {
	tests := []struct {
		name string
		c    []float64
		want string
	}{
		{"none", []float64{40, 54.9}, "No reading reached the hygiene line at 55 °C."},
		{"one, to the degree", []float64{40, 55}, "One reading reached the hygiene line at 55 °C."},
		{"two", []float64{56, 54, 61}, "2 readings reached the hygiene line at 55 °C."},
		{"the air does not count", []float64{}, "No reading of the heap. One reading of the air."},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			d := Data{Now: noon, ThresholdC: 55, Readings: []Reading{{At: noon, C: 70, Air: true}}}
			for i, c := range tt.c {
				d.Readings = append(d.Readings, Reading{At: noon.Add(time.Duration(-i) * time.Hour), C: c})
			}
			assert.Contains(t, Alt(d), tt.want)
		})
	}
}

// The expected ends are the rule's own: at least 0 to 70 °C or 20 to 160 °F,
// in whole tens or twenties.
func TestDegreeScaleHoldsEverything(t *testing.T) {
	tests := []struct {
		name       string
		c          []float64
		fahrenheit bool
		low, high  float64
		labels     int
	}{
		{"as always", []float64{12, 64}, false, 0, 70, 8},
		{"frost", []float64{-1, 40}, false, -10, 70, 4},
		{"very hot", []float64{75}, false, 0, 80, 5},
		{"Fahrenheit", []float64{12, 64}, true, 20, 160, 8},
		{"frost in Fahrenheit", []float64{-10}, true, 0, 160, 5},
		{"all there is", []float64{coldestC, hottestC}, false, -60, 120, 5},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			d := Data{Now: noon, Fahrenheit: tt.fahrenheit}
			for _, c := range tt.c {
				d.Readings = append(d.Readings, Reading{At: noon, C: c})
			}
			v, err := look(d)
			require.NoError(t, err)
			s := v.degreeScale()
			assert.Equal(t, tt.low, s.low)
			assert.Equal(t, tt.high, s.high)
			assert.Len(t, s.labels, tt.labels)
		})
	}
}
