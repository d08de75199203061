package commands

import (
	"fmt"
	"slices"
	"strings"

	"heapside/calc/heap"
	"heapside/calc/hygiene"
)

// triedCaution goes with every comparison with trials.
const triedCaution = "What was tried was as hot all through; a heap is cooler outside, where seeds, roots and germs live on. Local rules come first."

// mostTrials is how many trials one block names (own choice: it is read on a phone).
const mostTrials = 4

// heatRules stand for no pest in particular: was it hot enough by any rule.
const heatRules = "heat rules"

// tried are the names of what a heap can be held against: the rules of heat and
// what published trials are known of.
func tried() []string {
	weeds, diseases, germs := hygiene.Known()
	return slices.Concat([]string{heatRules}, weeds, diseases, germs)
}

// readyAgainst answers whether a heap was hot enough for a weed, a disease or a
// germ: which published trials bear on the heat that it held, side by side.
func (d *desk) readyAgainst() (Reply, error) {
	h, err := d.heap("heap")
	if err != nil {
		return Reply{}, err
	}
	known, err := d.reckon(h)
	if err != nil {
		return Reply{}, err
	}
	what := oneLine(d.arg("against"))
	if strings.EqualFold(what, heatRules) {
		return d.readyHeat(known), nil
	}
	out, keptOut := hygiene.KeepOut(what, d.m)
	past := known.past()
	beside := hygiene.Compare(hygiene.Trials(what), known.State, past)
	r := Reply{
		Headline: d.againstAnswer(h, what, beside),
		Cautions: []string{triedCaution},
		Values:   map[string]Value{"against.known": {len(beside) > 0 || keptOut, ""}, "against.keep_out": {keptOut, ""}},
	}
	if keptOut {
		r.Headline = out
	}
	for _, group := range againstGroups {
		d.addTrials(&r, group, beside)
	}
	if len(beside) == 0 && !keptOut {
		r.Body = append(r.Body, Block{Title: "What is known of", Lines: knownLines()})
		r.Actions = []Action{{Label: "Weed seeds in general", Line: fmt.Sprintf("ready against:\"weed seeds\" heap:\"%s\"", h.Name)}}
	}
	d.addHeat(&r, known.State, past, true)
	return r, nil
}

// againstGroup are the trials that tell one thing.
type againstGroup struct {
	title string
	value string
	tells []hygiene.Tells
}

// againstGroups stand in the order in which they are read: what lives on first.
var againstGroups = []againstGroup{
	{"Lived through as much heat, or more", "outlived", []hygiene.Tells{hygiene.Outlived}},
	{"Was dead after as much heat as was read", "none_left", []hygiene.Tells{hygiene.NoneLeft}},
	{"Was dead after as much heat as there probably was", "none_left_probably", []hygiene.Tells{hygiene.NoneLeftProbably}},
	{"Was dead at a heat that was reached, after a time that is not known", "time_untold", []hygiene.Tells{hygiene.TimeUntold}},
	{"Was dead only after more heat", "needs_more", []hygiene.Tells{hygiene.NeedsMore}},
	{"Tried without a temperature on record", "heat_untold", []hygiene.Tells{hygiene.HeatUntold}},
}

func (g againstGroup) of(all []hygiene.Beside) []hygiene.Beside {
	var found []hygiene.Beside
	for _, b := range all {
		if slices.Contains(g.tells, b.Tells) {
			found = append(found, b)
		}
	}
	return found
}

func (d *desk) addTrials(r *Reply, g againstGroup, all []hygiene.Beside) {
	found := g.of(all)
	r.Values["against."+g.value] = Value{float64(len(found)), "1"}
	if len(found) == 0 {
		return
	}
	block := Block{Title: g.title}
	for i, b := range found {
		if r.Basis = appendNew(r.Basis, b.Source+", "+b.Locator); i < mostTrials {
			block.Lines = append(block.Lines, b.Say(d.m)+d.heldBeside(b))
		}
	}
	if n := len(found) - mostTrials; n > 0 {
		block.Lines = append(block.Lines, fmt.Sprintf("And %d more like these.", n))
	}
	r.Body = append(r.Body, block)
}

// heldBeside says how long this heap stood at the temperature of a trial.
func (d *desk) heldBeside(b hygiene.Beside) string {
	at := max(b.C, b.MostC)
	switch {
	case at == 0:
		return ""
	case b.Probable == 0 && b.Certain == 0:
		return " Here: never that hot, as far as is known."
	}
	here := " Here: "
	if b.MostC > 0 {
		here = " Here, at " + d.m.SayTemperature(at) + " or above: "
	}
	certain, probable := hygiene.SayTime(b.Certain), hygiene.SayTime(b.Probable)
	switch {
	case b.Certain == 0:
		return here + "probably " + probable + "."
	case certain == probable || b.Probable < b.Certain:
		return here + certain + "."
	}
	return here + certain + " as read, probably " + probable + "."
}

// againstAnswer is the answer as far as trials bear it; it never promises.
func (d *desk) againstAnswer(h heap.Heap, what string, beside []hygiene.Beside) string {
	if len(beside) == 0 {
		return fmt.Sprintf("No published test on “%s” is known to me, so how hot %s was does not settle it.", quote(what), h.Name)
	}
	var names []string
	tells := map[hygiene.Tells]bool{}
	for _, b := range beside {
		names, tells[b.Tells] = appendNew(names, b.Of), true
	}
	of := list(names, "and")
	dead, probably, alive := tells[hygiene.NoneLeft], tells[hygiene.NoneLeftProbably], tells[hygiene.Outlived]
	switch {
	case (dead || probably) && alive:
		return fmt.Sprintf("Published tests disagree on %s at the heat that %s held.", of, h.Name)
	case dead:
		return fmt.Sprintf("Where %s was read it held a heat after which a published test found no %s alive.", h.Name, list(names, "or"))
	case probably:
		return fmt.Sprintf("Where it was read %s probably held a heat after which a published test found no %s alive.", h.Name, list(names, "or"))
	case alive:
		return fmt.Sprintf("Do not count on it: in published tests %s lived through as much heat as %s held, or more.", of, h.Name)
	}
	return fmt.Sprintf("No published test that is known to me shows that the heat of %s is enough for %s.", h.Name, of)
}

// knownLines name what can be asked for.
func knownLines() []string {
	weeds, diseases, germs := hygiene.Known()
	line := func(kind string, names []string) string { return kind + ": " + strings.Join(names, ", ") + "." }
	return []string{line("Weeds", weeds), line("Plant diseases", diseases), line("Germs", germs)}
}
