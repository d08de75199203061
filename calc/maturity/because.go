package maturity

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
	"time"

	"heapside/calc/heap"
)

// line is one piece of evidence as a short sentence, with what it rests on.
type line struct {
	text    string
	sources []string
}

func texts(lines []line) []string {
	var list []string
	for _, l := range lines {
		list = append(list, l.text)
	}
	return list
}

// lines lists the evidence, the strongest first: what contradicts, why the heap
// stands where it does, then everything else that is on record.
func (e evidence) lines(s Stage, why string) []line {
	var lines []line
	for _, c := range e.contradictions(s) {
		lines = append(lines, line{text: c})
	}
	lines = append(lines, line{text: why})
	for _, of := range []func(Stage) []line{e.readingLines, e.airLines, e.testLines, e.signLines, e.heatLines, e.timeLines, e.volumeLines, e.olderLines} {
		for _, l := range of(s) {
			if len(l.text) > 1 && !strings.Contains(why, l.text[1:len(l.text)-1]) {
				lines = append(lines, l)
			}
		}
	}
	return lines
}

// sayReading says a reading with its place and age.
func (e evidence) sayReading(r heap.Reading) string {
	where, note := e.say.Word("in the heap"), ""
	switch {
	case (heap.Reading{Spot: r.Spot}).Outer():
		where = e.say.Say("at the %s", strings.ToLower(strings.TrimSpace(r.Spot)))
	case r.Outer():
		where = e.say.Say("only %s deep", e.say.SayLength(r.DepthCm))
	case r.DepthCm == 0 && r.Spot == "":
		note = e.say.Word(", depth not said, taken as the middle")
	}
	if r.At.Before(e.RefilledAt) {
		note += e.say.Word(", before fresh material filled it up")
	}
	return fmt.Sprintf("%s %s %s%s.", e.say.SayTemperature(r.C), where, e.ago(r.At), note)
}

// apartC is how far two readings of one round lie apart to be named (own choice:
// more than a thermometer is off).
const apartC = 5.0

func (e evidence) readingLines(s Stage) []line {
	var lines []line
	add := func(text string) { lines = append(lines, line{text: text}) }
	switch {
	case !e.hasLast && len(e.Content) > 0:
		add(e.say.Word("No temperature is on record."))
	case !e.hasLast:
		return nil
	case e.readingAge > e.staleAfter(s):
		add(e.say.Say("%s %s is the last reading: too old to say what it is today.", e.say.SayTemperature(e.last.C), e.ago(e.last.At)))
	default:
		add(e.sayReading(e.last))
	}
	if c, ok := e.coolerInRound(); ok {
		add(e.say.Say("In the same round it read %s elsewhere: the hottest counts.", e.say.SayTemperature(c)))
	}
	if n := len(e.all); n > 0 && e.all[n-1].Outer() && !e.all[n-1].At.Before(e.last.At) {
		add(e.say.Say("%s It does not speak for the middle.", e.sayReading(e.all[n-1])))
	}
	return lines
}

// heatLines tell how hot it was, and whether turning made it hot again.
func (e evidence) heatLines(Stage) []line {
	var lines []line
	if l, ok := e.reheated(); ok {
		lines = append(lines, l)
	}
	if e.hasLast && e.PeakC > e.last.C {
		lines = append(lines, line{text: e.say.Say("The highest reading was %s.", e.say.SayTemperature(e.PeakC))})
	}
	return lines
}

// coolerInRound is the coolest reading of the last round over the heap, if it is
// far below the one that counts.
func (e evidence) coolerInRound() (float64, bool) {
	coolest := e.last.C
	for _, r := range slices.Backward(e.all) {
		if e.last.At.Sub(r.At) > oneRound {
			break
		}
		if !r.Outer() && r.At.Sub(e.last.At) <= oneRound && !turnedBetween(e.Turns, r.At, e.last.At) && !turnedBetween(e.Turns, e.last.At, r.At) {
			coolest = min(coolest, r.C)
		}
	}
	return coolest, e.hasLast && e.last.C-coolest > apartC
}

// reheated says whether a heap that was hot heated again after it was last turned.
func (e evidence) reheated() (line, bool) {
	turned := e.LastTurn()
	after := e.Readings[len(e.Readings):]
	for i, r := range slices.Backward(e.Readings) {
		if !r.At.After(turned) {
			break
		}
		after = e.Readings[i:]
	}
	if turned.IsZero() || !e.wasHot || len(after) == 0 {
		return line{}, false
	}
	top := slices.MaxFunc(after, func(a, b heap.Reading) int { return cmp.Compare(a.C, b.C) })
	at, most := e.ago(turned), e.say.SayTemperature(top.C)
	switch {
	case top.C >= HotC:
		return line{e.say.Say("Turned %s, it has reached %s at most since: it heats again after turning.", at, most), []string{srcReheat}}, true
	case e.last.At.Sub(turned) >= Settled:
		return line{e.say.Say("Turned %s, it has reached %s at most since: it does not heat again.", at, most), []string{srcReheat}}, true
	}
	return line{}, false
}

