package storage

import (
	"context"
	"database/sql"
	"encoding/json"
	"fmt"
	"time"

	"heapside/calc/audit"
	"heapside/calc/duty"
	"heapside/calc/fault"
	"heapside/calc/heap"
)

// maxPlan is how many bytes a plan may have when people change it (own choice):
// a full rota with a few absences each. The table holds some more, for what
// turns add to the rota.
const maxPlan = 48 << 10

// Plan returns how a place wants to be reminded; the zero Plan when nothing is
// stored.
func (db *DB) Plan(ctx context.Context, at heap.Place) (duty.Plan, error) {
	found, err := read(ctx, db, "read plan", scanPlan, selectPlan, at.Guild, at.Channel)
	if err != nil || len(found) == 0 {
		return duty.Plan{}, err
	}
	return found[0], nil
}

const selectPlan = "SELECT plan FROM plans WHERE guild = $1 AND channel = $2"

func scanPlan(scan func(...any) error) (duty.Plan, error) {
	var p duty.Plan
	var data []byte
	if err := scan(&data); err != nil {
		return p, err
	}
	if err := json.Unmarshal(data, &p); err != nil {
		return p, fmt.Errorf("plan: %w", err)
	}
	return p, nil
}

// ChangePlan reads the plan of a place, has it changed, checks it and stores
// it, in one transaction: changes at once follow one another and none is lost.
// An error of change, or of the check, stores nothing and is returned. change
// must not call the record. Acts tells what it changed. The reminder is worked out anew by Stale and Arm;
// when the program stops before, the next start does it.
func (db *DB) ChangePlan(ctx context.Context, at heap.Place, by heap.Person, now time.Time, change func(*duty.Plan) error) (duty.Plan, error) {
	var plan duty.Plan
	err := db.rule(ctx, at, by, now, audit.Reminders, "change plan", func(ctx context.Context, tx *sql.Tx) ([]audit.Change, error) {
		found, err := collect(ctx, tx, scanPlan, selectPlan, at.Guild, at.Channel)
		if err != nil {
			return nil, err
		}
		again, err := collect(ctx, tx, scanPlan, selectPlan, at.Guild, at.Channel) // change writes into what it is given
		if err != nil {
			return nil, err
		}
		plan = first(again)
		if err := change(&plan); err != nil {
			return nil, err
		}
		if err := plan.Check(); err != nil {
			return nil, err
		}
		data, err := json.Marshal(plan)
		if err != nil {
			return nil, err
		}
		if len(data) > maxPlan {
			return nil, fault.New(fault.TooLong, "That is more than one plan of reminders holds. Take out absences that are over, or people who left.")
		}
		const save = `INSERT INTO plans (guild, channel, plan, seq, armed, due_day, trouble) VALUES ($1, $2, $3, 0, 0, '', '')
			ON CONFLICT (guild, channel) DO UPDATE SET plan = excluded.plan`
		if _, err := tx.ExecContext(ctx, save, at.Guild, at.Channel, string(data)); err != nil {
			return nil, err
		}
		return audit.Plan(first(found), plan)
	})
	if err != nil {
		return duty.Plan{}, err
	}
	return plan, nil
}

// change is write for what the reminders of a place depend on.
func (db *DB) change(ctx context.Context, at heap.Place, doing string, f func(context.Context, *sql.Tx) error) error {
	return db.write(ctx, doing, func(ctx context.Context, tx *sql.Tx) error {
		if err := f(ctx, tx); err != nil {
			return err
		}
		return bump(ctx, tx, at)
	})
}

// bump makes the plan of a place stale, where there is one. Whoever can write
// in a channel shows that it is there.
func bump(ctx context.Context, tx *sql.Tx, at heap.Place) error {
	const set = `UPDATE plans SET seq = seq + 1, trouble = CASE WHEN trouble = 'gone' THEN '' ELSE trouble END,
		trouble_ms = CASE WHEN trouble = 'gone' THEN NULL ELSE trouble_ms END WHERE guild = $1 AND channel = $2`
	_, err := tx.ExecContext(ctx, set, at.Guild, at.Channel)
	return err
}

// outdate makes the plan of a place stale by what the reminders themselves did.
func outdate(ctx context.Context, tx *sql.Tx, at heap.Place) error {
	_, err := tx.ExecContext(ctx, "UPDATE plans SET seq = seq + 1 WHERE guild = $1 AND channel = $2", at.Guild, at.Channel)
	return err
}

