package reminders

import (
	"context"
	"time"

	"heapside/calc/duty"
	"heapside/storage"
)

// armAll works out anew what changes on record made doubtful: which items are
// closed by now, and when the place is next to be reminded.
func (e *Engine) armAll(ctx context.Context) error {
	began, failed := e.now(), e.Stats().Failed
	err := sweep(ctx, e, "work out the next reminder", e.stale,
		func(limit int) ([]storage.Due, error) { return e.record.Stale(ctx, limit) },
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
	next, owed := stale.Occurrence, s.owes(stale.Occurrence) // by the items as they were
	settled := s.settle()
	if !owed {
		next = e.next(s, e.changed(s, stale.Occurrence), onRecord(s.heaps, s.garden.Measures))
	}
	if err := e.record.Arm(ctx, stale, next, settled...); err != nil {
		return err
	}
	e.due.end(s.place) // the plan may be another
	e.count(func(c *Stats) { c.Armed++ })
	e.hook("armed")
	return nil
}

// owes says that an occurrence came due before the place was looked at, and by
// the plan of that hour.
func (s scene) owes(o duty.Occurrence) bool {
	if o.IsZero() || o.At.After(s.now) {
		return false
	}
	hour, ok := duty.Instant(o.Day, s.plan.At, s.zone)
	if !ok || o.At.Before(s.plan.Changed) {
		return ok
	}
	now, _ := s.following(hour.Add(-1))
	return now.Day == o.Day && !hour.Before(s.plan.Changed)
}

// changed is a moment before anything that made a place stale, as far as known.
// Its reminders are worked out from there, so that one which came due between a
// change and now is not passed over. An engine that has just started knows only
// what the plan says of itself, which matters when the last one ended on it.
func (e *Engine) changed(s scene, was duty.Occurrence) time.Time {
	e.mu.Lock()
	since := e.armed
	e.mu.Unlock()
	if since.IsZero() {
		since = s.now
		if again, _ := s.following(was.At.Add(-1)); again != was && s.now.Sub(s.plan.Changed) < duty.Fold {
			since = s.plan.Changed
		}
	}
	if s.plan.Changed.After(since) {
		since = s.plan.Changed
	}
	if since.After(s.now) {
		return s.now
	}
	return since
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
		// Twice, for what one entry no longer closes, another may.
		now := duty.Settled(duty.Settled(i, h), h)
		if now.State != i.State || now.Entry != i.Entry {
			changed = append(changed, now)
		}
		s.items[n] = now
	}
	return changed
}
