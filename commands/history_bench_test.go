package commands_test

import (
	"context"
	"fmt"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"heapside/calc/heap"
	"heapside/commands"
)

// BenchmarkHistory is the history of a channel with 2,000 entries and 500
// changes of its settings.
func BenchmarkHistory(b *testing.B) {
	db := record(b)
	a := assistantOver(db)
	call := commands.Call{Place: millrace, By: person("Wren"), Now: summer}
	for _, name := range []string{"North Bay", "Old Bay"} { // of two heaps none is drawn
		require.Nil(b, a.Line(context.Background(), call, "heap start "+name).Err)
	}
	entries := make([]heap.Entry, 100)
	for n := range 20 {
		for i := range entries {
			when := summer.Add(time.Duration(100*n+i) * time.Hour)
			entries[i] = heap.Entry{Heap: 1, At: when, Logged: when, By: call.By, Payload: heap.Temp{C: float64(40 + i%20), DepthCm: 40}}
		}
		_, err := db.Append(b.Context(), millrace, entries...)
		require.NoError(b, err)
	}
	for i := range 500 {
		call.Now = summer.Add(time.Duration(4*i) * time.Hour)
		require.Nil(b, a.Line(context.Background(), call, fmt.Sprintf("garden measure our bucket holds %d l", 10+i%5)).Err)
	}
	for _, line := range []string{"history", "history csv:yes"} {
		b.Run(line, func(b *testing.B) {
			for b.Loop() {
				require.Nil(b, a.Line(context.Background(), call, line).Err)
			}
		})
	}
}
