package commands

import (
	"regexp"
	"strings"
	"unicode/utf8"

	"heapside/calc/fault"
	"heapside/calc/heap"
	"heapside/calc/maturity"
	"heapside/calc/measure"
	"heapside/calc/mix"
	"heapside/commands/speech"
)

func (d *desk) logAdd() (Reply, error) {
	load, err := d.load("what")
	if err != nil {
		return Reply{}, err
	}
	payloads := make([]heap.Payload, len(load.inputs))
	for i, in := range load.inputs {
		payloads[i] = heap.Added{Material: in.Feedstock.ID, Name: in.Feedstock.Name, VolumeL: in.VolumeL, MassKg: in.MassKg,
			Said: d.in.Say("%s of %s", d.readable(load.items[i].Amount), d.called(in.Feedstock))}
	}
	water, err := d.withWater()
	if err != nil {
		return Reply{}, err
	}
	payloads = append(payloads, water...)
	h, at, err := d.target()
	if err != nil {
		return Reply{}, err
	}
	hint, uneven := d.addedHint(h, load.parts)
	r, err := d.save(h, at, appendNew(load.notes, hint), payloads...)
	if err != nil {
		return Reply{}, err
	}
	r.Cautions = append(d.caution(materialsOf(load.parts)), r.Cautions...)
	if uneven {
		r.lead(d.evenAction(h))
	}
	return r, nil
}

// leastCN is a carbon to nitrogen below which nothing that rots lies: of ash and
// soil there is nothing to say and nothing to even out. Own choice: eggshells
// have 3.
const leastCN = 1

// readable is an amount as it was said where that is read here again, else in
// the words of the language.
func (d *desk) readable(a measure.Amount) string {
	said := oneLine(a.Said)
	if _, err := d.local.ParseAmount(said); err == nil {
		return said
	}
	if again, ok := d.local.SayAmount(a); ok {
		return again
	}
	return said
}

// addedHint says what came together by itself and, where that is uneven, how to
// put it right.
func (d *desk) addedHint(h heap.Heap, parts []mix.Part) (hint string, uneven bool) {
	p := mix.Describe(parts, 0, seedOf(parts), 0)
	if p.CN.High < leastCN {
		return "", false
	}
	hint = d.in.Say("By itself that is %s.", d.describe(p))
	if p.Holds >= 0.5 {
		return hint, false
	}
	return hint + " " + d.in.Say("What evens it out: %s", "mix heap:\""+h.Name+"\""), true
}

func (d *desk) logTemp() (Reply, error) {
	reading, err := d.readTemp(d.arg("reading"), d.arg("depth"), d.arg("spot"))
	if err != nil {
		return Reply{}, err
	}
	h, at, err := d.target()
	if err != nil {
		return Reply{}, err
	}
	var lines []string
	if reading.Spot != heap.SpotAir {
		held, err := d.heldLine(h, heap.Reading{At: at, C: reading.C, DepthCm: reading.DepthCm, Spot: reading.Spot})
		if err != nil {
			return Reply{}, err
		}
		lines = appendNew(lines, held)
	}
	r, err := d.save(h, at, lines, reading)
	r.lead(d.chartAction(h))
	return r, err
}

// readTemp reads a temperature, with the depth in its own words or in the
// reading's: "58 at 40 cm".
func (d *desk) readTemp(said, depth, spot string) (reading heap.Temp, err error) {
	degrees := said
	if depth == "" {
		degrees, depth, _ = strings.Cut(degrees, " at ")
	}
	reading = heap.Temp{Said: said, Spot: strings.ToLower(clip(oneLine(spot), maxName))}
	if reading.C, err = d.m.ParseTemperature(degrees); err != nil || depth == "" {
		return reading, err
	}
	reading.DepthCm, err = d.m.ParseLength(depth)
	return reading, err
}

func (d *desk) logFeel() (Reply, error) {
	return d.record(heap.Feel{Squeeze: heap.Squeeze(d.arg("squeeze"))})
}

func (d *desk) logSmell() (Reply, error) { return d.record(heap.Smell{Smell: d.arg("smell")}) }

func (d *desk) logTurn() (Reply, error) {
	note, err := note(d.arg("note"))
	if err != nil {
		return Reply{}, err
	}
	return d.record(heap.Turned{Note: note})
}

// maxWaterL is the most water one entry can hold: more drowns any garden heap. Own choice.
const maxWaterL = 2000

func (d *desk) logWater() (Reply, error) {
	watered, err := d.readWater(d.arg("amount"))
	if err != nil {
		return Reply{}, d.doubt("amount", err)
	}
	return d.record(watered)
}

