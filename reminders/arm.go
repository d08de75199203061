package reminders

import (
	"context"
	"time"

	"heapside/calc/duty"
	"heapside/calc/heap"
	"heapside/storage"
)

// armAll works out anew what changes on record made doubtful: which items are
// closed by now, and when the place is next to be reminded.
func (e *Engine) armAll(ctx context.Context) error {
	began, failed := e.now(), e.Stats().Failed
	err := sweep(ctx, e, "work out the next reminder",
		func(limit int) ([]storage.Due, error) { return e.record.Stale(ctx, limit) },
		func(s storage.Due) heap.Place { return s.Place },
		func(s storage.Due) error { return e.arm(ctx, s) })
	if err == nil && e.Stats().Failed == failed {
		e.mu.Lock()
		e.armed = began
		e.mu.Unlock()
	}
	return err
}

func (e *Engine) arm(ctx context.Context, stale storage.Due) error {
	s, err := e.survey(ctx, stale.Place, e.now())
	if err != nil {
		return err
	}
	settled := s.settle()
	next := stale.Occurrence
	// What came due before it was looked at is still owed.
	if next.IsZero() || next.At.After(s.now) {
		next = e.next(s, e.changed(s, stale.Occurrence), onRecord(s.heaps, s.garden.Measures))
	}
	if err := e.record.Arm(ctx, stale, next, settled...); err != nil {
		return err
	}
	e.count(func(c *Stats) { c.Armed++ })
	e.hook("armed")
	return nil
}

// changed is a moment before anything that made a place stale. Its reminders
// are worked out from there, so that one which came due between a change and
// now is not passed over. An engine that has just started knows only what the
// plan says of itself, which matters when the last one ended on it.
func (e *Engine) changed(s scene, was duty.Occurrence) time.Time {
	e.mu.Lock()
	armed := e.armed
	e.mu.Unlock()
	if armed.IsZero() {
		armed = s.now
		if again, _ := s.plan.Next(was.At.Add(-1), s.zone, s.extra()...); again != was && s.now.Sub(s.plan.Changed) < duty.Fold {
			armed = s.plan.Changed
		}
	}
	if armed.After(s.now) {
		return s.now
	}
	return armed
}

// settle brings the items up to what the record says of them by now, and returns
// those that changed.
func (s *scene) settle() []duty.Item {
	var changed []duty.Item
	for n, i := range s.items {
		h, ok := s.heap(i.Heap)
		if !ok {
			continue
		}
		now := duty.Settled(i, h)
		if now.State != i.State || now.Entry != i.Entry {
			changed = append(changed, now)
		}
		s.items[n] = now
	}
	return changed
}
