package commands

import (
	"bytes"
	"encoding/csv"
	"fmt"
	"slices"
	"strconv"
	"strings"
	"time"

	"heapside/calc/fault"
	"heapside/calc/heap"
)

func (a *Assistant) historyCommand() Command {
	return Command{Name: "history", Summary: "Who did what and when, a heap's chart, and the record as CSV",
		Options: []Option{
			{Name: "heap", Summary: "which heap; all if left out", Kind: HeapName, Words: true},
			{Name: "days", Summary: "how many days back; the newest entries if left out", Kind: Hint, Choices: picks("7 days", "", "2 weeks", "", "1 month", "", "3 months", "", "1 year", "")},
			{Name: "csv", Summary: "the whole record as a file", Kind: Pick, Choices: picks("yes", "")},
		},
		Run: a.with((*desk).history)}
}

// shownEntries is how many entries fit a phone. Own choice.
const shownEntries = 15

// maxDays is how far back a record can reach: ten years. Own choice.
const maxDays = 3660

func (d *desk) history() (Reply, error) {
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
		log, err := d.store.Entries(d.ctx, d.call.Place, h.ID)
		if err != nil {
			return Reply{}, err
		}
		entries = append(entries, log...)
	}
	entries = heap.Order(entries)
	entries = slices.DeleteFunc(entries, func(e heap.Entry) bool { return e.At.Before(since) })
	r, err := d.historyReply(entries, names)
	if err != nil || len(heaps) != 1 || d.arg("csv") != "" {
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
		return time.Time{}, fault.New(fault.OutOfRange, "“%s” is no number of days. Say a whole number from 1 to %d.", quote(said), maxDays)
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

func (d *desk) historyReply(entries []heap.Entry, names map[heap.ID]string) (Reply, error) {
	if len(entries) == 0 {
		return Reply{Headline: "Nothing is on record for that yet.", Values: map[string]Value{"entries": {0.0, "1"}}}, nil
	}
	shown := entries[max(0, len(entries)-shownEntries):]
	r := Reply{
		Headline: fmt.Sprintf("%d %s on record; the newest %d:", len(entries), plural(len(entries), "entry is", "entries are"), len(shown)),
		Values:   map[string]Value{"entries": {float64(len(entries)), "1"}},
	}
	if len(shown) == len(entries) {
		r.Headline = fmt.Sprintf("%d %s on record:", len(entries), plural(len(entries), "entry is", "entries are"))
	}
	var lines []string
	for _, e := range slices.Backward(shown) {
		lines = append(lines, d.historyLine(e, names))
	}
	r.Body = []Block{{Lines: lines}}
	if d.arg("csv") == "" {
		return r, nil
	}
	data, err := d.csv(entries, names)
	if err != nil {
		return Reply{}, err
	}
	r.Headline = fmt.Sprintf("The record as a table: %d %s.", len(entries), plural(len(entries), "row", "rows"))
	r.Files = []File{{Name: "record.csv", ContentType: "text/csv", Data: data,
		Alt: fmt.Sprintf("Table of %d entries: number, heap, time, person, kind, value", len(entries))}}
	return r, nil
}

func (d *desk) historyLine(e heap.Entry, names map[heap.ID]string) string {
	line := fmt.Sprintf("#%d %s, %s: %s", e.ID, d.day(e.At), e.By.Name, d.say(e))
	if len(names) > 1 {
		line = fmt.Sprintf("#%d %s, %s, %s: %s", e.ID, d.day(e.At), names[e.Heap], e.By.Name, d.say(e))
	}
	if e.VoidedBy != 0 {
		line += fmt.Sprintf(" (taken back by #%d)", e.VoidedBy)
	}
	return line
}

func (d *desk) csv(entries []heap.Entry, names map[heap.ID]string) ([]byte, error) {
	var buf bytes.Buffer
	w := csv.NewWriter(&buf)
	rows := [][]string{{"number", "heap", "happened", "logged", "person", "kind", "what", "data", "taken_back_by"}}
	for _, e := range entries {
		data, err := heap.Encode(e.Payload)
		if err != nil {
			return nil, err
		}
		voided := ""
		if e.VoidedBy != 0 {
			voided = strconv.FormatInt(int64(e.VoidedBy), 10)
		}
		rows = append(rows, []string{strconv.FormatInt(int64(e.ID), 10), cell(names[e.Heap]), e.At.In(d.zone).Format(time.RFC3339),
			e.Logged.In(d.zone).Format(time.RFC3339), cell(e.By.Name), string(e.Payload.Kind()), cell(d.say(e)), string(data), voided})
	}
	err := w.WriteAll(rows)
	return buf.Bytes(), err
}

// cell keeps a spreadsheet from running text that people typed as a formula.
func cell(s string) string {
	if s != "" && strings.ContainsRune("=+-@", rune(s[0])) {
		return "'" + s
	}
	return s
}
