package audit

import (
	"heapside/calc/feedstock"
	"heapside/calc/heap"
)

// OnHandOf is what differs between two states of the stock of one material; a
// volume of 0 is none.
func OnHandOf(was, now heap.Stock) ([]Change, error) {
	var f found
	f.add(Change{What: OnHand, Of: now.Material}, set(was.VolumeL), set(now.VolumeL))
	return f.changes, f.err
}

// Material is what differs in the figures of a material from those it had: those
// of the built-in table, of the zero Feedstock where it was not known.
func Material(was, now feedstock.Feedstock) ([]Change, error) {
	var f found
	for _, p := range []struct {
		what     What
		was, now feedstock.Property
	}{
		{CarbonToN, was.CN, now.CN}, {Carbon, was.Carbon, now.Carbon}, {Moisture, was.Moisture, now.Moisture}, {BulkWeight, was.Density, now.Density},
	} {
		f.add(Change{What: p.what, Of: now.ID}, set(p.was.Range), set(p.now.Range))
	}
	return f.changes, f.err
}
