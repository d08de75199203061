package heap

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
