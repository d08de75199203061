package storage

import (
	"context"
	"database/sql"
	"encoding/json"
	"fmt"

	"heapside/calc/duty"
	"heapside/calc/fault"
	"heapside/calc/heap"
)

// maxItems is how many items are listed at once (own choice): half a year of
// days with as many as a reminder names.
const maxItems = 500

const itemColumns = `i.id, i.post, coalesce(i.heap_id, 0), i.name, i.day, i.job, i.said_ms, i.state, i.by_id, i.by_name, i.at_ms,
	coalesce(i.entry, 0), i.until FROM items i`

func scanItem(scan func(...any) error) (duty.Item, error) {
	var i duty.Item
	var day, until string
	var job []byte
	var said int64
	var at sql.NullInt64
	err := scan(&i.ID, &i.Post, &i.Heap, &i.Name, &day, &job, &said, &i.State, &i.By.ID, &i.By.Name, &at, &i.Entry, &until)
	if err != nil {
		return i, err
	}
	if err := json.Unmarshal(job, &i.Job); err != nil {
		return i, fmt.Errorf("item %d: %w", i.ID, err)
	}
	i.Said, i.At = instant(said), instant(at.Int64)
	i.Day, err = duty.ParseDate(day)
	if err != nil {
		return i, err
	}
	i.Until, err = duty.ParseDate(until)
	return i, err
}

// insertItem stores an item of a post; the job of a heap that was named that
// day already is left out.
func insertItem(ctx context.Context, tx *sql.Tx, at heap.Place, i duty.Item) error {
	job, err := json.Marshal(i.Job)
	if err != nil {
		return err
	}
	if err := small("A job", job); err != nil {
		return err
	}
	const insert = `INSERT INTO items (guild, channel, post, heap_id, name, kind, day, job, said_ms, state, by_id, by_name, until)
		VALUES ($1, $2, $3, $4, $5, $6, $7, $8, $9, 'open', '', '', '')
		ON CONFLICT (guild, channel, day, coalesce(heap_id, 0), kind) DO NOTHING`
	_, err = tx.ExecContext(ctx, insert, at.Guild, at.Channel, i.Post, reference(int64(i.Heap)), i.Name, i.Kind, i.Day.String(),
		string(job), milliseconds(i.Said))
	return err
}

// reference is the number of another row as it is stored, NULL for none.
func reference(id int64) sql.NullInt64 { return sql.NullInt64{Int64: id, Valid: id != 0} }

// updateItem stores what became of an item, and makes its post outdated.
func updateItem(ctx context.Context, tx *sql.Tx, at heap.Place, i duty.Item) error {
	if err := short(text{"A person's name", i.By.Name}, text{"A person's id", i.By.ID}); err != nil {
		return err
	}
	if i.State != duty.Later {
		i.Until = duty.Date{}
	}
	const set = `UPDATE items SET state = $1, by_id = $2, by_name = $3, at_ms = $4, entry = $5, until = $6
		WHERE guild = $7 AND channel = $8 AND id = $9`
	_, err := tx.ExecContext(ctx, set, string(i.State), i.By.ID, i.By.Name, nullable(i.At), reference(int64(i.Entry)), i.Until.String(),
		at.Guild, at.Channel, i.ID)
	if err != nil {
		return err
	}
	const outdate = `UPDATE posts SET version = version + 1 WHERE guild = $1 AND channel = $2
		AND id IN (SELECT i.post FROM items i WHERE i.guild = $1 AND i.channel = $2 AND i.id = $3)`
	_, err = tx.ExecContext(ctx, outdate, at.Guild, at.Channel, i.ID)
	return err
}

// itemsOf lists the items of a post in the order they were stored.
func itemsOf(ctx context.Context, q querier, p duty.Post) ([]duty.Item, error) {
	return collect(ctx, q, scanItem, "SELECT "+itemColumns+" WHERE i.guild = $1 AND i.channel = $2 AND i.post = $3 ORDER BY i.id",
		p.Place.Guild, p.Place.Channel, p.ID)
}

