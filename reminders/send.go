package reminders

import (
	"context"
	"errors"
	"fmt"
	"slices"
	"time"

	"heapside/calc/duty"
	"heapside/calc/heap"
	"heapside/storage"
)

// sendAll claims what is to be posted and posts it.
func (e *Engine) sendAll(ctx context.Context) error {
	for ctx.Err() == nil && !e.hushed() && !e.tokenRefused() {
		began := e.now()
		posts, err := e.record.Claim(ctx, e.owner, began, lease, claimed)
		if err != nil {
			return fmt.Errorf("claim posts: %w", err)
		}
		if len(posts) == 0 {
			return nil
		}
		e.hook("claimed")
		each(ctx, e.workers, posts, func(p duty.Post) {
			if err := guarded(func() error { return e.send(ctx, p, began.Add(lease-deadline)) }); err != nil {
				e.failed(p, err)
			}
		})
		if len(posts) < claimed {
			break // the rest is for the next pass
		}
	}
	if e.tokenRefused() {
		return ErrToken
	}
	return ctx.Err()
}

// failed takes note of a post whose outcome could not be written down: its
// lease will run out, and it is tried again with the same nonce.
func (e *Engine) failed(p duty.Post, err error) {
	if errors.Is(err, storage.ErrFenced) {
		e.count(func(c *Stats) { c.Fenced++ })
		return
	}
	e.log.Error("reminders: post", "guild", p.Place.Guild, "channel", p.Place.Channel, "post", p.ID, "err", err)
	e.count(func(c *Stats) { c.Failed++ })
}

// send posts one message, or finds that it is not wanted now. One that was
// claimed too long ago to be posted within its lease is left to it.
func (e *Engine) send(ctx context.Context, p duty.Post, until time.Time) error {
	now := e.now()
	if now.After(until) || e.tokenRefused() {
		return nil
	}
	s, err := e.scene(ctx, p.Place, now)
	if err != nil {
		return err
	}
	switch {
	case now.Sub(p.Due) > duty.Fold:
		return e.drop(ctx, p, p.Kind == duty.Digest, "too late")
	// Asked anew each time: what nobody wants any more is not put off either.
	case p.Kind == duty.Digest && !s.wants(p.Day):
		return e.drop(ctx, p, false, "reminders are off")
	case e.hushed():
		return e.retry(ctx, p, e.hushedUntil(), "the platform asked to wait")
	case s.plan.Speakable(now, s.zone).After(now):
		return e.retry(ctx, p, s.plan.Speakable(now, s.zone), "quiet hours")
	// After the first attempt nobody knows for certain that it did not arrive.
	case p.Attempt == 1 && !calledFor(p):
		return e.drop(ctx, p, false, "nothing calls for it any more")
	}
	if s.away(p.To, p.Day) {
		p.To = heap.Person{}
	}
	e.hook("before-post")
	message, err := e.post(ctx, p)
	e.hook("after-post")
	return e.outcome(ctx, p, message, err)
}

// calledFor says that there is still something to say.
func calledFor(p duty.Post) bool {
	open := slices.ContainsFunc(p.Items, func(i duty.Item) bool { return i.State == duty.Open })
	return p.Kind == duty.Notice || open || len(p.Week) > 0
}

// away says that a person is away on a day, as known by now.
func (s scene) away(who heap.Person, day duty.Date) bool {
	return slices.ContainsFunc(s.plan.Rota.Members, func(m duty.Member) bool { return m.ID == who.ID && m.AwayOn(day) })
}

// post asks the platform. A process that is being stopped still waits for the
// answer: without it nobody would know whether the message is there.
func (e *Engine) post(ctx context.Context, p duty.Post) (string, error) {
	ctx, cancel := context.WithTimeout(context.WithoutCancel(ctx), deadline)
	defer cancel()
	return e.voice.Post(ctx, p, nonce(p))
}

// outcome writes down what came of a post.
func (e *Engine) outcome(ctx context.Context, p duty.Post, message string, err error) error {
	ctx = context.WithoutCancel(ctx)
	if err != nil {
		return e.refuse(ctx, p, err)
	}
	now := e.now()
	if p.Attempt > 1 {
		// The nonce may have found the message of an earlier attempt, as it was then.
		p.Version = min(p.Version, 1)
	}
	if err := e.record.Sent(ctx, p, message, now); err != nil {
		return err
	}
	e.count(func(c *Stats) {
		c.Sent++
		if now.Sub(p.Due) > lateAfter {
			c.Late++
		}
	})
	e.hook("sent")
	return nil
}

func (e *Engine) drop(ctx context.Context, p duty.Post, folded bool, why string) error {
	if err := e.record.Drop(ctx, p, folded, why); err != nil {
		return err
	}
	e.count(func(c *Stats) {
		if folded {
			c.Missed++
		} else {
			c.Dropped++
		}
	})
	e.hook("dropped")
	return nil
}

func (e *Engine) retry(ctx context.Context, p duty.Post, next time.Time, why string) error {
	if err := e.record.Retry(ctx, p, next, why); err != nil {
		return err
	}
	e.count(func(c *Stats) { c.Retried++ })
	e.hook("retried")
	return nil
}
