// Package storage keeps the record in one SQLite file: heaps, their entries,
// and each channel's settings, stock and materials.
//
// One connection writes, a few read. Every statement names the guild and the
// channel it is about, times are UTC milliseconds, and the SQL outside the
// migrations is what PostgreSQL reads too.
package storage

import (
	"context"
	"database/sql"
	"errors"
	"fmt"
	"sync/atomic"

	_ "github.com/mattn/go-sqlite3" // the engine behind "sqlite3"
)

// ErrClosed is returned by every method after Close.
var ErrClosed = errors.New("the record is closed")

// readers is how many questions are answered at once.
const readers = 4

// DB is the record. It is safe for concurrent use, also by several processes
// of one machine.
type DB struct {
	writer, reader *sql.DB
	use            *Hold
	closed         atomic.Bool
}

// Open opens the record in a file, creating it when there is none, and brings
// its tables up to date. What a person can mend (no such directory, another
// program's file, a file of a newer version) is a *fault.Error.
func Open(ctx context.Context, path string) (*DB, error) {
	abs, err := place(path)
	if err != nil {
		return nil, err
	}
	use, err := inUse(abs)
	if err != nil {
		return nil, err
	}
	db, err := open(ctx, abs, path)
	if err != nil {
		return nil, errors.Join(err, use.Release())
	}
	db.use = use
	return db, nil
}

func open(ctx context.Context, abs, path string) (*DB, error) {
	db := new(DB)
	var err error
	if db.writer, err = sql.Open("sqlite3", writerDSN(abs)); err != nil {
		return nil, fmt.Errorf("open record: %w", err)
	}
	db.writer.SetMaxOpenConns(1)
	if db.reader, err = sql.Open("sqlite3", readerDSN(abs)); err != nil {
		return nil, errors.Join(fmt.Errorf("open record: %w", err), db.writer.Close())
	}
	db.reader.SetMaxOpenConns(readers)
	db.reader.SetMaxIdleConns(readers)
	if err := prepare(ctx, db.writer, path); err != nil {
		return nil, errors.Join(explain(err, path), db.reader.Close(), db.writer.Close())
	}
	return db, nil
}

// Close waits for what is running and closes the file. Closing twice is fine.
func (db *DB) Close() error {
	if db.closed.Swap(true) {
		return nil
	}
	err := db.reader.Close()
	// Advice of SQLite's own manual: keeps the planner's figures fresh, and costs
	// nothing when they are.
	_, optimize := db.writer.Exec("PRAGMA optimize")
	return errors.Join(err, optimize, db.writer.Close(), db.use.Release())
}

// write runs one transaction. A context that ends while the write waits for
// its turn stores nothing; once it has begun, it runs to its end, because a
// statement cancelled midway would end the transaction behind our back.
func (db *DB) write(ctx context.Context, doing string, f func(context.Context, *sql.Tx) error) error {
	if db.closed.Load() {
		return fmt.Errorf("%s: %w", doing, ErrClosed)
	}
	conn, err := db.writer.Conn(ctx)
	if err != nil {
		return fmt.Errorf("%s: %w", doing, err)
	}
	defer conn.Close()
	if err := ctx.Err(); err != nil {
		return fmt.Errorf("%s: %w", doing, err)
	}
	if err := transact(context.WithoutCancel(ctx), conn, f); err != nil {
		return fmt.Errorf("%s: %w", doing, err)
	}
	return nil
}

func transact(ctx context.Context, conn *sql.Conn, f func(context.Context, *sql.Tx) error) error {
	tx, err := conn.BeginTx(ctx, nil)
	if err != nil {
		return err
	}
	defer tx.Rollback()
	if err := f(ctx, tx); err != nil {
		return err
	}
	return tx.Commit()
}

// querier is what a statement needs, be it the readers' pool or a transaction.
type querier interface {
	QueryContext(ctx context.Context, query string, args ...any) (*sql.Rows, error)
	QueryRowContext(ctx context.Context, query string, args ...any) *sql.Row
}

// collect reads all rows of a query through scan.
func collect[T any](ctx context.Context, q querier, scan func(func(...any) error) (T, error), query string, args ...any) ([]T, error) {
	rows, err := q.QueryContext(ctx, query, args...)
	if err != nil {
		return nil, err
	}
	defer rows.Close()
	var all []T
	for rows.Next() {
		one, err := scan(rows.Scan)
		if err != nil {
			return nil, err
		}
		all = append(all, one)
	}
	return all, rows.Err()
}

// read is collect from the readers' pool.
func read[T any](ctx context.Context, db *DB, doing string, scan func(func(...any) error) (T, error), query string, args ...any) ([]T, error) {
	if db.closed.Load() {
		return nil, fmt.Errorf("%s: %w", doing, ErrClosed)
	}
	all, err := collect(ctx, db.reader, scan, query, args...)
	if err != nil {
		return nil, fmt.Errorf("%s: %w", doing, err)
	}
	return all, nil
}

// first is the first of what was found, or the zero value.
func first[T any](found []T) (one T) {
	if len(found) > 0 {
		one = found[0]
	}
	return one
}
