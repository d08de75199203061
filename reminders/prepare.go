package reminders

import (
	"context"
	"fmt"
	"time"

	"heapside/calc/duty"
	"heapside/calc/heap"
	"heapside/storage"
)

// prepareAll writes down what is to be said now, or that nothing is.
func (e *Engine) prepareAll(ctx context.Context) error {
	return sweep(ctx, e, "prepare a reminder",
		func(limit int) ([]storage.Due, error) { return e.record.Due(ctx, e.now(), limit) },
		func(d storage.Due) heap.Place { return d.Place },
		func(d storage.Due) error { return e.prepare(ctx, d) })
}

func (e *Engine) prepare(ctx context.Context, d storage.Due) error {
	s, err := e.survey(ctx, d.Place, e.now())
	if err != nil {
		return err
	}
	next, _ := s.plan.Next(d.At, s.zone, s.extra()...)
	switch at := s.sayable(d.Occurrence); {
	case !s.wants(d.Day):
		return e.write(ctx, d, duty.Post{Kind: duty.Digest}, next, s.plan.Rota)
	case s.tooLate(d.Occurrence):
		return e.skip(ctx, s, d)
	case at.After(s.now):
		return e.record.Arm(ctx, d, duty.Occurrence{Day: d.Day, At: at})
	}
	found, err := e.finder.Jobs(ctx, s.place, s.now)
	if err != nil {
		return fmt.Errorf("find jobs: %w", err)
	}
	post, rota, err := e.compose(ctx, s, d.Occurrence, found)
	if err != nil {
		return err
	}
	e.hook("composed")
	if post.Empty() {
		next = e.next(s, d.At, found)
	}
	return e.write(ctx, d, post, next, rota)
}

// write stores what an occurrence came to, and the next one.
func (e *Engine) write(ctx context.Context, was storage.Due, post duty.Post, next duty.Occurrence, rota duty.Rota) error {
	first, err := e.record.Prepare(ctx, was, post, next, rota)
	if err != nil || !first {
		return err
	}
	e.count(func(c *Stats) {
		if post.Empty() {
			c.Quiet++
		} else {
			c.Prepared++
		}
	})
	e.hook("prepared")
	return nil
}

// skip passes over what is too late to be said, until one that is not.
func (e *Engine) skip(ctx context.Context, s scene, was storage.Due) error {
	for ctx.Err() == nil && !was.IsZero() && s.tooLate(was.Occurrence) {
		next, _ := s.plan.Next(was.At, s.zone, s.extra()...)
		skipped, err := e.record.Skip(ctx, was, next)
		if err != nil || !skipped {
			return err
		}
		e.log.Warn("reminders: too late to be said", "guild", s.place.Guild, "channel", s.place.Channel, "day", was.Day.String())
		e.count(func(c *Stats) { c.Missed++ })
		e.hook("skipped")
		was.Occurrence = next
	}
	return ctx.Err()
}

// wants says that the plan still asks for a reminder of a day.
func (s scene) wants(day duty.Date) bool {
	return s.plan.On && (s.plan.Paused.IsZero() || !day.Before(s.plan.Paused))
}

// sayable is the first moment from now on at which the group wants to hear of an
// occurrence: not before its hour, which another plan or a newer table of time
// zones may have moved, and not in the quiet hours.
func (s scene) sayable(o duty.Occurrence) time.Time {
	at := s.now
	if hour, ok := duty.Instant(o.Day, s.plan.At, s.zone); ok && hour.After(at) {
		at = hour
	}
	return s.plan.Speakable(at, s.zone)
}

// tooLate says that an occurrence could be said only long after it was due.
func (s scene) tooLate(o duty.Occurrence) bool {
	return s.plan.Speakable(s.now, s.zone).Sub(o.At) > duty.Fold
}
