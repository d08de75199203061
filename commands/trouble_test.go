package commands_test

import (
	"context"
	"log/slog"
	"path/filepath"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"heapside/calc/heap"
	"heapside/commands"
	"heapside/storage"
)

// longRecord is an assistant over a heap called Long Bay with 2,000 entries of a
// year, the model brought up to date, and a call at its end.
func longRecord(b *testing.B) (*commands.Assistant, commands.Call) {
	b.Helper()
	db, err := storage.Open(b.Context(), filepath.Join(b.TempDir(), "record.db"))
	require.NoError(b, err)
	b.Cleanup(func() { require.NoError(b, db.Close()) })
	a := commands.New(db, slog.New(slog.DiscardHandler))
	call := commands.Call{Place: millrace, By: person("Wren"), Now: summer}
	require.Nil(b, a.Line(b.Context(), call, `heap start Long Bay container:"pallet bay" size:"1 m3"`).Err)
	require.Nil(b, a.Line(b.Context(), call, "log add 5 barrows of grass clippings, 6 barrows of dry leaves").Err)
	heaps, err := db.Heaps(b.Context(), millrace)
	require.NoError(b, err)
	var entries []heap.Entry
	for i := range 2000 {
		at := summer.Add(time.Duration(i) * 4 * time.Hour)
		var p heap.Payload = heap.Temp{C: 30 + float64(i%30), DepthCm: 40, Said: "read"}
		if i%40 == 0 {
			p = heap.Turned{}
		}
		entries = append(entries, heap.Entry{Heap: heaps[0].ID, At: at, Logged: at, By: person("Wren"), Payload: p})
		call.Now = at
	}
	_, err = db.Append(b.Context(), millrace, entries...)
	require.NoError(b, err)
	require.Nil(b, a.Line(b.Context(), call, "trouble cold").Err)
	return a, call
}

// BenchmarkTrouble is the whole answer on a heap of 2,000 entries whose model is
// up to date.
func BenchmarkTrouble(b *testing.B) {
	a, call := longRecord(b)
	b.ReportAllocs()
	for b.Loop() {
		require.Nil(b, a.Line(context.Background(), call, "trouble smells of ammonia").Err)
	}
}

// BenchmarkReady is the whole answer on such a heap, asked again in the same hour
// when nothing was logged.
func BenchmarkReady(b *testing.B) {
	a, call := longRecord(b)
	require.Nil(b, a.Line(b.Context(), call, "ready").Err)
	b.ReportAllocs()
	for b.Loop() {
		require.Nil(b, a.Line(context.Background(), call, "ready").Err)
	}
}
