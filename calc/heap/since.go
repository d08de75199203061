package heap

import "time"

// Portion is what a share (0 to 1) of the heap holds, as the additions to log
// for the heap it is moved to: amounts scaled, ages as they are at s.Now.
func (s State) Portion(share float64) []Added {
	t := tally{state: State{Heap: s.Heap, Now: s.Now}}
	for _, e := range s.Entries {
		t.take(e)
	}
	var moved []Added
	for _, l := range t.lots {
		a := l.content(l.share * share)
		a.AgeDays = days(s.Now.Sub(l.put()))
		moved = append(moved, a)
	}
	return moved
}

// DaysSinceTurn is how long ago the heap was last turned; false when never.
func (s State) DaysSinceTurn() (float64, bool) { return s.since(s.LastTurn()) }

// DaysSinceReading is how long ago the heap's temperature was last taken;
// false when never.
func (s State) DaysSinceReading() (float64, bool) {
	r, _ := s.LastReading()
	return s.since(r.At)
}

// DaysSinceAdded is how long the newest material has been rotting, here or in
// the heap it came from; false when nothing was put in.
func (s State) DaysSinceAdded() (float64, bool) { return s.since(s.LastAdded) }

// DaysSinceWatered is how long ago water was put on; false when never.
func (s State) DaysSinceWatered() (float64, bool) {
	if len(s.Waterings) == 0 {
		return 0, false
	}
	return s.since(s.Waterings[len(s.Waterings)-1])
}

// LastAir is the newest reading of the air; false when there is none.
func (s State) LastAir() (Reading, bool) {
	if len(s.Air) == 0 {
		return Reading{}, false
	}
	return s.Air[len(s.Air)-1], true
}

func (s State) since(t time.Time) (float64, bool) {
	if t.IsZero() {
		return 0, false
	}
	return days(s.Now.Sub(t)), true
}
