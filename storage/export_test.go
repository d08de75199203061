package storage

import (
	"context"
	"database/sql"
	"time"
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

// RestoreSteps is how many steps Restore has.
var RestoreSteps = len(new(restoration).steps())

// RestoreUntil is Restore by a program that stops, without another word, after
// so many steps. Its locks end with it.
func RestoreUntil(ctx context.Context, from, to string, now time.Time, steps int) error {
	r := &restoration{from: from, to: to, now: now}
	defer func() { _ = r.alone.Release() }()
	for _, step := range r.steps()[:steps] {
		if err := step(ctx); err != nil {
			return err
		}
	}
	return nil
}

// GuildTables are the tables that ForgetGuild clears.
var GuildTables = guildTables
