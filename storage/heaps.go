package storage

import (
	"context"
	"database/sql"
	"fmt"
	"time"

	"heapside/calc/fault"
	"heapside/calc/heap"
)

const heapColumns = "id, guild, channel, name, container, size_l, cover, aim, started_ms, finished_ms"

// Heaps lists the heaps of a place, oldest first, finished ones included.
func (db *DB) Heaps(ctx context.Context, at heap.Place) ([]heap.Heap, error) {
	return read(ctx, db, "list heaps", scanHeap,
		"SELECT "+heapColumns+" FROM heaps WHERE guild = $1 AND channel = $2 ORDER BY started_ms, id", at.Guild, at.Channel)
}

func scanHeap(scan func(...any) error) (heap.Heap, error) {
	var h heap.Heap
	var started int64
	var finished sql.NullInt64
	err := scan(&h.ID, &h.Place.Guild, &h.Place.Channel, &h.Name, &h.Container, &h.SizeL, &h.Cover, &h.Aim, &started, &finished)
	h.Started, h.Finished = instant(started), instant(finished.Int64)
	return h, err
}

// StartHeap stores a heap and its Started entry. Without a container it is an
// open heap, without an aim a steady one, without a start it starts now.
func (db *DB) StartHeap(ctx context.Context, h heap.Heap, by heap.Person, logged time.Time) (heap.Heap, error) {
	h = completed(h, logged)
	if err := checkHeap(h); err != nil {
		return heap.Heap{}, err
	}
	err := db.change(ctx, h.Place, "start heap", func(ctx context.Context, tx *sql.Tx) error {
		if err := free(ctx, tx, h); err != nil {
			return err
		}
		const insert = `INSERT INTO heaps (guild, channel, name, name_key, container, size_l, cover, aim, started_ms, finished_ms)
			VALUES ($1, $2, $3, $4, $5, $6, $7, $8, $9, $10) RETURNING id`
		err := tx.QueryRowContext(ctx, insert, h.Place.Guild, h.Place.Channel, h.Name, heap.NameKey(h.Name), string(h.Container),
			h.SizeL, h.Cover, string(h.Aim), milliseconds(h.Started), finished(h)).Scan(&h.ID)
		if err != nil {
			return err
		}
		_, err = insertEntry(ctx, tx, h.Place, heap.Entry{Heap: h.ID, At: h.Started, Logged: logged, By: by, Payload: heap.Started{}})
		return err
	})
	if err != nil {
		return heap.Heap{}, err
	}
	return h, nil
}

// completed is the heap as it will read back.
func completed(h heap.Heap, logged time.Time) heap.Heap {
	if h.Container == "" {
		h.Container = heap.OpenHeap
	}
	if h.Aim == "" {
		h.Aim = heap.Steady
	}
	if h.Started.IsZero() {
		h.Started = logged
	}
	h.Started, h.Finished = instant(milliseconds(h.Started)), instant(milliseconds(h.Finished))
	return h
}

func checkHeap(h heap.Heap) error {
	if heap.NameKey(h.Name) == "" {
		return fault.New(fault.Missing, "A heap needs a name that can be read, and “%s” is none. Give one such as North Bay.", h.Name)
	}
	if !(h.SizeL >= 0 && h.SizeL <= heap.MaxLitres) {
		return fault.New(fault.OutOfRange, "%g litres is not a size that a heap can have: give 0 to %g.", h.SizeL, heap.MaxLitres)
	}
	if h.Started.IsZero() {
		return fmt.Errorf("heap %q has no start", h.Name)
	}
	return short(text{"A name", h.Name}, text{"A cover", h.Cover},
		text{"A container", string(h.Container)}, text{"An aim", string(h.Aim)})
}

func finished(h heap.Heap) sql.NullInt64 {
	return sql.NullInt64{Int64: milliseconds(h.Finished), Valid: !h.Finished.IsZero()}
}

// free refuses a name that another unfinished heap bears, and one heap too many.
func free(ctx context.Context, tx *sql.Tx, h heap.Heap) error {
	if !h.Finished.IsZero() {
		return nil
	}
	var others, bearers int
	const count = `SELECT count(*), coalesce(sum(CASE WHEN name_key = $1 THEN 1 ELSE 0 END), 0) FROM heaps
		WHERE guild = $2 AND channel = $3 AND id <> $4 AND finished_ms IS NULL`
	err := tx.QueryRowContext(ctx, count, heap.NameKey(h.Name), h.Place.Guild, h.Place.Channel, h.ID).Scan(&others, &bearers)
	if err != nil {
		return err
	}
	if bearers > 0 {
		return fault.New(fault.Taken, "A heap called “%s” is already kept here. Give another name, or finish that heap first.", h.Name)
	}
	if others >= maxHeaps {
		return fault.New(fault.TooLong, "%d heaps are already kept here, which is as many as one channel can have. Finish one first.", others)
	}
	return nil
}

// ChangeHeap stores the heap's new attributes together with the entries that
// record them. From and To of Changed entries are written here, from the heap
// as it was stored and as it is now, so that Void can put them back.
func (db *DB) ChangeHeap(ctx context.Context, h heap.Heap, entries ...heap.Entry) ([]heap.Entry, error) {
	var stored []heap.Entry
	err := db.change(ctx, h.Place, "change heap", func(ctx context.Context, tx *sql.Tx) error {
		old, err := find(ctx, tx, h.Place, h.ID)
		if err != nil {
			return err
		}
		h := completed(h, old.Started)
		if err := update(ctx, tx, h); err != nil {
			return err
		}
		stored, err = insertEntries(ctx, tx, h.Place, recorded(old, h, entries))
		return err
	})
	if err != nil {
		return nil, err
	}
	return stored, nil
}

func recorded(old, now heap.Heap, entries []heap.Entry) []heap.Entry {
	var all []heap.Entry
	for _, e := range entries {
		e.Heap = now.ID
		if c, ok := e.Payload.(heap.Changed); ok {
			c.From, c.To = old.Attribute(c.Field), now.Attribute(c.Field)
			e.Payload = c
		}
		all = append(all, e)
	}
	return all
}

// find is the heap of that id, if it is of that place.
func find(ctx context.Context, q querier, at heap.Place, id heap.ID) (heap.Heap, error) {
	const query = "SELECT " + heapColumns + " FROM heaps WHERE guild = $1 AND channel = $2 AND id = $3"
	found, err := collect(ctx, q, scanHeap, query, at.Guild, at.Channel, id)
	if err != nil {
		return heap.Heap{}, err
	}
	if len(found) == 0 {
		return heap.Heap{}, fault.New(fault.Unknown, "There is no heap with the number %d here. Ask for the list of heaps.", id)
	}
	return found[0], nil
}

func update(ctx context.Context, tx *sql.Tx, h heap.Heap) error {
	if err := checkHeap(h); err != nil {
		return err
	}
	if err := free(ctx, tx, h); err != nil {
		return err
	}
	const set = `UPDATE heaps SET name = $1, name_key = $2, container = $3, size_l = $4, cover = $5, aim = $6, started_ms = $7, finished_ms = $8
		WHERE guild = $9 AND channel = $10 AND id = $11`
	_, err := tx.ExecContext(ctx, set, h.Name, heap.NameKey(h.Name), string(h.Container), h.SizeL, h.Cover, string(h.Aim),
		milliseconds(h.Started), finished(h), h.Place.Guild, h.Place.Channel, h.ID)
	return err
}
