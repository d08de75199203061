package commands

import (
	"fmt"
	"strings"

	"heapside/calc/fault"
	"heapside/calc/heap"
	"heapside/calc/maturity"
	"heapside/calc/process"
)

func (a *Assistant) readyCommand() Command {
	return Command{Name: "ready", Summary: "Is it ready, for what, and what would settle it",
		Options: []Option{
			{Name: "heap", Summary: "which heap; all if left out", Kind: HeapName, Words: true},
			{Name: "air", Summary: "how warm the air is now, e.g. 12"},
		},
		Run: a.with((*desk).ready)}
}

func (d *desk) ready() (Reply, error) {
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
	var states []heap.State
	for _, h := range heaps {
		s, err := d.state(h)
		if err != nil {
			return Reply{}, err
		}
		s.Air = append(s.Air, air...)
		states = append(states, s)
	}
	if len(states) > 1 {
		return d.readyAll(states), nil
	}
	r := d.readyOne(states[0])
	err = d.expectReady(&r, states[0].Heap)
	return r, err
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

// expectReady adds when the model expects the heap to be ready.
func (d *desk) expectReady(r *Reply, h heap.Heap) error {
	v, err := d.follow(h, d.sky(h.Started))
	if _, forPeople := fault.As(err); forPeople {
		return nil // nothing to model: the record has said all
	}
	if err != nil {
		return err
	}
	o, _, err := d.lookAhead(v, process.Question{Zone: d.zone})
	if err != nil {
		return err
	}
	r.Body = append(r.Body, Block{Title: "What the model expects", Lines: d.readyLines(o)})
	for name, value := range outlookValues(o) {
		if strings.HasPrefix(name, "ready.") || strings.HasPrefix(name, "cared.") {
			r.Values[name] = value
		}
	}
	return nil
}

func (d *desk) readyOne(s heap.State) Reply {
	a := maturity.Assess(s, d.m)
	r := Reply{
		Headline: s.Heap.Name + ": " + readyHeadline(a),
		Cautions: a.Cautions,
		Basis:    a.Basis,
		Values:   map[string]Value{"stage": {string(a.Stage), ""}},
	}
	r.Body = append(r.Body, Block{Title: "Why", Lines: a.Because})
	var uses []string
	for _, use := range a.Uses {
		uses = append(uses, fmt.Sprintf("%s: %s. %s", capital(use.Name), use.Verdict, use.Why))
		r.Values["use."+useKey(use.Name)] = Value{string(use.Verdict), ""}
	}
	r.Body = append(r.Body, Block{Title: "For what", Lines: uses})
	if a.Settle != "" {
		r.Body = append(r.Body, Block{Title: "What would settle it", Lines: []string{a.Settle}})
	}
	return r
}

func readyHeadline(a maturity.Assessment) string {
	var yes, unknown []string
	for _, use := range a.Uses {
		switch use.Verdict {
		case maturity.Yes:
			yes = append(yes, use.Name)
		case maturity.Unknown:
			unknown = append(unknown, use.Name)
		}
	}
	switch {
	case len(yes) == len(a.Uses) && len(yes) > 0:
		return "ready, for every use."
	case len(yes) > 0:
		return fmt.Sprintf("%s; ready for %s.", a.Stage, list(yes, "and"))
	case len(unknown) == len(a.Uses) && len(unknown) > 0:
		return fmt.Sprintf("%s; whether it is ready cannot be told from what is on record.", a.Stage)
	}
	return fmt.Sprintf("%s, not ready yet.", a.Stage)
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
		lines := []string{capital(readyHeadline(a))}
		if len(a.Because) > 0 {
			lines = append(lines, a.Because[0])
		}
		if a.Settle != "" {
			lines = append(lines, "To settle it: "+a.Settle)
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
	r.Headline = "Nothing is ready yet."
	if len(fit) > 0 {
		r.Headline = list(fit, "and") + plural(len(fit), " is", " are") + " ready for some uses. Ask “ready " + fit[0] + "” for which."
	}
	return r
}
