package commands

import (
	"maps"
	"math"
	"strings"

	"heapside/calc/audit"
	"heapside/calc/fault"
	"heapside/calc/heap"
)

// selection is what a history shows of what there is.
type selection struct {
	acts  bool // what was changed besides heaps
	topic audit.Topic
	entry func(heap.Entry) bool // nil: no entry
}

// selections are what a history can be asked for; all without a word.
var selections = map[string]selection{
	"":          {acts: true, entry: every},
	"log":       {entry: every},
	"changes":   {acts: true, entry: ofHeap},
	"heaps":     {entry: ofHeap},
	"settings":  {acts: true, topic: audit.Settings},
	"reminders": {acts: true, topic: audit.Reminders},
	"stock":     {acts: true, topic: audit.Stock},
}

var shownChoices = picks("log", "what was logged", "changes", "all that was changed", "heaps", "heaps that were started, changed, finished",
	"settings", "", "reminders", "", "stock", "")

func every(heap.Entry) bool { return true }

// ofHeap reports an entry that says what a heap is, not what was done to it, and
// one that takes such an entry back.
func ofHeap(e heap.Entry) bool {
	kind := e.Payload.Kind()
	if v, ok := e.Payload.(heap.Voided); ok {
		kind = v.Was
	}
	switch kind {
	case heap.KindStarted, heap.KindChanged, heap.KindFinished:
		return true
	}
	return false
}

// kindForHeap reads a kind in the place of a heap, where no heap is called so:
// "history settings".
func (d *desk) kindForHeap() {
	said := strings.ToLower(oneLine(d.arg("heap")))
	if _, known := selections[said]; !known || said == "" || d.arg("kind") != "" {
		return
	}
	if _, err := d.heap("heap"); err == nil {
		return
	}
	call := *d.call
	call.Args = maps.Clone(call.Args)
	delete(call.Args, "heap")
	call.Args["kind"] = said
	d.call = &call
}

// shown is what the caller wants to see. What is of no heap is left out where a
// heap is named.
func (d *desk) shown() (selection, error) {
	kind := d.arg("kind")
	show := selections[kind]
	if d.arg("heap") == "" {
		return show, nil
	}
	if show.topic != "" {
		return show, fault.New(fault.OutOfRange, "No heap has %s of its own. Leave the heap out: history kind:%s", kind, kind)
	}
	show.acts = false
	return show, nil
}

// actsWanted is how many acts are read: all of them only for a table.
func (d *desk) actsWanted() int {
	if d.arg("csv") != "" {
		return math.MaxInt32
	}
	return shownEntries
}
