package spread

import (
	"heapside/calc/heap"
	"heapside/calc/maturity"
)

// The shares of the loose volume put in that are left when a heap is ready.
// Sources disagree: 30 to 50 % lost (Better Ground, seen), about half after one
// month (City of Ramsey, seen), 65 % in 90 days (Leal et al., Embrapa, seen in an
// abstract). The ends are taken.
const (
	leastLeft = 0.35
	mostLeft  = 0.70
)

// YieldSource names who published the shrinking until a heap is ready.
const YieldSource = "volume lost: 30 to 50 % (Better Ground, composting basics), about half in a month (City of Ramsey), 65 % in 90 days (Embrapa Agrobiologia)"

// Yield is what a heap gives, in litres: now, and from low to high when it is ready.
type Yield struct {
	NowL               float64
	ReadyLow, ReadyTop float64
	Done               bool // it counts as ready: what is there now is what it gives
}

// Of is what a heap gives by its record and the published shrinking. A heap
// that has shrunk as far as any source has it shrinks no further here, and none
// grows. Where nothing is on record as put in, its past shrinking is unknown.
func Of(s heap.State, stage maturity.Stage) Yield {
	y := Yield{NowL: s.VolumeL, ReadyLow: s.VolumeL, ReadyTop: s.VolumeL, Done: stage == maturity.Ready}
	switch {
	case y.Done:
	case s.LeftShare > 0:
		y.ReadyLow *= min(1, leastLeft/s.LeftShare)
		y.ReadyTop *= min(1, mostLeft/s.LeftShare)
	default:
		y.ReadyLow *= leastLeft
	}
	return y
}
