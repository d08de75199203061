package hygiene

import (
	"slices"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"

	"heapside/calc/measure"
)

// TestCompare: what trials tell of ten days at 60 °C, read daily.
func TestCompare(t *testing.T) {
	s := kept(60, 10*day, 0)
	for _, r := range []struct {
		name  string
		trial Trial
		want  Tells
	}{
		{"killed by less", Trial{C: 55, For: 3 * day, Effect: Killed}, NoneLeft},
		{"killed by just as much", Trial{C: 60, For: 10 * day, Effect: Killed}, NoneLeft},
		{"killed above just that", Trial{C: 60, Over: true, For: day, Effect: Killed}, NeedsMore},
		{"killed by longer", Trial{C: 55, For: 28 * day, Effect: Killed}, NeedsMore},
		{"killed by hotter", Trial{C: 75, For: 12 * time.Hour, Effect: Killed}, NeedsMore},
		{"of a span the upper end counts", Trial{C: 55, MostC: 65, For: 7 * day, Effect: Killed}, NeedsMore},
		{"killed, the time not known", Trial{C: 50, Effect: Killed}, TimeUntold},
		{"killed by hotter, the time not known", Trial{C: 70, Effect: Killed}, NeedsMore},
		{"outlived longer", Trial{C: 60, For: 21 * day, Effect: Survived}, Outlived},
		{"outlived hotter", Trial{C: 62, MostC: 74, For: 21 * day, Effect: Survived}, Outlived},
		{"outlived shorter", Trial{C: 60, For: 7 * day, Effect: Survived}, Milder},
		{"unharmed by cooler, the time not known", Trial{C: 46, Effect: Unharmed}, Milder},
		{"unharmed by hotter, the time not known", Trial{C: 65, Effect: Unharmed}, Outlived},
		{"outlived what was below", Trial{C: 60, Below: true, For: 120 * day, Effect: Survived}, Milder},
		{"outlived what was below more", Trial{C: 70, Below: true, For: 120 * day, Effect: Survived}, Outlived},
		{"without a temperature", Trial{For: 180 * day, Effect: Survived}, HeatUntold},
	} {
		t.Run(r.name, func(t *testing.T) {
			assert.Equal(t, r.want, Compare([]Trial{r.trial}, s, nil)[0].Tells)
		})
	}
}

// TestHotterNeverTellsLess: a heap that was hotter is never short of a heat that
// a cooler one had.
func TestHotterNeverTellsLess(t *testing.T) {
	dead := []Tells{NeedsMore, TimeUntold, NoneLeftProbably, NoneLeft}
	all := slices.Concat(weedTrials, diseaseTrials, germTrials)
	for c := 40.0; c < 78; c += 2 {
		cool, hot := Compare(all, kept(c, 8*day, 2), nil), Compare(all, kept(c+2, 8*day, 2), nil)
		for i := range all {
			if all[i].Effect == Killed && cool[i].Tells != HeatUntold {
				assert.GreaterOrEqual(t, slices.Index(dead, hot[i].Tells), slices.Index(dead, cool[i].Tells), "%+v at %v", all[i], c)
			} else {
				assert.False(t, cool[i].Tells == Milder && hot[i].Tells == Outlived, "%+v at %v", all[i], c)
			}
		}
	}
}

// TestKnownNamesAreUnderstood by the look-up that they stand for.
func TestKnownNamesAreUnderstood(t *testing.T) {
	weeds, diseases, germs := Known()
	for _, list := range []struct {
		names []string
		find  func(string) []Trial
	}{{weeds, Weeds}, {germs, Germs}} {
		assert.NotEmpty(t, list.names)
		for _, name := range list.names {
			assert.NotEmpty(t, list.find(name), name)
		}
	}
	for _, name := range diseases {
		_, out := KeepOut(name, measure.Measures{})
		assert.True(t, out || len(Diseases(name)) > 0, name)
	}
	assert.Empty(t, Trials("bindweed seeds"))
}
