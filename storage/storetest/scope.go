package storetest

import (
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"heapside/calc/audit"
	"heapside/calc/fault"
	"heapside/calc/heap"
)

// everything a place keeps, as read from it.
type everything struct {
	heaps     []heap.Heap
	entries   [][]heap.Entry
	latest    []heap.Entry
	garden    heap.Garden
	stock     []heap.Stock
	materials []string
	acts      []audit.Act
}

func (b *bench) everything(at heap.Place) everything {
	b.Helper()
	var all everything
	var err error
	all.heaps, err = b.store.Heaps(b.Context(), at)
	require.NoError(b, err)
	for _, h := range all.heaps {
		all.entries = append(all.entries, b.entries(h))
	}
	all.latest, err = b.store.Latest(b.Context(), at, 1000)
	require.NoError(b, err)
	all.garden, err = b.store.Garden(b.Context(), at)
	require.NoError(b, err)
	all.stock, err = b.store.Stock(b.Context(), at)
	require.NoError(b, err)
	materials, err := b.store.Materials(b.Context(), at)
	require.NoError(b, err)
	for _, f := range materials {
		all.materials = append(all.materials, f.Name)
	}
	all.acts = b.acts(at)
	return all
}

// fill keeps one of each thing in a place.
func (b *bench) fill(at heap.Place) heap.Heap {
	b.Helper()
	h := b.start(at, "North Bay")
	b.append(at, temp(h, time.Hour, 50))
	require.NoError(b, b.store.SaveGarden(b.Context(), garden(at), wren, noon))
	require.NoError(b, b.store.SaveStock(b.Context(), at, wren, noon, stock("straw", 40)))
	require.NoError(b, b.store.SaveMaterial(b.Context(), at, grass(at), wren, noon))
	return h
}

// strangers are places that share the guild or the channel name with bays, or
// whose names run together to the same text.
var strangers = map[string]heap.Place{
	"another channel":       plots,
	"another guild":         other,
	"shifted between names": {Guild: "millrace-laneb", Channel: "ays"},
	"no place":              {},
}

var scopeTests = map[string]func(*bench){
	"a place reads nothing of another": func(b *bench) {
		b.fill(bays)
		for name, at := range strangers {
			assert.Equal(b, everything{garden: heap.Garden{Place: at}}, b.everything(at), name)
		}
	},
	"places that keep the same names stay apart": func(b *bench) {
		first := b.fill(bays)
		before := b.everything(bays)
		for name, at := range strangers {
			b.fill(at)
			mine := b.everything(at)
			assert.Len(b, mine.heaps, 1, name)
			assert.NotEqual(b, first.ID, mine.heaps[0].ID, name)
			assert.Len(b, mine.latest, 2, name)
			assert.Equal(b, garden(at), mine.garden, name)
			assert.Equal(b, []string{"grass of " + at.Channel}, mine.materials, name)
		}
		assert.Equal(b, before, b.everything(bays))
	},
	"a place changes nothing of another by its numbers": func(b *bench) {
		h := b.fill(bays)
		before := b.everything(bays)
		for name, at := range strangers {
			mine := h
			mine.Place, mine.Name = at, "Mine"
			_, err := b.store.Entries(b.Context(), at, h.ID)
			b.refused(fault.Unknown, err)
			_, err = b.store.Append(b.Context(), at, temp(h, 0, 20))
			b.refused(fault.Unknown, err)
			_, err = b.store.ChangeHeap(b.Context(), mine, entry(h, 0, heap.Changed{Field: "name"}))
			b.refused(fault.Unknown, err)
			for _, e := range before.latest {
				_, err = b.store.Void(b.Context(), at, wren, noon, e.ID)
				b.refused(fault.Unknown, err)
			}
			require.NoError(b, b.store.SaveGarden(b.Context(), heap.Garden{Place: at}, wren, noon))
			require.NoError(b, b.store.SaveStock(b.Context(), at, wren, noon, stock("straw", 0)))
			assert.Equal(b, before, b.everything(bays), name)
		}
	},
	"a name in use elsewhere is free here": func(b *bench) {
		b.start(bays, "North Bay")
		for _, at := range strangers {
			b.start(at, "North Bay")
		}
	},
	"one call does not reach into two places": func(b *bench) {
		mine, theirs := b.start(bays, "North Bay"), b.start(plots, "South Bay")
		_, err := b.store.Append(b.Context(), bays, temp(mine, 0, 50), temp(theirs, 0, 50))
		b.refused(fault.Unknown, err)
		assert.Len(b, b.entries(mine), 1)
		assert.Len(b, b.entries(theirs), 1)
	},
}
