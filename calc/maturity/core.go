package maturity

import (
	"slices"
	"strings"
	"time"

	"heapside/calc/heap"
)

const (
	// shallowCm is the depth above which a reading is of the edge, not of the
	// middle (own choice; rules for windrows read at 30 to 61 cm).
	shallowCm = 15.0
	// oneRound is the time within which readings are one round over the heap
	// (own choice), of which the hottest stands for the middle.
	oneRound = 6 * time.Hour
)

// edges are the words for a spot that is not the middle.
var edges = []string{"edge", "side", "top", "surface", "outside", "bottom", "corner"}

// Core returns the state with only those readings that speak for the middle of
// the heap: shallow ones and ones of the edge are left out, and of one round
// over the heap the hottest is kept, unless it was turned in between.
func Core(s heap.State) heap.State {
	var kept []heap.Reading
	for _, r := range s.Readings {
		if outside(r) {
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

func outside(r heap.Reading) bool {
	if r.DepthCm > 0 && r.DepthCm < shallowCm {
		return true
	}
	return slices.Contains(edges, strings.ToLower(strings.TrimSpace(r.Spot)))
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
