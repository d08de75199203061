package commands_test

import (
	"context"
	"fmt"
	"io"
	"log/slog"
	"path/filepath"
	"regexp"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"heapside/calc/heap"
	"heapside/commands"
	"heapside/storage"
)

func TestSpreadValuesAreThePrintedNumbers(t *testing.T) {
	a := assistant(t)
	call := commands.Call{Place: millrace, By: person("Wren"), Now: summer}
	for _, tt := range []struct {
		line string
		want map[string]commands.Value
	}{
		// 1 m² at 1 cm is 10 litres; buckets of 12, barrows of 85 and bags of 40 litres.
		{"spread 3 m2 5 cm", map[string]commands.Value{"need": {150.0, "l"}, "need.buckets": {13.0, "1"}, "need.barrows": {2.0, "1"}, "need.bags": {4.0, "1"}, "area": {3.0, "m2"}, "depth": {5.0, "cm"}}},
		{"spread beds:4 area:\"1.2 x 3 m\" depth:3cm", map[string]commands.Value{"need": {432.0, "l"}, "area": {14.4, "m2"}}},
		{"spread 40 litres depth:2cm", map[string]commands.Value{"have": {40.0, "l"}, "covers": {2.0, "m2"}, "covers.beds": {0.67, "1"}}},
		{"spread 40 litres on 2 m2", map[string]commands.Value{"have": {40.0, "l"}, "depth": {2.0, "cm"}}},
		// 10 to 15 lb on 1,000 square feet (Oregon State University Extension).
		{"spread ash 1000 sq ft", map[string]commands.Value{"ash.most.low": {4.54, "kg"}, "ash.most.high": {6.8, "kg"}, "area": {92.9, "m2"}}},
	} {
		t.Run(tt.line, func(t *testing.T) {
			r := a.Line(context.Background(), call, tt.line)
			require.Nil(t, r.Err, r.Headline)
			for name, want := range tt.want {
				assert.Equal(t, want, r.Values[name], name)
			}
			assert.NotEmpty(t, r.Basis)
		})
	}
}

// TestSpreadNeverPromises holds that no answer calls compost safe, whatever it is for.
func TestSpreadNeverPromises(t *testing.T) {
	a := assistant(t)
	call := commands.Call{Place: millrace, By: person("Wren"), Now: summer}
	require.Nil(t, a.Line(context.Background(), call, "heap start North Bay").Err)
	require.Nil(t, a.Line(context.Background(), call, "log add 3 barrows of grass clippings, 6 barrows of dry leaves and 1 barrow of horse manure").Err)
	promise := regexp.MustCompile(`(?i)\bsafe`)
	for _, crop := range []string{"beds", "vegetables", "seedlings", "lawn", "acid lovers", "trees"} {
		for _, what := range []string{"3 m2", "2 barrows", "ash 3 m2", "lime 3 m2", "3 m2 heap:\"North Bay\"", "heap:\"North Bay\"", ""} {
			r := a.Line(context.Background(), call, fmt.Sprintf("spread %s crop:%q", what, crop))
			require.Nil(t, r.Err, "%s on %s: %s", what, crop, r.Headline)
			assert.NotRegexp(t, promise, show(r))
			assert.LessOrEqual(t, len(r.Cautions), 2)
		}
	}
}

func TestSpreadAsksTheModelThatHasLearned(t *testing.T) {
	a := assistant(t)
	call := commands.Call{Place: millrace, By: person("Wren"), Now: summer}
	say := func(line string) commands.Reply {
		r := a.Line(context.Background(), call, line)
		require.Nil(t, r.Err, r.Headline)
		return r
	}
	say("heap start North Bay container:\"pallet bay\" size:\"1 m3\"")
	say("log add 3 barrows of grass clippings and 6 barrows of dry leaves")
	assert.NotContains(t, say("spread heap:\"North Bay\"").Values, "yield.ready", "nothing has learned yet")
	for range 12 {
		call.Now = call.Now.Add(24 * time.Hour)
		say("log temp 55")
	}
	say("ready")
	v := say("spread heap:\"North Bay\"").Values
	low, mid, high := v["yield.ready.low"].Value.(float64), v["yield.ready"].Value.(float64), v["yield.ready.high"].Value.(float64)
	assert.True(t, 0 < low && low < mid && mid < high && high <= v["yield.now"].Value.(float64), "%v %v %v", low, mid, high)
}

// BenchmarkSpread is what a heap of 2,000 entries gives, its model having learned before.
func BenchmarkSpread(b *testing.B) {
	ctx := context.Background()
	db, err := storage.Open(ctx, filepath.Join(b.TempDir(), "record.db"))
	require.NoError(b, err)
	defer db.Close()
	a := commands.New(db, slog.New(slog.NewTextHandler(io.Discard, nil)))
	call := commands.Call{Place: millrace, By: person("Wren"), Now: summer}
	say := func(line string) {
		require.Nil(b, a.Line(ctx, call, line).Err, line)
	}
	say("heap start North Bay container:\"pallet bay\" size:\"1 m3\"")
	say("log add 3 barrows of grass clippings, 6 barrows of dry leaves and 1 barrow of horse manure")
	heaps, err := db.Heaps(ctx, millrace)
	require.NoError(b, err)
	entries := make([]heap.Entry, 2000)
	for i := range entries {
		at := summer.Add(time.Duration(i) * 2 * time.Hour)
		entries[i] = heap.Entry{Heap: heaps[0].ID, At: at, Logged: at, By: call.By, Payload: heap.Temp{C: 60 - float64(i)/60}}
	}
	_, err = db.Append(ctx, millrace, entries...)
	require.NoError(b, err)
	call.Now = entries[len(entries)-1].At
	say("ready")
	b.ReportAllocs()
	for b.Loop() {
		say("spread heap:\"North Bay\"")
	}
}
