package commands

import (
	"fmt"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"

	"heapside/calc/fault"
	"heapside/calc/heap"
	"heapside/calc/mix"
)

func (d *desk) logAdd() (Reply, error) {
	items, err := d.m.ParseItems(d.arg("what"))
	if err != nil {
		return Reply{}, err
	}
	parts, notes, err := d.resolve(items)
	if err != nil {
		return Reply{}, err
	}
	inputs, err := mix.Resolve(parts)
	if err != nil {
		return Reply{}, err
	}
	payloads := make([]heap.Payload, len(inputs))
	for i, in := range inputs {
		payloads[i] = heap.Added{Material: in.Feedstock.ID, Name: in.Feedstock.Name, VolumeL: in.VolumeL, MassKg: in.MassKg,
			Said: oneLine(items[i].Amount.Said) + " of " + in.Feedstock.Name}
	}
	h, err := d.heap("heap")
	if err != nil {
		return Reply{}, err
	}
	at, err := d.when()
	if err != nil {
		return Reply{}, err
	}
	notes = append(notes, d.addedHint(h, parts))
	r, err := d.save(h, at, notes, payloads...)
	if err == nil {
		r.Cautions = append(caution(materialsOf(parts)), r.Cautions...)
	}
	return r, err
}

// addedHint says what came together by itself, and how to put it right.
func (d *desk) addedHint(h heap.Heap, parts []mix.Part) string {
	p := mix.Describe(parts, 0, seedOf(parts), 0)
	hint := "By itself that is " + describe(p) + "."
	if p.Holds < 0.5 {
		hint += " What evens it out: mix heap:\"" + h.Name + "\""
	}
	return hint
}

func (d *desk) logTemp() (Reply, error) {
	c, err := d.m.ParseTemperature(d.arg("reading"))
	if err != nil {
		return Reply{}, err
	}
	reading := heap.Temp{C: c, Said: d.arg("reading"), Spot: strings.ToLower(clip(oneLine(d.arg("spot")), maxName))}
	if said := d.arg("depth"); said != "" {
		if reading.DepthCm, err = d.m.ParseLength(said); err != nil {
			return Reply{}, err
		}
	}
	h, at, err := d.target()
	if err != nil {
		return Reply{}, err
	}
	var lines []string
	if reading.Spot != heap.SpotAir {
		held, err := d.heldLine(h, heap.Reading{At: at, C: c})
		if err != nil {
			return Reply{}, err
		}
		lines = appendNew(lines, held)
	}
	return d.save(h, at, lines, reading)
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
	watered := heap.Watered{Said: d.arg("amount")}
	if watered.Said != "" {
		amount, err := d.m.ParseAmount(strings.TrimSuffix(strings.TrimSuffix(watered.Said, "water"), "of "))
		if err != nil {
			return Reply{}, err
		}
		volume, ok := amount.Volume()
		if !ok {
			volume, _ = amount.Mass() // a kilogram of water is a litre
		}
		watered.Litres = volume.Typical
	}
	if watered.Litres > maxWaterL {
		return Reply{}, fault.New(fault.OutOfRange, "“%s” is more water than a heap takes. Up to %s at once is kept; was it less?", quote(watered.Said), d.m.SayWater(maxWaterL))
	}
	return d.record(watered)
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
	stored, err := d.store.Append(d.ctx, d.call.Place, entries...)
	if err != nil {
		return Reply{}, err
	}
	return Reply{
		Headline: fmt.Sprintf("Logged for %s, %s: %s.", list(namesOf(heaps), "and"), d.day(at), d.say(stored[0])),
		Actions:  []Action{{Label: "Undo", Line: "undo " + entryRange(stored)}},
	}, nil
}

// verdicts are the words that a test result may begin with, and whether the test
// passed by them. The longest that fits decides: "no" is a failure, "no smell" is
// not.
var verdicts = map[string]bool{
	"pass": true, "passed": true, "passes": true, "ok": true, "okay": true, "good": true, "yes": true, "fine": true,
	"earthy": true, "sweet": true, "all sprouted": true, "no smell": true, "no bad smell": true, "no odour": true, "no odor": true,
	"smells earthy": true, "smells of earth": true, "smells sweet": true, "smells fine": true, "smells good": true, "stayed cool": true,
	"fail": false, "failed": false, "fails": false, "bad": false, "no": false, "none": false, "poor": false, "hot": false,
	"rotten": false, "sour": false, "stinks": false, "stank": false, "smells bad": false, "smells rotten": false, "smells sour": false,
	"smells of ammonia": false, "smells foul": false, "did not pass": false,
}