// ofWater ends an amount of water, in each language.
var ofWater = regexp.MustCompile(`(?i)(?:^|\s+|\bd['’])(?:of |de |van )?(?:water|wasser|eau|agua)$`)

func isWater(words string) bool {
	return ofWater.FindString(oneLine(words)) == oneLine(words) && words != ""
}

// readWater reads an amount of water; none was measured when nothing is said.
func (d *desk) readWater(said string) (heap.Watered, error) {
	watered := heap.Watered{Said: said}
	if said != "" {
		amount, err := d.local.ParseAmount(ofWater.ReplaceAllString(said, ""))
		if err != nil {
			return watered, err
		}
		volume, ok := amount.Volume()
		if !ok {
			volume, _ = amount.Mass() // a kilogram of water is a litre
		}
		watered.Litres = volume.Typical
	}
	if watered.Litres > maxWaterL {
		return watered, fault.New(fault.OutOfRange, "“%s” is more water than a heap takes. Up to %s at once is kept; was it less?", quote(said), d.local.SayWater(maxWaterL))
	}
	return watered, nil
}

// uncoverWords begin the ways to say that the cover came off.
var uncoverWords = []string{"off", "removed", "taken off", "none", "uncovered", "open", "no"}

func (d *desk) logCover() (Reply, error) {
	with := strings.ToLower(clip(oneLine(d.arg("with")), maxName))
	with = strings.TrimPrefix(strings.TrimPrefix(with, "with "), "a ")
	for _, word := range uncoverWords {
		if with == word || strings.HasPrefix(with, word+" ") {
			return d.record(heap.Covered{On: false})
		}
	}
	return d.record(heap.Covered{On: true, With: with})
}

func (d *desk) logHeight() (Reply, error) {
	cm, err := d.m.ParseLength(d.arg("height"))
	if err != nil {
		return Reply{}, err
	}
	return d.record(heap.Height{Cm: cm, Said: d.arg("height")})
}

func (d *desk) logRain() (Reply, error) {
	mm, err := d.m.ParseRain(d.arg("rain"))
	if err != nil {
		return Reply{}, err
	}
	rain := heap.Rain{Mm: mm, Said: d.arg("rain")}
	if d.arg("heap") != "" {
		return d.record(rain)
	}
	return d.recordAll(rain)
}

// recordAll puts an observation of the garden, such as rain, on every heap kept.
func (d *desk) recordAll(p heap.Payload) (Reply, error) {
	heaps, err := d.heaps("heap")
	if err != nil {
		return Reply{}, err
	}
	if len(heaps) < 2 {
		return d.record(p)
	}
	at, err := d.when()
	if err != nil {
		return Reply{}, err
	}
	var entries []heap.Entry
	for _, h := range heaps {
		entries = append(entries, d.newEntry(h, at, p))
	}
	stored, err := d.keep(entries...)
	if err != nil {
		return Reply{}, err
	}
	return Reply{
		Headline: d.in.Say("Logged for %s, %s: %s.", speech.Joined{Words: namesOf(heaps), Last: "and"}, d.day(at), d.say(stored[0])),
		Actions:  []Action{{Label: d.in.Word("Undo"), Line: "undo " + entryRange(stored)}},
	}, nil
}

// logTest keeps the result of a test with the numbers in it, and says what they
// come to.
func (d *desk) logTest() (Reply, error) {
	result, err := note(d.arg("result"))
	if err != nil {
		return Reply{}, err
	}
	test, unread, err := maturity.ReadTest(d.arg("test"), result, d.m)
	if err != nil {
		return Reply{}, err
	}
	h, at, err := d.target()
	if err != nil {
		return Reply{}, err
	}
	found := maturity.Judge(test, d.local)
	lines := found.Lines
	if len(test.Numbers) > 0 && len(unread) > 0 {
		lines = append(lines, d.in.Say("Kept in words only: %s.", strings.Join(unread, "; ")))
	}
	r, err := d.save(h, at, lines, test)
	if err != nil {
		return Reply{}, err
	}
	r.Basis = append(r.Basis, found.Basis...)
	for _, n := range append(test.Numbers, found.Values...) {
		r.Values["test."+useKey(n.Name)] = Value{round(n.Value), n.Unit}
	}
	return r, nil
}

func (d *desk) logNote() (Reply, error) {
	text, err := note(d.arg("text"))
	if err != nil {
		return Reply{}, err
	}
	return d.record(heap.Note{Text: text})
}

// note holds free text to what is kept.
func note(s string) (string, error) {
	s = oneLine(s)
	if n := utf8.RuneCountInString(s); n > maxNote {
		return "", fault.New(fault.TooLong, "That note is %d characters long; up to %d are kept. Please shorten it.", n, maxNote)
	}
	return s, nil
}
