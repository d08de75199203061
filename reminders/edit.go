package reminders

import (
	"context"
	"errors"
	"fmt"
	"time"

	"heapside/calc/duty"
)

// editedFor is for how many days after its reminder a message that cannot be
// edited is tried again (own choice): its items can change for recalled days.
const editedFor = 2 * recalled

// editAll shows what was sent as it is by now. An edit says the whole message
// anew, so that doing it twice does no harm.
func (e *Engine) editAll(ctx context.Context) error {
	for ctx.Err() == nil && !e.hushed() && !e.tokenRefused() {
		posts, err := e.record.Outdated(ctx, e.now(), lease, claimed)
		if err != nil {
			return fmt.Errorf("list outdated posts: %w", err)
		}
		if len(posts) == 0 {
			return nil
		}
		each(ctx, e.workers, posts, func(p duty.Post) {
			if err := guarded(func() error { return e.edit(ctx, p) }); err != nil {
				e.failed(p, err)
			}
		})
		if len(posts) < claimed {
			break
		}
	}
	return ctx.Err()
}

func (e *Engine) edit(ctx context.Context, p duty.Post) error {
	if e.hushed() {
		return e.record.EditLater(ctx, p, e.hushedUntil())
	}
	e.hook("before-edit")
	within, cancel := context.WithTimeout(ctx, deadline)
	defer cancel()
	err := e.voice.Edit(within, p)
	e.hook("after-edit")
	if err == nil {
		e.count(func(c *Stats) { c.Edited++ })
		e.editFailed(false)
		return e.record.Shown(ctx, p)
	}
	return e.refuseEdit(ctx, p, err)
}

// refuseEdit tries again later, unless the message is out of reach for good or
// too old to matter.
func (e *Engine) refuseEdit(ctx context.Context, p duty.Post, cause error) error {
	now := e.now()
	next := now.Add(wait(e.editFailed(true)))
	var refused *Refused
	if errors.As(cause, &refused) {
		switch refused.Why {
		case MessageGone, ChannelGone, GuildGone, Malformed:
			return e.record.Shown(ctx, p)
		case RateLimited:
			next = e.hushFor(refused.After)
		case NoAccess:
			next = now.Add(noAccessWait)
		case TokenRefused:
			e.refuseToken()
		}
	}
	if now.Sub(p.Due) > editedFor*24*time.Hour {
		return e.record.Shown(ctx, p)
	}
	e.log.Warn("reminders: edit", "guild", p.Place.Guild, "channel", p.Place.Channel, "post", p.ID, "err", cause)
	return e.record.EditLater(ctx, p, next)
}

// editFailed counts the edits that failed in a row.
func (e *Engine) editFailed(failed bool) int {
	e.mu.Lock()
	defer e.mu.Unlock()
	e.unedited++
	if !failed {
		e.unedited = 0
	}
	return e.unedited
}
