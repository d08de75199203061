package commands_test

import (
	"context"
	"fmt"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"heapside/commands"
)

// BenchmarkMix is the full answer over the whole table of materials.
func BenchmarkMix(b *testing.B) {
	a := assistant(b)
	call := commands.Call{Place: millrace, By: person("Wren"), Now: summer}
	b.ReportAllocs()
	for b.Loop() {
		r := a.Line(context.Background(), call, "mix 2 buckets of grass clippings and half a bucket of coffee grounds")
		require.Nil(b, r.Err)
	}
}

// BenchmarkLog is one logged reading to its durable answer, on a heap that
// has a season of entries; p50 is the median.
func BenchmarkLog(b *testing.B) {
	a := assistant(b)
	call := commands.Call{Place: millrace, By: person("Wren"), Now: summer}
	require.Nil(b, a.Line(context.Background(), call, "heap start Bay").Err)
	for i := range 200 {
		call.Now = summer.Add(time.Duration(i) * 12 * time.Hour)
		require.Nil(b, a.Line(context.Background(), call, fmt.Sprintf("log temp %d", 40+i%20)).Err)
	}
	for b.Loop() {
		require.Nil(b, a.Line(context.Background(), call, "log temp 58").Err)
	}
}
