package maturity

import (
	"slices"
	"time"

	"heapside/calc/heap"
)

// oneRound is the time within which readings are one round over the heap (own
// choice), of which the hottest stands for the middle.
const oneRound = 6 * time.Hour

// Core returns the state with only those readings that speak for the middle of
// the heap: shallow ones and ones of the edge are left out, unless they are hot,
// for then the middle is; and of one round over the heap the hottest is kept,
// unless it was turned in between.
func Core(s heap.State) heap.State {
	var kept []heap.Reading
	for _, r := range s.Readings {
		if r.Outer() && r.C < HotC {
			continue
		}
		n := len(kept) - 1
		if n >= 0 && r.At.Sub(kept[n].At) <= oneRound && !turnedBetween(s.Turns, kept[n].At, r.At) {
			if r.C >= kept[n].C {
				kept[n] = r
			}
			continue
		}
		kept = append(kept, r)
	}
	s.Readings = kept
	return s
}

// turnedBetween says that the heap was turned after a and not after b.
func turnedBetween(turns []time.Time, a, b time.Time) bool {
	i, _ := slices.BinarySearchFunc(turns, a, func(t, a time.Time) int {
		if t.After(a) {
			return 1
		}
		return -1
	})
	return i < len(turns) && !turns[i].After(b)
}
