package storage

import (
	"cmp"
	"context"
	"database/sql"
	"encoding/json"
	"errors"
	"fmt"
	"slices"
	"strings"
	"time"

	"heapside/calc/duty"
	"heapside/calc/fault"
	"heapside/calc/heap"
)

// ErrFenced is returned to whoever claimed a post that somebody else has
// claimed, or closed, since.
var ErrFenced = errors.New("the post is no longer ours")

// The states of a post as they are stored; a leased one is claimed, a dropped or
// folded one never came.
const (
	waiting = "due"
	leased  = "leased"
	dropped = "dropped"
	folded  = "folded"
)

// maxWhy is how many characters are kept of why a post was not sent (own choice).
const maxWhy = 200

// body is what a post says besides its items.
type body struct {
	To    heap.Person `json:"to"`
	Notes []string    `json:"notes,omitempty"`
	Week  []string    `json:"week,omitempty"`
}

const postColumns = "id, guild, channel, kind, day, due_ms, body, message, attempt, owner, version"

func scanPost(scan func(...any) error) (duty.Post, error) {
	var p duty.Post
	var due int64
	var day string
	var data []byte
	err := scan(&p.ID, &p.Place.Guild, &p.Place.Channel, &p.Kind, &day, &due, &data, &p.Message, &p.Attempt, &p.Owner, &p.Version)
	if err != nil {
		return p, err
	}
	var said body
	if err := json.Unmarshal(data, &said); err != nil {
		return p, fmt.Errorf("post %d: %w", p.ID, err)
	}
	p.Due, p.To, p.Notes, p.Week = instant(due), said.To, said.Notes, said.Week
	p.Day, err = duty.ParseDate(day)
	return p, err
}

// insertPost stores a post without its items; false when the place has one of
// that kind and day.
func insertPost(ctx context.Context, tx *sql.Tx, p duty.Post, state string) (int64, bool, error) {
	data, err := json.Marshal(body{p.To, p.Notes, p.Week})
	if err != nil {
		return 0, false, err
	}
	if err := small("A reminder", data); err != nil {
		return 0, false, err
	}
	if p.Day.IsZero() || p.Due.IsZero() {
		return 0, false, fmt.Errorf("a %s has no day or hour", p.Kind)
	}
	const insert = `INSERT INTO posts (guild, channel, kind, day, due_ms, body, state, next_ms, owner, attempt, why, message, version, shown)
		VALUES ($1, $2, $3, $4, $5, $6, $7, $5, '', 0, '', '', 1, 0)
		ON CONFLICT (guild, channel, kind, day) DO NOTHING RETURNING id`
	var id int64
	err = tx.QueryRowContext(ctx, insert, p.Place.Guild, p.Place.Channel, string(p.Kind), p.Day.String(),
		milliseconds(p.Due), string(data), state).Scan(&id)
	if errors.Is(err, sql.ErrNoRows) {
		return 0, false, nil
	}
	return id, err == nil, err
}

// Claim gives out posts to be sent, with their items, the oldest first, to an
// owner who may work on them until the lease ends: those whose time has come,
// and those whose owner let the lease run out. Places that are gone are left
// out. Of programs that claim at once each post goes to one. Whoever stops
// after Claim, before or after the message went out, leaves a post that is
// claimed again when the lease has ended, at the next attempt.
func (db *DB) Claim(ctx context.Context, owner string, now time.Time, lease time.Duration, limit int) ([]duty.Post, error) {
	return db.claim(ctx, Reach{}, owner, now, lease, limit)
}

func (db *DB) claim(ctx context.Context, r Reach, owner string, now time.Time, lease time.Duration, limit int) ([]duty.Post, error) {
	if none, err := db.none(ctx, anyWaiting, r, now); none || err != nil {
		return nil, err
	}
	return db.take(ctx, "claim posts", claimPosts, r.args(limit, owner, now.Add(lease).UnixMilli(), now.UnixMilli())...)
}

var (
	anyWaiting = selectPosts("w.state IN ('due', 'leased')", 1)
	claimPosts = `UPDATE posts SET state = 'leased', owner = $1, attempt = attempt + 1, next_ms = $2
		WHERE id IN (` + selectPosts("w.state IN ('due', 'leased')", 3) + ") RETURNING " + postColumns
)

// selectPosts lists the posts w that a condition holds for, whose time has come
// and that are within reach; its arguments begin at $n.
func selectPosts(condition string, n int) string {
	return fmt.Sprintf(`SELECT w.id FROM posts w WHERE %s AND w.next_ms <= $%d AND %s
		AND ($%d = '' OR w.guild = $%d AND w.channel = $%d) AND w.guild <> $%d ORDER BY w.next_ms, w.id LIMIT $%d`,
		condition, n, notGone, n+1, n+1, n+2, n+3, n+4)
}

