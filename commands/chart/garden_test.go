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

// gardens are the invented charts that tests draw, by name.
func gardens(t testing.TB) map[string]Data {
	full := northBay(t)
	us := full
	us.Zone, us.Fahrenheit, us.Inches = zone(t, "America/New_York"), true, true
	one := Data{Heap: "Lane Bin", Zone: full.Zone, Now: full.Now, ThresholdC: 55,
		Readings: []Reading{{At: full.Now.Add(-26 * time.Hour), C: 41}}}
	minutes := one
	minutes.Readings = []Reading{{At: full.Now.Add(-5 * time.Minute), C: 41}, {At: full.Now, C: 52}}
	winter := Data{Heap: "Hedge Bay", Zone: full.Zone, Now: full.Now, ThresholdC: 55, Marks: full.Marks[9:],
		Readings: append([]Reading{{At: full.Now.AddDate(0, 0, -4), C: -6, Air: true}}, full.Readings[9:]...)}
	for _, a := range full.Air[len(full.Air)-200:] {
		winter.Air = append(winter.Air, AirPoint{At: a.At, C: a.C - 9})
	}
	ahead := Data{Heap: "South Bay", Zone: full.Zone, Now: full.Now, Rain: full.Rain[len(full.Rain)-5:]}
	for _, b := range full.Band {
		if b.Forecast {
			ahead.Band = append(ahead.Band, b)
		}
	}
	return map[string]Data{
		"six weeks":         full,
		"american units":    us,
		"one reading":       one,
		"five minutes":      minutes,
		"winter, no band":   winter,
		"outlook alone":     ahead,
		"rain alone":        {Heap: "堆肥 North", Zone: full.Zone, Now: full.Now, Rain: full.Rain[:8]},
		"marks alone":       {Heap: "Lane Bin", Zone: full.Zone, Now: full.Now, Marks: full.Marks[:4]},
		"one point of band": {Heap: "Lane Bin", Zone: full.Zone, Now: full.Now, Band: full.Band[100:101]},
		"three years":       threeYears(full.Zone, full.Now),
	}
}

// threeYears is a record with more of everything than can be drawn.
func threeYears(z *time.Location, now time.Time) Data {
	d := Data{Heap: "The old leaf cage behind the shed of Millrace Lane", Zone: z, Now: now}
	for i := range 5000 {
		at := now.AddDate(-3, 0, 0).Add(time.Duration(i) * 315 * time.Minute)
		n := float64(i)
		d.Readings = append(d.Readings, Reading{At: at, C: 20 + 15*math.Sin(n/200) + 8*math.Sin(n/7)})
		d.Air = append(d.Air, AirPoint{At: at, C: 8 + 10*math.Sin(n/300)})
		d.Rain = append(d.Rain, RainBar{Day: at, Mm: math.Max(0, 9*math.Sin(n/11))})
		d.Marks = append(d.Marks, Mark{At: at, Kind: MarkKind(i % 4)})
	}
	return d
}

// course is an invented core temperature on the n-th day: it heats within days
// of the start and of each turn, and cools in between.
func course(n float64) float64 {
	c := 16.0
	for _, rise := range []struct{ day, by float64 }{{0, 66}, {14, 36}, {28, 22}} {
		if n > rise.day {
			c += rise.by * (1 - math.Exp(-(n-rise.day)/2)) * math.Exp(-(n-rise.day)/13)
		}
	}
	return c
}
