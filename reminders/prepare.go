package reminders

import (
	"context"
	"fmt"

	"heapside/calc/duty"
	"heapside/storage"
)

// prepareAll writes down what is to be said now, or that nothing is.
func (e *Engine) prepareAll(ctx context.Context) error {
	return sweep(ctx, e, "prepare a reminder", e.due,
		func(limit int) ([]storage.Due, error) { return e.record.Due(ctx, e.now(), limit) },
		func(d storage.Due) error { return e.prepare(ctx, d) })
}

func (e *Engine) prepare(ctx context.Context, d storage.Due) error {
	s, err := e.survey(ctx, d.Place, e.now())
	if err != nil {
		return err
	}
	next, _ := s.following(d.At)
	hour, _ := duty.Instant(d.Day, s.plan.At, s.zone)
	speak := s.plan.Speakable(s.now, s.zone)
	switch {
	case !s.wants(d.Day):
		return e.write(ctx, d, duty.Post{Kind: duty.Digest}, next, s.plan.Rota)
	case hour.After(s.now): // as a newer plan or table of time zones has it
		return e.record.Arm(ctx, d, duty.Occurrence{Day: d.Day, At: hour})
	case s.tooLate(d.Occurrence):
		return e.skip(ctx, s, d)
	case speak.After(s.now):
		e.due.give(s.place, speak)
		return nil
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
		next, _ := s.following(was.At)
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

// tooLate says that an occurrence could be said only long after it was due.
func (s scene) tooLate(o duty.Occurrence) bool {
	return s.plan.Speakable(s.now, s.zone).Sub(o.At) > duty.Fold
}