// none looks whether there is nothing to take, which is mostly so, without
// waiting for the writer's turn.
func (db *DB) none(ctx context.Context, query string, r Reach, now time.Time) (bool, error) {
	id := func(scan func(...any) error) (id int64, err error) {
		err = scan(&id)
		return id, err
	}
	found, err := read(ctx, db, "look for posts", id, query, r.args(1, now.UnixMilli())...)
	return len(found) == 0, err
}

// notGone leaves out posts w of places that are gone.
const notGone = "NOT EXISTS (SELECT 1 FROM plans p WHERE p.guild = w.guild AND p.channel = w.channel AND p.trouble = 'gone')"

// take changes posts and returns them with their items, as of one moment.
func (db *DB) take(ctx context.Context, doing, update string, args ...any) ([]duty.Post, error) {
	var posts []duty.Post
	err := db.write(ctx, doing, func(ctx context.Context, tx *sql.Tx) error {
		var err error
		if posts, err = collect(ctx, tx, scanPost, update, args...); err != nil {
			return err
		}
		for n := range posts {
			if posts[n].Items, err = itemsOf(ctx, tx, posts[n]); err != nil {
				return err
			}
		}
		return nil
	})
	if err != nil {
		return nil, err
	}
	slices.SortFunc(posts, func(a, b duty.Post) int { return cmp.Or(a.Due.Compare(b.Due), cmp.Compare(a.ID, b.ID)) })
	return posts, nil
}

// Sent keeps that a claimed post went out as a message of the platform, in the
// version p has; an item that changed meanwhile makes it outdated. A channel
// that took a message is no trouble any more. ErrFenced says that somebody else
// has claimed or closed the post since: they will have sent it, or will.
func (db *DB) Sent(ctx context.Context, p duty.Post, message string, now time.Time) error {
	return db.write(ctx, "keep post as sent", func(ctx context.Context, tx *sql.Tx) error {
		const set = `UPDATE posts SET state = 'sent', message = $1, sent_ms = $2, shown = $3, next_ms = 0
			WHERE guild = $4 AND channel = $5 AND id = $6 AND state = 'leased' AND owner = $7 AND attempt = $8`
		err := fenced(tx.ExecContext(ctx, set, message, milliseconds(now), p.Version, p.Place.Guild, p.Place.Channel, p.ID, p.Owner, p.Attempt))
		if err != nil {
			return err
		}
		const clear = "UPDATE plans SET trouble = '', trouble_ms = NULL WHERE guild = $1 AND channel = $2 AND trouble <> ''"
		_, err = tx.ExecContext(ctx, clear, p.Place.Guild, p.Place.Channel)
		return err
	})
}

// Retry gives a claimed post back, to be claimed again from next on. It keeps
// why. ErrFenced is that of Sent.
func (db *DB) Retry(ctx context.Context, p duty.Post, next time.Time, why string) error {
	return db.write(ctx, "put off post", func(ctx context.Context, tx *sql.Tx) error {
		const set = `UPDATE posts SET state = 'due', next_ms = $1, why = $2
			WHERE guild = $3 AND channel = $4 AND id = $5 AND state = 'leased' AND owner = $6 AND attempt = $7`
		return fenced(tx.ExecContext(ctx, set, milliseconds(next), brief(why), p.Place.Guild, p.Place.Channel, p.ID, p.Owner, p.Attempt))
	})
}

// Drop gives a claimed post up for good; its open items lapse. Missed lists one
// that is folded, and again what it would have named. ErrFenced is that of Sent.
func (db *DB) Drop(ctx context.Context, p duty.Post, fold bool, why string) error {
	state := dropped
	if fold {
		state = folded
	}
	return db.write(ctx, "drop post", func(ctx context.Context, tx *sql.Tx) error {
		const set = `UPDATE posts SET state = $1, why = $2
			WHERE guild = $3 AND channel = $4 AND id = $5 AND state = 'leased' AND owner = $6 AND attempt = $7`
		err := fenced(tx.ExecContext(ctx, set, state, brief(why), p.Place.Guild, p.Place.Channel, p.ID, p.Owner, p.Attempt))
		if err != nil {
			return err
		}
		const lapse = `UPDATE items SET state = 'lapsed', until = ''
			WHERE guild = $1 AND channel = $2 AND post = $3 AND state IN ('open', 'later')`
		const unname = "UPDATE posts SET named = NULL WHERE guild = $1 AND channel = $2 AND named = $3"
		for _, statement := range []string{lapse, unname} {
			if _, err := tx.ExecContext(ctx, statement, p.Place.Guild, p.Place.Channel, p.ID); err != nil {
				return err
			}
		}
		return outdate(ctx, tx, p.Place)
	})
}

