package commands

import (
	"math"
	"slices"
	"time"

	"heapside/calc/fault"
	"heapside/calc/heap"
	"heapside/calc/maturity"
	"heapside/calc/process"
	"heapside/calc/spread"
)

// source is the heap that compost comes from.
type source struct {
	heap.State
	ripe    maturity.Assessment
	share   process.Band // of today's volume, left when ready, by its model
	modeled bool
}

// source reads a heap's record, and asks its model where that has learned
// before: to learn takes longer than this question is worth.
func (d *desk) source(h heap.Heap) (*source, error) {
	entries, err := d.store.Entries(d.ctx, d.call.Place, h.ID)
	if err != nil {
		return nil, err
	}
	kept, err := d.store.Track(d.ctx, d.call.Place, h.ID)
	if err != nil {
		return nil, err
	}
	s := &source{State: heap.Read(h, entries, d.call.Now)}
	s.ripe = maturity.Assess(s.State, d.m)
	if kept != nil {
		s.share, s.modeled, err = d.readyShare(h, entries, kept)
	}
	return s, err
}

// modelFresh is how long what a model learned still tells the share of today's
// volume that is left when the heap is ready (own choice).
const modelFresh = 3 * 24 * time.Hour

// readyShare is the share of today's volume that is left when a heap is ready,
// by what its model learned: as it is where that is fresh and at most
// temperatures were logged since, else brought to now. False where there is
// nothing to model.
func (d *desk) readyShare(h heap.Heap, entries []heap.Entry, kept []byte) (process.Band, bool, error) {
	var track process.Track
	if track.UnmarshalBinary(kept) == nil {
		share, at, ok := track.LearnedShare()
		if ok && d.call.Now.Sub(at) <= modelFresh && !slices.ContainsFunc(entries, func(e heap.Entry) bool { return e.Logged.After(at) && e.Payload.Kind() != heap.KindTemp }) {
			return share, true, nil
		}
	}
	v, err := d.follow(h, d.sky(h.Started))
	if err == nil {
		return v.model.share, v.model.empty == nil, v.model.empty
	}
	if _, forPeople := fault.As(err); forPeople {
		err = nil // nothing to model: the record has said all
	}
	return process.Band{}, false, err
}

// yielded is what a heap gives: by its record, and by its model where it has one.
type yielded struct {
	spread.Yield
	share   process.Band
	modeled bool
}

// readyL is from where to where the volume likely lies when the heap is ready,
// in litres: the model's where there is one.
func (y yielded) readyL() (low, high float64) {
	if y.modeled {
		return y.NowL * y.share.Low, y.NowL * min(1, y.share.High)
	}
	return y.ReadyLow, y.ReadyTop
}

// yields is what the heap gives, or for people why that cannot be told.
func (s *source) yields() (yielded, error) {
	y := yielded{Yield: spread.Of(s.State, s.ripe.Stage), share: s.share}
	y.modeled = s.modeled && !y.Done
	if y.NowL == 0 {
		return y, withLeads(fault.New(fault.Missing, "How much is in %s is not on record: log what went in (log add 2 buckets of grass clippings), or how high it is (log height 80 cm).", s.Heap.Name),
			Action{Label: "Log what went on", Line: "log add heap:\"" + s.Heap.Name + "\""}, Action{Label: "How high the heap stands", Line: "log height heap:\"" + s.Heap.Name + "\""})
	}
	return y, nil
}

// spreadHeap answers what a heap gives and how many beds that serves.
func (d *desk) spreadHeap(s spreading) (Reply, error) {
	y, err := s.heap.yields()
	if err != nil {
		return Reply{}, err
	}
	low, high := y.readyL()
	lines := d.yieldLines(s, y)
	thin, thick := s.crop.LowCm, s.crop.TopCm
	if s.depthCm > 0 {
		thin, thick = s.depthCm, s.depthCm
		lines = append(lines, d.in.Say("Beds at %s.", d.local.SayDepth(s.depthCm)))
	}
	beds := d.served(spread.AreaM2(low, thick), spread.AreaM2(high, thin), s)
	if loads := spread.Loads(high, d.m); len(loads) > 0 {
		lines = append(lines, d.in.Say("To carry, at most: %s.", d.waysText(loads)))
	}
	r := Reply{
		Headline: d.in.Say("%s: about %s now; %s when ready, enough for %s.", s.heap.Heap.Name, d.local.SayBulk(y.NowL), d.between(low, high), beds),
		Body:     []Block{{Title: d.in.Word("What it gives"), Lines: lines}},
		Values:   d.layerValues(s),
	}
	if y.Done {
		r.Headline = d.in.Say("%s is ready: about %s, enough for %s.", s.heap.Heap.Name, d.local.SayBulk(y.NowL), beds)
	}
	delete(r.Values, "depth")
	r.Values["beds.low"] = Value{round(spread.AreaM2(low, thick) / s.oneBedM2()), "1"}
	r.Values["beds.high"] = Value{round(spread.AreaM2(high, thin) / s.oneBedM2()), "1"}
	d.addYield(&r, y)
	return r, nil
}