func (e evidence) staleAfter(s Stage) time.Duration {
	if s == Hot || s == Cooling || s == Filling {
		return StaleHot
	}
	return StaleSign
}

func (e evidence) airLines(s Stage) []line {
	var lines []line
	if e.hasAir {
		lines = append(lines, line{text: e.compareAir()})
	} else if s == Curing && e.curing {
		lines = append(lines, line{text: e.say.Word("There is no air reading to compare with, taken within two days of one in the heap.")})
	}
	if n := len(e.Air); n > 0 && e.hasLast && e.Air[n-1].At.Sub(e.last.At) > pairWithin {
		lines = append(lines, line{text: e.say.Say("The newest air reading cannot be compared: the heap was last read %s.", e.ago(e.last.At))})
	}
	return lines
}

func (e evidence) compareAir() string {
	g := e.gap()
	switch {
	case g > AirGapC:
		return e.say.Say("The heap is %s warmer than the air.", e.sayGap(g))
	case g < 1:
		return e.say.Word("The heap is as cool as the air.")
	}
	return e.say.Say("The heap is only %s warmer than the air.", e.sayGap(g))
}

// outcomeWords say how a test ended.
var outcomeWords = map[Outcome]string{Finished: "passed", Fresh: "showed fresh compost", Against: "failed", Silent: "settled nothing"}

// testsThat head a list of tests that ended so.
var testsThat = map[Outcome]string{Finished: "Tests that passed", Fresh: "Tests that showed fresh compost", Against: "Tests that failed", Silent: "Tests that settled nothing"}

// testsInFull is how many tests are told in full sentences; more are listed (own choice).
const testsInFull = 2

func (e evidence) testLines(Stage) []line {
	var lines []line
	standing := slices.Concat(e.failed, e.fresh, e.passed, e.silent)
	if len(standing) <= testsInFull {
		for _, t := range standing {
			said := e.say.Say("The %s %s %s.", e.name(t), e.say.Word(outcomeWords[t.Outcome]), e.ago(t.At))
			lines = append(lines, line{strings.Join(append([]string{said}, t.Lines...), " "), t.Basis})
		}
		return lines
	}
	for _, list := range [][]told{e.failed, e.fresh, e.passed, e.silent} {
		if len(list) == 0 {
			continue
		}
		l := line{text: e.say.Word(testsThat[list[0].Outcome]) + ": "}
		for i, t := range list {
			if i > 0 {
				l.text += ", "
			}
			l.text += e.brief(t)
			l.sources = append(l.sources, t.Basis...)
		}
		l.text += "."
		lines = append(lines, l)
	}
	return lines
}

// brief is a test with its age and the figure that tells.
func (e evidence) brief(t told) string {
	said := e.short(t) + " " + e.ago(t.At)
	if t.Short != "" {
		said += " (" + t.Short + ")"
	}
	return said
}

func (e evidence) signLines(Stage) []line {
	if e.Smell == "" || e.Now.Sub(e.SmellAt) > StaleSign {
		return nil
	}
	return []line{{text: e.smelled()}}
}

func (e evidence) smelled() string {
	if e.Smell == "none" {
		return e.say.Say("It did not smell %s.", e.ago(e.SmellAt))
	}
	return e.say.Say("It smelled %s %s.", e.smellWord(), e.ago(e.SmellAt))
}

// olderLines name what is on record and no longer counts.
func (e evidence) olderLines(Stage) []line {
	var lines []line
	list := func(tests []told, why string) {
		var said []string
		for _, t := range tests {
			said = append(said, fmt.Sprintf("%s %s %s", e.short(t), e.say.Word(outcomeWords[t.Outcome]), e.ago(t.At)))
		}
		if len(said) > 0 {
			lines = append(lines, line{text: why + ": " + strings.Join(said, ", ") + "."})
		}
	}
	list(e.replaced, e.say.Word("Tests that newer ones replace"))
	list(e.outdated, e.say.Word("Tests from before fresh material went in"))
	switch {
	case e.beforeRefill() == 0:
	case len(e.Content) == 0:
		lines = append(lines, line{text: e.say.Say("It was emptied %s: what was read and tested before is of the old content.", e.ago(e.RefilledAt))})
	default:
		lines = append(lines, line{text: e.say.Say("It was filled anew %s: what was read and tested before is of the old content.", e.ago(e.RefilledAt))})
	}
	return lines
}

// beforeRefill counts the readings and tests from before the heap was last
// emptied or filled up.
func (e evidence) beforeRefill() int {
	n := 0
	for _, entry := range e.Entries {
		if !entry.At.Before(e.RefilledAt) {
			break
		}
		switch entry.Payload.(type) {
		case heap.Temp, heap.Test:
			n++
		}
	}
	return n
}
