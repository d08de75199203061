package commands

import (
	"slices"
	"time"

	"heapside/calc/heap"
	"heapside/calc/maturity"
	"heapside/commands/speech"
)

var (
	heapOption = Option{Name: "heap", Summary: "which heap; may be left out when there is one", Kind: HeapName}
	whenOption = Option{Name: "when", Summary: "when it happened, e.g. yesterday 18:00; now if left out", Kind: Moment}
)

// addOptions are the options of log add besides when.
var addOptions = []Option{
	{Name: "what", Summary: "what was added, e.g. 2 buckets of grass and 1 sack of leaves", Kind: Load, Words: true, Required: true},
	{Name: "water", Summary: "water poured on with it, e.g. 20 litres or 2 cans", Kind: Water},
	heapOption,
}

func (a *Assistant) logCommand() Command {
	sub := func(name, summary string, answer func(*desk) (Reply, error), options ...Option) Command {
		options = append(slices.Clone(options), heapOption, whenOption)
		return Command{Name: name, Summary: summary, Options: options, Run: a.with(answer)}
	}
	return Command{Name: "log", Summary: "Put one thing on the record", Subs: []Command{
		sub("add", "Material put on a heap", (*desk).logAdd,
			addOptions[:2]...),
		sub("temp", "A thermometer reading", (*desk).logTemp,
			Option{Name: "reading", Summary: "the temperature, e.g. 58 or 140F", Words: true, Required: true},
			Option{Name: "depth", Summary: "how deep, e.g. 40 cm", Kind: Hint, Choices: picks("20 cm", "", "30 cm", "", "40 cm", "", "50 cm", "")},
			Option{Name: "spot", Summary: "where in the heap, e.g. middle; “air” for the air beside it", Kind: Hint, Choices: picks("middle", "", "edge", "", "top", "", "bottom", "", "air", "the air beside it")}),
		sub("feel", "A squeeze test", (*desk).logFeel,
			Option{Name: "squeeze", Summary: "what a squeezed handful did", Kind: Pick, Words: true, Required: true, Choices: squeezeChoices}),
		sub("smell", "What the heap smells of", (*desk).logSmell,
			Option{Name: "smell", Summary: "what it smells of", Kind: Pick, Words: true, Required: true, Choices: picks(
				"earthy", "like a wood floor", "none", "no smell", "ammonia", "sharp, like a stable", "rotten", "like bad eggs or rubbish", "sour", "like vinegar")}),
		sub("turn", "The heap was turned", (*desk).logTurn,
			Option{Name: "note", Summary: "how, if it matters", Words: true}),
		sub("water", "Water was put on", (*desk).logWater,
			Option{Name: "amount", Summary: "how much, e.g. 20 litres or 2 cans", Kind: Water, Words: true}),
		sub("cover", "A cover was put on or taken off", (*desk).logCover,
			Option{Name: "with", Summary: "what covers it, e.g. tarp; “off” when it was taken off", Kind: Hint, Choices: picks("tarp", "", "lid", "", "straw", "", "cardboard", "", "off", "it was taken off"), Words: true}),
		sub("height", "How high the heap stands", (*desk).logHeight,
			Option{Name: "height", Summary: "e.g. 90 cm", Words: true, Required: true}),
		sub("rain", "Rain in the gauge", (*desk).logRain,
			Option{Name: "rain", Summary: "e.g. 12 mm", Words: true, Required: true}),
		sub("test", "A test of the compost", (*desk).logTest,
			Option{Name: "test", Summary: "which test", Kind: Pick, Required: true, Choices: testPicks()},
			Option{Name: "result", Summary: "what it showed, e.g. passed, smells of earth; or 17 of 20 sprouted", Words: true}),
		sub("note", "Anything else worth keeping", (*desk).logNote,
			Option{Name: "text", Summary: "the note", Words: true, Required: true}),
		sub("visit", "All that a visit brought, in one go", (*desk).logVisit, visitOptions()...),
		sub("move", "The content went to another heap", (*desk).logMove,
			Option{Name: "to", Summary: "the heap it went to", Kind: HeapName, Required: true},
			Option{Name: "share", Summary: "how much of it: all, half, a third, 40 %", Kind: Hint, Choices: picks("all", "", "half", "", "a third", "", "two thirds", "", "a quarter", ""), Words: true}),
	}}
}

var squeezeChoices = picks(
	string(heap.Crumbles), "does not hold together", string(heap.Holds), "a ball, no drops", string(heap.Drops), "one to three drops",
	string(heap.Drips), "more than three drops", string(heap.Runs), "water runs out")

// testPicks are the tests of compost with how each is done.
func testPicks() []Choice {
	var pairs []string
	for _, k := range maturity.Kinds() {
		pairs = append(pairs, k.Name, k.How)
	}
	return picks(pairs...)
}

// newEntry is an entry of the caller on a heap at the time the options say.
func (d *desk) newEntry(h heap.Heap, at time.Time, p heap.Payload) heap.Entry {
	return heap.Entry{Heap: h.ID, At: at, Logged: d.call.Now, By: d.call.By, Payload: p}
}

// record finds the heap and the time, stores one entry and answers with it.
func (d *desk) record(p heap.Payload) (Reply, error) {
	h, at, err := d.target()
	if err != nil {
		return Reply{}, err
	}
	return d.save(h, at, nil, p)
}

// target is the heap and the time that a log command speaks of.
func (d *desk) target() (heap.Heap, time.Time, error) {
	h, err := d.heap("heap")
	if err != nil {
		return h, time.Time{}, err
	}
	at, err := d.when()
	return h, at, err
}

// save stores entries of one heap in one go and says what was kept.
func (d *desk) save(h heap.Heap, at time.Time, lines []string, payloads ...heap.Payload) (Reply, error) {
	entries := make([]heap.Entry, len(payloads))
	for i, p := range payloads {
		entries[i] = d.newEntry(h, at, p)
	}
	stored, err := d.keep(entries...)
	if err != nil {
		return Reply{}, err
	}
	return d.logged(h, stored, lines)
}

// logged is the reply to a log command: what was kept, and what it calls for.
func (d *desk) logged(h heap.Heap, stored []heap.Entry, lines []string) (Reply, error) {
	said := make([]string, len(stored))
	for i, e := range stored {
		said[i] = d.say(e)
	}
	r := Reply{
		Headline: d.in.Say("Logged for %s, %s: %s.", h.Name, d.day(stored[0].At), speech.Joined{Words: said, Last: "and"}),
		Actions:  []Action{{Label: d.in.Word("Undo"), Line: "undo " + entryRange(stored)}},
		Values:   map[string]Value{"entry": {float64(stored[0].ID), "1"}, "heap": {h.Name, ""}},
	}
	s, err := d.state(h)
	if err != nil {
		return Reply{}, err
	}
	if job, ok := d.pressing(s); ok {
		lines = append(lines, d.in.Say("Next: %s. %s", titleIn(d.in, job.Title), job.Reason))
		if job.Caution != "" {
			r.Cautions = append(r.Cautions, job.Caution)
		}
	}
	if len(lines) > 0 {
		r.Body = []Block{{Lines: lines}}
	}
	return r, nil
}
