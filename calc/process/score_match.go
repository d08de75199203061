package process

import (
	"time"

	"heapside/calc/heap"
)

// forecastDays are how many days ahead an Outlook is held to account for.
var forecastDays = []int{1, 2, 3, 5, 7, 10, 14}

// Forecasts is what to keep of an outlook so that readings to come can score it.
func (o Outlook) Forecasts() []Forecast {
	var out []Forecast
	for _, days := range forecastDays {
		if h := 24 * days; h < len(o.Hours) {
			out = append(out, Forecast{At: o.At, Ahead: time.Duration(h) * time.Hour, Band: o.Hours[h], LastC: o.LastC})
		}
	}
	return out
}

// matchWithin is how far a reading may lie from the moment that was forecast
// (own choice: a core moves little in half a day).
const matchWithin = 12 * time.Hour

// Scores holds forecasts of one heap against the readings on its record. One
// whose heap was turned, added to, watered, covered or moved in between is
// passed over: it said what would be if the heap was left alone. Readings of the
// air and edges do not count.
func Scores(given []Forecast, s heap.State) []Score {
	var out []Score
	for _, f := range given {
		due := f.At.Add(f.Ahead)
		r, ok := nearest(s.Readings, due)
		if ok && r.At.After(f.At) && !stirred(s.Entries, f.At, r.At) {
			out = append(out, f.Score(r.C))
		}
	}
	return out
}

func nearest(readings []heap.Reading, due time.Time) (best heap.Reading, ok bool) {
	within := matchWithin
	for _, r := range readings {
		if gap := r.At.Sub(due).Abs(); gap <= within && !atEdge(r.Spot) {
			best, ok, within = r, true, gap
		}
	}
	return best, ok
}

// stirred reports whether something was done to the heap after one moment and
// up to another.
func stirred(entries []heap.Entry, after, upTo time.Time) bool {
	for _, e := range entries {
		switch e.Payload.(type) {
		case heap.Added, heap.Turned, heap.Watered, heap.Moved, heap.Covered:
			if e.At.After(after) && !e.At.After(upTo) {
				return true
			}
		}
	}
	return false
}
