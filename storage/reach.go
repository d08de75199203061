package storage

import (
	"context"
	"time"

	"heapside/calc/duty"
	"heapside/calc/heap"
)

// Reach is which places the sweeps of one engine take from the record: what is
// due in a local chat is no business of the platform's, and the other way round.
// The zero Reach is all.
type Reach struct {
	Only    heap.Place // the one place, unless zero
	Besides string     // a guild that is left out
}

// args are the arguments of a sweep: what comes before the reach, the reach, and
// how many rows at most.
func (r Reach) args(limit int, before ...any) []any {
	return append(before, r.Only.Guild, r.Only.Channel, r.Besides, max(0, limit))
}

// Within is the record for an engine of that reach.
func (db *DB) Within(r Reach) *Reached { return &Reached{DB: db, reach: r} }

// Reached is a record whose sweeps go no further than a Reach. Everything else
// is as in the record.
type Reached struct {
	*DB
	reach Reach
}

// Stale is DB.Stale within the reach.
func (r *Reached) Stale(ctx context.Context, limit int) ([]Due, error) {
	return r.stale(ctx, r.reach, limit)
}

// Due is DB.Due within the reach.
func (r *Reached) Due(ctx context.Context, now time.Time, limit int) ([]Due, error) {
	return r.due(ctx, r.reach, now, limit)
}

// Claim is DB.Claim within the reach.
func (r *Reached) Claim(ctx context.Context, owner string, now time.Time, lease time.Duration, limit int) ([]duty.Post, error) {
	return r.claim(ctx, r.reach, owner, now, lease, limit)
}

// Outdated is DB.Outdated within the reach.
func (r *Reached) Outdated(ctx context.Context, now time.Time, lease time.Duration, limit int) ([]duty.Post, error) {
	return r.outdated(ctx, r.reach, now, lease, limit)
}
