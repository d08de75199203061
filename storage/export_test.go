package storage

import (
	"context"
	"database/sql"
)

// Provider lets tests walk the migrations step by step.
var Provider = provider

// Writer is the connection that writes.
func (db *DB) Writer() *sql.DB { return db.writer }

// Reader is the pool that reads.
func (db *DB) Reader() *sql.DB { return db.reader }

// Write runs one write transaction.
func (db *DB) Write(ctx context.Context, f func(context.Context, *sql.Tx) error) error {
	return db.write(ctx, "test", f)
}
