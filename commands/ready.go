package commands

import (
	"fmt"
	"strings"

	"heapside/calc/fault"
	"heapside/calc/heap"
	"heapside/calc/hygiene"
	"heapside/calc/maturity"
	"heapside/calc/measure"
	"heapside/calc/process"
)

func (a *Assistant) readyCommand() Command {
	return Command{Name: "ready", Summary: "Is it ready, for what, and what would settle it",
		Options: []Option{
			{Name: "heap", Summary: "which heap; all if left out", Kind: HeapName, Words: true},
			{Name: "air", Summary: "how warm the air is now, e.g. 12"},
			{Name: "against", Summary: "was it hot enough for this weed, plant disease or germ, e.g. purslane", Kind: Pest},
		},
		Run: a.with((*desk).ready)}
}

func (d *desk) ready() (Reply, error) {
	if d.arg("against") != "" {
		return d.readyAgainst()
	}
	heaps, err := d.heaps("heap")
	if err != nil {
		return Reply{}, err
	}
	if len(heaps) == 0 {
		return Reply{}, fault.New(fault.Missing, noHeap)
	}
	air, err := d.airNow()
	if err != nil {
		return Reply{}, err
	}
	if len(heaps) == 1 {
		r, err := d.reckon(heaps[0])
		if err != nil {
			return Reply{}, err
		}
		r.Air = append(r.Air, air...)
		return d.readyOne(r)
	}
	var states []heap.State
	for _, h := range heaps {
		s, err := d.state(h)
		if err != nil {
			return Reply{}, err
		}
		s.Air = append(s.Air, air...)
		states = append(states, s)
	}
	return d.readyAll(states), nil
}

// airNow is the reading of the air that the question brings, if it does.
func (d *desk) airNow() ([]heap.Reading, error) {
	said := d.arg("air")
	if said == "" {
		return nil, nil
	}
	c, err := d.m.ParseTemperature(said)
	return []heap.Reading{{At: d.call.Now, C: c, Spot: heap.SpotAir}}, err
}

// reckoned is a heap's record with what its model makes of it.
type reckoned struct {
	heap.State
	view *view // nil when there is nothing to model, and the record has said all
}

func (d *desk) reckon(h heap.Heap) (reckoned, error) {
	v, err := d.follow(h, d.sky(h.Started))
	if _, forPeople := fault.As(err); forPeople {
		s, err := d.state(h)
		return reckoned{State: s}, err
	}
	return reckoned{v.state, &v}, err
}

// past is the model's estimate of what a thermometer would have shown.
func (r reckoned) past() hygiene.Curve {
	if r.view == nil {
		return nil
	}
	var curve hygiene.Curve
	for _, mark := range r.view.model.past {
		curve = append(curve, hygiene.Point{At: mark.At, Low: mark.Reading.Low, Mid: mark.Reading.Mid})
	}
	return curve
}

func (d *desk) readyOne(known reckoned) (Reply, error) {
	s, past := known.State, known.past()
	model := maturity.Model{Past: past}
	var expected *process.Outlook
	if known.view != nil {
		o, _, err := d.lookAhead(*known.view, process.Question{Zone: d.zone})
		if err != nil {
			return Reply{}, err
		}
		expected = &o
		model.Lost, model.Breathing = rangeOf(o.Now.Lost), rangeOf(o.Now.Respiration)
	}
	a := maturity.AssessWith(s, d.m, model)
	r := Reply{
		Headline: readyAnswer(s.Heap.Name, s, a),
		Cautions: a.Cautions,
		Basis:    a.Basis,
		Values:   map[string]Value{"stage": {string(a.Stage), ""}},
	}
	block := func(title string, lines ...string) {
		if len(lines) > 0 {
			r.Body = append(r.Body, Block{Title: title, Lines: lines})
		}
	}
	block(d.in.Word("Why"), a.Because...)
	block(d.in.Word("For what"), useLines(a)...)
	block(d.in.Word("What would settle it"), settleLines(a)...)
	d.addHeat(&r, s, past, false)
	block(d.in.Word("Also on record"), a.Also...)
	if expected != nil {
		block(d.in.Word("What the model expects"), append(a.Guess, d.readyLines(*expected)...)...)
		for name, value := range outlookValues(*expected) {
			if strings.HasPrefix(name, "ready.") || strings.HasPrefix(name, "cared.") {
				r.Values[name] = value
			}
		}
	}
	for _, use := range a.Uses {
		r.Values["use."+useKey(use.Name)] = Value{string(use.Verdict), ""}
	}
	return r, nil
}

func rangeOf(b process.Band) measure.Range {
	return measure.Range{Low: b.Low, Typical: b.Mid, High: b.High}
}

