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

	"heapside/calc/fault"
)

// Findings is what a look at the file of a record found.
type Findings struct {
	Version, Newest int64 // of its tables, and the newest that this program knows
	Heaps, Entries  int
	Bytes           int64    // of the file, without what is not yet folded into it
	Damage          string   // what SQLite found wrong with it; empty: nothing
	Zones           []string // of its gardens, those that are set

	Watched []Watched // the places where something goes on
	Sent    time.Time // when the newest reminder went out; zero when none did
}

// Inspect looks at a record without changing it, whoever has it open besides:
// whether it is ours, of a version this program knows, and whole. The first two
// it refuses with a *fault.Error; damage is a finding.
func Inspect(ctx context.Context, path string) (Findings, error) {
	var f Findings
	err := look(ctx, path, func(db *sql.DB) error {
		var err error
		if f, err = inspect(ctx, db, path); err != nil {
			return err
		}
		info, err := os.Stat(path)
		if err == nil {
			f.Bytes = info.Size()
		}
		return err
	})
	return f, err
}

// look opens the file of a record for reading only. It never makes one.
func look(ctx context.Context, path string, f func(*sql.DB) error) error {
	abs, err := filepath.Abs(path)
	if err != nil {
		return fmt.Errorf("open record %q: %w", path, err)
	}
	switch info, err := os.Stat(abs); {
	case errors.Is(err, fs.ErrNotExist):
		return fault.New(fault.Unknown, "There is no file “%s”.", path)
	case err != nil:
		return unopened(path, err)
	case !info.Mode().IsRegular():
		return fault.New(fault.NotUnderstood, "“%s” is no plain file. Name the file that keeps a record.", path)
	case info.Size() == 0:
		return fault.New(fault.NotUnderstood, "“%s” is empty. Name the file that keeps a record.", path)
	}
	db, err := sql.Open("sqlite3", readerDSN(abs))
	if err != nil {
		return fmt.Errorf("open record %q: %w", path, err)
	}
	db.SetMaxOpenConns(1)
	err = f(db)
	return errors.Join(explain(err, path), db.Close())
}

func inspect(ctx context.Context, db *sql.DB, path string) (Findings, error) {
	var f Findings
	var err error
	if f.Version, f.Newest, err = known(ctx, db, path); err != nil {
		return f, err
	}
	if f.Damage, err = damage(ctx, db); err != nil {
		return f, err
	}
	const count = "SELECT (SELECT count(*) FROM heaps), (SELECT count(*) FROM entries)"
	if err := db.QueryRowContext(ctx, count).Scan(&f.Heaps, &f.Entries); err != nil && f.Damage == "" {
		return f, err
	}
	const gardens = 2 // the version that first has them
	if f.Version < gardens || f.Damage != "" {
		return f, nil
	}
	f.Zones, err = collect(ctx, db, func(scan func(...any) error) (zone string, err error) {
		err = scan(&zone)
		return zone, err
	}, "SELECT DISTINCT zone FROM gardens WHERE zone <> '' ORDER BY zone")
	const reminders = 4 // the version that first has them
	if err != nil || f.Version < reminders {
		return f, err
	}
	if f.Watched, err = watched(ctx, db); err != nil {
		return f, err
	}
	f.Sent, err = lastSent(ctx, db)
	return f, err
}

// known is the version of a record's tables and the newest there is. It refuses
// what is no record of ours, and one of a newer program.
func known(ctx context.Context, db *sql.DB, path string) (have, newest int64, err error) {
	if newest, err = newestVersion(); err != nil {
		return 0, 0, err
	}
	have, err = version(ctx, db, path)
	switch {
	case err != nil:
	case have == 0:
		err = fault.New(fault.NotUnderstood, "“%s” is not a record of this program.", path)
	case have > newest:
		err = newer(path, have, newest)
	}
	return have, newest, err
}

// damage is the first thing that SQLite finds wrong with a file: its pages and
// indexes, or a row that names one that is not there.
func damage(ctx context.Context, db *sql.DB) (string, error) {
	var verdict string
	if err := db.QueryRowContext(ctx, "PRAGMA integrity_check(1)").Scan(&verdict); err != nil {
		return "", err
	}
	if verdict != "ok" {
		return verdict, nil
	}
	rows, err := db.QueryContext(ctx, "PRAGMA foreign_key_check")
	if err != nil {
		return "", err
	}
	defer rows.Close()
	if rows.Next() {
		return "a row names another that is not there", rows.Err()
	}
	return "", rows.Err()
}

// whole is inspect that refuses damage too.
func whole(ctx context.Context, path string) (Findings, error) {
	f, err := Inspect(ctx, path)
	if err == nil && f.Damage != "" {
		err = fault.New(fault.NotUnderstood, "“%s” is damaged (%s). Nothing was changed.", path, f.Damage)
	}
	return f, err
}

func newer(path string, have, newest int64) error {
	return fault.New(fault.NotUnderstood, "The record “%s” was written by a newer version of this program (its tables are of version %d, this program knows %d). Use the newer program.", path, have, newest)
}
