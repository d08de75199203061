package commands

import "heapside/calc/heap"

// mostActions is how many buttons stand under an answer with those that lead on
// from it: one row, which a phone shows as a whole. Own choice.
const mostActions = 5

// lead puts the actions that lead on from an answer after its own, as many as
// there is room for.
func (r *Reply) lead(actions ...Action) {
	for _, a := range actions {
		if len(r.Actions) < mostActions && len(a.Line) <= maxActionLine {
			r.Actions = append(r.Actions, a)
		}
	}
}

// actionOn makes an action of one heap, or of all when there is none.
func (d *desk) actionOn(label, line string, h heap.Heap) Action {
	label = d.in.Word(label)
	if h.Name != "" {
		label, line = label+", "+h.Name, line+" heap:\""+h.Name+"\""
	}
	return Action{Label: clip(label, maxActionLabel), Line: line}
}

// visitAction asks what a visit brought; without a heap it asks for that first.
func (d *desk) visitAction(h heap.Heap) Action { return d.actionOn("Log a visit", "log visit", h) }

// startAction asks for the name of a heap to start.
var startAction = Action{Label: "Start a heap", Line: "heap start"}

// historyAction shows who did what.
var historyAction = Action{Label: "Who did what and when, a heap's chart, and the record as CSV", Line: "history"}

// addAction asks what was put on a heap.
func (d *desk) addAction(h heap.Heap) Action {
	return d.actionOn("Log what went on", "log add", h)
}

// chartAction shows the course of a heap.
func (d *desk) chartAction(h heap.Heap) Action { return d.actionOn("Show the chart", "history", h) }

// evenAction asks what puts a heap's mix right.
func (d *desk) evenAction(h heap.Heap) Action { return d.actionOn("What evens it out", "mix", h) }

// leadOn brings what follows from looking at heaps: a visit, the chart of one,
// and reminders where there never were any.
func (d *desk) leadOn(r Reply, heaps []heap.Heap) (Reply, error) {
	if len(heaps) == 1 {
		r.lead(d.visitAction(heaps[0]), d.chartAction(heaps[0]))
	} else {
		r.lead(d.visitAction(heap.Heap{}))
	}
	offer, err := d.firstReminder()
	r.lead(offer...)
	return r, err
}
