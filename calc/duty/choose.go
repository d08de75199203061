package duty

import (
	"slices"
	"time"

	"heapside/calc/advice"
	"heapside/calc/heap"
)

// Most is how many jobs one reminder names: more is not done (own choice).
const Most = 3

// repeat is after how many days a job that nobody did is named again (own
// choice: often enough not to be forgotten, seldom enough to be read).
var repeat = map[advice.Urgency]int{advice.Now: 1, advice.Today: 1, advice.Soon: 2, advice.WhenYouCan: 7}

// Case is what a reminder of one day is chosen from. Found are the jobs, the
// most useful first; Earlier the items of the days before, in any order;
// LastDone says when a kind of job was last done to a heap, zero when never.
type Case struct {
	Plan     Plan
	Day      Date
	Found    []Found
	Earlier  []Item
	LastDone func(id heap.ID, kind string) Date
}

// Choose is what to remind of: at most Most items, open, of the case's day.
// Left out is what the plan switched off, what the group put off or said it does
// not need yet, and what was named a short while ago. What is urgent now is
// never left out for that.
func Choose(c Case) []Item {
	var items []Item
	for _, f := range c.Found {
		if len(items) == Most {
			break
		}
		same := func(i Item) bool { return i.Heap == f.Heap && i.Kind == f.Kind && i.Day == c.Day }
		if c.wanted(f) && c.isTime(f) && !slices.ContainsFunc(items, same) {
			items = append(items, Item{Day: c.Day, Found: f, State: Open})
		}
	}
	return items
}

// wanted says that the group has not told us to keep it to ourselves.
func (c Case) wanted(f Found) bool {
	if advice.Idle(f.Kind) {
		return false
	}
	if f.Urgency == advice.Now {
		return true
	}
	if c.Plan.Mutes(f.Kind) {
		return false
	}
	for _, t := range c.Plan.Taught {
		if t.Heap != f.Heap || t.Kind != f.Kind {
			continue
		}
		if t.Never || c.Day.Before(t.Until) {
			return false
		}
		last := c.lastDone(f)
		if t.Every > 0 && !last.IsZero() && c.Day.Since(last) < t.Every {
			return false
		}
	}
	return true
}

func (c Case) lastDone(f Found) Date {
	if c.LastDone == nil {
		return Date{}
	}
	return c.LastDone(f.Heap, f.Kind)
}

// isTime says that it was not named too short a while ago.
func (c Case) isTime(f Found) bool {
	last, ok := c.last(f)
	switch {
	case !ok:
		return true
	case !last.Day.Before(c.Day):
		return false
	case last.State == Later:
		return !c.Day.Before(last.Until)
	}
	return c.Day.Since(last.Day) >= repeat[f.Urgency]
}

// last is the newest earlier item of the same heap and kind.
func (c Case) last(f Found) (last Item, ok bool) {
	for _, i := range c.Earlier {
		if i.Heap == f.Heap && i.Kind == f.Kind && (!ok || last.Day.Before(i.Day)) {
			last, ok = i, true
		}
	}
	return last, ok
}

// Remembered is how many days an item can still be closed or put off: after
// that the record has long said more (own choice).
const Remembered = 14

// PutOff are the days to which open items were put off.
func PutOff(items []Item) []Date {
	var days []Date
	for _, i := range items {
		if i.State == Later {
			days = append(days, i.Until)
		}
	}
	return days
}

// Settled is an item as the record of its heap has it by now: one that was open
// or put off is done when somebody logged what closes it, and one that was done
// is open again when that entry was taken back.
func Settled(i Item, s heap.State) Item {
	switch i.State {
	case Open, Later:
		if e, ok := advice.DoneBy(i.Kind, i.Said, s); ok {
			i.State, i.By, i.At, i.Entry, i.Until = Done, e.By, e.Logged, e.ID, Date{}
		} else if !s.Heap.Finished.IsZero() {
			i.State, i.At = Lapsed, s.Heap.Finished
		}
	case Done:
		standing := slices.ContainsFunc(s.Entries, func(e heap.Entry) bool { return e.ID == i.Entry })
		if i.Entry != 0 && !standing {
			i.State, i.By, i.At, i.Entry = Open, heap.Person{}, time.Time{}, 0
		}
	}
	return i
}
