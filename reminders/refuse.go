package reminders

import (
	"context"
	"errors"
	"time"

	"heapside/calc/duty"
)

// waits are the pauses between attempts of unknown outcome: close together
// while the platform remembers the nonce, then at most 10 minutes (own choice).
var waits = []time.Duration{
	2 * time.Second, 5 * time.Second, 15 * time.Second, 30 * time.Second, time.Minute,
	2 * time.Minute, 5 * time.Minute, 10 * time.Minute,
}

// wait is the pause after that many attempts.
func wait(attempt int) time.Duration { return waits[min(max(attempt, 1), len(waits))-1] }

// Waits after refusals (own choice): who took the right away seldom gives it
// back within the hour, and asking in vain counts against us with the platform.
const (
	noAccessWait = 3 * time.Hour
	busyWait     = time.Minute
	longestHush  = 10 * time.Minute // that a platform may ask for at once
)

// refuse writes down a post that was not sent, or not known to be.
func (e *Engine) refuse(ctx context.Context, p duty.Post, err error) error {
	var refused *Refused
	if !errors.As(err, &refused) {
		return e.retry(ctx, p, e.now().Add(wait(p.Attempt)), err.Error())
	}
	e.log.Warn("reminders: refused", "guild", p.Place.Guild, "channel", p.Place.Channel, "post", p.ID, "err", err)
	now := e.now()
	switch refused.Why {
	case RateLimited:
		return e.retry(ctx, p, e.hushFor(refused.After), err.Error())
	case ChannelGone:
		return e.gone(ctx, p)
	case NoAccess:
		return e.noAccess(ctx, p, err)
	case GuildGone:
		if err := e.record.GuildGone(ctx, p.Place.Guild, now); err != nil {
			return err
		}
		return e.drop(ctx, p, false, err.Error())
	case TokenRefused:
		e.refuseToken()
		return e.retry(ctx, p, now, err.Error())
	case Busy:
		return e.retry(ctx, p, now.Add(max(busyWait, refused.After, wait(p.Attempt))), err.Error())
	}
	// A mistake of ours, which repeating does not mend.
	e.log.Error("reminders: the platform does not take this message", "post", p.ID, "err", err)
	return e.drop(ctx, p, p.Kind == duty.Digest, err.Error())
}

// gone ends the reminders of a channel that was deleted, and tells the group
// where it can still be told.
func (e *Engine) gone(ctx context.Context, p duty.Post) error {
	if err := e.trouble(ctx, p, duty.Gone, noticeGone); err != nil {
		return err
	}
	return e.drop(ctx, p, false, "the channel is gone")
}

// noAccess waits for the right to post, and tells the group elsewhere.
func (e *Engine) noAccess(ctx context.Context, p duty.Post, cause error) error {
	if err := e.trouble(ctx, p, duty.Refused, noticeRefused); err != nil {
		return err
	}
	return e.retry(ctx, p, e.now().Add(noAccessWait), cause.Error())
}

// trouble keeps what is wrong with a post's channel. When it is news, the
// channel of the group where a post last arrived hears of it, if there is one.
func (e *Engine) trouble(ctx context.Context, p duty.Post, what duty.Trouble, text string) error {
	var notices []duty.Post
	at, ok, err := e.record.LastSent(ctx, p.Place)
	if err != nil {
		return err
	}
	if ok {
		s, err := e.scene(ctx, at, e.now())
		if err != nil {
			return err
		}
		notices = append(notices, duty.Post{Place: at, Kind: duty.Notice, Day: s.today(), Due: s.now, Notes: []string{text}})
	}
	_, err = e.record.Trouble(ctx, p.Place, what, e.now(), notices...)
	return err
}

// hushFor keeps everything back for as long as the platform asks, and says
// until when.
func (e *Engine) hushFor(after time.Duration) time.Time {
	e.mu.Lock()
	defer e.mu.Unlock()
	until := e.now().Add(min(max(after, time.Second), longestHush))
	if until.After(e.hush) {
		e.hush = until
	}
	return e.hush
}

func (e *Engine) hushedUntil() time.Time {
	e.mu.Lock()
	defer e.mu.Unlock()
	return e.hush
}

// hushed reports whether everything is kept back. A clock that was set back
// must not make the wait longer.
func (e *Engine) hushed() bool {
	until, now := e.hushedUntil(), e.now()
	return now.Before(until) && until.Sub(now) <= longestHush
}

func (e *Engine) tokenRefused() bool {
	e.mu.Lock()
	defer e.mu.Unlock()
	return e.refused
}

func (e *Engine) refuseToken() {
	e.mu.Lock()
	defer e.mu.Unlock()
	e.refused = true
}
