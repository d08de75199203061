package commands

import (
	linked "container/list"
	"sync"

	"heapside/calc/process"
)

// mostRecalled is how many heaps at how many hours a recall keeps: some 40 KB
// each (own choice).
const mostRecalled = 256

// recall keeps what models said, so that asking again in the same hour, when
// nothing was logged, computes nothing again. An answer is found by everything
// that it rests on (see ground), so recalling never changes one. The zero recall
// is empty; it is safe for use by several goroutines.
type recall struct {
	mu    sync.Mutex
	on    map[ground]*linked.Element
	order linked.List // of *said, the last asked first
}

// find is what was said on a ground; nil when it is not known any more.
func (r *recall) find(g ground) *said {
	r.mu.Lock()
	defer r.mu.Unlock()
	e := r.on[g]
	if e == nil {
		return nil
	}
	r.order.MoveToFront(e)
	return e.Value.(*said)
}

// keep takes in what was said on a ground, and forgets what was asked longest ago.
func (r *recall) keep(g ground, s *said) {
	r.mu.Lock()
	defer r.mu.Unlock()
	if e := r.on[g]; e != nil {
		r.order.Remove(e)
	}
	if r.on == nil {
		r.on = map[ground]*linked.Element{}
	}
	s.ground = g
	r.on[g] = r.order.PushFront(s)
	for r.order.Len() > mostRecalled {
		delete(r.on, r.order.Remove(r.order.Back()).(*said).ground)
	}
}

// said is what the model of one heap says at one hour. What is in it is shared
// and must not be changed.
type said struct {
	ground ground
	now    process.Condition
	past   []process.Mark
	share  process.Band // of today's volume, left when the heap is ready
	empty  error        // why there is no share

	mu       sync.Mutex
	outlooks map[asked]process.Outlook
}

// asked tells one question for an outlook from another.
type asked struct {
	zone           string
	depthCm, widen float64
}

func askedBy(q process.Question) asked { return asked{q.Zone.String(), q.DepthCm, q.Widen} }

// mostOutlooks is how many outlooks are kept of one heap and hour: they differ
// by the depth that somebody asked for (own choice).
const mostOutlooks = 4

func (s *said) outlook(q process.Question) (process.Outlook, bool) {
	s.mu.Lock()
	defer s.mu.Unlock()
	o, ok := s.outlooks[askedBy(q)]
	return o, ok
}

func (s *said) keep(q process.Question, o process.Outlook) {
	s.mu.Lock()
	defer s.mu.Unlock()
	if s.outlooks == nil || len(s.outlooks) >= mostOutlooks {
		s.outlooks = map[asked]process.Outlook{}
	}
	s.outlooks[askedBy(q)] = o
}
