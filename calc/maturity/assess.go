package maturity

import (
	"fmt"
	"slices"
	"strings"

	"heapside/calc/heap"
	"heapside/calc/hygiene"
	"heapside/calc/measure"
)

// whyLines is how many reasons stand in Because (own choice: what a person
// would say); the others are in Also.
const whyLines = 3

// Assess says how far a heap is and what its compost is fit for. It judges
// only what is on record: no reading is no evidence.
func Assess(s heap.State, m measure.Measures) Assessment { return AssessWith(s, m, Model{}) }

// AssessWith is Assess with what a model of the heap expects beside it. The
// model is named where it agrees or not; it decides nothing.
func AssessWith(s heap.State, m measure.Measures, model Model) Assessment {
	e := weigh(s, m)
	e.model = model
	stage, why := e.stage()
	if stage == Hot && e.readingAge <= StaleHot {
		why = e.say.Say("%s: it is hot.", strings.TrimSuffix(e.sayReading(e.last), "."))
	}
	lines := e.lines(stage, why)
	a := Assessment{
		Stage:    stage,
		Because:  texts(lines[:min(whyLines, len(lines))]),
		Also:     texts(lines[min(whyLines, len(lines)):]),
		Guess:    e.guess(),
		Settle:   e.say.Word(e.settleStage(stage)),
		Basis:    e.basis(stage, lines),
		Cautions: e.cautions(),
	}
	for _, u := range uses {
		v := u.judge(e, stage)
		a.Uses = append(a.Uses, Use{Name: u.name, Verdict: v.verdict, Why: e.say.Word(v.why), Settle: e.say.Word(v.settle)})
	}
	return a
}

// basis lists the readings and the sources that the stage, the uses and the
// lines of evidence rest on.
func (e evidence) basis(s Stage, lines []line) []string {
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
	for _, l := range lines {
		for _, source := range l.sources {
			if !slices.Contains(list, source) {
				list = append(list, source)
			}
		}
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

// manureRule is the heat rule that spares manure the wait before harvest.
const manureRule = "nop-windrow"

// manureHeat says whether that rule was met; a wait is asked for all the same,
// since nobody read the whole heap.
var manureHeat = map[hygiene.Status]string{
	hygiene.NotYet:   "Manure went in, and no readings show that the heat rule which spares the wait was met: keep",
	hygiene.Probably: "Manure went in, and the heat rule which spares the wait was probably met, but readings do not show it: keep",
	hygiene.Reached:  "Manure went in. The heat rule which spares the wait was met where the heap was read; of the rest that says nothing. In doubt keep",
}

func (e evidence) cautions() []string {
	if !slices.ContainsFunc(e.Content, func(a heap.Added) bool { return strings.HasPrefix(a.Material, "manure") }) {
		return nil
	}
	for _, f := range hygiene.Evaluate(e.State, e.model.Past).Findings {
		if f.Rule.Code == manureRule {
			return []string{manureHeat[f.Status] + " it off food crops for 120 days before harvest, or 90 where the crop does not touch soil (" + srcManure + "). Local rules come first."}
		}
	}
	return nil
}
