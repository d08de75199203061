package chart

import (
	"math"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
)

func zone(t testing.TB, name string) *time.Location {
	t.Helper()
	z, err := time.LoadLocation(name)
	require.NoError(t, err)
	return z
}

// northBay is six invented weeks of a bay of the Millrace Lane Community
// Garden with a two-week outlook: it heats, is turned twice, and the clock
// goes back on the way.
func northBay(t testing.TB) Data {
	z := zone(t, "Europe/London")
	start := time.Date(2026, 10, 10, 9, 30, 0, 0, z)
	d := Data{Heap: "North Bay", Zone: z, Now: time.Date(2026, 11, 21, 10, 0, 0, 0, z), ThresholdC: 55}
	day := func(n float64) time.Time { return start.Add(time.Duration(n * 24 * float64(time.Hour))) }
	for i, n := range []float64{1, 3, 5, 7, 10, 13, 14.2, 16, 19, 23, 27, 28.1, 31, 36, 41} {
		d.Readings = append(d.Readings, Reading{At: day(n), C: math.Round(course(n) + 3*math.Sin(float64(i)*2))})
	}
	for h := 0; h <= 56*24; h += 3 {
		n := float64(h) / 24
		mid, wide := course(n), 3+2*math.Abs(math.Sin(n/2))+math.Max(0, n-42)*0.5
		at := day(n)
		d.Band = append(d.Band, BandPoint{At: at, Low: mid - wide, Mid: mid, High: mid + wide*1.2, Forecast: at.After(d.Now)})
		d.Air = append(d.Air, AirPoint{At: at, C: 11 - n/8 + 4*math.Sin(2*math.Pi*(n-0.1)) + 2*math.Sin(n/3)})
	}
	for n := range 56 {
		if wet := math.Sin(float64(n)*0.7) + math.Sin(float64(n)*0.31); wet > 0.3 {
			d.Rain = append(d.Rain, RainBar{Day: midnight(day(float64(n)), 0), Mm: wet * 7, Forecast: n > 42})
		}
	}
	for _, n := range []float64{0, 0.1, 1, 2, 3.5, 6, 9, 12, 20, 29} {
		d.Marks = append(d.Marks, Mark{At: day(n), Kind: Added})
	}
	d.Marks = append(d.Marks, Mark{day(14), Turned}, Mark{day(28), Turned}, Mark{day(4), Watered},
		Mark{day(14), Watered}, Mark{day(35), Covered})
	return d
}

// course is an invented core temperature on the n-th day: it heats within days
// of the start and of each turn, and cools in between.
func course(n float64) float64 {
	c := 16.0
	for _, rise := range []struct{ day, by float64 }{{0, 56}, {14, 34}, {28, 22}} {
		if n > rise.day {
			c += rise.by * (1 - math.Exp(-(n-rise.day)/2)) * math.Exp(-(n-rise.day)/13)
		}
	}
	return c
}
