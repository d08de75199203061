package storage

import (
	"context"
	"database/sql"
	"encoding/json"
	"fmt"
	"slices"
	"time"

	"heapside/calc/audit"
	"heapside/calc/heap"
)

// rule is change for what rules a group: what f says that it changed is kept in
// the same transaction, with who and when. Where f changed nothing, nothing is.
func (db *DB) rule(ctx context.Context, at heap.Place, by heap.Person, now time.Time, topic audit.Topic, doing string,
	f func(context.Context, *sql.Tx) ([]audit.Change, error)) error {
	return db.change(ctx, at, doing, func(ctx context.Context, tx *sql.Tx) error {
		changes, err := f(ctx, tx)
		if err != nil || len(changes) == 0 {
			return err
		}
		what, err := json.Marshal(changes)
		if err != nil {
			return err
		}
		const insert = "INSERT INTO changes (guild, channel, at_ms, by_id, by_name, topic, what) VALUES ($1, $2, $3, $4, $5, $6, $7)"
		_, err = tx.ExecContext(ctx, insert, at.Guild, at.Channel, milliseconds(now), by.ID, by.Name, string(topic), string(what))
		return err
	})
}

const onTopic = " FROM changes WHERE guild = $1 AND channel = $2 AND at_ms >= $3 AND ($4 = '' OR topic = $4)"

// Acts lists what people changed of a topic of a place, or of all when it is
// empty, since a moment: the newest, at most limit, oldest first. all is how
// many there are.
func (db *DB) Acts(ctx context.Context, at heap.Place, topic audit.Topic, since time.Time, limit int) (acts []audit.Act, all int, err error) {
	args := []any{at.Guild, at.Channel, milliseconds(since), string(topic)}
	counted, err := read(ctx, db, "count changes", scanCount, "SELECT count(*)"+onTopic, args...)
	if err != nil {
		return nil, 0, err
	}
	acts, err = read(ctx, db, "list changes", scanAct,
		"SELECT id, at_ms, by_id, by_name, topic, what"+onTopic+" ORDER BY at_ms DESC, id DESC LIMIT $5", append(args, limit)...)
	slices.Reverse(acts)
	return acts, counted[0], err
}

func scanCount(scan func(...any) error) (n int, err error) {
	err = scan(&n)
	return n, err
}

func scanAct(scan func(...any) error) (audit.Act, error) {
	var a audit.Act
	var at int64
	var what []byte
	if err := scan(&a.ID, &at, &a.By.ID, &a.By.Name, &a.Topic, &what); err != nil {
		return a, err
	}
	a.At = instant(at)
	if err := json.Unmarshal(what, &a.Changes); err != nil {
		return a, fmt.Errorf("change %d: %w", a.ID, err)
	}
	return a, nil
}
