package storage_test

import (
	"context"
	"fmt"
	"math/rand/v2"
	"os"
	"path/filepath"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"heapside/calc/duty"
	"heapside/calc/heap"
	"heapside/storage"
)

// remindForever gives one reminder a day from the first evening on, as fast as
// it can. It prints the day of each message just before it keeps it as sent:
// that line stands for the message that people see.
func remindForever(db *storage.DB) error {
	heaps, err := db.Heaps(context.Background(), here)
	if err != nil {
		return err
	}
	owner := fmt.Sprint("process ", os.Getpid())
	for {
		if err := remind(context.Background(), db, heaps[0], owner); err != nil {
			return err
		}
	}
}

// remind arms what is stale, prepares the next evening's post and sends what is
// there to send, by a clock on which every lease of before has ended.
func remind(ctx context.Context, db *storage.DB, h heap.Heap, owner string) error {
	stale, err := db.Stale(ctx, 1)
	if err != nil {
		return err
	}
	for _, d := range stale {
		next := d.Occurrence
		if next.IsZero() {
			next = evening(0)
		}
		if err := db.Arm(ctx, d, next); err != nil {
			return err
		}
	}
	end := evening(100_000).At
	due, err := db.Due(ctx, end, 1)
	if err != nil {
		return err
	}
	for _, d := range due {
		next := duty.Occurrence{Day: d.Day.Add(1), At: d.At.Add(24 * time.Hour)}
		if _, err := db.Prepare(ctx, d, digest(h), next, duty.Rota{}); err != nil {
			return err
		}
	}
	posts, err := db.Claim(ctx, owner, end, 0, 10)
	if err != nil {
		return err
	}
	for _, p := range posts {
		fmt.Println(p.Day)
		if err := db.Sent(ctx, p, "message", end); err != nil {
			return err
		}
		// Makes the plan stale, as people do.
		if _, _, err := db.Settle(ctx, here, p.Items[0].ID, duty.Item{State: duty.Done, By: wren, At: end}, hot(h, 0)); err != nil {
			return err
		}
	}
	return nil
}

func TestNoReminderIsLostWhenTheProgramIsKilled(t *testing.T) {
	const rounds = 15
	path := filepath.Join(t.TempDir(), "garden.db")
	db, err := storage.Open(t.Context(), path)
	require.NoError(t, err)
	started(t, db)
	planned(t, db, here)
	require.NoError(t, db.Close())

	random := rand.New(rand.NewPCG(3, 4))
	said := map[string]int{}
	days := 0
	for range rounds {
		again := 0
		for _, day := range killed(t, path, "remind", 1+random.IntN(20)) {
			if said[day]++; said[day] > 1 {
				again++
			}
		}
		assert.LessOrEqual(t, again, 1, "only the message under way at the kill is posted again")
		for said[evening(days).Day.String()] > 0 {
			days++
		}
		assert.Len(t, said, days, "each day in its turn, none left out")
	}
	t.Logf("%d reminders over %d kills", days, rounds)

	db = open(t, path)
	items, err := db.Items(t.Context(), here, duty.Date{})
	require.NoError(t, err)
	assert.InDelta(t, days, len(items), 1, "one post a day, perhaps one more that nobody saw yet")
	var undone int
	for _, i := range items {
		if i.State == duty.Open {
			undone++
		}
	}
	assert.LessOrEqual(t, undone, rounds+1)
	missed, err := db.Missed(t.Context(), here)
	require.NoError(t, err)
	assert.Empty(t, missed)
}
