package storage

import (
	"context"
	"database/sql"
)

// Provider lets tests walk the migrations step by step.
var Provider = provider

// Sweeps are the queries over all places, by the index that must answer each.
var Sweeps = map[string]string{
	"plans_stale":    selectStale,
	"plans_due":      selectDue,
	"posts_waiting":  claimPosts,
	"posts_outdated": takeOutdated,
}

// Writer is the connection that writes.
func (db *DB) Writer() *sql.DB { return db.writer }

// Reader is the pool that reads.
func (db *DB) Reader() *sql.DB { return db.reader }

// Write runs one write transaction.
func (db *DB) Write(ctx context.Context, f func(context.Context, *sql.Tx) error) error {
	return db.write(ctx, "test", f)
}
