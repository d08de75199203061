package process

import (
	"math"
	"math/rand/v2"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"

	"heapside/calc/heap"
)

func TestForecastScore(t *testing.T) {
	f := Forecast{Ahead: 72 * time.Hour, Band: Band{40, 50, 56}, LastC: 58}
	for _, row := range []struct {
		name string
		read float64
		want Score
	}{
		{"in the middle", 50, Score{In80: true, AbsErr: 0, PersistErr: 8, Stretch: 0}},
		{"at the lower edge", 40, Score{In80: true, AbsErr: 10, PersistErr: 18, Stretch: 1}},
		{"above the upper edge", 62, Score{In80: false, AbsErr: 12, PersistErr: 4, Stretch: 2}},
	} {
		t.Run(row.name, func(t *testing.T) {
			row.want.Ahead = f.Ahead
			assert.Equal(t, row.want, f.Score(row.read))
		})
	}
	f.LastC = math.NaN()
	assert.True(t, math.IsNaN(f.Score(50).PersistErr))
}

// scored draws readings from a normal whose true spread is wide times what the
// bands say.
func scored(n int, wide float64) []Score {
	r := rand.New(rand.NewPCG(1, 1))
	scores := make([]Score, n)
	for i := range scores {
		// The 10 and 90 % points of a normal lie 1.2816 standard deviations out.
		scores[i] = Forecast{Band: Band{50 - 1.2816*5, 50, 50 + 1.2816*5}, LastC: 45}.Score(50 + wide*5*r.NormFloat64())
	}
	return scores
}

func TestWideningBringsCoverageBack(t *testing.T) {
	assert.Equal(t, 1.0, Widening(nil))
	for _, wide := range []float64{0.9, 1, 1.5, 2, 2.5} {
		assert.InDelta(t, wide, Widening(scored(2000, wide)), 0.1*wide, "spread %g", wide)
	}
	assert.Equal(t, leastWiden, Widening(scored(500, 0.1)), "never narrower than this")
	assert.Equal(t, mostWiden, Widening(scored(500, 50)), "never wider than this")
	assert.Equal(t, 1.0, Widening([]Score{{Stretch: math.NaN()}}))
}

func TestWideningMovesSlowlyAtFirst(t *testing.T) {
	missed := []Score{{Stretch: 3}}
	one := Widening(missed)
	assert.Greater(t, one, 1.0)
	assert.Less(t, one, 1.5, "one miss in ten right ones is no reason to double the bands")
	assert.Greater(t, Widening(append(missed, missed[0], missed[0], missed[0])), one)
}

func TestCountForPeople(t *testing.T) {
	assert.Equal(t, "No earlier outlook has met its reading yet.", Count(nil).String())
	assert.Equal(t, "The one earlier outlook that met its reading missed.", Count(make([]Score, 1)).String())
	scores := make([]Score, 12)
	for i := range 9 {
		scores[i] = Score{In80: true, AbsErr: 2, PersistErr: 4}
	}
	got := Count(scores)
	assert.Equal(t, "Of 12 earlier outlooks, 9 held; about 10 should.", got.String())
	assert.InDelta(t, 1.5, got.MeanErr, 1e-12)
	assert.InDelta(t, 3, got.PersistErr, 1e-12)
}

func TestWidenedBandKeepsItsMiddle(t *testing.T) {
	assert.Equal(t, Band{30, 50, 60}, Band{40, 50, 55}.Widened(2))
	assert.Equal(t, Band{40, 50, 55}, Band{40, 50, 55}.Widened(1))
}

func TestForecastsMeetTheirReadings(t *testing.T) {
	given := []Forecast{
		{At: spring, Ahead: 24 * time.Hour, Band: Band{40, 50, 60}, LastC: 48},
		{At: spring, Ahead: 72 * time.Hour, Band: Band{40, 50, 60}, LastC: 48},
	}
	for _, row := range []struct {
		name string
		say  func(*diary)
		errs []float64
	}{
		{"no reading", func(*diary) {}, nil},
		{"one near each", func(d *diary) { d.at(1.2, heap.Temp{C: 47}); d.at(2.6, heap.Temp{C: 54}) }, []float64{3, 4}},
		{"the nearer of two", func(d *diary) { d.at(0.7, heap.Temp{C: 47}); d.at(0.9, heap.Temp{C: 49}) }, []float64{1}},
		{"too far off", func(d *diary) { d.at(2, heap.Temp{C: 47}) }, nil},
		{"turned in between", func(d *diary) { d.at(1.1, heap.Temp{C: 47}); d.at(2, heap.Turned{}); d.at(3, heap.Temp{C: 30}) }, []float64{3}},
		{"turned after", func(d *diary) { d.at(3, heap.Temp{C: 47}); d.at(3.1, heap.Turned{}) }, []float64{3}},
		{"the air and the edge", func(d *diary) {
			d.at(1, heap.Temp{C: 12, Spot: "air"})
			d.at(1, heap.Temp{C: 25, Spot: "left side"})
		}, nil},
	} {
		t.Run(row.name, func(t *testing.T) {
			d := diary{start: spring}
			row.say(&d)
			var errs []float64
			for _, s := range Scores(given, heap.Read(heap.Heap{}, d.entries, after(20))) {
				errs = append(errs, s.AbsErr)
			}
			assert.Equal(t, row.errs, errs)
		})
	}
}

func TestOutlooksAreKeptForScoring(t *testing.T) {
	o := Outlook{At: spring, LastC: 55, Hours: make([]Band, 14*24+1)}
	o.Hours[72] = Band{40, 50, 60}
	kept := o.Forecasts()
	assert.Len(t, kept, len(forecastDays))
	assert.Contains(t, kept, Forecast{At: spring, Ahead: 72 * time.Hour, Band: Band{40, 50, 60}, LastC: 55})
	assert.Empty(t, Outlook{}.Forecasts())
}
