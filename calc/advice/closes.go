package advice

import (
	"slices"
	"time"

	"heapside/calc/heap"
)

// logLate is how long before a reminder something may have been done that is
// logged only after it (own choice).
const logLate = 3 * day

// DoneBy is the first standing entry that was logged after since and does a job
// of a kind; false when there is none.
func DoneBy(kind string, since time.Time, s heap.State) (heap.Entry, bool) {
	var first heap.Entry
	k, _ := kindOf(kind)
	for _, e := range s.Entries {
		if !slices.Contains(k.closes, e.Payload.Kind()) || e.Logged.Before(since) || e.At.Before(since.Add(-logLate)) {
			continue
		}
		if does(kind, e.Payload) && (first.ID == 0 || e.ID < first.ID) {
			first = e
		}
	}
	return first, first.ID != 0
}

// does reports whether a payload of the right kind is also the right way round.
func does(kind string, p heap.Payload) bool {
	switch p := p.(type) {
	case heap.Temp:
		return (p.Spot == heap.SpotAir) == (kind == Air)
	case heap.Covered:
		return p.On == (kind == Cover)
	}
	return true
}
