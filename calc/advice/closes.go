package advice

import (
	"slices"
	"time"

	"heapside/calc/heap"
)

// closes are the entries that say that a job of a kind was done.
var closes = map[string][]heap.Kind{
	Cool:    {heap.KindTurned},
	Turn:    {heap.KindTurned},
	Browns:  {heap.KindTurned, heap.KindAdded},
	Greens:  {heap.KindTurned, heap.KindAdded},
	Water:   {heap.KindWatered},
	Cover:   {heap.KindCovered},
	Reading: {heap.KindTemp},
	Air:     {heap.KindTemp},
	Feel:    {heap.KindFeel},
	Test:    {heap.KindTest},
	Use:     {heap.KindFinished},
	Log:     {heap.KindAdded},
}

// Closes are the kinds of entry that say that a job of a kind was done; none
// where nothing that is logged does.
func Closes(kind string) []heap.Kind { return closes[kind] }

// logLate is how long before a reminder something may have been done that is
// logged only after it (own choice).
const logLate = 3 * day

// DoneBy is the first standing entry that was logged after since and does a job
// of a kind; false when there is none.
func DoneBy(kind string, since time.Time, s heap.State) (heap.Entry, bool) {
	var first heap.Entry
	for _, e := range s.Entries {
		if !slices.Contains(closes[kind], e.Payload.Kind()) || e.Logged.Before(since) || e.At.Before(since.Add(-logLate)) {
			continue
		}
		if t, ok := e.Payload.(heap.Temp); ok && (t.Spot == heap.SpotAir) != (kind == Air) {
			continue
		}
		if first.ID == 0 || e.ID < first.ID {
			first = e
		}
	}
	return first, first.ID != 0
}