func (d *desk) logTest() (Reply, error) {
	result, err := note(d.arg("result"))
	if err != nil {
		return Reply{}, err
	}
	passed, ok := verdict(result)
	if !ok {
		return Reply{}, fault.New(fault.NotUnderstood, "Did the %s test pass? Begin the result with “passed” or “failed”, then say what you saw.", d.arg("test"))
	}
	return d.record(heap.Test{Test: d.arg("test"), Result: result, Passed: passed})
}

// verdict reads whether a test passed from how its result begins. A bare "no"
// says so only when nothing but a pause follows: "no idea" does not.
func verdict(result string) (passed, ok bool) {
	said := strings.ToLower(result)
	longest := 0
	for words, means := range verdicts {
		rest, found := strings.CutPrefix(said, words)
		next, _ := utf8.DecodeRuneInString(rest)
		if !found || len(words) <= longest || unicode.IsLetter(next) || unicode.IsDigit(next) {
			continue
		}
		if words == "no" && strings.HasPrefix(rest, " ") {
			continue
		}
		passed, longest = means, len(words)
	}
	return passed, longest > 0
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

// shares are the words for a part of a heap.
var shares = map[string]float64{"": 1, "all": 1, "everything": 1, "half": 0.5, "a half": 0.5, "a third": 1.0 / 3, "third": 1.0 / 3,
	"two thirds": 2.0 / 3, "a quarter": 0.25, "quarter": 0.25, "three quarters": 0.75, "most": 0.8,
	"1/2": 0.5, "½": 0.5, "1/3": 1.0 / 3, "2/3": 2.0 / 3, "1/4": 0.25, "¼": 0.25, "3/4": 0.75, "¾": 0.75, "all of": 1, "half of": 0.5, "most of": 0.8}

func parseShare(said string) (float64, error) {
	words := strings.TrimSuffix(strings.ToLower(oneLine(said)), " of it")
	if share, ok := shares[words]; ok {
		return share, nil
	}
	number, isPercent := strings.CutSuffix(strings.Replace(words, "percent", "%", 1), "%")
	percent, err := strconv.ParseFloat(strings.TrimSpace(number), 64)
	if !isPercent && percent < 1 {
		percent *= 100 // 0.5 is half of it
	}
	if err != nil || !(percent >= 1 && percent <= 100) {
		return 0, fault.New(fault.NotUnderstood, "“%s” is no share I know. Say all, half, a third, a quarter, or a percentage such as 40 %%.", quote(said))
	}
	return percent / 100, nil
}

func (d *desk) logMove() (Reply, error) {
	share, err := parseShare(d.arg("share"))
	if err != nil {
		return Reply{}, err
	}
	to, err := d.heap("to")
	if err != nil {
		return Reply{}, err
	}
	from, err := d.moveSource(to)
	if err != nil {
		return Reply{}, err
	}
	at, err := d.when()
	if err != nil {
		return Reply{}, err
	}
	s, err := d.state(from)
	if err != nil {
		return Reply{}, err
	}
	entries := []heap.Entry{
		d.newEntry(from, at, heap.Moved{Other: to.ID, OtherName: to.Name, Share: share}),
		d.newEntry(to, at, heap.Moved{Other: from.ID, OtherName: from.Name, In: true, Share: share}),
	}
	for _, part := range s.Portion(share) {
		part.Said = d.m.SayVolume(part.VolumeL) + " of " + part.Name // of what was said once, only this went along
		entries = append(entries, d.newEntry(to, at, part))
	}
	stored, err := d.store.Append(d.ctx, d.call.Place, entries...)
	if err != nil {
		return Reply{}, err
	}
	return Reply{
		Headline: fmt.Sprintf("Logged for %s, %s: %s.", from.Name, d.day(at), d.say(stored[0])),
		Body:     []Block{{Lines: []string{"What it was made of went along to " + to.Name + "."}}},
		Actions:  []Action{{Label: "Undo", Line: "undo " + entryRange(stored)}},
	}, nil
}

// moveSource is the heap named, or the only other one.
func (d *desk) moveSource(to heap.Heap) (heap.Heap, error) {
	if d.arg("heap") == "" {
		others, err := d.heaps("heap")
		if err != nil {
			return heap.Heap{}, err
		}
		if len(others) == 2 {
			for _, h := range others {
				if h.ID != to.ID {
					return h, nil
				}
			}
		}
	}
	from, err := d.heap("heap")
	if err == nil && from.ID == to.ID {
		err = fault.New(fault.OutOfRange, "%s cannot be moved onto itself. Say heap: for where it came from and to: for where it went.", from.Name)
	}
	return from, err
}
