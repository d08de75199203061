package storetest

import (
	"fmt"
	"math"
	"strings"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"heapside/calc/fault"
	"heapside/calc/heap"
)

var heapTests = map[string]func(*bench){
	"started heap reads back with its start on the log": func(b *bench) {
		h := b.start(bays, "North Bay")
		assert.NotZero(b, h.ID)
		assert.Equal(b, h, b.only(bays))

		entries := b.entries(h)
		require.Len(b, entries, 1)
		assert.Equal(b, heap.Started{}, entries[0].Payload)
		assert.Equal(b, wren, entries[0].By)
		assert.Equal(b, noon, entries[0].At)
	},
	"heaps are listed oldest first with the finished ones": func(b *bench) {
		late := b.start(bays, "Late Bay")
		early, err := b.store.StartHeap(b.Context(), heap.Heap{Place: bays, Name: "Early Bay", Started: noon.Add(-time.Hour)}, wren, noon)
		require.NoError(b, err)
		early.Finished = noon.Add(time.Hour)
		_, err = b.store.ChangeHeap(b.Context(), early, entry(early, time.Hour, heap.Finished{YieldL: 120}))
		require.NoError(b, err)

		heaps, err := b.store.Heaps(b.Context(), bays)
		require.NoError(b, err)
		assert.Equal(b, []heap.Heap{early, late}, heaps)
	},
	"time zones and fractions read back as UTC milliseconds": func(b *bench) {
		east := time.FixedZone("east", 5*3600+1800)
		h, err := b.store.StartHeap(b.Context(), heap.Heap{Place: bays, Name: "North Bay", Started: noon.Add(123456 * time.Microsecond).In(east)}, wren, noon)
		require.NoError(b, err)
		assert.Equal(b, noon.Add(123*time.Millisecond), h.Started)
		assert.Equal(b, h, b.only(bays))
	},
	"a name in use is taken however it is written": func(b *bench) {
		b.start(bays, "Größe Bay")
		for _, name := range []string{"Größe Bay", "größe  bay", " GRÖßE BAY ", "Größe\u200e Bay"} {
			_, err := b.store.StartHeap(b.Context(), heap.Heap{Place: bays, Name: name}, wren, noon)
			b.refused(fault.Taken, err)
		}
		b.only(bays)
	},
	"the name of a finished heap is free": func(b *bench) {
		h := b.start(bays, "North Bay")
		h.Finished = noon.Add(time.Hour)
		_, err := b.store.ChangeHeap(b.Context(), h, entry(h, time.Hour, heap.Finished{}))
		require.NoError(b, err)
		b.start(bays, "north bay")
	},
	"renaming to a name in use stores nothing": func(b *bench) {
		b.start(bays, "North Bay")
		h := b.start(bays, "South Bay")
		renamed := h
		renamed.Name, renamed.SizeL = "NORTH BAY", 500
		_, err := b.store.ChangeHeap(b.Context(), renamed, entry(h, 0, heap.Changed{Field: "name"}))
		b.refused(fault.Taken, err)

		heaps, err := b.store.Heaps(b.Context(), bays)
		require.NoError(b, err)
		assert.Contains(b, heaps, h)
		assert.Len(b, b.entries(h), 1)
	},
	"a change is stored with what it was before": func(b *bench) {
		h := b.start(bays, "North Bay")
		h.SizeL = 1000
		e := b.change(h, "size", time.Hour)
		assert.Equal(b, heap.Changed{Field: "size", From: "800 l", To: "1000 l"}, e.Payload)
		assert.Equal(b, h, b.only(bays))
		assert.Equal(b, e, b.entries(h)[1])
	},
	"what no heap can be is refused": func(b *bench) {
		for code, bad := range map[fault.Code][]heap.Heap{
			fault.Missing:       {{}, {Name: " \t"}, {Name: "\u200f"}},
			fault.TooLong:       {{Name: strings.Repeat("x", 5000)}, {Name: "Bay", Cover: strings.Repeat("x", 5000)}},
			fault.NotUnderstood: {{Name: "Bay\xff"}, {Name: "\x00Bay"}, {Name: "Bay", Cover: "a\x00"}},
			fault.OutOfRange:    {{Name: "Bay", SizeL: -1}, {Name: "Bay", SizeL: math.NaN()}, {Name: "Bay", SizeL: math.Inf(1)}, {Name: "Bay", SizeL: 1e9}},
		} {
			for _, h := range bad {
				h.Place = bays
				_, err := b.store.StartHeap(b.Context(), h, wren, noon)
				b.refused(code, err)
			}
		}
		heaps, err := b.store.Heaps(b.Context(), bays)
		require.NoError(b, err)
		assert.Empty(b, heaps)
	},
	"a channel keeps no more than 200 heaps at once": func(b *bench) {
		for i := range 200 {
			b.start(bays, fmt.Sprint("Bay ", i))
		}
		_, err := b.store.StartHeap(b.Context(), heap.Heap{Place: bays, Name: "One more"}, wren, noon)
		b.refused(fault.TooLong, err)
		b.start(plots, "One more")
	},
	"names hold whatever people type": func(b *bench) {
		for _, name := range []string{"'; DROP TABLE heaps; --", "@everyone", "**bold**", "堆肥 🌱", "a\"b`c\\d"} {
			b.start(bays, name)
		}
		heaps, err := b.store.Heaps(b.Context(), bays)
		require.NoError(b, err)
		assert.Len(b, heaps, 5)
		assert.Equal(b, "'; DROP TABLE heaps; --", heaps[0].Name)
	},
}
