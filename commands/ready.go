package commands

import (
	"fmt"
	"slices"
	"strings"
	"time"

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
		return Reply{}, d.noHeap()
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
		reply, err := d.readyOne(r)
		if err != nil {
			return Reply{}, err
		}
		return d.leadOn(reply, heaps)
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
	return d.leadOn(d.readyAll(states), heaps)
}

// airNow is the reading of the air that the question brings, if it does.
func (d *desk) airNow() ([]heap.Reading, error) {
	said := d.arg("air")
	if said == "" {
		return nil, nil
	}
	c, err := d.m.ParseTemperature(said)
	return []heap.Reading{{At: d.call.Now, C: c, Spot: heap.SpotAir}}, d.doubt("air", err)
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
	a := maturity.AssessWith(s, d.local, model)
	r := Reply{
		Headline: d.readyAnswer(s, a),
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
	block(d.in.Word("For what"), d.useLines(a)...)
	block(d.in.Word("What would settle it"), d.settleLines(a)...)
	d.addHeat(&r, s, past, false)
	block(d.in.Word("Also on record"), a.Also...)
	if expected != nil {
		r.Headline += d.readyBy(*expected, a)
		block(d.in.Word("What the model expects"), append(a.Guess, d.readyLines(*expected)...)...)
		for name, value := range d.outlookValues(*expected) {
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

// readyBy adds to the answer when the model expects the rest of the uses, if
// there is a rest and that is still to come.
func (d *desk) readyBy(o process.Outlook, a maturity.Assessment) string {
	likely := soonest(o).Likely
	if likely.Sub(o.At) < 24*time.Hour || !slices.ContainsFunc(a.Uses, func(u maturity.Use) bool { return u.Verdict != maturity.Yes }) {
		return ""
	}
	return " " + d.in.Say("By its model it is likely ready around %s.", d.date(likely))
}

func rangeOf(b process.Band) measure.Range {
	return measure.Range{Low: b.Low, Typical: b.Mid, High: b.High}
}

// useLines say what the compost is fit for. Uses with one and the same answer
// share a line.
func (d *desk) useLines(a maturity.Assessment) []string {
	lines, names := grouped(a.Uses, func(u maturity.Use) string { return fmt.Sprintf("%s. %s", d.in.Word(string(u.Verdict)), u.Why) })
	for i, answer := range lines {
		who := d.usesIn(names[answer], "; ")
		if len(names[answer]) == len(a.Uses) {
			who = d.in.Word("every use")
		}
		lines[i] = d.in.Say("%s: %s", capital(who), answer)
	}
	return lines
}

// settleLines say what would settle it: for the heap, then for those uses that
// something else would settle.
func (d *desk) settleLines(a maturity.Assessment) []string {
	var lines []string
	settles, names := grouped(a.Uses, func(u maturity.Use) string { return u.Settle })
	for _, settle := range settles {
		if settle != a.Settle {
			lines = append(lines, d.in.Say("For %s: %s", d.usesIn(names[settle], "; "), lower(settle)))
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

// usesIn names uses of compost one after the other.
func (d *desk) usesIn(names []string, between string) string {
	said := make([]string, len(names))
	for i, name := range names {
		said[i] = d.in.Word(name)
	}
	return strings.Join(said, between)
}

// unreadyWords say of a heap at a stage that nothing of it is ready.
var unreadyWords = map[maturity.Stage]string{
	maturity.Filling: "Not yet: %s is still filling.",
	maturity.Hot:     "Not yet: %s is still hot.",
	maturity.Cooling: "Not yet: %s is cooling, and not shown to be curing.",
	maturity.Curing:  "Not yet: %s is still curing.",
	maturity.Ready:   "Not yet: %s is done, but not fit to use.",
}

// readyWords say of a heap at a stage what it is ready for.
var readyWords = map[maturity.Stage]string{
	maturity.Filling: "%s is filling: ready for %s",
	maturity.Hot:     "%s is hot: ready for %s",
	maturity.Cooling: "%s is cooling: ready for %s",
	maturity.Curing:  "%s is curing: ready for %s",
	maturity.Ready:   "%s is ready for %s",
}

// unready is that nothing is ready, and why.
func (d *desk) unready(name string, s heap.State, stage maturity.Stage) string {
	last, read := s.LastReading()
	switch {
	case !read && len(s.Content) == 0:
		return d.in.Say("Not yet: %s is empty, as far as the record shows.", name)
	case !read && stage == maturity.Filling:
		return d.in.Say("Not yet: %s was never read: nothing shows that it has been hot.", name)
	case stage == maturity.Hot && s.Now.Sub(last.At) > maturity.StaleHot:
		return d.in.Say("Not yet: %s was hot when it was last read, %s.", name, d.local.SayAgo(s.Now.Sub(last.At)))
	}
	return d.in.Say(unreadyWords[stage], name)
}

// readyAnswer is the answer as a person would give it.
func (d *desk) readyAnswer(s heap.State, a maturity.Assessment) string {
	return d.readyAs(s.Heap.Name, s.Heap.Name, s, a)
}

// readyAs is readyAnswer with what the heap is called at the beginning of a
// sentence and within one.
func (d *desk) readyAs(first, within string, s heap.State, a maturity.Assessment) string {
	by := map[maturity.Verdict][]string{}
	for _, use := range a.Uses {
		by[use.Verdict] = append(by[use.Verdict], d.in.Word(use.Name))
	}
	yes, notYet, unknown := by[maturity.Yes], by[maturity.NotYet], by[maturity.Unknown]
	switch {
	case len(yes) == len(a.Uses):
		return d.in.Say("%s is ready, for every use.", first)
	case len(unknown) == len(a.Uses):
		return d.in.Say("It cannot be told yet whether %s is ready.", within)
	case len(yes) == 0:
		return d.unready(within, s, a.Stage)
	}
	said := d.in.Say(readyWords[a.Stage], first, d.in.List(yes, "and"))
	if len(notYet) > 0 && len(unknown) == 0 {
		return d.in.Say("%s, not yet for the rest.", said)
	}
	if len(notYet) > 0 {
		said = d.in.Say("%s, not yet for %s", said, d.in.List(notYet, "or"))
	}
	return d.in.Say("%s; for %s it cannot be told yet.", said, d.in.List(unknown, "and"))
}

func (d *desk) readyAll(states []heap.State) Reply {
	r := Reply{Values: map[string]Value{}}
	var fit []string
	for _, s := range states {
		a := maturity.Assess(s, d.local)
		for _, use := range a.Uses {
			if use.Verdict == maturity.Yes {
				fit = append(fit, s.Heap.Name)
				break
			}
		}
		lines := []string{d.readyAs(d.in.Word("It"), d.in.Word("it"), s, a)}
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
		r.Headline = d.in.Say("%s is ready for some uses. Ask “ready %s” for which.", fit[0], fit[0])
	}
	if len(fit) > 1 {
		r.Headline = d.in.Say("%s are ready for some uses. Ask “ready %s” for which.", d.in.List(fit, "and"), fit[0])
	}
	return r
}
