package commands

import (
	"fmt"
	"slices"
	"strconv"
	"strings"
	"time"

	"heapside/calc/audit"
	"heapside/calc/fault"
	"heapside/calc/heap"
)

func (a *Assistant) historyCommand() Command {
	return Command{Name: "history", Summary: "Who did what and when, a heap's chart, and the record as CSV",
		Options: []Option{
			{Name: "heap", Summary: "which heap; all if left out", Kind: HeapName, Words: true},
			{Name: "days", Summary: "how many days back; the newest entries if left out", Kind: Hint, Choices: picks("7 days", "", "2 weeks", "", "1 month", "", "3 months", "", "1 year", "")},
			{Name: "kind", Summary: "only what was logged, or only what was changed", Kind: Pick, Choices: shownChoices},
			{Name: "csv", Summary: "the whole record as a file", Kind: Pick, Choices: picks("yes", "")},
		},
		Run: a.with((*desk).history)}
}

// shownEntries is how many entries fit a phone. Own choice.
const shownEntries = 15

// maxDays is how far back a record can reach: ten years. Own choice.
const maxDays = 3660

func (d *desk) history() (Reply, error) {
	d.kindForHeap()
	show, err := d.shown()
	if err != nil {
		return Reply{}, err
	}
	since, err := d.since()
	if err != nil {
		return Reply{}, err
	}
	heaps, err := d.historyHeaps()
	if err != nil {
		return Reply{}, err
	}
	names := map[heap.ID]string{}
	var entries []heap.Entry
	for _, h := range heaps {
		names[h.ID] = h.Name
		if show.entry == nil {
			continue
		}
		log, err := d.store.Entries(d.ctx, d.call.Place, h.ID)
		if err != nil {
			return Reply{}, err
		}
		entries = append(entries, log...)
	}
	entries = heap.Order(entries)
	entries = slices.DeleteFunc(entries, func(e heap.Entry) bool { return e.At.Before(since) || !show.entry(e) })
	past := history{names: names, entries: entries}
	if show.acts {
		if past.acts, past.allActs, err = d.store.Acts(d.ctx, d.call.Place, show.topic, since, d.actsWanted()); err != nil {
			return Reply{}, err
		}
	}
	r, err := d.historyReply(past)
	if err != nil || len(heaps) != 1 || d.arg("csv") != "" || d.arg("kind") != "" {
		return r, err
	}
	picture, ok, err := d.picture(heaps[0], since)
	if ok {
		r.Files = append(r.Files, picture)
	}
	return r, err
}

// daysOf is how many days a unit has, a month at its longest.
var daysOf = map[string]int{"": 1, "day": 1, "week": 7, "month": 31, "year": 366}

func (d *desk) since() (time.Time, error) {
	said := d.arg("days")
	if said == "" {
		return time.Time{}, nil
	}
	words := strings.TrimSuffix(strings.ToLower(oneLine(said)), "s")
	unit := strings.TrimLeft(words, "0123456789")
	days, err := strconv.Atoi(strings.TrimSuffix(words, unit))
	if err != nil || days > maxDays {
		days = 0
	}
	if days *= daysOf[strings.TrimSpace(unit)]; days < 1 || days > maxDays {
		return time.Time{}, d.doubt("days", fault.New(fault.OutOfRange, "“%s” is no number of days. Say a whole number from 1 to %d.", quote(said), maxDays))
	}
	return d.call.Now.AddDate(0, 0, -days), nil
}

// historyHeaps are the heap named, or all of the place, finished ones too.
func (d *desk) historyHeaps() ([]heap.Heap, error) {
	if d.arg("heap") != "" {
		h, err := d.heap("heap")
		return []heap.Heap{h}, err
	}
	return d.store.Heaps(d.ctx, d.call.Place)
}

// history is what there is to show: entries in order, the newest acts in order,
// and how many acts there are.
type history struct {
	names   map[heap.ID]string
	entries []heap.Entry
	acts    []audit.Act
	allActs int
}

func (d *desk) historyReply(h history) (Reply, error) {
	all := len(h.entries) + h.allActs
	values := map[string]Value{"entries": {float64(len(h.entries)), "1"}, "changes": {float64(h.allActs), "1"}}
	if all == 0 {
		return Reply{Headline: d.in.Word("Nothing is on record for that yet."), Values: values}, nil
	}
	lines, err := d.newest(h)
	if err != nil {
		return Reply{}, err
	}
	r := Reply{
		Headline: d.in.Say("%d entries are on record; the newest %d:", all, len(lines)),
		Body:     []Block{{Lines: lines}},
		Values:   values,
	}
	switch {
	case all == 1:
		r.Headline = d.in.Word("1 entry is on record:")
	case len(lines) == all:
		r.Headline = d.in.Say("%d entries are on record:", all)
	}
	if d.arg("csv") == "" {
		return r, nil
	}
	r.Headline, r.Files, err = d.tables(h)
	return r, err
}

// newest says the newest entries and acts, the newest first; of the same moment
// the act.
func (d *desk) newest(h history) ([]string, error) {
	var lines []string
	entries, acts := h.entries, h.acts
	for len(lines) < shownEntries && len(entries)+len(acts) > 0 {
		last, ok := latest(entries)
		if act, changed := latest(acts); changed && (!ok || !act.At.Before(last.At)) {
			line, err := d.actLine(act, h.names)
			if err != nil {
				return nil, err
			}
			lines, acts = append(lines, line), acts[:len(acts)-1]
			continue
		}
		lines, entries = append(lines, d.historyLine(last, h.names)), entries[:len(entries)-1]
	}
	return lines, nil
}

func latest[T any](list []T) (last T, ok bool) {
	if len(list) == 0 {
		return last, false
	}
	return list[len(list)-1], true
}

func (d *desk) historyLine(e heap.Entry, names map[heap.ID]string) string {
	line := fmt.Sprintf("#%d %s, %s: %s", e.ID, d.day(e.At), e.By.Name, d.say(e))
	if len(names) > 1 {
		line = fmt.Sprintf("#%d %s, %s, %s: %s", e.ID, d.day(e.At), names[e.Heap], e.By.Name, d.say(e))
	}
	if e.VoidedBy != 0 {
		line = d.in.Say("%s (taken back by %s)", line, entryNumber(e.VoidedBy))
	}
	return line
}
