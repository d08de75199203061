package commands

import (
	"encoding/json"
	"hash/fnv"
	"slices"
	"strings"

	"heapside/calc/fault"
	"heapside/calc/feedstock"
	"heapside/calc/heap"
	"heapside/calc/measure"
	"heapside/calc/mix"
)

func (a *Assistant) mixCommand() Command {
	return Command{
		Name: "mix", Summary: "What to add to what arrived, so that it rots fast and does not smell",
		Options: []Option{
			{Name: "what", Summary: "what arrived, e.g. 2 buckets of grass clippings and 1 sack of leaves", Kind: Load, Words: true},
			{Name: "from", Summary: "what may be added: anything, stock, or materials such as straw, cardboard", Kind: Material},
			{Name: "heap", Summary: "a heap whose content is part of the mix", Kind: HeapName},
			{Name: "cn", Summary: "carbon to nitrogen to aim for, e.g. 30 or 25-35"},
			{Name: "moisture", Summary: "moisture in % to aim for, e.g. 55 or 50-60"},
		},
		Run: a.with((*desk).mix),
	}
}

// mix answers what the materials are together and what puts them right.
func (d *desk) mix() (Reply, error) {
	parts, notes, err := d.parts()
	if err != nil {
		return Reply{}, err
	}
	aim, err := d.aim()
	if err != nil {
		return Reply{}, err
	}
	answer, guesses, err := d.solve(mix.Request{Inputs: parts, Measures: d.local, Aim: aim, Seed: seedOf(parts)})
	if err != nil {
		return Reply{}, err
	}
	r := d.mixReply(answer, aim, append(notes, guesses...))
	r.Actions, err = d.addedActions(answer)
	return r, err
}

// parts reads what arrived, and the heap it goes on if one is named.
func (d *desk) parts() (parts []mix.Part, notes []string, err error) {
	if d.arg("what") == "" && d.arg("heap") == "" {
		return nil, nil, &unsaid{option: "what", sentence: fault.New(fault.Missing, "Please say what arrived, e.g. “mix 2 buckets of grass clippings and half a bucket of coffee grounds”, or name a heap: “mix heap:\"North Bay\"”.")}
	}
	if d.arg("heap") != "" {
		content, note, err := d.content()
		if err != nil {
			return nil, nil, err
		}
		parts, notes = append(parts, content), append(notes, note)
	}
	if d.arg("what") == "" {
		return parts, notes, nil
	}
	arrived, err := d.load("what")
	return append(parts, arrived.parts...), append(notes, arrived.notes...), err
}

// squeezeMoisture is the moisture (% wet basis) a squeeze class stands for; the
// edges are those of heap.Squeeze, the typical values and far ends our own choice.
var squeezeMoisture = map[heap.Squeeze]measure.Range{
	heap.Crumbles: {Low: 25, Typical: 35, High: 40},
	heap.Holds:    {Low: 40, Typical: 46, High: 50},
	heap.Drops:    {Low: 50, Typical: 55, High: 60},
	heap.Drips:    {Low: 60, Typical: 63, High: 66},
	heap.Runs:     {Low: 65, Typical: 70, High: 78},
}

// freshSqueezeDays is how long a squeeze test still speaks for today. Own choice.
const freshSqueezeDays = 7

// content folds what was put on a heap into one part of the mix. A recent
// squeeze test replaces the moisture that the materials had on arrival.
func (d *desk) content() (mix.Part, string, error) {
	h, err := d.heap("heap")
	if err != nil {
		return mix.Part{}, "", err
	}
	s, err := d.state(h)
	if err != nil {
		return mix.Part{}, "", err
	}
	parts := d.putIn(s)
	if len(parts) == 0 {
		return mix.Part{}, "", withLeads(fault.New(fault.Missing, "Nothing is on record as put on %s. Log it first: log add 2 buckets of grass clippings heap:\"%s\"", h.Name, h.Name), d.addAction(h))
	}
	note := d.in.Say("What is in %s is taken as it was put in; what has rotted away since is not counted.", h.Name)
	var moisture *measure.Range
	if s.Squeeze != "" && d.call.Now.Sub(s.SqueezeAt).Hours() <= freshSqueezeDays*24 {
		r := squeezeMoisture[s.Squeeze]
		moisture = &r
		note += " " + d.in.Say("Its moisture is from the squeeze test %s.", d.ago(s.SqueezeAt))
	}
	return mix.Content(contentOf+h.Name, parts, moisture), note, nil
}

// contentOf begins the name of a part that is the content of a heap.
const contentOf = "what is in "

// called is the name of a material or of the content of a heap, for a sentence.
func (d *desk) called(f feedstock.Feedstock) string {
	if of, isContent := strings.CutPrefix(f.Name, contentOf); isContent {
		return d.in.Say("what is in %s", of)
	}
	return f.In(d.in.Code())
}

// calledThen is the name of a material that is on record, as it was called then
// where it has another name now.
func (d *desk) calledThen(a heap.Added) string {
	if f, ok := d.table.ByID(a.Material); ok && f.Name == a.Name {
		return d.called(f)
	}
	return a.Name
}

// putIn is what was put on a heap, as parts of a mix.
func (d *desk) putIn(s heap.State) []mix.Part {
	var parts []mix.Part
	for _, added := range s.Content {
		if f, ok := d.table.ByID(added.Material); ok && added.MassKg > 0 {
			parts = append(parts, mix.Part{Feedstock: f, Mass: measure.Exact(added.MassKg)})
		}
	}
	return parts
}

// seedOf makes the draws depend on the materials and amounts only, not on their
// order, so that the same question has the same answer everywhere.
func seedOf(parts []mix.Part) uint64 {
	lines := make([]string, len(parts))
	for i, p := range parts {
		// Encoding a string and six numbers cannot fail.
		line, _ := json.Marshal([]any{p.Feedstock.ID, p.Volume, p.Mass})
		lines[i] = string(line)
	}
	slices.Sort(lines)
	h := fnv.New64a()
	for _, line := range lines {
		h.Write([]byte(line))
	}
	return h.Sum64()
}
