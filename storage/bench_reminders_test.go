package storage_test

import (
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"heapside/calc/duty"
	"heapside/storage"
)

// The crowd of the benchmarks: more than one machine is meant for.
const (
	crowdPlans = 20_000 // with 100,000 heaps
	crowdDue   = 200    // 1 %
	batch      = 100
)

// BenchmarkAppendReminded is BenchmarkAppend in a place with a plan.
func BenchmarkAppendReminded(b *testing.B) {
	db := fresh(b)
	h := started(b, db)
	planned(b, db, here)
	for b.Loop() {
		_, err := db.Append(b.Context(), here, hot(h, 0))
		require.NoError(b, err)
	}
}

// BenchmarkSweep is one look over all places, with nothing to do and with 1 %,
// of which it takes 100. Those that give out work are rolled back in between.
func BenchmarkSweep(b *testing.B) {
	before, now := evening(0).At.Add(-time.Second), evening(0).At
	for _, sweep := range []struct {
		name string
		call func(db *storage.DB, now time.Time) (int, error)
	}{
		{"Stale", func(db *storage.DB, _ time.Time) (int, error) {
			d, err := db.Stale(b.Context(), batch)
			return len(d), err
		}},
		{"Due", func(db *storage.DB, now time.Time) (int, error) {
			d, err := db.Due(b.Context(), now, batch)
			return len(d), err
		}},
		{"Claim", func(db *storage.DB, now time.Time) (int, error) {
			p, err := db.Claim(b.Context(), "one", now, 0, batch)
			return len(p), err
		}},
		{"Outdated", func(db *storage.DB, now time.Time) (int, error) {
			p, err := db.Outdated(b.Context(), now, 0, batch)
			return len(p), err
		}},
	} {
		for _, row := range []struct {
			name  string
			due   int
			now   time.Time
			found int
		}{{"nothing", 0, before, 0}, {"1%", crowdDue, now, batch}} {
			b.Run(sweep.name+"/"+row.name, func(b *testing.B) {
				db := fresh(b)
				crowd(b, db, crowdPlans, row.due)
				for b.Loop() {
					found, err := sweep.call(db, row.now)
					require.NoError(b, err)
					require.Equal(b, row.found, found)
				}
			})
		}
	}
}

// BenchmarkReminder is one post from due to sent, among the crowd: Prepare,
// Claim and Sent, each to a durable commit.
func BenchmarkReminder(b *testing.B) {
	db := fresh(b)
	crowd(b, db, crowdPlans, 0)
	h := started(b, db)
	planned(b, db, here)
	stale, err := db.Stale(b.Context(), batch)
	require.NoError(b, err)
	require.NoError(b, db.Arm(b.Context(), stale[0], evening(0)))
	was := storage.Due{Place: here, Occurrence: evening(0), Seq: stale[0].Seq}
	n := 0
	for b.Loop() {
		first, err := db.Prepare(b.Context(), was, digest(h), evening(n+1), duty.Rota{})
		require.NoError(b, err)
		require.True(b, first)
		posts, err := db.Claim(b.Context(), "one", was.At, time.Minute, batch)
		require.NoError(b, err)
		require.Len(b, posts, 1)
		require.NoError(b, db.Sent(b.Context(), posts[0], "message", was.At))
		n++
		was.Occurrence = evening(n)
	}
}
