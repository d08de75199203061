package reminders

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"heapside/calc/duty"
	"heapside/calc/heap"
)

func TestTheWeekIsSummedUpFromTheRecord(t *testing.T) {
	g := newGarden(t)
	g.plan(bays, rota(wren), func(p *duty.Plan) { p.Weekly = duty.Week(time.Sunday) })
	put := func(day int, by heap.Person, payloads ...heap.Payload) []heap.Entry {
		var entries []heap.Entry
		for _, p := range payloads {
			at := noon.AddDate(0, 0, day)
			entries = append(entries, heap.Entry{Heap: g.bay.ID, At: at, Logged: at, By: by, Payload: p})
		}
		stored, err := g.db.Append(t.Context(), bays, entries...)
		require.NoError(t, err)
		return stored
	}
	grass := heap.Added{Material: "grass", Name: "grass clippings", Said: "2 buckets", VolumeL: 24}
	leaves := heap.Added{Material: "leaves", Name: "dry leaves", Said: "4 buckets", VolumeL: 48}
	old := heap.Added{Material: "old", Name: "half-rotted leaves", Said: "all", VolumeL: 90, AgeDays: 60}
	put(-2, odalys, heap.Turned{}) // the week before
	put(1, odalys, grass, leaves, old)
	put(2, wren, heap.Turned{})
	put(3, wren, heap.Temp{C: 58})
	put(3, odalys, heap.Feel{Squeeze: heap.Drops})
	put(4, wren, heap.Turned{})
	taken := put(4, wren, heap.Watered{Litres: 10})
	_, err := g.db.Void(t.Context(), bays, wren, noon.AddDate(0, 0, 4), taken[0].ID)
	require.NoError(t, err)
	for day := range 14 {
		g.at(six.AddDate(0, 0, day))
	}
	require.Len(t, g.voice.said, 1, "the second week nothing happened")
	p := g.voice.said[0]
	assert.Equal(t, time.Sunday, p.Day.Weekday())
	assert.Equal(t, []string{
		"Wren: 2 turnings, 1 check",
		"Odalys: 1 load put in, 1 check",
		"Went in: dry leaves (4 buckets), grass clippings (2 buckets)",
		"Heaps: North Bay hot",
	}, p.Week)
	assert.Empty(t, p.To, "nobody is asked to do anything")
}
