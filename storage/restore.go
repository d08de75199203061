package storage

import (
	"context"
	"database/sql"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"time"
)

// Restored is what came of putting a backup back.
type Restored struct {
	Findings
	Aside string // where the record that was replaced is kept; empty: there was none
}

// Restore puts a backup in the place of the record. It refuses, changing
// nothing, while any process has the record open, and a backup that is damaged,
// not ours or of a newer program. The replaced record stays beside the new one.
// Whoever stops in the middle leaves the old record or the new one, whole, and
// can begin again.
func Restore(ctx context.Context, from, to string, now time.Time) (Restored, error) {
	abs, err := filepath.Abs(to)
	if err != nil {
		return Restored{}, fmt.Errorf("restore %q: %w", to, err)
	}
	r := &restoration{from: from, to: abs, now: now}
	defer r.end()
	for _, step := range r.steps() {
		if err := step(ctx); err != nil {
			return Restored{}, err
		}
	}
	return r.done, nil
}

// restoration is one backup on its way back.
type restoration struct {
	from, to string
	now      time.Time
	alone    *Hold
	part     string // the new record, before it has its name
	done     Restored
}

// steps come one after the other; after each of them the record is whole.
func (r *restoration) steps() []func(context.Context) error {
	return []func(context.Context) error{r.lock, r.check, r.write, r.fold, r.keep, r.unburden, r.replace}
}

func (r *restoration) lock(context.Context) (err error) {
	r.alone, err = alone(r.to)
	return err
}

func (r *restoration) check(ctx context.Context) (err error) {
	r.done.Findings, err = whole(ctx, r.from)
	return err
}

// write makes the new record from the backup, on the same disk as the old one.
func (r *restoration) write(ctx context.Context) (err error) {
	r.part, r.done.Findings, err = copied(ctx, r.from, r.to)
	return err
}

// fold brings what the old record wrote last into its file. One that is too
// damaged for that is kept as it is.
func (r *restoration) fold(ctx context.Context) error {
	if _, err := os.Stat(r.to); err != nil {
		return nil
	}
	db, err := sql.Open("sqlite3", writerDSN(r.to))
	if err != nil {
		return err
	}
	_, _ = db.ExecContext(ctx, "PRAGMA wal_checkpoint(TRUNCATE)")
	_ = db.Close()
	return nil
}

// keep gives the old record a second name beside it.
func (r *restoration) keep(context.Context) error {
	if _, err := os.Stat(r.to); errors.Is(err, fs.ErrNotExist) {
		return nil
	}
	stamp := r.to + ".replaced-" + r.now.UTC().Format("20060102T150405Z")
	for n := 1; ; n++ {
		aside := stamp
		if n > 1 {
			aside = fmt.Sprintf("%s-%d", stamp, n)
		}
		err := os.Link(r.to, aside)
		if errors.Is(err, fs.ErrExist) {
			continue
		}
		if err != nil {
			return unwritten(aside, err)
		}
		r.done.Aside = aside
		return syncDir(filepath.Dir(r.to))
	}
}

// unburden takes away what belongs to the old file alone: beside the new one,
// SQLite would take it for the new one's.
func (r *restoration) unburden(context.Context) error {
	for _, suffix := range []string{"-wal", "-shm", "-journal"} {
		var err error
		if r.done.Aside == "" {
			err = os.Remove(r.to + suffix)
		} else {
			err = os.Rename(r.to+suffix, r.done.Aside+suffix)
		}
		if err != nil && !errors.Is(err, fs.ErrNotExist) {
			return unwritten(r.to+suffix, err)
		}
	}
	return syncDir(filepath.Dir(r.to))
}

func (r *restoration) replace(context.Context) error {
	if err := os.Rename(r.part, r.to); err != nil {
		return unwritten(r.to, err)
	}
	return syncDir(filepath.Dir(r.to))
}

func (r *restoration) end() {
	if r.part != "" {
		_ = os.Remove(r.part) // gone already when all went well
	}
	_ = r.alone.Release()
}
