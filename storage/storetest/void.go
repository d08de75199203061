package storetest

import (
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"heapside/calc/fault"
	"heapside/calc/heap"
)

var voidTests = map[string]func(*bench){
	"a voided entry stays, with who took it back": func(b *bench) {
		h := b.start(bays, "North Bay")
		e := b.append(bays, temp(h, 0, 85))[0]
		void := b.void(bays, e.ID)[0]
		assert.Equal(b, heap.Voided{Entry: e.ID, Was: heap.KindTemp}, void.Payload)
		assert.Equal(b, tamsy, void.By)

		e.VoidedBy = void.ID
		assert.Equal(b, []heap.Entry{e, void}, b.entries(h)[1:])
		latest, err := b.store.Latest(b.Context(), bays, 2)
		require.NoError(b, err)
		assert.Equal(b, []heap.Entry{void, e}, latest)
	},
	"several go together or not at all": func(b *bench) {
		h := b.start(bays, "North Bay")
		stored := b.append(bays, temp(h, 0, 50), temp(h, 0, 51))
		for name, ids := range map[string][]heap.EntryID{
			"one unknown": {stored[0].ID, 999},
			"one twice":   {stored[0].ID, stored[1].ID, stored[0].ID},
		} {
			_, err := b.store.Void(b.Context(), bays, wren, noon, ids...)
			b.refused(fault.Unknown, err)
			for _, e := range b.entries(h) {
				assert.Zero(b, e.VoidedBy, name)
			}
		}
		assert.Len(b, b.void(bays, stored[0].ID, stored[1].ID), 2)
	},
	"what cannot be taken back is unknown": func(b *bench) {
		h := b.start(bays, "North Bay")
		e := b.append(bays, temp(h, 0, 50))[0]
		void := b.void(bays, e.ID)[0]
		for name, id := range map[string]heap.EntryID{
			"never logged": 999, "zero": 0, "negative": -4,
			"already taken back": e.ID, "a voiding": void.ID, "a start": b.entries(h)[0].ID,
		} {
			_, err := b.store.Void(b.Context(), bays, wren, noon, id)
			b.refused(fault.Unknown, err)
			assert.Len(b, b.entries(h), 3, name)
		}
	},
	"each attribute is put back": func(b *bench) {
		h := b.start(bays, "North Bay")
		changed := h
		changed.Name, changed.Container, changed.SizeL, changed.Cover, changed.Aim = "East Bin", heap.PlasticBin, 330.5, "lid", heap.Steady
		var entries []heap.Entry
		for _, field := range heap.Attributes {
			entries = append(entries, entry(h, 0, heap.Changed{Field: field}))
		}
		stored, err := b.store.ChangeHeap(b.Context(), changed, entries...)
		require.NoError(b, err)
		for i, field := range heap.Attributes {
			require.Equal(b, changed.Attribute(field), b.only(bays).Attribute(field))
			b.void(bays, stored[i].ID)
			require.Equal(b, h.Attribute(field), b.only(bays).Attribute(field))
		}
		assert.Equal(b, h, b.only(bays))
	},
	"undoing an earlier change keeps the later one": func(b *bench) {
		h := b.start(bays, "North Bay")
		first, second := h, h
		first.SizeL, second.SizeL = 900, 1000
		one := b.change(first, "size", time.Hour)
		two := b.change(second, "size", 2*time.Hour)
		b.void(bays, one.ID)
		assert.Equal(b, 1000.0, b.only(bays).SizeL)
		b.void(bays, two.ID)
		assert.Equal(b, 800.0, b.only(bays).SizeL, "not the 900 that was taken back")
	},
	"changes taken back together end where they began": func(b *bench) {
		h := b.start(bays, "North Bay")
		first, second := h, h
		first.Name, second.Name = "South Bay", "East Bay"
		one := b.change(first, "name", time.Hour)
		two := b.change(second, "name", 2*time.Hour)
		b.start(bays, "South Bay")
		b.void(bays, one.ID, two.ID)
		heaps, err := b.store.Heaps(b.Context(), bays)
		require.NoError(b, err)
		assert.Contains(b, heaps, h)
	},
	"undoing a finish opens the heap again": func(b *bench) {
		h := b.start(bays, "North Bay")
		done := h
		done.Finished = noon.Add(time.Hour)
		stored, err := b.store.ChangeHeap(b.Context(), done, entry(h, time.Hour, heap.Finished{}))
		require.NoError(b, err)
		require.Equal(b, done, b.only(bays))
		b.void(bays, stored[0].ID)
		assert.Equal(b, h, b.only(bays))
	},
	"a heap whose name was given away is not opened again": func(b *bench) {
		h := b.start(bays, "North Bay")
		done := h
		done.Finished = noon.Add(time.Hour)
		stored, err := b.store.ChangeHeap(b.Context(), done, entry(h, time.Hour, heap.Finished{}))
		require.NoError(b, err)
		b.start(bays, "North Bay")
		_, err = b.store.Void(b.Context(), bays, wren, noon, stored[0].ID)
		b.refused(fault.Taken, err)
		assert.Zero(b, b.entries(h)[1].VoidedBy)
	},
}
