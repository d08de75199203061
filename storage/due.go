package storage

import (
	"context"
	"database/sql"
	"encoding/json"
	"time"

	"heapside/calc/duty"
	"heapside/calc/heap"
)

// Due is the next reminder of a place as it was read. What is stored by it is
// stored only while nothing else was stored in the place since.
type Due struct {
	Place heap.Place
	duty.Occurrence
	Seq int64 // how much was stored in the place
}

const dueColumns = "guild, channel, due_ms, due_day, seq FROM plans"

func scanDue(scan func(...any) error) (Due, error) {
	var d Due
	var due sql.NullInt64
	var day string
	if err := scan(&d.Place.Guild, &d.Place.Channel, &due, &day, &d.Seq); err != nil {
		return d, err
	}
	var err error
	d.Occurrence, err = occurrence(due, day)
	return d, err
}

// Stale lists plans whose next reminder has to be worked out anew, because
// something was stored in their place; places that are gone are left out. The
// occurrence of each is the one that was worked out before, zero when there was
// none: one that has come by now, and that the plan still has, must be armed
// again, or it is lost.
func (db *DB) Stale(ctx context.Context, limit int) ([]Due, error) {
	return db.stale(ctx, Reach{}, limit)
}

func (db *DB) stale(ctx context.Context, r Reach, limit int) ([]Due, error) {
	return read(ctx, db, "list stale plans", scanDue, selectStale, r.args(limit)...)
}

const selectStale = "SELECT " + dueColumns + ` WHERE seq > armed AND trouble <> 'gone'
	AND ($1 = '' OR guild = $1 AND channel = $2) AND guild <> $3 ORDER BY guild, channel LIMIT $4`

// Arm stores the next reminder of a place that Stale listed (zero: none is
// ahead), and the items that the record has settled or opened again since; or
// another hour for one that Due listed. When something was stored in the place
// meanwhile, or another program gave or skipped the reminder, it does nothing:
// Stale lists the place again while it needs to. What is read after Stale to
// work it out is therefore never older than the record.
func (db *DB) Arm(ctx context.Context, was Due, next duty.Occurrence, settled ...duty.Item) error {
	return db.write(ctx, "arm reminder", func(ctx context.Context, tx *sql.Tx) error {
		ours, err := advance(ctx, tx, was, next)
		if err != nil || !ours {
			return err
		}
		for _, i := range settled {
			if err := updateItem(ctx, tx, was.Place, i); err != nil {
				return err
			}
		}
		return nil
	})
}

// Due lists the reminders that have come by now, the oldest first: those of
// plans that are armed, and not gone. Each stays due until Prepare or Skip.
func (db *DB) Due(ctx context.Context, now time.Time, limit int) ([]Due, error) {
	return db.due(ctx, Reach{}, now, limit)
}

func (db *DB) due(ctx context.Context, r Reach, now time.Time, limit int) ([]Due, error) {
	return read(ctx, db, "list due reminders", scanDue, selectDue, r.args(limit, now.UnixMilli())...)
}

const selectDue = "SELECT " + dueColumns + ` WHERE due_ms <= $1 AND seq = armed AND trouble <> 'gone'
	AND ($2 = '' OR guild = $2 AND channel = $3) AND guild <> $4 ORDER BY due_ms LIMIT $5`

// Prepare stores the post of a reminder that is due, its items, the rota after
// its turn, and the next reminder, in one transaction; it returns false, and
// does nothing, when the reminder is no longer due as it was read. The post is a
// Digest of the place, day and hour of was. When it has nothing to say, or the
// place has one of that day, it is left out with its items and its turn: the
// reminder is over all the same. With a stored post, what Missed lists has been
// named. When the program stops before Prepare, the reminder is still due; when
// it stops after, the post waits for Claim.
func (db *DB) Prepare(ctx context.Context, was Due, p duty.Post, next duty.Occurrence, rota duty.Rota) (bool, error) {
	p.Place, p.Kind, p.Day, p.Due = was.Place, duty.Digest, was.Day, was.At
	var ours bool
	err := db.write(ctx, "prepare reminder", func(ctx context.Context, tx *sql.Tx) error {
		var err error
		if ours, err = advance(ctx, tx, was, next); err != nil || !ours || p.Empty() {
			return err
		}
		id, isNew, err := insertPost(ctx, tx, p, waiting)
		if err != nil || !isNew {
			return err
		}
		for _, i := range p.Items {
			i.Post, i.Day = id, was.Day
			if err := insertItem(ctx, tx, was.Place, i); err != nil {
				return err
			}
		}
		if err := name(ctx, tx, was.Place, id); err != nil {
			return err
		}
		return giveTurn(ctx, tx, was.Place, rota)
	})
	return ours && err == nil, err
}

// Skip leaves out a reminder that is due, too late to be given: Missed lists it
// if its day had none, and the next one is stored. It returns false, and does
// nothing, when the reminder is no longer due as it was read.
func (db *DB) Skip(ctx context.Context, was Due, next duty.Occurrence) (bool, error) {
	var ours bool
	err := db.write(ctx, "skip reminder", func(ctx context.Context, tx *sql.Tx) error {
		var err error
		if ours, err = advance(ctx, tx, was, next); err != nil || !ours {
			return err
		}
		p := duty.Post{Place: was.Place, Kind: duty.Digest, Day: was.Day, Due: was.At}
		_, _, err = insertPost(ctx, tx, p, folded)
		return err
	})
	return ours && err == nil, err
}

// advance sets the next reminder of a plan, if all is still as it was read.
func advance(ctx context.Context, tx *sql.Tx, was Due, next duty.Occurrence) (bool, error) {
	const set = `UPDATE plans SET armed = seq, due_ms = $1, due_day = $2
		WHERE guild = $3 AND channel = $4 AND seq = $5 AND coalesce(due_ms, 0) = $6 AND due_day = $7`
	return changed(tx.ExecContext(ctx, set, nullable(next.At), next.Day.String(),
		was.Place.Guild, was.Place.Channel, was.Seq, milliseconds(was.At), was.Day.String()))
}

// giveTurn stores the rota of a plan after a turn was given.
func giveTurn(ctx context.Context, tx *sql.Tx, at heap.Place, rota duty.Rota) error {
	found, err := collect(ctx, tx, scanPlan, selectPlan, at.Guild, at.Channel)
	if err != nil {
		return err
	}
	found[0].Rota = rota
	data, err := json.Marshal(found[0])
	if err != nil {
		return err
	}
	_, err = tx.ExecContext(ctx, "UPDATE plans SET plan = $1 WHERE guild = $2 AND channel = $3", string(data), at.Guild, at.Channel)
	return err
}

// Missed lists the days whose reminder never came and that no reminder has
// named yet, the oldest first.
func (db *DB) Missed(ctx context.Context, at heap.Place) ([]duty.Date, error) {
	return read(ctx, db, "list missed reminders", scanDay,
		"SELECT day FROM posts WHERE guild = $1 AND channel = $2 AND state = 'folded' AND named IS NULL ORDER BY day", at.Guild, at.Channel)
}

func scanDay(scan func(...any) error) (duty.Date, error) {
	var day string
	if err := scan(&day); err != nil {
		return duty.Date{}, err
	}
	return duty.ParseDate(day)
}

// name keeps that a post names all that was missed.
func name(ctx context.Context, tx *sql.Tx, at heap.Place, post int64) error {
	const set = "UPDATE posts SET named = $1 WHERE guild = $2 AND channel = $3 AND state = 'folded' AND named IS NULL"
	_, err := tx.ExecContext(ctx, set, post, at.Guild, at.Channel)
	return err
}