// Items lists what a place was, or is about to be, reminded of since a day, the
// newest day first, at most 500. What was in a post that was dropped is left
// out: nobody saw it.
func (db *DB) Items(ctx context.Context, at heap.Place, since duty.Date) ([]duty.Item, error) {
	return read(ctx, db, "list items", scanItem,
		"SELECT "+itemColumns+` JOIN posts w ON w.guild = i.guild AND w.channel = i.channel AND w.id = i.post
		WHERE i.guild = $1 AND i.channel = $2 AND i.day >= $3 AND w.state NOT IN ('dropped', 'folded') ORDER BY i.day DESC, i.id LIMIT $4`,
		at.Guild, at.Channel, since.String(), maxItems)
}

// Item returns an item of a place; fault.Unknown when there is none of that id
// here.
func (db *DB) Item(ctx context.Context, at heap.Place, id int64) (duty.Item, error) {
	if db.closed.Load() {
		return duty.Item{}, fmt.Errorf("read item: %w", ErrClosed)
	}
	i, err := findItem(ctx, db.reader, at, id)
	if err != nil {
		return duty.Item{}, fmt.Errorf("read item: %w", err)
	}
	return i, nil
}

func findItem(ctx context.Context, q querier, at heap.Place, id int64) (duty.Item, error) {
	found, err := collect(ctx, q, scanItem, "SELECT "+itemColumns+" WHERE i.guild = $1 AND i.channel = $2 AND i.id = $3",
		at.Guild, at.Channel, id)
	if err != nil {
		return duty.Item{}, err
	}
	if len(found) == 0 {
		return duty.Item{}, fault.New(fault.Unknown, "There is no job with the number %d here. Ask what needs doing.", id)
	}
	return found[0], nil
}

// Settle stores what somebody said of an item that is open or put off: State
// (done, later or unneeded), By, At and Until of now. With it, in one
// transaction, it stores what was logged for it, as Append does, and makes the
// post outdated. An item that was closed before is fault.Taken, with a sentence
// that says who did it; then nothing is stored, so that of two presses one
// counts. A Later item may be put off again.
func (db *DB) Settle(ctx context.Context, at heap.Place, id int64, now duty.Item, entries ...heap.Entry) (duty.Item, []heap.Entry, error) {
	if err := appendable(entries); err != nil {
		return duty.Item{}, nil, fmt.Errorf("settle item: %w", err)
	}
	if _, ok := closings[now.State]; now.At.IsZero() || !ok && (now.State != duty.Later || now.Until.IsZero()) {
		return duty.Item{}, nil, fmt.Errorf("settle item: cannot be %q until “%s” at %v", now.State, now.Until, now.At)
	}
	var item duty.Item
	var stored []heap.Entry
	err := db.change(ctx, at, "settle item", func(ctx context.Context, tx *sql.Tx) error {
		was, err := findItem(ctx, tx, at, id)
		if err != nil {
			return err
		}
		if was.State != duty.Open && was.State != duty.Later {
			return closedBefore(was)
		}
		if stored, err = insertEntries(ctx, tx, at, entries); err != nil {
			return err
		}
		item = was
		item.State, item.By, item.At, item.Until = now.State, now.By, instant(milliseconds(now.At)), now.Until
		if now.State != duty.Later {
			item.Until = duty.Date{}
		}
		if len(stored) > 0 {
			item.Entry = stored[0].ID
		}
		return updateItem(ctx, tx, at, item)
	})
	if err != nil {
		return duty.Item{}, nil, err
	}
	return item, stored, nil
}

// closings say what became of an item that somebody closed, by its state.
var closings = map[duty.State]string{
	duty.Done:     "%s did “%s” already.",
	duty.Unneeded: "%s said already that “%s” is not needed.",
}

func closedBefore(i duty.Item) error {
	if says, ok := closings[i.State]; ok && i.By.Name != "" {
		return fault.New(fault.Taken, says+" Nothing was logged twice.", i.By.Name, i.Title)
	}
	return fault.New(fault.Taken, "Nothing calls for “%s” any more. Log what you did as usual.", i.Title)
}
