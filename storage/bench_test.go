package storage_test

import (
	"fmt"
	"path/filepath"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"heapside/calc/heap"
	"heapside/storage"
)

// BenchmarkAppend is one entry to a durable commit.
func BenchmarkAppend(b *testing.B) {
	db := fresh(b)
	h := started(b, db)
	for b.Loop() {
		_, err := db.Append(b.Context(), here, hot(h, 0))
		require.NoError(b, err)
	}
}

// BenchmarkEntries2000 reads a heap with a long log, among others'.
func BenchmarkEntries2000(b *testing.B) {
	db := fresh(b)
	var h heap.Heap
	for i := range 5 {
		var err error
		h, err = db.StartHeap(b.Context(), heap.Heap{Place: here, Name: fmt.Sprint("Bay ", i), Started: noon}, wren, noon)
		require.NoError(b, err)
		entries := make([]heap.Entry, 2000)
		for n := range entries {
			entries[n] = hot(h, time.Duration(n)*time.Hour)
		}
		_, err = db.Append(b.Context(), here, entries...)
		require.NoError(b, err)
	}
	for b.Loop() {
		entries, err := db.Entries(b.Context(), here, h.ID)
		require.NoError(b, err)
		require.Len(b, entries, 2001)
	}
}

// BenchmarkOpen opens, asks once and closes a file that is up to date.
func BenchmarkOpen(b *testing.B) {
	path := filepath.Join(b.TempDir(), "garden.db")
	db, err := storage.Open(b.Context(), path)
	require.NoError(b, err)
	started(b, db)
	require.NoError(b, db.Close())
	for b.Loop() {
		db, err := storage.Open(b.Context(), path)
		require.NoError(b, err)
		_, err = db.Heaps(b.Context(), here)
		require.NoError(b, err)
		require.NoError(b, db.Close())
	}
}

// BenchmarkCreate makes a new file with all its tables.
func BenchmarkCreate(b *testing.B) {
	dir := b.TempDir()
	i := 0
	for b.Loop() {
		i++
		db, err := storage.Open(b.Context(), filepath.Join(dir, fmt.Sprint(i, ".db")))
		require.NoError(b, err)
		require.NoError(b, db.Close())
	}
}
