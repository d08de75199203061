package maturity

import (
	"fmt"
	"strings"
	"time"

	"heapside/calc/heap"
	"heapside/calc/measure"
)

// Assess says how far a heap is and what its compost is fit for. It judges
// only what is on record: no reading is no evidence.
func Assess(s heap.State, m measure.Measures) Assessment {
	e := weigh(s, m)
	stage, why := e.stage()
	if stage == Hot && e.readingAge <= StaleHot {
		why = fmt.Sprintf("%s in the heap %s: it is hot.", m.SayTemperature(e.last.C), ago(e.State, e.last.At))
	}
	a := Assessment{
		Stage:    stage,
		Because:  append([]string{why}, e.because(stage, why)...),
		Settle:   e.settleStage(stage),
		Basis:    e.basis(stage),
		Cautions: e.cautions(),
	}
	for _, u := range uses {
		v := u.judge(e, stage)
		a.Uses = append(a.Uses, Use{Name: u.name, Verdict: v.verdict, Why: v.why, Settle: v.settle})
	}
	return a
}

// because lists the evidence, the strongest first, in short sentences that do
// not repeat why.
func (e evidence) because(s Stage, why string) []string {
	var lines []string
	add := func(format string, args ...any) {
		line := fmt.Sprintf(format, args...)
		if len(line) > 1 && !strings.Contains(why, line[1:len(line)-1]) {
			lines = append(lines, line)
		}
	}
	switch {
	case e.hasLast && e.readingAge > e.staleAfter(s):
		add("%s %s is the last reading: too old to say what it is today.", e.say.SayTemperature(e.last.C), ago(e.State, e.last.At))
	case e.hasLast:
		add("%s in the heap %s.", e.say.SayTemperature(e.last.C), ago(e.State, e.last.At))
	case len(e.Content) > 0:
		add("No temperature is on record.")
	}
	if e.hasLast && e.PeakC > e.last.C {
		add("The highest reading was %s.", e.say.SayTemperature(e.PeakC))
	}
	if e.hasAir {
		add("%s.", e.compareAir())
	} else if s == Curing && e.curing {
		add("There is no air reading to compare with, taken within two days of one in the heap.")
	}
	if n := len(e.Air); n > 0 && e.hasLast && e.Air[n-1].At.Sub(e.last.At) > pairWithin {
		add("The newest air reading cannot be compared: the heap was last read %s.", ago(e.State, e.last.At))
	}
	if s != Filling && e.sinceFresh <= CuredAfter && len(e.Content) > 0 {
		add("Fresh material went in %s; mixed with it, older compost counts as fresh.", ago(e.State, e.Now.Add(-e.sinceFresh)))
	}
	if e.Smell != "" && e.Now.Sub(e.SmellAt) <= StaleSign {
		add("%s.", e.smelled())
	}
	for _, t := range append(e.passed, e.failed...) {
		add("The %s test %s %s.", t.Test.Test, outcome(t.Passed), ago(e.State, t.At))
	}
	if c := e.contradiction(s); c != "" {
		add("%s", c)
	}
	return lines
}

func (e evidence) staleAfter(s Stage) time.Duration {
	if s == Hot || s == Cooling || s == Filling {
		return StaleHot
	}
	return StaleSign
}

func (e evidence) compareAir() string {
	g := e.gap()
	switch {
	case g > AirGapC:
		return "The heap is " + e.sayGap(g) + " warmer than the air"
	case g < 1:
		return "The heap is as cool as the air"
	}
	return "The heap is only " + e.sayGap(g) + " warmer than the air"
}

func (e evidence) smelled() string {
	if e.Smell == "none" {
		return "It did not smell " + ago(e.State, e.SmellAt)
	}
	return "It smelled " + smellWord(e.Smell) + " " + ago(e.State, e.SmellAt)
}

func outcome(passed bool) string {
	if passed {
		return "passed"
	}
	return "failed"
}

// contradiction says plainly which entries cannot both be right.
func (e evidence) contradiction(s Stage) string {
	earthy := e.Smell == "earthy" && e.Now.Sub(e.SmellAt) <= StaleSign
	switch {
	case s == Hot && len(e.passed) > 0:
		return fmt.Sprintf("The %s test says done and the thermometer says working: these contradict, and the heat counts.", e.passed[0].Test.Test)
	case s == Hot && e.sinceFresh >= ActiveAge:
		return fmt.Sprintf("Nothing fresh is logged for %s, yet it is hot: something went in unlogged, or the reading is off.", measure.SayDays(e.sinceFresh))
	case s == Hot && earthy:
		return "An earthy smell speaks for ripe compost, the heat against it: the heat counts."
	case len(e.passed) > 0 && len(e.failed) > 0:
		return fmt.Sprintf("The %s test passed and the %s test failed: the failed one counts until it is done again.", e.passed[0].Test.Test, e.failed[0].Test.Test)
	case len(e.passed) > 0 && e.badSmell:
		return fmt.Sprintf("The %s test passed, yet it smells %s: the smell counts.", e.passed[0].Test.Test, smellWord(e.Smell))
	}
	return ""
}

// basis lists the readings and the sources that the stage and the uses rest on.
func (e evidence) basis(s Stage) []string {
	list := []string{e.onRecord(), SourceCuring, SourceSigns}
	if s == Hot || s == Cooling {
		list = append(list, srcFresh, srcCooling)
	}
	if e.provenByAgeAlone {
		list = append(list, src180, srcYear)
	}
	if s != Filling && e.sinceFresh <= CuredAfter {
		list = append(list, SourceRaw)
	}
	if s == Curing || s == Ready {
		list = append(list, SourceRadish, SourceBag)
	}
	return list
}

// onRecord counts the entries that the answer rests on.
func (e evidence) onRecord() string {
	var parts []string
	add := func(n int, one, many string) {
		switch {
		case n == 1:
			parts = append(parts, "1 "+one)
		case n > 1:
			parts = append(parts, fmt.Sprintf("%d %s", n, many))
		}
	}
	add(len(e.Readings), "reading in the heap", "readings in the heap")
	add(len(e.Air), "reading of the air", "readings of the air")
	add(len(e.Turns), "turning", "turnings")
	add(len(e.Tests), "test", "tests")
	if len(parts) == 0 {
		return "nothing on record that tells"
	}
	return "on record: " + strings.Join(parts, ", ")
}

func (e evidence) cautions() []string {
	for _, a := range e.Content {
		if strings.HasPrefix(a.Material, "manure") {
			return []string{"Manure went in: unless a heat rule was met, keep it off food crops for 120 days before harvest, or 90 where the crop does not touch soil (" + srcManure + "). Local rules come first."}
		}
	}
	return nil
}