// between is a span of volumes, or one where they are said alike.
func (d *desk) between(low, high float64) string {
	if d.sayYield(low) == d.sayYield(high) {
		return d.in.Word("about as much")
	}
	return d.in.Say("likely %s", d.span(low, high))
}

// yieldLines say what the numbers of a heap rest on.
func (d *desk) yieldLines(s spreading, y yielded) []string {
	lines := []string{d.in.Say("Now: about %s, %s.", d.local.SayBulk(y.NowL), s.heap.VolumeHow.Say(d.local))}
	if y.Done {
		return append(lines, d.in.Word("It counts as ready, so it shrinks little from here."))
	}
	lines = append(lines, d.in.Say("When ready, by published shrinking: %s.", d.span(y.ReadyLow, y.ReadyTop)))
	if y.modeled {
		low, high := y.readyL()
		lines = append(lines, d.in.Say("When ready, by its model: %s, 8 times in 10.", d.span(low, high)))
	}
	return append(lines, d.in.Word("What a sieve holds back comes off that; no source says how much."))
}

func (d *desk) span(low, high float64) string {
	said := d.spanOf(d.sayYield(low), d.sayYield(high))
	if said == d.sayYield(high) {
		return d.in.Say("about %s", said)
	}
	return said
}

// sayYield writes a volume to two digits: nobody knows better what a heap gives.
func (d *desk) sayYield(litres float64) string {
	if litres < 10 {
		return d.local.SayLoose(litres)
	}
	digit := math.Pow(10, math.Floor(math.Log10(litres))-1)
	return d.local.SayLoose(math.Round(litres/digit) * digit)
}

// addHeap sets what a heap gives beside what beds need.
func (d *desk) addHeap(r *Reply, s spreading) {
	y, err := s.heap.yields()
	if e, unknown := fault.As(err); unknown {
		r.Body = append(r.Body, Block{Title: s.heap.Heap.Name, Lines: []string{faultIn(d.in, e)}})
		return
	}
	need := s.needL()
	low, high := y.readyL()
	lines := []string{d.in.Say("What is there now: %s.", d.enough(y.NowL, need))}
	if !y.Done {
		lines = append(lines, d.whenReadyText(low, high, need))
	}
	r.Body = append(r.Body, Block{Title: d.in.Say("From %s", s.heap.Heap.Name), Lines: append(lines, d.yieldLines(s, y)...)})
	d.addYield(r, y)
}

func (d *desk) whenReadyText(low, high, need float64) string {
	switch {
	case low >= need:
		return d.in.Word("When it is ready: likely enough all the same.")
	case high < need:
		return d.in.Say("When it is ready: likely %s, not enough for all.", d.span(low, high))
	}
	return d.in.Say("When it is ready: likely %s, perhaps enough.", d.span(low, high))
}

func (d *desk) addYield(r *Reply, y yielded) {
	low, high := y.readyL()
	r.Values["yield.now"] = Value{round(y.NowL), "l"}
	r.Values["yield.ready.low"] = Value{round(low), "l"}
	r.Values["yield.ready.high"] = Value{round(high), "l"}
	r.Basis = append(r.Basis, "volume now: "+heap.ShrinkSource)
	if !y.Done {
		r.Basis = append(r.Basis, spread.YieldSource)
	}
	if y.modeled {
		r.Values["yield.ready"] = Value{round(y.NowL * y.share.Mid), "l"}
		r.Basis = append(r.Basis, "own two-zone heap model, 256 members; not yet tested on many garden heaps")
	}
}
