package advice

import (
	"slices"
	"time"

	"heapside/calc/heap"
	"heapside/calc/maturity"
	"heapside/calc/measure"
)

// LookAgain is when to look at a heap again if nothing more is logged: the first
// time, whole days after from by from's own calendar, at which the record calls
// for a job that it does not call for at from, or for one that is more urgent
// than WhenYouCan; from plus horizon when there is none. A heap at work is looked
// at the next day. Weather and the model are not foreseen.
func LookAgain(s heap.State, m measure.Measures, from time.Time, horizon time.Duration) time.Time {
	end := from.Add(horizon)
	if !s.Heap.Finished.IsZero() {
		return end
	}
	now := inspect(Case{State: at(s, from), Measures: m})
	if tomorrow := from.AddDate(0, 0, 1); now.working() && tomorrow.Before(end) {
		return tomorrow
	}
	s = sinceHot(now.State)
	known := settle(join(rank(now.called())), m)
	for n := 1; ; n++ {
		then := from.AddDate(0, 0, n)
		if !then.Before(end) {
			return end
		}
		if news(known, Find(Case{State: at(s, then), Measures: m})) {
			return then
		}
	}
}

// sinceHot is a state without the readings before the last hot one, which say
// nothing more of a heap at rest: the days to come are then looked at faster.
func sinceHot(s heap.State) heap.State {
	for i, r := range slices.Backward(s.Readings) {
		if r.C >= maturity.HotC {
			s.Readings = s.Readings[i:]
			break
		}
	}
	return s
}

// at is a state as it is at a later moment when nothing is logged. Its volume is
// left as it was.
func at(s heap.State, then time.Time) heap.State {
	s.Age += then.Sub(s.Now)
	s.Now = then
	return s
}

// news says that a job is not among those known, or should not wait.
func news(known, jobs []Job) bool {
	return slices.ContainsFunc(jobs, func(j Job) bool { return j.Urgency > WhenYouCan || find(known, j.Kind) < 0 })
}
