package advice

import (
	"math"
	"time"
)

// Sky is the weather of a garden by its own calendar. The zero Sky says nothing.
type Sky struct {
	Days []Day // oldest first
	// Located says that Lat, the degrees north of the equator, is known.
	Located bool
	Lat     float64
	Credits []string // who told of it, to be named with what rests on it; without "; "
}

// Day is the weather of one day. A day that is not over stands for two: what
// it brought so far, and what is Ahead.
type Day struct {
	Start  time.Time // its first moment, in the garden's zone
	RainMm float64   // negative: nobody told
	Told   bool      // MeanC and MinC are known
	MeanC  float64
	MinC   float64
	Ahead  bool
}

const (
	// rainAhead is how far ahead rain is looked for: a dry heap should not wait
	// longer, and forecasts beyond it are poor (own choice).
	rainAhead = 3 * day
	// leastRainMm is the rain of a day below which it counts as dry (own choice).
	leastRainMm = 1.0
	// frostC is the night below which it counts as frost: 28 F, the line of a hard
	// freeze (US National Weather Service, from memory), rounded.
	frostC = -2.0
)

// shower is rain to come.
type shower struct {
	mm   float64
	by   time.Time // the last day that brings some
	from time.Time // the first
}

// coming is the rain of the days ahead; false when nobody told of it or none
// is worth a word.
func (s Sky) coming(now time.Time) (shower, bool) {
	var r shower
	for _, d := range s.Days {
		if !d.Ahead || !d.Start.Before(now.Add(rainAhead)) || d.RainMm < 0 {
			continue
		}
		r.mm += d.RainMm
		if d.RainMm >= leastRainMm {
			r.by = d.Start
			if r.from.IsZero() {
				r.from = d.Start
			}
		}
	}
	return r, !r.by.IsZero()
}

// fell is the rain that is known to have fallen since a moment, without that of
// its own day, in mm.
func (s Sky) fell(since time.Time) float64 {
	mm := 0.0
	for _, d := range s.Days {
		if !d.Ahead && d.Start.After(since) {
			mm += max(0, d.RainMm)
		}
	}
	return mm
}

// frost is the coldest night of the days ahead, if it is a frosty one.
func (s Sky) frost(now time.Time) (Day, bool) {
	coldest := Day{MinC: math.Inf(1)}
	for _, d := range s.Days {
		if d.Ahead && d.Told && d.Start.Before(now.Add(rainAhead)) && d.MinC < coldest.MinC {
			coldest = d
		}
	}
	return coldest, coldest.MinC <= frostC
}

// spell is a run of days.
const (
	spellDays  = 5    // of days that are told (own choice)
	spellRain  = 2.0  // mm in all that still count as none (own choice)
	spellMeanC = 20.0 // mean from which the days count as warm (own choice)
)

// dryWarm says that the days to come are known to be dry and warm.
func (s Sky) dryWarm(now time.Time) bool {
	n, mm, c := 0, 0.0, 0.0
	for _, d := range s.Days {
		if d.Ahead && d.Told && d.RainMm >= 0 && d.Start.Before(now.Add(spellDays*day)) {
			n, mm, c = n+1, mm+d.RainMm, c+d.MeanC
		}
	}
	return n >= spellDays && mm <= spellRain && c/float64(n) >= spellMeanC
}

// dayName says which day a moment lies in, as seen from now: "today",
// "tomorrow", "Thursday". Both are taken in the zone of the day.
func dayName(d, now time.Time) string {
	now = now.In(d.Location())
	for i, name := range []string{"today", "tomorrow"} {
		if y, m, n := now.AddDate(0, 0, i).Date(); d.Year() == y && d.Month() == m && d.Day() == n {
			return name
		}
	}
	return d.Weekday().String()
}
