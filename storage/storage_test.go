package storage_test

import (
	"path/filepath"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"heapside/calc/heap"
	"heapside/storage"
)

var (
	noon = time.Date(2026, 5, 2, 12, 0, 0, 0, time.UTC)
	here = heap.Place{Guild: "millrace-lane", Channel: "heaps"}
	wren = heap.Person{ID: "7", Name: "Wren"}
)

func open(t testing.TB, path string) *storage.DB {
	t.Helper()
	db, err := storage.Open(t.Context(), path)
	require.NoError(t, err)
	t.Cleanup(func() { require.NoError(t, db.Close()) })
	return db
}

func fresh(t testing.TB) *storage.DB {
	t.Helper()
	return open(t, filepath.Join(t.TempDir(), "garden.db"))
}

func started(t testing.TB, db *storage.DB) heap.Heap {
	t.Helper()
	h, err := db.StartHeap(t.Context(), heap.Heap{Place: here, Name: "North Bay", Container: heap.PalletBay, SizeL: 800, Started: noon}, wren, noon)
	require.NoError(t, err)
	return h
}

func hot(h heap.Heap, after time.Duration) heap.Entry {
	at := noon.Add(after)
	return heap.Entry{Heap: h.ID, At: at, Logged: at, By: wren, Payload: heap.Temp{C: 58, DepthCm: 40, Said: "58"}}
}

func TestTheRecordIsThereAfterOpeningAgain(t *testing.T) {
	path := filepath.Join(t.TempDir(), "garden.db")
	first, err := storage.Open(t.Context(), path)
	require.NoError(t, err)
	h := started(t, first)
	stored, err := first.Append(t.Context(), here, hot(h, time.Hour))
	require.NoError(t, err)
	require.NoError(t, first.Close())

	again := open(t, path)
	entries, err := again.Entries(t.Context(), here, h.ID)
	require.NoError(t, err)
	require.Len(t, entries, 2)
	require.Equal(t, stored[0], entries[1])
}
