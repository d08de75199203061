package hygiene

import (
	"cmp"
	"math"
	"slices"
	"time"

	"heapside/calc/heap"
)

// Inside this package moments are counted from now, as durations of zero or
// less: comparing and subtracting them is most of the work.

// instant is what was read in the middle of a heap at one moment: the coldest
// and the hottest reading.
type instant struct {
	at           time.Duration
	low, high    float64
	noted, count int // readings whose depth was noted, and all
}

// in says that every reading of the moment lies in the band.
func (i instant) in(b band) bool { return b.holds(i.low) && b.holds(i.high) }

// turning is when the heap was turned, and the place in the middle of the last
// reading at or before it, -1 when there is none.
type turning struct {
	at   time.Duration
	read int
}

// series are the readings and turnings since the heap was last filled, oldest first.
type series struct {
	now    time.Time
	since  time.Duration
	middle []instant
	outer  []heap.Reading
	turns  []turning
}

// gather takes the readings and turnings that count: since the last refill, up
// to now, in any order. Readings of the air never count.
func gather(s heap.State) series {
	out := series{now: s.Now, since: s.RefilledAt.Sub(s.Now)}
	for _, r := range s.Readings {
		at := r.At.Sub(s.Now)
		switch {
		case !out.counts(at) || math.IsNaN(r.C) || math.IsInf(r.C, 0):
		case r.Outer():
			out.outer = append(out.outer, r)
		default:
			one := instant{at: at, low: r.C, high: r.C, count: 1}
			if r.DepthCm > 0 {
				one.noted = 1
			}
			out.middle = append(out.middle, one)
		}
	}
	out.middle = merged(out.middle)
	for _, t := range s.Turns {
		if at := t.Sub(s.Now); out.counts(at) {
			out.turns = append(out.turns, turning{at, out.before(at)})
		}
	}
	slices.SortFunc(out.turns, func(a, b turning) int { return cmp.Compare(a.at, b.at) })
	return out
}

func (s series) counts(at time.Duration) bool { return at >= s.since && at <= 0 }

// merged sorts instants and joins those of one moment.
func merged(all []instant) []instant {
	slices.SortStableFunc(all, func(a, b instant) int { return cmp.Compare(a.at, b.at) })
	kept := all[:0]
	for _, i := range all {
		n := len(kept) - 1
		if n < 0 || kept[n].at != i.at {
			kept = append(kept, i)
			continue
		}
		k := &kept[n]
		k.low, k.high = min(k.low, i.low), max(k.high, i.high)
		k.noted, k.count = k.noted+i.noted, k.count+i.count
	}
	return kept
}

// before is the place of the last moment read at or before at, -1 when there is none.
func (s series) before(at time.Duration) int {
	i, found := slices.BinarySearchFunc(s.middle, at, func(i instant, at time.Duration) int { return cmp.Compare(i.at, at) })
	if found {
		return i
	}
	return i - 1
}
