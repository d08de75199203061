package process

import "time"

// Mark is what a thermometer was expected to show at a moment of the past, given
// what had been logged by then.
type Mark struct {
	At      time.Time
	Reading Band
}

// Marks are set every six hours and kept for about 120 days (own choice: as much
// as a chart shows).
const (
	markEveryH = 6
	mostMarks  = 120 * 24 / markEveryH
)

// Past is how the estimate went, oldest first. After a long silence marks lie
// further apart.
func (t *Track) Past() []Mark { return append([]Mark(nil), t.now.past...) }

func (w *walk) mark(hour int64) {
	at := moment(hour)
	if hour%markEveryH != 0 || len(w.past) > 0 && !w.past[len(w.past)-1].At.Before(at) {
		return
	}
	if len(w.past) == mostMarks {
		w.past = append(w.past[:0], w.past[1:]...)
	}
	now := stage{members: w.cloud.members, weight: w.cloud.weight}
	w.past = append(w.past, Mark{at, now.reading(0).single()})
}

// single is the band in the precision of a snapshot.
func (b Band) single() Band {
	return Band{float64(float32(b.Low)), float64(float32(b.Mid)), float64(float32(b.High))}
}
