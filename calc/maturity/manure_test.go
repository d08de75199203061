package maturity

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"heapside/calc/heap"
	"heapside/calc/hygiene"
	"heapside/calc/measure"
)

// TestTheManureCautionSaysWhatTheHeatWas: twenty days at 60 °C with five
// turnings, read daily, read at both ends with an estimate between, or cooler.
func TestTheManureCautionSaysWhatTheHeatWas(t *testing.T) {
	now := time.Date(2026, 6, 30, 9, 0, 0, 0, time.UTC)
	for _, r := range []struct {
		name  string
		every time.Duration
		c     float64
		want  string
	}{
		{"read daily", 24 * time.Hour, 60, "was met where the heap was read; of the rest that says nothing"},
		{"read at both ends", 20 * 24 * time.Hour, 60, "was probably met, but readings do not show it"},
		{"cooler", 24 * time.Hour, 50, "no readings show that the heat rule which spares the wait was met"},
	} {
		t.Run(r.name, func(t *testing.T) {
			s := heap.State{Now: now, RefilledAt: now.AddDate(0, 0, -20), Content: []heap.Added{{Material: "manure-horse", VolumeL: 200}}}
			var model Model
			for at := s.RefilledAt; !at.After(now); at = at.Add(12 * time.Hour) {
				model.Past = append(model.Past, hygiene.Point{At: at, Low: r.c - 2, Mid: r.c})
				if at.Sub(s.RefilledAt)%r.every == 0 {
					s.Readings = append(s.Readings, heap.Reading{At: at, C: r.c, DepthCm: 40})
				}
			}
			for n := range 5 {
				s.Turns = append(s.Turns, s.RefilledAt.AddDate(0, 0, 1+3*n))
			}
			cautions := AssessWith(s, measure.Measures{}, model).Cautions
			require.Len(t, cautions, 1)
			assert.Contains(t, cautions[0], r.want)
			assert.Contains(t, cautions[0], "120 days before harvest")
			assert.NotContains(t, cautions[0], "safe")
		})
	}
}
