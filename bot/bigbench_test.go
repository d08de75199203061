package main

import (
	"fmt"
	"log/slog"
	"path/filepath"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"heapside/bot/terminal"
	"heapside/calc/feedstock"
	"heapside/calc/heap"
	"heapside/commands"
	"heapside/storage"
)

var crowded = heap.Place{Guild: localGuild, Channel: localChannel}

// BenchmarkCompleteCrowded is a keystroke of a heap's or a material's name in a
// channel with 200 heaps, which is as many as may be kept, 300 finished ones and
// 200 materials of its own.
func BenchmarkCompleteCrowded(b *testing.B) {
	db, err := storage.Open(b.Context(), filepath.Join(b.TempDir(), "garden.db"))
	require.NoError(b, err)
	b.Cleanup(func() { require.NoError(b, db.Close()) })
	now, wren := time.Date(2026, 6, 14, 12, 0, 0, 0, time.UTC), terminal.Person("Wren")
	for i := range 500 {
		h, err := db.StartHeap(b.Context(), heap.Heap{Place: crowded, Name: fmt.Sprint("Bay ", i), Container: heap.OpenHeap, Aim: heap.Steady, Started: now}, wren, now)
		require.NoError(b, err)
		if h.Finished = now; i < 300 {
			_, err = db.ChangeHeap(b.Context(), h, heap.Entry{Heap: h.ID, At: now, Logged: now, By: wren, Payload: heap.Finished{}})
			require.NoError(b, err)
		}
	}
	for i := range 200 {
		name := fmt.Sprintf("mill %c%c dust", 'a'+i/26, 'a'+i%26)
		f, err := feedstock.FromLab(name, feedstock.Lab{CN: 45})
		require.NoError(b, err)
		require.NoError(b, db.SaveMaterial(b.Context(), crowded, f, wren, now))
	}
	a := commands.New(db, slog.New(slog.DiscardHandler))
	typed := []struct{ path, option, text string }{{"log temp", "heap", "bay 49"}, {"mix", "what", "2 buckets of mill c"}, {"stock set", "what", "gra"}}
	took := make([]time.Duration, 0, b.N)
	for i := 0; b.Loop(); i++ {
		k := typed[i%len(typed)]
		began := time.Now()
		found := a.Complete(b.Context(), commands.Call{Place: crowded, By: wren, Now: now, Path: k.path}, k.option, k.text)
		took = append(took, time.Since(began))
		require.NotEmpty(b, found, k.text)
	}
	reportQuantile(b, took, 0.5, "p50-ms")
	reportQuantile(b, took, 0.99, "p99-ms")
}

// BenchmarkFirstAnswer is from opening a record of 100,000 entries, over a
// hundred channels, to the first answer.
func BenchmarkFirstAnswer(b *testing.B) {
	path := filepath.Join(b.TempDir(), "garden.db")
	db, err := storage.Open(b.Context(), path)
	require.NoError(b, err)
	now, wren := time.Date(2026, 6, 14, 12, 0, 0, 0, time.UTC), terminal.Person("Wren")
	for g := range 100 {
		at := heap.Place{Guild: localGuild, Channel: fmt.Sprint(g)}
		h, err := db.StartHeap(b.Context(), heap.Heap{Place: at, Name: "North Bay", Container: heap.OpenHeap, Aim: heap.Steady, Started: now}, wren, now)
		require.NoError(b, err)
		entries := make([]heap.Entry, 0, 1000)
		for i := range 1000 {
			when := now.Add(time.Duration(i) * time.Hour)
			entries = append(entries, heap.Entry{Heap: h.ID, At: when, Logged: when, By: wren, Payload: heap.Temp{C: float64(40 + i%20), DepthCm: 40}})
		}
		for len(entries) > 0 {
			_, err = db.Append(b.Context(), at, entries[:50]...)
			require.NoError(b, err)
			entries = entries[50:]
		}
	}
	require.NoError(b, db.Close())
	for b.Loop() {
		db, err := storage.Open(b.Context(), path)
		require.NoError(b, err)
		a := commands.New(db, slog.New(slog.DiscardHandler))
		r := a.Line(b.Context(), commands.Call{Place: heap.Place{Guild: localGuild, Channel: "7"}, By: wren, Now: now.Add(1000 * time.Hour)}, "heap list")
		require.Nil(b, r.Err)
		require.NoError(b, db.Close())
	}
}
