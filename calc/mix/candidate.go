package mix

import (
	"cmp"
	"math"
	"slices"

	"heapside/calc/fault"
)

// Effort is what has to be carried, in litres plus kilograms: a bucket is a
// trip whatever it weighs, and a heavy one is a slow trip. Water counts half
// its weight, as a tap or a butt usually stands by the heaps. Own choice.
const (
	waterEffort = 0.5
	// minShare is the least share of the added volume a material may have;
	// less is a trace that nobody would fetch. Own choice.
	minShare = 0.05
	// maxTimes is how many times its own volume a blend may be added to it; beyond,
	// the answer is another heap. Own choice.
	maxTimes = 20
)

// unhandy is by how much more effort a material counts, by feedstock.Everyday,
// unless the group says what it has of it. Own choice.
var unhandy = [4]float64{20, 10, 2, 1}

// Of a material less degradable than woody, carbon comes too slowly to count on
// within a season. It is still counted in full, as in the published balances,
// but such a material counts as slowCarbon times the effort. Own choice.
const (
	woody      = 0.3
	slowCarbon = 2
)

// moreKinds is by how much more effort each further addition counts. Own choice.
const moreKinds = 1.3

// sameKind is by how much more a second material of the same family counts:
// two sorts of leaves are one answer said twice. Own choice.
const sameKind = 1.5

// candidate is a material that may be added.
type candidate struct {
	Candidate
	one    Blend   // of one litre
	effort float64 // of one litre
	unhand float64
	capL   float64
}

// candidates checks and orders what may be added to litres of a blend. A
// material named twice counts once, with the larger stock.
func candidates(from []Candidate, litres float64) ([]candidate, error) {
	out := make([]candidate, 0, len(from))
	for i := range from {
		c := &from[i]
		if err := checkFeedstock(&c.Feedstock); err != nil {
			return nil, err
		}
		if math.IsNaN(c.MaxL) || c.MaxL < 0 {
			return nil, fault.New(fault.OutOfRange, "%g litres of %s is not a stock; give 0 or more.", c.MaxL, c.Feedstock.Name)
		}
		out = append(out, newCandidate(*c, litres))
	}
	slices.SortStableFunc(out, func(a, b candidate) int {
		return cmp.Or(cmp.Compare(a.Feedstock.ID, b.Feedstock.ID), cmp.Compare(b.capL, a.capL))
	})
	return slices.CompactFunc(out, func(a, b candidate) bool { return a.Feedstock.ID == b.Feedstock.ID }), nil
}

func newCandidate(c Candidate, litres float64) candidate {
	out := candidate{Candidate: c, one: loose(&c.Feedstock), unhand: 1, capL: maxTimes * litres}
	out.effort = 1 + out.one.MassKg()
	if d := c.Feedstock.Degradable.Typical; d > 0 && d < woody {
		out.unhand = slowCarbon
	}
	if c.MaxL > 0 {
		out.capL = min(out.capL, c.MaxL)
	} else {
		out.unhand *= unhandy[min(max(c.Feedstock.Everyday, 0), len(unhandy)-1)]
	}
	return out
}
