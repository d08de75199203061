package hygiene

import (
	"math"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"

	"heapside/calc/heap"
)

// TestD: the values at each edge of the regimes, by the equations of 15A NCAC 02T .1106.
func TestD(t *testing.T) {
	const minute = 1.0 / 60 / 24
	rows := []struct {
		name   string
		c      float64
		solids Solids
		want   float64 // days; 0: outside the equations
	}{
		{"below 50", 49.999, Solids7, 0},
		{"below 50, thin", 49.999, SolidsThin, 0},
		{"no number", math.NaN(), Solids7, 0},
		{"without end", math.Inf(1), SolidsThin, 0},
		{"67 C", 67, Solids7, 79.06 * minute}, // 131,700,000 / 10^9.38 = 0.05490 d
		{"20 minutes at the least", 90, Solids7, 20 * minute},
		{"thin, 65 C", 65, SolidsThin, 57.27 * minute}, // 50,070,000 / 10^9.1 = 0.03977 d
		{"thin, 30 minutes at the least", 69, SolidsThin, 30 * minute},
		{"thin, less than 30 minutes by the other equation", 72, SolidsThin, 131_700_000 / math.Pow(10, 10.08)},
		{"thin, 15 seconds at the least", 95, SolidsThin, minute / 4},
	}
	for _, r := range rows {
		t.Run(r.name, func(t *testing.T) {
			d, ok := D(r.c, r.solids)
			assert.Equal(t, r.want != 0, ok)
			assert.InDelta(t, r.want, d, 0.01*minute)
		})
	}
}

func TestDNeverRises(t *testing.T) {
	for _, s := range []Solids{Solids7, SolidsThin} {
		last, _ := D(50, s)
		for c := 50.01; c < 100; c += 0.01 {
			d, ok := D(c, s)
			assert.True(t, ok)
			assert.LessOrEqual(t, d, last+1e-12, "at %g C", c)
			last = d
		}
	}
}

func TestSeverity(t *testing.T) {
	read := func(logs ...log) heap.State { return story(append([]log{{30, added(600)}}, logs...)...) }
	d55, _ := D(55, Solids7)
	rows := []struct {
		name              string
		s                 heap.State
		certain, probable float64
	}{
		{"a day at 55", read(log{1, temp(55)}, log{0, temp(55)}), 1 / d55, 1 / d55},
		{"a day below 50", read(log{1, temp(49)}, log{0, temp(49)}), 0, 0},
		{"two days between readings", read(log{2, temp(55)}, log{0, temp(55)}), 0, 2 / d55},
		{"four days between readings", read(log{4, temp(70)}, log{0, temp(70)}), 0, 0},
		{"one reading", read(log{1, temp(70)}), 0, 0},
	}
	for _, r := range rows {
		t.Run(r.name, func(t *testing.T) {
			got := Evaluate(r.s, nil).Severity
			assert.InDelta(t, r.certain, got.Certain, 1e-9)
			assert.InDelta(t, r.probable, got.Probable, 1e-9)
		})
	}
}

// TestSeverityOnASlope integrates exactly: between 55 and 65 °C, D falls by 10^1.4,
// so that a day's sum is (1/D65 - 1/D55) / (10 x 0.14 ln 10) x 10.
func TestSeverityOnASlope(t *testing.T) {
	d55, _ := D(55, Solids7)
	d65, _ := D(65, Solids7)
	s := story(log{30, added(600)}, log{1, temp(55)}, log{0, temp(65)})
	got := Evaluate(s, nil).Severity
	assert.InEpsilon(t, (1/d65-1/d55)/(1.4*math.Ln10), got.Probable, 1e-3)
	assert.InDelta(t, 1/d55, got.Certain, 1e-9)
}

func TestSeveritySay(t *testing.T) {
	assert.Empty(t, Severity{}.Say())
	assert.Equal(t, "For comparison only: the heat read adds up to 1.3 times what 40 CFR 503.32(a)(3) asks of sludge heated in a vessel; that rule does not stand for composting (327 IAC 6.1-4-13).",
		Severity{Certain: 1, Probable: 1.3}.Say())
	assert.Zero(t, dose(20, time.Hour))
}
