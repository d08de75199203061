package reminders

import (
	"slices"
	"time"

	"heapside/calc/advice"
	"heapside/calc/duty"
	"heapside/calc/heap"
	"heapside/calc/measure"
)

// horizon is how long a place is left alone at most in which the record foresees
// nothing to say (own choice): the weather is not on record.
const horizon = 3 * 24 * time.Hour

// next is the first occurrence after a moment that may find something to say: on
// which a heap is to be looked at again, one of the jobs found by now may be
// named, or whose day stands out.
func (e *Engine) next(s scene, after time.Time, found []duty.Found) duty.Occurrence {
	extra, look := s.extra(after), e.lookAgain(s, after)
	next, ok := s.following(after)
	for ok && next.Day.Before(look) && !slices.Contains(extra, next.Day) && len(s.choose(next.Day, found)) == 0 {
		next, ok = s.following(next.At)
	}
	return next
}

// lookAgain is the day on which a heap may call for something that it does not
// call for now, if nothing more is logged.
func (e *Engine) lookAgain(s scene, from time.Time) duty.Date {
	look := from.Add(horizon)
	for _, h := range s.heaps {
		if at := e.foresee(h, s.garden.Measures, from.In(s.zone), horizon); at.Before(look) {
			look = at
		}
	}
	return duty.On(look.In(s.zone))
}

// onRecord are the jobs that the record alone calls for.
func onRecord(heaps []heap.State, m measure.Measures) []duty.Found {
	var found []duty.Found
	for _, h := range heaps {
		for _, job := range advice.Find(advice.Case{State: h, Measures: m}) {
			found = append(found, duty.Found{Heap: h.Heap.ID, Name: h.Heap.Name, Job: job})
		}
	}
	return found
}
