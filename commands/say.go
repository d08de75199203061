package commands

import (
	"fmt"
	"strings"

	"heapside/calc/heap"
	"heapside/calc/maturity"
)

// squeezeWords say a squeeze class as it was felt.
var squeezeWords = map[heap.Squeeze]string{
	heap.Crumbles: "crumbles when squeezed",
	heap.Holds:    "holds together, no drops",
	heap.Drops:    "one to three drops when squeezed",
	heap.Drips:    "drips when squeezed",
	heap.Runs:     "water runs out when squeezed",
}

// say prints what an entry records, without who and when.
func (d *desk) say(e heap.Entry) string {
	switch p := e.Payload.(type) {
	case heap.Started:
		return "started"
	case heap.Added:
		return fmt.Sprintf("%s (about %s)", p.Said, d.m.SayMass(p.MassKg))
	case heap.Temp:
		return d.sayTemp(p)
	case heap.Feel:
		return squeezeWords[p.Squeeze]
	case heap.Smell:
		if p.Smell == "none" {
			return "no smell"
		}
		return "smells " + p.Smell
	case heap.Turned:
		return after("turned", p.Note)
	case heap.Watered:
		if p.Litres == 0 {
			return "watered"
		}
		return "watered with " + d.m.SayWater(p.Litres)
	case heap.Covered:
		if !p.On {
			return "cover taken off"
		}
		return after("covered", p.With)
	case heap.Height:
		return d.m.SayLength(p.Cm) + " high"
	case heap.Rain:
		return d.m.SayRain(p.Mm) + " of rain"
	case heap.Test:
		return d.sayTest(p)
	case heap.Note:
		return "note: " + p.Text
	case heap.Moved:
		return sayMoved(p)
	case heap.Changed:
		return fmt.Sprintf("%s changed from %s to %s", p.Field, d.sayAttribute(p.Field, p.From), d.sayAttribute(p.Field, p.To))
	case heap.Finished:
		if p.YieldL == 0 {
			return "finished"
		}
		return "finished, gave " + d.m.SayBulk(p.YieldL)
	case heap.Voided:
		return fmt.Sprintf("took back #%d (%s)", p.Entry, p.Was)
	}
	return string(e.Payload.Kind())
}

// sayAttribute prints what an attribute of a heap was or is, a size in the
// group's own units.
func (d *desk) sayAttribute(field, text string) string {
	if h, err := (heap.Heap{}).WithAttribute(field, text); field == "size" && err == nil {
		if h.SizeL == 0 {
			return "not known"
		}
		return d.m.SayBulk(h.SizeL)
	}
	if text == "" {
		return "none"
	}
	return text
}

func (d *desk) sayTemp(p heap.Temp) string {
	said := d.m.SayTemperature(p.C)
	if p.DepthCm > 0 {
		said += " at " + d.m.SayLength(p.DepthCm)
	}
	if p.Spot != "" {
		said += ", " + p.Spot
	}
	return said
}

// sayTest says how a result counted where its own words do not begin so.
func (d *desk) sayTest(p heap.Test) string {
	said := strings.ToLower(p.Result)
	outcome := maturity.Judge(p, d.m).Outcome
	if outcome == maturity.Silent || strings.HasPrefix(said, "pass") && outcome == maturity.Finished || strings.HasPrefix(said, "fail") && outcome != maturity.Finished {
		return p.Test + " test: " + p.Result
	}
	return p.Test + " test " + testWords[outcome] + ": " + p.Result
}

// testWords say how a test counted.
var testWords = map[maturity.Outcome]string{maturity.Finished: "passed", maturity.Fresh: "says fresh", maturity.Against: "failed"}

func sayMoved(p heap.Moved) string {
	share := "everything"
	if p.Share < 1 {
		share = fmt.Sprintf("%.0f %% of it", p.Share*100)
	}
	if p.In {
		return share + " came from " + p.OtherName
	}
	return share + " went to " + p.OtherName
}

// after appends a detail to a word.
func after(word, detail string) string {
	if detail == "" {
		return word
	}
	return word + ": " + detail
}