// useLines say what the compost is fit for. Uses with one and the same answer
// share a line.
func useLines(a maturity.Assessment) []string {
	lines, names := grouped(a.Uses, func(u maturity.Use) string { return fmt.Sprintf("%s. %s", u.Verdict, u.Why) })
	for i, answer := range lines {
		who := strings.Join(names[answer], "; ")
		if len(names[answer]) == len(a.Uses) {
			who = "every use"
		}
		lines[i] = capital(who) + ": " + answer
	}
	return lines
}

// settleLines say what would settle it: for the heap, then for those uses that
// something else would settle.
func settleLines(a maturity.Assessment) []string {
	var lines []string
	settles, names := grouped(a.Uses, func(u maturity.Use) string { return u.Settle })
	for _, settle := range settles {
		if settle != a.Settle {
			lines = append(lines, "For "+strings.Join(names[settle], "; ")+": "+lower(settle))
		}
	}
	if a.Settle != "" {
		lines = append([]string{a.Settle}, lines...)
	}
	return lines
}

// grouped are the different answers for the uses, in their order, and the names
// of the uses with each; an empty answer is none.
func grouped(uses []maturity.Use, answer func(maturity.Use) string) (answers []string, names map[string][]string) {
	names = map[string][]string{}
	for _, u := range uses {
		if said := answer(u); said != "" {
			answers = appendNew(answers, said)
			names[said] = append(names[said], u.Name)
		}
	}
	return answers, names
}

// stageWords say a stage of which nothing is ready, after the name of the heap.
var stageWords = map[maturity.Stage]string{
	maturity.Filling: "is still filling",
	maturity.Hot:     "is still hot",
	maturity.Cooling: "is cooling, and not shown to be curing",
	maturity.Curing:  "is still curing",
	maturity.Ready:   "is done, but not fit to use",
}

// unready is why nothing is ready, after the name of the heap.
func unready(s heap.State, stage maturity.Stage) string {
	last, read := s.LastReading()
	switch {
	case !read && len(s.Content) == 0:
		return "is empty, as far as the record shows"
	case !read && stage == maturity.Filling:
		return "was never read: nothing shows that it has been hot"
	case stage == maturity.Hot && s.Now.Sub(last.At) > maturity.StaleHot:
		return "was hot when it was last read, " + measure.SayAgo(s.Now.Sub(last.At))
	}
	return stageWords[stage]
}

// readyAnswer is the answer as a person would give it.
func readyAnswer(name string, s heap.State, a maturity.Assessment) string {
	by := map[maturity.Verdict][]string{}
	for _, use := range a.Uses {
		by[use.Verdict] = append(by[use.Verdict], use.Name)
	}
	yes, notYet, unknown := by[maturity.Yes], by[maturity.NotYet], by[maturity.Unknown]
	switch {
	case len(yes) == len(a.Uses):
		return name + " is ready, for every use."
	case len(unknown) == len(a.Uses):
		return "It cannot be told yet whether " + lowerIt(name) + " is ready."
	case len(yes) == 0:
		return "Not yet: " + lowerIt(name) + " " + unready(s, a.Stage) + "."
	}
	said := name + " is ready for " + list(yes, "and")
	if a.Stage != maturity.Ready {
		said = fmt.Sprintf("%s is %s: ready for %s", name, a.Stage, list(yes, "and"))
	}
	if len(notYet) > 0 && len(unknown) == 0 {
		return said + ", not yet for the rest."
	}
	if len(notYet) > 0 {
		said += ", not yet for " + list(notYet, "or")
	}
	return said + "; for " + list(unknown, "and") + " it cannot be told yet."
}

func lowerIt(name string) string {
	if name == "It" {
		return "it"
	}
	return name
}

func (d *desk) readyAll(states []heap.State) Reply {
	r := Reply{Values: map[string]Value{}}
	var fit []string
	for _, s := range states {
		a := maturity.Assess(s, d.m)
		for _, use := range a.Uses {
			if use.Verdict == maturity.Yes {
				fit = append(fit, s.Heap.Name)
				break
			}
		}
		lines := []string{readyAnswer("It", s, a)}
		if len(a.Because) > 0 {
			lines = append(lines, a.Because[0])
		}
		if a.Settle != "" {
			lines = append(lines, d.in.Say("To settle it: %s", a.Settle))
		}
		r.Body = append(r.Body, Block{Title: s.Heap.Name, Lines: lines})
		r.Values["stage."+s.Heap.Name] = Value{string(a.Stage), ""}
		if len(r.Cautions) == 0 {
			r.Cautions = a.Cautions
		}
		for _, b := range a.Basis {
			r.Basis = appendNew(r.Basis, b)
		}
	}
	r.Headline = d.in.Word("Nothing is ready yet.")
	if len(fit) > 0 {
		r.Headline = list(fit, "and") + plural(len(fit), " is", " are") + " ready for some uses. Ask “ready " + fit[0] + "” for which."
	}
	return r
}
