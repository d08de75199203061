package hygiene

import (
	"math"
	"slices"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
)

// TestHeldByTheEstimate: how long a heap was probably at 55 °C by an estimate at
// 60 °C, or one that rises from 50 to 60 °C.
func TestHeldByTheEstimate(t *testing.T) {
	points := func(daysAgo ...float64) Curve {
		var c Curve
		for _, d := range daysAgo {
			c = append(c, Point{At: ago(d), Low: 52, Mid: 60})
		}
		return c
	}
	rising := Curve{{At: ago(2), Low: 40, Mid: 50}, {At: ago(1), Low: 50, Mid: 60}}
	rows := []struct {
		name  string
		logs  []log
		curve Curve
		want  time.Duration
	}{
		{"no reading, an estimate", nil, points(2, 1), day},
		{"points more than a day apart", nil, points(3, 1.9), 0},
		{"half of a rise", nil, rising, day / 2},
		{"before the heap was filled", nil, points(31, 30.5, 30), 0},
		{"across the filling", nil, points(30.5, 29.5), day / 2},
		{"after now", nil, points(0.5, -0.5), day / 2},
		{"points that are no numbers", nil, slices.Concat(points(2, 1), Curve{{At: ago(1.5), Mid: math.NaN(), Low: math.NaN()}}), day},
		{"close readings below overrule it", []log{{2, temp(50)}, {1, temp(50)}}, points(2, 1), 0},
		{"close readings above overrule it", []log{{2, temp(60)}, {1, temp(60)}}, rising, day},
		{"readings that differ leave it to the estimate", []log{{2, temp(60)}, {1, temp(50)}}, points(2, 1), day},
		{"far readings leave it to the estimate", []log{{10, temp(50)}, {1, temp(50)}}, points(3, 2, 1), 2 * day},
		{"where it is silent, a line counts", []log{{5, temp(60)}, {2, temp(50)}}, points(2, 1), day*3/2 + day},
	}
	for _, r := range rows {
		t.Run(r.name, func(t *testing.T) {
			_, probable := Held(story(append([]log{{30, added(600)}}, r.logs...)...), r.curve, 55)
			assert.Equal(t, r.want, probable)
		})
	}
}

// TestCautious counts by the low end of the estimate.
func TestCautious(t *testing.T) {
	curve := Curve{{At: ago(2), Low: 50, Mid: 60}, {At: ago(1), Low: 60, Mid: 70}}
	f := finding(Evaluate(story(log{30, added(600)}), curve), "pfrp-static")
	assert.Equal(t, day, f.Probable.Hot)
	assert.Equal(t, day/2, f.Cautious.Hot)
	assert.Zero(t, f.Certain.Hot)
}
