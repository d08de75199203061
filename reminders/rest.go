package reminders

import (
	"sync"
	"time"

	"heapside/calc/heap"
)

// rest is which places a sweep leaves alone, and for how long.
type rest struct {
	now    func() time.Time
	mu     sync.Mutex
	places map[heap.Place]pause
}

type pause struct{ from, until time.Time }

func newRest(now func() time.Time) *rest {
	return &rest{now: now, places: map[heap.Place]pause{}}
}

// give leaves a place alone until a moment.
func (r *rest) give(at heap.Place, until time.Time) {
	r.mu.Lock()
	defer r.mu.Unlock()
	r.places[at] = pause{r.now(), until}
}

// end looks at a place again.
func (r *rest) end(at heap.Place) {
	r.mu.Lock()
	defer r.mu.Unlock()
	delete(r.places, at)
}

// holds reports whether a place is left alone now.
func (r *rest) holds(at heap.Place) bool {
	r.mu.Lock()
	defer r.mu.Unlock()
	p, ok := r.places[at]
	now := r.now()
	// A clock that was set back must not make it longer.
	if ok && (now.Before(p.from) || !now.Before(p.until)) {
		delete(r.places, at)
		return false
	}
	return ok
}

// size is how many places are left alone.
func (r *rest) size() int {
	r.mu.Lock()
	defer r.mu.Unlock()
	return len(r.places)
}