// Standing tells how the reminders of a place stand; the zero Standing when it
// has no plan.
func (db *DB) Standing(ctx context.Context, at heap.Place) (duty.Standing, error) {
	found, err := read(ctx, db, "read state of reminders", scanStanding,
		"SELECT due_ms, due_day, trouble, trouble_ms FROM plans WHERE guild = $1 AND channel = $2", at.Guild, at.Channel)
	if err != nil || len(found) == 0 {
		return duty.Standing{}, err
	}
	s := found[0]
	s.Unsaid, err = db.unsaid(ctx, at)
	return s, err
}

func scanStanding(scan func(...any) error) (duty.Standing, error) {
	var s duty.Standing
	var due, since sql.NullInt64
	var day string
	if err := scan(&due, &day, &s.Trouble, &since); err != nil {
		return s, err
	}
	s.Since = instant(since.Int64)
	var err error
	s.Next, err = occurrence(due, day)
	return s, err
}

// unsaid looks at the newest reminder of a place that something called for. One
// that is on its way for the first time is none.
func (db *DB) unsaid(ctx context.Context, at heap.Place) (duty.Unsaid, error) {
	found, err := read(ctx, db, "read the newest reminder", scanUnsaid,
		"SELECT due_ms, state, attempt, next_ms FROM posts WHERE guild = $1 AND channel = $2 AND kind = $3 AND state <> $4 ORDER BY day DESC LIMIT 1",
		at.Guild, at.Channel, string(duty.Digest), dropped)
	if err != nil || len(found) == 0 {
		return duty.Unsaid{}, err
	}
	return found[0], nil
}

func scanUnsaid(scan func(...any) error) (duty.Unsaid, error) {
	var due, next int64
	var state string
	var attempt int
	if err := scan(&due, &state, &attempt, &next); err != nil {
		return duty.Unsaid{}, err
	}
	switch {
	case state == folded:
		return duty.Unsaid{Due: instant(due)}, nil
	case state == waiting && attempt > 0, state == leased && attempt > 1:
		return duty.Unsaid{Due: instant(due), Again: instant(next)}, nil
	}
	return duty.Unsaid{}, nil
}

// occurrence is one as it is stored.
func occurrence(due sql.NullInt64, day string) (duty.Occurrence, error) {
	d, err := duty.ParseDate(day)
	return duty.Occurrence{Day: d, At: instant(due.Int64)}, err
}

// nullable is a time as it is stored where none is NULL.
func nullable(t time.Time) sql.NullInt64 {
	return sql.NullInt64{Int64: milliseconds(t), Valid: !t.IsZero()}
}

// Trouble keeps why a place cannot be posted to, and with it, in one
// transaction, the notices that tell so elsewhere: only when it is news, which
// it returns. The same trouble again, or one of a place without a plan, changes
// nothing. A notice is left out where its place has one of that day.
func (db *DB) Trouble(ctx context.Context, at heap.Place, what duty.Trouble, now time.Time, notices ...duty.Post) (bool, error) {
	var news bool
	err := db.write(ctx, "keep trouble", func(ctx context.Context, tx *sql.Tx) error {
		const set = "UPDATE plans SET trouble = $1, trouble_ms = $2 WHERE guild = $3 AND channel = $4 AND trouble <> $1"
		since := sql.NullInt64{Int64: milliseconds(now), Valid: what != duty.NoTrouble}
		var err error
		if news, err = changed(tx.ExecContext(ctx, set, string(what), since, at.Guild, at.Channel)); err != nil || !news {
			return err
		}
		for _, p := range notices {
			p.Kind = duty.Notice
			if _, _, err := insertPost(ctx, tx, p, waiting); err != nil {
				return err
			}
		}
		return nil
	})
	return news && err == nil, err
}

// GuildGone keeps that all places of a guild are gone. What is stored stays.
func (db *DB) GuildGone(ctx context.Context, guild string, now time.Time) error {
	return db.write(ctx, "keep that a guild is gone", func(ctx context.Context, tx *sql.Tx) error {
		const set = "UPDATE plans SET trouble = 'gone', trouble_ms = $1 WHERE guild = $2 AND trouble <> 'gone'"
		_, err := tx.ExecContext(ctx, set, milliseconds(now), guild)
		return err
	})
}

// changed reports whether a statement found its row.
func changed(r sql.Result, err error) (bool, error) {
	if err != nil {
		return false, err
	}
	n, err := r.RowsAffected()
	return n > 0, err
}
