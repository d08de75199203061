package reminders

import (
	"context"
	"errors"
	"time"

	"heapside/calc/duty"
	"heapside/calc/heap"
	"heapside/storage"
)

var errDead = errors.New("the process has ended")

// mortal is a record as one process reaches it: once that has ended it writes
// nothing more.
type mortal struct {
	*storage.DB
	dead bool
}

// Stale implements Record.
func (m *mortal) Stale(ctx context.Context, limit int) ([]storage.Due, error) {
	if m.dead {
		return nil, errDead
	}
	return m.DB.Stale(ctx, limit)
}

// Arm implements Record.
func (m *mortal) Arm(ctx context.Context, was storage.Due, next duty.Occurrence, settled ...duty.Item) error {
	if m.dead {
		return errDead
	}
	return m.DB.Arm(ctx, was, next, settled...)
}

// Due implements Record.
func (m *mortal) Due(ctx context.Context, now time.Time, limit int) ([]storage.Due, error) {
	if m.dead {
		return nil, errDead
	}
	return m.DB.Due(ctx, now, limit)
}

// Prepare implements Record.
func (m *mortal) Prepare(ctx context.Context, was storage.Due, post duty.Post, next duty.Occurrence, rota duty.Rota) (bool, error) {
	if m.dead {
		return false, errDead
	}
	return m.DB.Prepare(ctx, was, post, next, rota)
}

// Skip implements Record.
func (m *mortal) Skip(ctx context.Context, was storage.Due, next duty.Occurrence) (bool, error) {
	if m.dead {
		return false, errDead
	}
	return m.DB.Skip(ctx, was, next)
}

// Claim implements Record.
func (m *mortal) Claim(ctx context.Context, owner string, now time.Time, lease time.Duration, limit int) ([]duty.Post, error) {
	if m.dead {
		return nil, errDead
	}
	return m.DB.Claim(ctx, owner, now, lease, limit)
}

// Sent implements Record.
func (m *mortal) Sent(ctx context.Context, post duty.Post, message string, now time.Time) error {
	if m.dead {
		return errDead
	}
	return m.DB.Sent(ctx, post, message, now)
}

// Retry implements Record.
func (m *mortal) Retry(ctx context.Context, post duty.Post, next time.Time, why string) error {
	if m.dead {
		return errDead
	}
	return m.DB.Retry(ctx, post, next, why)
}

// Drop implements Record.
func (m *mortal) Drop(ctx context.Context, post duty.Post, folded bool, why string) error {
	if m.dead {
		return errDead
	}
	return m.DB.Drop(ctx, post, folded, why)
}

// Outdated implements Record.
func (m *mortal) Outdated(ctx context.Context, now time.Time, lease time.Duration, limit int) ([]duty.Post, error) {
	if m.dead {
		return nil, errDead
	}
	return m.DB.Outdated(ctx, now, lease, limit)
}

// Shown implements Record.
func (m *mortal) Shown(ctx context.Context, post duty.Post) error {
	if m.dead {
		return errDead
	}
	return m.DB.Shown(ctx, post)
}

// EditLater implements Record.
func (m *mortal) EditLater(ctx context.Context, post duty.Post, next time.Time) error {
	if m.dead {
		return errDead
	}
	return m.DB.EditLater(ctx, post, next)
}

// Trouble implements Record.
func (m *mortal) Trouble(ctx context.Context, at heap.Place, what duty.Trouble, now time.Time, notices ...duty.Post) (bool, error) {
	if m.dead {
		return false, errDead
	}
	return m.DB.Trouble(ctx, at, what, now, notices...)
}

// GuildGone implements Record.
func (m *mortal) GuildGone(ctx context.Context, guild string, now time.Time) error {
	if m.dead {
		return errDead
	}
	return m.DB.GuildGone(ctx, guild, now)
}
