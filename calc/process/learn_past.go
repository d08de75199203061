package process

import "time"

// Mark is what a thermometer was expected to show at a moment of the past, given
// what had been logged by then.
type Mark struct {
	At      time.Time
	Reading Band
}

// Marks are set every six hours. When there are too many, every second of the
// older half goes, so that those of some weeks stay dense and the first of all
// stays for years (own choice).
const (
	markEveryH = 6
	mostMarks  = 160 * 24 / markEveryH
)

// Past is how the estimate went, oldest first. Marks lie further apart long ago
// and in a long silence.
func (t *Track) Past() []Mark { return append([]Mark(nil), t.now.past...) }

func (w *walk) mark(hour int64) {
	at := moment(hour)
	if hour%markEveryH != 0 || len(w.past) > 0 && !w.past[len(w.past)-1].At.Before(at) {
		return
	}
	if len(w.past) == mostMarks {
		w.past = thinned(w.past)
	}
	now := stage{members: w.cloud.members, weight: w.cloud.weight}
	w.past = append(w.past, Mark{at, now.reading(w.settings.depthCm).single()})
}

// single is the band in the precision of a snapshot.
func (b Band) single() Band {
	return Band{float64(float32(b.Low)), float64(float32(b.Mid)), float64(float32(b.High))}
}

// thinned keeps every second mark of the older half, the first of all among
// them, and all of the newer.
func thinned(past []Mark) []Mark {
	half := len(past) / 2
	kept := past[:0]
	for i, m := range past {
		if i >= half || i%2 == 0 {
			kept = append(kept, m)
		}
	}
	return kept
}
