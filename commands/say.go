package commands

import (
	"fmt"
	"strings"

	"heapside/calc/feedstock"
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
		return d.in.Word("started")
	case heap.Added:
		return d.in.Say("%s (about %s)", d.sayAdded(p), d.local.SayMass(p.MassKg))
	case heap.Temp:
		return d.sayTemp(p)
	case heap.Feel:
		return d.in.Word(squeezeWords[p.Squeeze])
	case heap.Smell:
		if p.Smell == "none" {
			return d.in.Word("no smell")
		}
		return d.in.Word("smells " + p.Smell)
	case heap.Turned:
		return after(d.in.Word("turned"), p.Note)
	case heap.Watered:
		if p.Litres == 0 {
			return d.in.Word("watered")
		}
		return d.in.Say("watered with %s", d.local.SayWater(p.Litres))
	case heap.Covered:
		if !p.On {
			return d.in.Word("cover taken off")
		}
		return after(d.in.Word("covered"), p.With)
	case heap.Height:
		return d.in.Say("%s high", d.local.SayLength(p.Cm))
	case heap.Rain:
		return d.in.Say("%s of rain", d.local.SayRain(p.Mm))
	case heap.Test:
		return d.sayTest(p)
	case heap.Note:
		return d.in.Say("note: %s", p.Text)
	case heap.Moved:
		return d.sayMoved(p)
	case heap.Changed:
		return d.in.Say("%s changed from %s to %s", d.in.Word(p.Field), d.sayAttribute(p.Field, p.From), d.sayAttribute(p.Field, p.To))
	case heap.Finished:
		if p.YieldL == 0 {
			return d.in.Word("finished")
		}
		return d.in.Say("finished, gave %s", d.local.SayBulk(p.YieldL))
	case heap.Voided:
		return d.in.Say("took back %s (%s)", entryNumber(p.Entry), d.in.Word(string(p.Was)))
	}
	return string(e.Payload.Kind())
}

// sayAdded says what went on a heap: in English in the words of who logged it,
// elsewhere by the same count in the garden's words, or in its measures where
// more was said of the container than its name.
func (d *desk) sayAdded(p heap.Added) string {
	if !d.in.Knows("%s of %s") && strings.HasSuffix(p.Said, " of "+p.Name) {
		return p.Said
	}
	for _, language := range append([]string{d.in.Code()}, feedstock.Languages()...) {
		items, err := reading(d.m, language).ParseItems(p.Said)
		if err != nil || len(items) != 1 {
			continue
		}
		if said, ok := d.local.SayAmount(items[0].Amount); ok {
			return d.in.Say("%s of %s", said, d.calledThen(p))
		}
	}
	if p.VolumeL <= 0 || !d.in.Knows("%s of %s") {
		return p.Said
	}
	return d.in.Say("%s of %s", d.local.SayFine(p.VolumeL), d.calledThen(p))
}

// sayAttribute prints what an attribute of a heap was or is, a size in the
// group's own units, in its language.
func (d *desk) sayAttribute(field, text string) string {
	if h, err := (heap.Heap{}).WithAttribute(field, text); field == "size" && err == nil {
		if h.SizeL == 0 {
			return d.in.Word("not known")
		}
		return d.local.SayBulk(h.SizeL)
	}
	switch {
	case text == "":
		return d.in.Word("none")
	case field == "name":
		return text
	}
	return d.in.Word(text)
}

func (d *desk) sayTemp(p heap.Temp) string {
	said := d.m.SayTemperature(p.C)
	if p.DepthCm > 0 {
		said = d.in.Say("%s at %s", said, d.local.SayLength(p.DepthCm))
	}
	if p.Spot != "" {
		said += ", " + p.Spot
	}
	return said
}

// sayTest says how a result counted where its own words do not begin so.
func (d *desk) sayTest(p heap.Test) string {
	said, test := strings.ToLower(p.Result), d.in.Word(p.Test+" test")
	switch outcome := maturity.Judge(p, d.m).Outcome; {
	case outcome == maturity.Silent || strings.HasPrefix(said, "pass") && outcome == maturity.Finished || strings.HasPrefix(said, "fail") && outcome != maturity.Finished:
		return d.in.Say("%s: %s", test, p.Result)
	case outcome == maturity.Finished:
		return d.in.Say("%s passed: %s", test, p.Result)
	case outcome == maturity.Fresh:
		return d.in.Say("%s says fresh: %s", test, p.Result)
	}
	return d.in.Say("%s failed: %s", test, p.Result)
}

func (d *desk) sayMoved(p heap.Moved) string {
	share := fmt.Sprintf("%.0f %%", p.Share*100)
	switch {
	case p.In && p.Share < 1:
		return d.in.Say("%s of it came from %s", share, p.OtherName)
	case p.In:
		return d.in.Say("everything came from %s", p.OtherName)
	case p.Share < 1:
		return d.in.Say("%s of it went to %s", share, p.OtherName)
	}
	return d.in.Say("everything went to %s", p.OtherName)
}

// after appends a detail to a word.
func after(word, detail string) string {
	if detail == "" {
		return word
	}
	return word + ": " + detail
}

// example is an amount of a material, as people may type it.
func (d *desk) example() string { return d.in.Word("2 buckets of grass clippings") }
