package storage_test

import (
	"path/filepath"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"heapside/calc/duty"
	"heapside/calc/heap"
	"heapside/storage"
)

// TestInspectListsWhereSomethingGoesOn: places with unfinished heaps or with
// reminders, and no others, with what waits there and since when.
func TestInspectListsWhereSomethingGoesOn(t *testing.T) {
	path := filepath.Join(t.TempDir(), "garden.db")
	db, err := storage.Open(t.Context(), path)
	require.NoError(t, err)
	defer db.Close()
	ctx, six := t.Context(), time.Date(2026, 6, 10, 18, 0, 0, 0, time.UTC)
	at := func(channel string) heap.Place { return heap.Place{Guild: "millrace", Channel: channel} }
	start := func(channel string) heap.Heap {
		h, err := db.StartHeap(ctx, heap.Heap{Place: at(channel), Name: "North Bay"}, heap.Person{}, six)
		require.NoError(t, err)
		return h
	}
	plan := func(channel string, p duty.Plan) {
		_, err := db.ChangePlan(ctx, at(channel), heap.Person{}, six, func(was *duty.Plan) error { *was = p; return nil })
		require.NoError(t, err)
	}
	start("a heap")
	done := start("a finished heap")
	done.Finished = six
	_, err = db.ChangeHeap(ctx, done)
	require.NoError(t, err)
	plan("reminders that are off", duty.Plan{})
	plan("reminders", duty.Usual())
	lat, lon := 51.5, -1.25
	require.NoError(t, db.SaveGarden(ctx, heap.Garden{Place: at("reminders"), Zone: "Europe/London", Located: true, Lat: lat, Lon: lon}, heap.Person{}, six))
	found, err := storage.Inspect(ctx, path)
	require.NoError(t, err)
	require.Len(t, found.Watched, 2)
	assert.Equal(t, storage.Watched{Place: at("a heap"), Heaps: 1}, found.Watched[0])
	assert.Equal(t, storage.Watched{Place: at("reminders"), Plan: duty.Usual(), Zone: "Europe/London", Lat: &lat, Lon: &lon}, found.Watched[1])
	assert.Zero(t, found.Sent)

	stale, err := db.Stale(ctx, 10)
	require.NoError(t, err)
	for _, s := range stale {
		require.NoError(t, db.Arm(ctx, s, duty.Occurrence{Day: duty.On(six), At: six}))
	}
	due, err := db.Due(ctx, six, 10)
	require.NoError(t, err)
	for _, d := range due {
		_, err := db.Prepare(ctx, d, duty.Post{Week: []string{"Nothing happened."}}, duty.Occurrence{Day: d.Day.Add(1), At: d.At.Add(24 * time.Hour)}, duty.Rota{})
		require.NoError(t, err)
	}
	_, err = db.Trouble(ctx, at("reminders"), duty.Refused, six)
	require.NoError(t, err)
	found, err = storage.Inspect(ctx, path)
	require.NoError(t, err)
	assert.Equal(t, six, found.Watched[1].Waits)
	assert.Equal(t, duty.Standing{Next: duty.Occurrence{Day: duty.On(six).Add(1), At: six.Add(24 * time.Hour)}, Trouble: duty.Refused, Since: six}, found.Watched[1].Standing)

	posts, err := db.Claim(ctx, "test", six, time.Minute, 10)
	require.NoError(t, err)
	for _, p := range posts {
		require.NoError(t, db.Sent(ctx, p, "m", six.Add(time.Second)))
	}
	found, err = storage.Inspect(ctx, path)
	require.NoError(t, err)
	assert.Zero(t, found.Watched[1].Waits)
	assert.Equal(t, six.Add(time.Second), found.Sent)
}

func TestServerIsSeenWhileItServes(t *testing.T) {
	path := filepath.Join(t.TempDir(), "garden.db")
	assert.Empty(t, storage.Server(path))
	assert.NoFileExists(t, path+".serving", "looking makes no file")
	h, err := storage.Serve(path)
	require.NoError(t, err)
	assert.NotEmpty(t, storage.Server(path))
	require.NoError(t, h.Release())
	assert.Empty(t, storage.Server(path))
}
