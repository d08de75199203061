package storetest

import (
	"math"
	"strings"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"heapside/calc/fault"
	"heapside/calc/heap"
)

// payloads holds one of each kind that Append takes.
var payloads = []heap.Payload{
	heap.Added{Material: "grass", Name: "grass clippings", Said: "2 buckets", VolumeL: 24, MassKg: 5.2, AgeDays: 3},
	heap.Temp{C: 58.5, DepthCm: 40, Spot: "middle", Said: "58.5"},
	heap.Feel{Squeeze: heap.Drops},
	heap.Smell{Smell: "ammonia"},
	heap.Turned{Note: "to the next bay"},
	heap.Watered{Litres: 20, Said: "two cans"},
	heap.Covered{On: true, With: "tarp"},
	heap.Height{Cm: 80, Said: "80 cm"},
	heap.Rain{Mm: 12, Said: "12 mm"},
	heap.Test{Test: "jar", Result: "earthy", Passed: true},
	heap.Note{Text: "\"quoted\" 🌱 <b> \u200f"},
	heap.Moved{Other: 3, OtherName: "South Bay", Share: 0.5},
}

var entryTests = map[string]func(*bench){
	"every kind reads back as it was stored": func(b *bench) {
		h := b.start(bays, "North Bay")
		var said []heap.Entry
		for i, p := range payloads {
			said = append(said, entry(h, time.Duration(i+1)*time.Minute, p))
		}
		stored := b.append(bays, said...)
		read := b.entries(h)[1:]
		assert.Equal(b, stored, read)
		for i, e := range read {
			assert.Equal(b, payloads[i], e.Payload)
			said[i].ID, said[i].Leader = e.ID, read[0].ID
			assert.Equal(b, said[i], e)
		}
	},
	"entries stored in one go share a leader, others lead themselves": func(b *bench) {
		h := b.start(bays, "North Bay")
		pair := b.append(bays, temp(h, time.Hour, 40), temp(h, time.Hour, 41))
		alone := b.append(bays, temp(h, time.Hour, 42))
		read := b.entries(h)
		assert.Equal(b, []heap.EntryID{read[0].ID, pair[0].ID, pair[0].ID, alone[0].ID},
			[]heap.EntryID{read[0].Leader, read[1].Leader, read[2].Leader, read[3].Leader})
	},
	"entries are listed by when it happened, then as logged": func(b *bench) {
		h := b.start(bays, "North Bay")
		b.append(bays, temp(h, 2*time.Hour, 50), temp(h, time.Hour, 40), temp(h, time.Hour, 41))
		var c []float64
		for _, e := range b.entries(h)[1:] {
			c = append(c, e.Payload.(heap.Temp).C)
		}
		assert.Equal(b, []float64{40, 41, 50}, c)
	},
	"latest runs over all heaps in order of logging, newest first": func(b *bench) {
		north, south := b.start(bays, "North Bay"), b.start(bays, "South Bay")
		first := b.append(bays, temp(north, 9*time.Hour, 50))
		second := b.append(bays, temp(south, time.Hour, 40))
		latest, err := b.store.Latest(b.Context(), bays, 2)
		require.NoError(b, err)
		assert.Equal(b, []heap.Entry{second[0], first[0]}, latest)
		for limit, want := range map[int]int{0: 0, -1: 0, 3: 3, 100: 4} {
			latest, err = b.store.Latest(b.Context(), bays, limit)
			require.NoError(b, err)
			assert.Len(b, latest, want)
		}
	},
	"times before 1970 are kept": func(b *bench) {
		h := b.start(bays, "North Bay")
		old := temp(h, 0, 50)
		old.At = time.Date(1969, 12, 31, 23, 59, 59, 0, time.UTC)
		stored := b.append(bays, old)
		assert.Equal(b, stored[0], b.entries(h)[0])
		assert.Equal(b, old.At, stored[0].At)
	},
	"an unknown heap is refused": func(b *bench) {
		h := b.start(bays, "North Bay")
		h.ID += 100
		_, err := b.store.Append(b.Context(), bays, temp(h, 0, 50))
		b.refused(fault.Unknown, err)
		_, err = b.store.Entries(b.Context(), bays, h.ID)
		b.refused(fault.Unknown, err)
		_, err = b.store.ChangeHeap(b.Context(), h)
		b.refused(fault.Unknown, err)
	},
	"one bad entry stores none": func(b *bench) {
		h := b.start(bays, "North Bay")
		lost, unsaid := h, temp(h, 0, 50)
		lost.ID += 100
		unsaid.At = time.Time{}
		for name, bad := range map[string]heap.Entry{
			"unknown heap":        temp(lost, 0, 50),
			"not a number":        temp(h, 0, math.NaN()),
			"hotter than fire":    temp(h, 0, 5800),
			"a negative volume":   entry(h, 0, heap.Added{VolumeL: -1}),
			"an infinite mass":    entry(h, 0, heap.Added{MassKg: math.Inf(1)}),
			"a share above all":   entry(h, 0, heap.Moved{Share: 1.5}),
			"an unknown squeeze":  entry(h, 0, heap.Feel{Squeeze: "squelches"}),
			"a note too long":     entry(h, 0, heap.Note{Text: strings.Repeat("x", 10_000)}),
			"no payload":          entry(h, 0, nil),
			"no time":             unsaid,
			"a start":             entry(h, 0, heap.Started{}),
			"a voiding by itself": entry(h, 0, heap.Voided{Entry: 1}),
			"a change by itself":  entry(h, 0, heap.Changed{Field: "aim"}),
			"a finish by itself":  entry(h, 0, heap.Finished{}),
		} {
			_, err := b.store.Append(b.Context(), bays, temp(h, 0, 50), bad, temp(h, 0, 51))
			assert.Error(b, err, name)
		}
		assert.Len(b, b.entries(h), 1)
	},
	"too long a note says so": func(b *bench) {
		h := b.start(bays, "North Bay")
		_, err := b.store.Append(b.Context(), bays, entry(h, 0, heap.Note{Text: strings.Repeat("x", 10_000)}))
		b.refused(fault.TooLong, err)
	},
	"a change with one bad entry leaves the heap as it was": func(b *bench) {
		h := b.start(bays, "North Bay")
		changed := h
		changed.Aim = heap.Steady
		_, err := b.store.ChangeHeap(b.Context(), changed, entry(h, 0, heap.Changed{Field: "aim"}), entry(h, 0, heap.Changed{Field: "colour"}))
		require.Error(b, err)
		assert.Equal(b, h, b.only(bays))
		assert.Len(b, b.entries(h), 1)
	},
	"nothing to append is no error": func(b *bench) {
		assert.Empty(b, b.append(bays))
	},
}
