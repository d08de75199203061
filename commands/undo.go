package commands

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"heapside/calc/fault"
	"heapside/calc/heap"
	"heapside/commands/speech"
)

func (a *Assistant) undoCommand() Command {
	return Command{
		Name: "undo", Summary: "Take back an entry: your own latest, or the one you name",
		Options: []Option{{Name: "entry", Summary: "its number from history, e.g. 12 or 12-14; left out: your latest", Kind: EntryNumber, Words: true}},
		Run:     a.with((*desk).undo),
	}
}

// undoReach is how many of the newest entries an undo looks through. Own choice.
const undoReach = 500

func (d *desk) undo() (Reply, error) {
	latest, err := d.store.Latest(d.ctx, d.call.Place, undoReach)
	if err != nil {
		return Reply{}, err
	}
	entries, err := d.toUndo(latest)
	if err != nil {
		return Reply{}, err
	}
	var said []string
	for _, e := range slices.Backward(entries) { // as they were logged
		if err := d.mayUndo(e); err != nil {
			return Reply{}, err
		}
		said = appendNew(said, d.say(e)) // rain is said once for all heaps
	}
	ids := make([]heap.EntryID, len(entries))
	for i, e := range entries {
		ids[i] = e.ID
	}
	_, err = d.store.Void(d.ctx, d.call.Place, d.call.By, d.call.Now, ids...)
	if fault.Is(err, fault.Taken) {
		return Reply{}, fault.New(fault.Taken, "Not taken back: “%s” would bring back a name that another heap has now. Rename or finish that heap first.", speech.Joined{Words: few(said), Last: "and"})
	}
	if err != nil {
		return Reply{}, err
	}
	where, at, err := d.whereabouts(entries)
	if err != nil {
		return Reply{}, err
	}
	return Reply{
		Headline: d.in.Say("Taken back for %s, %s: %s.", where, at, speech.Joined{Words: few(said), Last: "and"}),
		Body:     []Block{{Lines: []string{d.in.Word("The record keeps that it was logged and who took it back.")}}},
	}, nil
}

// whereabouts names the heaps and the time of what is taken back, so that nobody
// takes back another day's entry unawares.
func (d *desk) whereabouts(entries []heap.Entry) (heaps speech.Joined, at string, err error) {
	all, err := d.store.Heaps(d.ctx, d.call.Place)
	if err != nil {
		return heaps, "", err
	}
	var names []string
	for _, h := range all {
		if slices.ContainsFunc(entries, func(e heap.Entry) bool { return e.Heap == h.ID }) {
			names = append(names, h.Name)
		}
	}
	return speech.Joined{Words: few(names), Last: "and"}, d.day(entries[len(entries)-1].At), nil // the newest comes first
}

// toUndo picks the entries an undo means. What was logged in one go is taken
// back in one go.
func (d *desk) toUndo(latest []heap.Entry) ([]heap.Entry, error) {
	said := strings.ToLower(oneLine(d.arg("entry")))
	if said != "" && said != "last" && said != "that" {
		from, to, err := parseEntryRange(said)
		if err != nil {
			return nil, err
		}
		return entriesIn(latest, from, to)
	}
	var batch []heap.Entry
	for _, e := range latest {
		if e.By.ID != d.call.By.ID || e.VoidedBy != 0 || !undoable(e) {
			continue
		}
		if len(batch) > 0 && e.Leader != batch[0].Leader {
			break
		}
		batch = append(batch, e)
	}
	if len(batch) == 0 {
		return nil, withLeads(fault.New(fault.Unknown, "You have nothing to take back here. Others' entries have numbers in “history”."), historyAction)
	}
	return batch, nil
}

func undoable(e heap.Entry) bool {
	switch e.Payload.Kind() {
	case heap.KindVoided, heap.KindStarted:
		return false
	}
	return true
}

func (d *desk) mayUndo(e heap.Entry) error {
	switch {
	case e.VoidedBy != 0:
		return fault.New(fault.Unknown, "%s was taken back already.", entryNumber(e.ID))
	case e.Payload.Kind() == heap.KindStarted:
		return fault.New(fault.NotAllowed, "The start of a heap cannot be taken back. To close the heap: heap finish.")
	case e.Payload.Kind() == heap.KindVoided:
		return fault.New(fault.NotAllowed, "%s takes another entry back and stays. Log it again if it was right after all.", entryNumber(e.ID))
	case e.By.ID != d.call.By.ID && !d.organiser():
		return fault.New(fault.NotAllowed, "%s is %s's entry: only they or an organiser can take it back.", entryNumber(e.ID), e.By.Name)
	}
	return nil
}

func parseEntryRange(said string) (from, to heap.EntryID, err error) {
	low, high, ranged := strings.Cut(strings.ReplaceAll(strings.ReplaceAll(said, "#", ""), " ", ""), "-")
	if !ranged {
		high = low
	}
	a, errLow := strconv.ParseInt(low, 10, 64)
	b, errHigh := strconv.ParseInt(high, 10, 64)
	if errLow != nil || errHigh != nil || a < 1 || b < a || b-a > maxUndo {
		return 0, 0, withLeads(fault.New(fault.NotUnderstood, "“%s” is no entry number. “history” shows them: undo 12, or undo 12-14 for up to %d in a row.", quote(said), maxUndo), historyAction)
	}
	return heap.EntryID(a), heap.EntryID(b), nil
}

// maxUndo is how many entries one undo may take back; a list holds 20 materials.
const maxUndo = 50

func entriesIn(latest []heap.Entry, from, to heap.EntryID) ([]heap.Entry, error) {
	var found []heap.Entry
	for _, e := range latest {
		if e.ID >= from && e.ID <= to {
			found = append(found, e)
		}
	}
	if len(found) == 0 {
		return nil, withLeads(fault.New(fault.Unknown, "There is no entry %s among the last %d here. “history” shows the numbers.", entryNumber(from), undoReach), historyAction)
	}
	return found, nil
}

// entryNumber writes the number of an entry: "#12".
func entryNumber(id heap.EntryID) string { return fmt.Sprintf("#%d", id) }

// entryRange writes the numbers of entries stored together.
func entryRange(stored []heap.Entry) string {
	first, last := stored[0].ID, stored[len(stored)-1].ID
	if first == last {
		return fmt.Sprint(first)
	}
	return fmt.Sprintf("%d-%d", first, last)
}