func fenced(r sql.Result, err error) error {
	if ours, err := changed(r, err); err != nil || ours {
		return err
	}
	return ErrFenced
}

// brief is as much of a text as is kept.
func brief(text string) string {
	r := []rune(strings.ReplaceAll(strings.ToValidUTF8(text, "\uFFFD"), "\x00", "\uFFFD"))
	return string(r[:min(len(r), maxWhy)])
}

// Outdated gives out sent posts whose items changed since they were shown, with
// their items, to be edited until the lease ends: no two programs edit one
// message at a time. Places that are gone are left out. Whoever stops before
// Shown leaves a post that is given out again when the lease has ended; editing
// twice does no harm.
func (db *DB) Outdated(ctx context.Context, now time.Time, lease time.Duration, limit int) ([]duty.Post, error) {
	return db.outdated(ctx, Reach{}, now, lease, limit)
}

func (db *DB) outdated(ctx context.Context, r Reach, now time.Time, lease time.Duration, limit int) ([]duty.Post, error) {
	if none, err := db.none(ctx, anyOutdated, r, now); none || err != nil {
		return nil, err
	}
	return db.take(ctx, "list outdated posts", takeOutdated, r.args(limit, now.Add(lease).UnixMilli(), now.UnixMilli())...)
}

var (
	anyOutdated  = selectPosts("w.state = 'sent' AND w.version > w.shown", 1)
	takeOutdated = "UPDATE posts SET next_ms = $1 WHERE id IN (" + selectPosts("w.state = 'sent' AND w.version > w.shown", 2) + ") RETURNING " + postColumns
)

// Shown keeps that the message of a sent post shows its version p.Version, or
// that there is no message left to edit. The last word stands: when two edits
// crossed, the older version makes the post outdated again.
func (db *DB) Shown(ctx context.Context, p duty.Post) error {
	return db.write(ctx, "keep post as shown", func(ctx context.Context, tx *sql.Tx) error {
		const set = "UPDATE posts SET shown = $1, next_ms = 0 WHERE guild = $2 AND channel = $3 AND id = $4 AND state = 'sent'"
		_, err := tx.ExecContext(ctx, set, p.Version, p.Place.Guild, p.Place.Channel, p.ID)
		return err
	})
}

// EditLater puts the edit of an outdated post off.
func (db *DB) EditLater(ctx context.Context, p duty.Post, next time.Time) error {
	return db.write(ctx, "put off edit", func(ctx context.Context, tx *sql.Tx) error {
		const set = "UPDATE posts SET next_ms = $1 WHERE guild = $2 AND channel = $3 AND id = $4 AND state = 'sent'"
		_, err := tx.ExecContext(ctx, set, milliseconds(next), p.Place.Guild, p.Place.Channel, p.ID)
		return err
	})
}

// Post returns a post of a place with its items; fault.Unknown when there is
// none of that id here.
func (db *DB) Post(ctx context.Context, at heap.Place, id int64) (duty.Post, error) {
	// Read before its items, its version is never newer than they are.
	found, err := read(ctx, db, "read post", scanPost,
		"SELECT "+postColumns+" FROM posts WHERE guild = $1 AND channel = $2 AND id = $3", at.Guild, at.Channel, id)
	if err != nil {
		return duty.Post{}, err
	}
	if len(found) == 0 {
		return duty.Post{}, fault.New(fault.Unknown, "There is no reminder with the number %d here.", id)
	}
	p := found[0]
	if p.Items, err = itemsOf(ctx, db.reader, p); err != nil {
		return duty.Post{}, fmt.Errorf("read post: %w", err)
	}
	return p, nil
}

// LastSent is the other place of a guild that took a message last and is not in
// trouble; false when there is none.
func (db *DB) LastSent(ctx context.Context, besides heap.Place) (heap.Place, bool, error) {
	found, err := read(ctx, db, "find another place", scanPlace,
		`SELECT w.guild, w.channel FROM posts w JOIN plans p ON p.guild = w.guild AND p.channel = w.channel
		WHERE w.guild = $1 AND w.channel <> $2 AND w.state = 'sent' AND p.trouble = '' ORDER BY w.sent_ms DESC, w.id DESC LIMIT 1`,
		besides.Guild, besides.Channel)
	if err != nil || len(found) == 0 {
		return heap.Place{}, false, err
	}
	return found[0], true, nil
}

func scanPlace(scan func(...any) error) (at heap.Place, err error) {
	err = scan(&at.Guild, &at.Channel)
	return at, err
}
