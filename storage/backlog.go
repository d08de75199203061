package storage

import (
	"context"
	"time"

	"heapside/calc/duty"
)

// Backlog counts the posts whose hour has come and that are not sent, of
// channels that can be posted to as far as is known; oldest is the hour of the
// one that waits longest, zero when there is none.
func (r *Reached) Backlog(ctx context.Context, now time.Time) (posts int, oldest time.Time, err error) {
	const count = `SELECT count(*), coalesce(min(w.due_ms), 0) FROM posts w WHERE w.state IN ('due', 'leased') AND w.due_ms <= $1
		AND ($2 = '' OR w.guild = $2 AND w.channel = $3) AND w.guild <> $4
		AND NOT EXISTS (SELECT 1 FROM plans p WHERE p.guild = w.guild AND p.channel = w.channel AND p.trouble <> '')`
	_, err = read(ctx, r.DB, "count waiting posts", func(scan func(...any) error) (struct{}, error) {
		var due int64
		err := scan(&posts, &due)
		oldest = instant(due)
		return struct{}{}, err
	}, count, now.UnixMilli(), r.reach.Only.Guild, r.reach.Only.Channel, r.reach.Besides)
	return posts, oldest, err
}

// Troubled counts the channels that cannot be posted to, by why.
func (r *Reached) Troubled(ctx context.Context) (map[duty.Trouble]int, error) {
	const count = `SELECT trouble, count(*) FROM plans WHERE trouble <> ''
		AND ($1 = '' OR guild = $1 AND channel = $2) AND guild <> $3 GROUP BY trouble`
	troubled := map[duty.Trouble]int{duty.Refused: 0, duty.Gone: 0}
	_, err := read(ctx, r.DB, "count channels in trouble", func(scan func(...any) error) (struct{}, error) {
		var why duty.Trouble
		var n int
		err := scan(&why, &n)
		troubled[why] = n
		return struct{}{}, err
	}, count, r.reach.Only.Guild, r.reach.Only.Channel, r.reach.Besides)
	return troubled, err
}
