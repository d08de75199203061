package hygiene

import (
	"cmp"
	"slices"
	"time"

	"heapside/calc/heap"
)

// oneTurning is the time within which logged turnings are one, by several
// hands or logged twice (own choice).
const oneTurning = 12 * time.Hour

// turn is a turning while hot. Anchor is the moment that shows the heat: the
// reading before it, or the turning itself where an estimate shows it.
type turn struct{ at, anchor time.Duration }

// TurnsWhileHot counts the turnings since the heap was last filled before which
// the middle, read last and not more than 36 hours earlier, stood at thresholdC
// or above. Turnings within 12 hours are one.
func TurnsWhileHot(s heap.State, thresholdC float64) int {
	return apart(gather(s).hotTurns(Hold{C: thresholdC}.band(), nil), oneTurning)
}

// hotTurns are the turnings while the middle was in the band: as the reading
// before shows, or else as probable stretches have it.
func (s series) hotTurns(b band, probable []span) []turn {
	var turns []turn
	for _, t := range s.turns {
		if t.read >= 0 {
			if read := s.middle[t.read]; read.in(b) && t.at-read.at <= closeGap {
				turns = append(turns, turn{t.at, read.at})
				continue
			}
		}
		if covered(probable, t.at) {
			turns = append(turns, turn{t.at, t.at})
		}
	}
	return turns
}

// apart counts the turnings that lie at least that far from the one counted before.
func apart(turns []turn, least time.Duration) int {
	n := 0
	var last time.Duration
	for _, t := range turns {
		if n == 0 || t.at-last >= least {
			n, last = n+1, t.at
		}
	}
	return n
}

// shown are the turnings whose heat was shown within a stretch. Anchors run in
// the order of the turnings: two turnings that no reading parts have the same
// reading before them.
func shown(turns []turn, in span) []turn {
	i, _ := slices.BinarySearchFunc(turns, in.from, func(t turn, at time.Duration) int { return cmp.Compare(t.anchor, at) })
	n := i
	for n < len(turns) && turns[n].anchor <= in.to {
		n++
	}
	return turns[i:n]
}
