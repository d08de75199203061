package storage

import (
	"context"
	"database/sql"
	"fmt"
	"time"

	"heapside/calc/heap"
)

const entryColumns = `e.id, e.heap_id, e.at_ms, e.logged_ms, e.by_id, e.by_name, e.kind, e.payload, coalesce(v.id, 0), coalesce(e.leader, e.id)
	FROM entries e LEFT JOIN entries v ON v.guild = e.guild AND v.channel = e.channel AND v.voids = e.id`

// Append stores entries in one transaction and returns them with ids. Started
// and Voided entries, and those that change the heap itself, have methods of
// their own.
func (db *DB) Append(ctx context.Context, at heap.Place, entries ...heap.Entry) ([]heap.Entry, error) {
	if err := appendable(entries); err != nil {
		return nil, fmt.Errorf("append entries: %w", err)
	}
	if len(entries) == 0 {
		return nil, nil
	}
	var stored []heap.Entry
	err := db.change(ctx, at, "append entries", func(ctx context.Context, tx *sql.Tx) error {
		var err error
		stored, err = insertEntries(ctx, tx, at, entries)
		return err
	})
	if err != nil {
		return nil, err
	}
	return stored, nil
}

// appendable refuses entries that change the heap they are of.
func appendable(entries []heap.Entry) error {
	for _, e := range entries {
		switch e.Payload.(type) {
		case heap.Changed, heap.Finished:
			return fmt.Errorf("a %s entry goes through ChangeHeap", e.Payload.Kind())
		}
	}
	return nil
}

func insertEntries(ctx context.Context, tx *sql.Tx, at heap.Place, entries []heap.Entry) ([]heap.Entry, error) {
	known := map[heap.ID]bool{}
	var stored []heap.Entry
	for _, e := range entries {
		switch e.Payload.(type) {
		case heap.Started, heap.Voided:
			return nil, fmt.Errorf("a %s entry is not appended by itself", e.Payload.Kind())
		}
		if !known[e.Heap] {
			if _, err := find(ctx, tx, at, e.Heap); err != nil {
				return nil, err
			}
			known[e.Heap] = true
		}
		e.Leader = 0
		if len(stored) > 0 {
			e.Leader = stored[0].ID
		}
		e, err := insertEntry(ctx, tx, at, e)
		if err != nil {
			return nil, err
		}
		stored = append(stored, e)
	}
	return stored, nil
}

// insertEntry stores one entry and returns it as it will read back.
func insertEntry(ctx context.Context, tx *sql.Tx, at heap.Place, e heap.Entry) (heap.Entry, error) {
	payload, err := heap.Encode(e.Payload)
	if err != nil {
		return e, err
	}
	if err := small("An entry", payload); err != nil {
		return e, err
	}
	if err := short(text{"A person's name", e.By.Name}, text{"A person's id", e.By.ID}); err != nil {
		return e, err
	}
	if e.At.IsZero() || e.Logged.IsZero() {
		return e, fmt.Errorf("a %s entry has no time", e.Payload.Kind())
	}
	var voids sql.NullInt64
	if v, ok := e.Payload.(heap.Voided); ok {
		voids = sql.NullInt64{Int64: int64(v.Entry), Valid: true}
	}
	e.At, e.Logged, e.VoidedBy = instant(e.At.UnixMilli()), instant(e.Logged.UnixMilli()), 0
	leader := sql.NullInt64{Int64: int64(e.Leader), Valid: e.Leader != 0}
	const insert = `INSERT INTO entries (guild, channel, heap_id, at_ms, logged_ms, by_id, by_name, kind, payload, voids, leader)
		VALUES ($1, $2, $3, $4, $5, $6, $7, $8, $9, $10, $11) RETURNING id, coalesce(leader, id)`
	err = tx.QueryRowContext(ctx, insert, at.Guild, at.Channel, e.Heap, milliseconds(e.At), milliseconds(e.Logged),
		e.By.ID, e.By.Name, string(e.Payload.Kind()), string(payload), voids, leader).Scan(&e.ID, &e.Leader)
	return e, err
}

// Entries lists one heap's entries, by time then id, voided ones included.
func (db *DB) Entries(ctx context.Context, at heap.Place, id heap.ID) ([]heap.Entry, error) {
	entries, err := read(ctx, db, "list entries", scanEntry,
		"SELECT "+entryColumns+" WHERE e.guild = $1 AND e.channel = $2 AND e.heap_id = $3 ORDER BY e.at_ms, e.id",
		at.Guild, at.Channel, id)
	if err != nil || len(entries) > 0 {
		return entries, err
	}
	// Every heap has at least its start: no entries means no such heap here.
	_, err = find(ctx, db.reader, at, id)
	return nil, err
}

// Latest lists the newest entries of all the place's heaps in order of
// logging, newest first, at most limit, voided ones included.
func (db *DB) Latest(ctx context.Context, at heap.Place, limit int) ([]heap.Entry, error) {
	return read(ctx, db, "list latest entries", scanEntry,
		"SELECT "+entryColumns+" WHERE e.guild = $1 AND e.channel = $2 ORDER BY e.id DESC LIMIT $3",
		at.Guild, at.Channel, max(0, limit))
}

func scanEntry(scan func(...any) error) (heap.Entry, error) {
	var e heap.Entry
	var at, logged int64
	var kind, payload string
	if err := scan(&e.ID, &e.Heap, &at, &logged, &e.By.ID, &e.By.Name, &kind, &payload, &e.VoidedBy, &e.Leader); err != nil {
		return e, err
	}
	e.At, e.Logged = time.UnixMilli(at).UTC(), time.UnixMilli(logged).UTC()
	var err error
	if e.Payload, err = heap.Decode(heap.Kind(kind), []byte(payload)); err != nil {
		return e, fmt.Errorf("entry %d: %w", e.ID, err)
	}
	return e, nil
}
