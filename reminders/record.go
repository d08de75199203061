package reminders

import (
	"context"
	"time"

	"heapside/calc/duty"
	"heapside/calc/heap"
	"heapside/storage"
)

// Record is what the engine needs of the record. Every write is one transaction
// that changes all or nothing, and nothing when another process was there first.
type Record interface {
	Garden(ctx context.Context, at heap.Place) (heap.Garden, error)
	Heaps(ctx context.Context, at heap.Place) ([]heap.Heap, error)
	Entries(ctx context.Context, at heap.Place, id heap.ID) ([]heap.Entry, error)
	Latest(ctx context.Context, at heap.Place, limit int) ([]heap.Entry, error)
	Plan(ctx context.Context, at heap.Place) (duty.Plan, error)
	Items(ctx context.Context, at heap.Place, since duty.Date) ([]duty.Item, error)
	Missed(ctx context.Context, at heap.Place) ([]duty.Date, error)

	agenda
	outbox
}

// agenda is when each place is to be looked at next.
type agenda interface {
	Stale(ctx context.Context, limit int) ([]storage.Due, error)
	Arm(ctx context.Context, was storage.Due, next duty.Occurrence, settled ...duty.Item) error
	Due(ctx context.Context, now time.Time, limit int) ([]storage.Due, error)
	Prepare(ctx context.Context, was storage.Due, p duty.Post, next duty.Occurrence, rota duty.Rota) (bool, error)
	Skip(ctx context.Context, was storage.Due, next duty.Occurrence) (bool, error)
}

// outbox are the posts that were prepared.
type outbox interface {
	Claim(ctx context.Context, owner string, now time.Time, lease time.Duration, limit int) ([]duty.Post, error)
	Sent(ctx context.Context, p duty.Post, message string, now time.Time) error
	Retry(ctx context.Context, p duty.Post, next time.Time, why string) error
	Drop(ctx context.Context, p duty.Post, folded bool, why string) error
	Outdated(ctx context.Context, now time.Time, lease time.Duration, limit int) ([]duty.Post, error)
	Shown(ctx context.Context, p duty.Post) error
	EditLater(ctx context.Context, p duty.Post, next time.Time) error
	Trouble(ctx context.Context, at heap.Place, what duty.Trouble, now time.Time, notices ...duty.Post) (bool, error)
	GuildGone(ctx context.Context, guild string, now time.Time) error
	LastSent(ctx context.Context, besides heap.Place) (heap.Place, bool, error)
}

// Finder finds the jobs of a place, the most useful first.
type Finder interface {
	Jobs(ctx context.Context, at heap.Place, now time.Time) ([]duty.Found, error)
}

// Voice is the platform. An error that is no *Refused leaves open whether the
// message was delivered.
type Voice interface {
	// Post posts a message and returns its id. Posting again with the same nonce
	// within the minutes for which the platform remembers it gives the id of the
	// message that is already there.
	Post(ctx context.Context, p duty.Post, nonce string) (message string, err error)
	// Edit shows a post that was sent as it is by now.
	Edit(ctx context.Context, p duty.Post) error
}
