package storage

import (
	"context"
	"database/sql"
	"fmt"
	"time"

	"heapside/calc/fault"
	"heapside/calc/heap"
)

// Void takes back entries, all or none, and returns the Voided entries that do
// so. A heap's attribute that a voided entry set becomes what the entries that
// still stand make it.
func (db *DB) Void(ctx context.Context, at heap.Place, by heap.Person, logged time.Time, ids ...heap.EntryID) ([]heap.Entry, error) {
	var voided []heap.Entry
	err := db.change(ctx, at, "take back entries", func(ctx context.Context, tx *sql.Tx) error {
		var taken []heap.Entry
		for _, id := range ids {
			was, err := standing(ctx, tx, at, id)
			if err != nil {
				return err
			}
			void := heap.Entry{Heap: was.Heap, At: logged, Logged: logged, By: by, Payload: heap.Voided{Entry: id, Was: was.Payload.Kind()}}
			if void, err = insertEntry(ctx, tx, at, void); err != nil {
				return err
			}
			taken, voided = append(taken, was), append(voided, void)
		}
		// Only when all are void does the log say what the attributes are now.
		for _, was := range taken {
			if err := putBack(ctx, tx, at, was); err != nil {
				return err
			}
		}
		return nil
	})
	if err != nil {
		return nil, err
	}
	return voided, nil
}

// standing is the entry of that id, if it is of that place and can be taken back.
func standing(ctx context.Context, tx *sql.Tx, at heap.Place, id heap.EntryID) (heap.Entry, error) {
	found, err := collect(ctx, tx, scanEntry,
		"SELECT "+entryColumns+" WHERE e.guild = $1 AND e.channel = $2 AND e.id = $3", at.Guild, at.Channel, id)
	if err != nil {
		return heap.Entry{}, err
	}
	if len(found) == 0 {
		return heap.Entry{}, fault.New(fault.Unknown, "There is no entry with the number %d here. Ask for the history to see the numbers.", id)
	}
	e := found[0]
	switch e.Payload.Kind() {
	case heap.KindVoided:
		return e, fault.New(fault.Unknown, "Entry %d takes another one back, and cannot be taken back itself. Log the thing again instead.", id)
	case heap.KindStarted:
		return e, fault.New(fault.Unknown, "Entry %d is the start of a heap, and cannot be taken back. Finish the heap instead.", id)
	}
	if e.VoidedBy != 0 {
		return e, fault.New(fault.Unknown, "Entry %d was already taken back.", id)
	}
	return e, nil
}

// putBack restores the attribute that an entry, voided by now, had set.
func putBack(ctx context.Context, tx *sql.Tx, at heap.Place, was heap.Entry) error {
	switch p := was.Payload.(type) {
	case heap.Changed:
		return putBackAttribute(ctx, tx, at, was.Heap, p.Field)
	case heap.Finished:
		return putBackFinish(ctx, tx, at, was.Heap)
	}
	return nil
}

// changes lists a heap's entries of one kind in order of logging.
func changes(ctx context.Context, tx *sql.Tx, at heap.Place, id heap.ID, kind heap.Kind) ([]heap.Entry, error) {
	return collect(ctx, tx, scanEntry,
		"SELECT "+entryColumns+" WHERE e.guild = $1 AND e.channel = $2 AND e.heap_id = $3 AND e.kind = $4 ORDER BY e.id",
		at.Guild, at.Channel, id, string(kind))
}

// putBackAttribute sets what the last standing change says, or what was before
// the first one.
func putBackAttribute(ctx context.Context, tx *sql.Tx, at heap.Place, id heap.ID, field string) error {
	h, err := find(ctx, tx, at, id)
	if err != nil {
		return err
	}
	all, err := changes(ctx, tx, at, id, heap.KindChanged)
	if err != nil {
		return err
	}
	text, found := "", false
	for _, e := range all {
		c := e.Payload.(heap.Changed)
		if c.Field != field {
			continue
		}
		if !found {
			text, found = c.From, true
		}
		if e.VoidedBy == 0 {
			text = c.To
		}
	}
	if !found {
		return fmt.Errorf("heap %d has no change of its %s", id, field)
	}
	if h, err = h.WithAttribute(field, text); err != nil {
		return err
	}
	return update(ctx, tx, h)
}

// putBackFinish opens the heap again, or sets the finish that still stands.
func putBackFinish(ctx context.Context, tx *sql.Tx, at heap.Place, id heap.ID) error {
	h, err := find(ctx, tx, at, id)
	if err != nil {
		return err
	}
	all, err := changes(ctx, tx, at, id, heap.KindFinished)
	if err != nil {
		return err
	}
	h.Finished = time.Time{}
	for _, e := range all {
		if e.VoidedBy == 0 {
			h.Finished = e.At
		}
	}
	return update(ctx, tx, h)
}
