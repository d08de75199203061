package storetest

import (
	"strings"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"heapside/calc/duty"
	"heapside/calc/fault"
	"heapside/calc/heap"
)

// reminded is a heap whose place was reminded to turn it.
func (b *bench) reminded() (heap.Heap, duty.Item) {
	b.Helper()
	h := b.start(bays, "North Bay")
	b.planned(bays)
	return h, b.sent(h, 0, "turn").Items[0]
}

func (b *bench) item(id int64) duty.Item {
	b.Helper()
	i, err := b.store.Item(b.Context(), bays, id)
	require.NoError(b, err)
	return i
}

var itemTests = map[string]func(*bench){
	"what was done is logged and kept with the item": func(b *bench) {
		h, was := b.reminded()
		assert.Equal(b, was, b.item(was.ID))
		now, stored, err := b.store.Settle(b.Context(), bays, was.ID, done(tamsy), turned(h), temp(h, 7*time.Hour, 40))
		require.NoError(b, err)
		assert.Equal(b, stored, b.entries(h)[1:])
		assert.Equal(b, stored[0].ID, stored[1].Leader)
		was.State, was.By, was.At, was.Entry = duty.Done, tamsy, done(tamsy).At, stored[0].ID
		assert.Equal(b, was, now)
		assert.Equal(b, was, b.item(was.ID))
	},
	"an item can be unneeded, and needs nothing logged": func(b *bench) {
		_, was := b.reminded()
		said := done(wren)
		said.State, said.Until = duty.Unneeded, evening(5).Day
		now, stored, err := b.store.Settle(b.Context(), bays, was.ID, said)
		require.NoError(b, err)
		assert.Empty(b, stored)
		was.State, was.By, was.At = duty.Unneeded, wren, said.At
		assert.Equal(b, was, now)
		assert.Equal(b, was, b.item(was.ID))
	},
	"an item put off can be put off again, and done": func(b *bench) {
		h, was := b.reminded()
		later := done(wren)
		later.State = duty.Later
		for n := range 2 {
			later.Until = evening(1 + n).Day
			now, _, err := b.store.Settle(b.Context(), bays, was.ID, later)
			require.NoError(b, err)
			assert.Equal(b, later.Until, now.Until)
			assert.Equal(b, now, b.item(was.ID))
		}
		now, _, err := b.store.Settle(b.Context(), bays, was.ID, done(tamsy), turned(h))
		require.NoError(b, err)
		assert.Zero(b, now.Until)
		assert.Equal(b, now, b.item(was.ID))
	},
	"a second press counts nothing and says who was first": func(b *bench) {
		h, was := b.reminded()
		first, _, err := b.store.Settle(b.Context(), bays, was.ID, done(wren), turned(h))
		require.NoError(b, err)
		b.arm(1)
		version := b.post(duty.Post{Place: bays, ID: was.Post}).Version
		for _, state := range []duty.State{duty.Done, duty.Later, duty.Unneeded} {
			said := done(tamsy)
			said.State, said.Until = state, evening(3).Day
			_, _, err = b.store.Settle(b.Context(), bays, was.ID, said, turned(h))
			b.refused(fault.Taken, err)
			f, _ := fault.As(err)
			assert.Contains(b, f.Message, "Wren")
		}
		assert.Len(b, b.entries(h), 2)
		assert.Equal(b, first, b.item(was.ID))
		assert.Equal(b, version, b.post(duty.Post{Place: bays, ID: was.Post}).Version)
		assert.Empty(b, b.stale())
	},
	"of many presses at once one counts": func(b *bench) {
		h, was := b.reminded()
		late := 0
		for _, err := range together(8, func(int) error {
			_, _, err := b.store.Settle(b.Context(), bays, was.ID, done(wren), turned(h))
			return err
		}) {
			if err != nil {
				b.refused(fault.Taken, err)
				late++
			}
		}
		assert.Equal(b, 7, late)
		assert.Len(b, b.entries(h), 2)
	},
	"what has lapsed takes no press": func(b *bench) {
		h, was := b.reminded()
		b.changed(bays, func(*duty.Plan) {})
		found, err := b.store.Stale(b.Context(), all)
		require.NoError(b, err)
		lapsed := was
		lapsed.State, lapsed.At = duty.Lapsed, noon
		require.NoError(b, b.store.Arm(b.Context(), found[0], evening(1), lapsed))
		assert.Equal(b, lapsed, b.item(was.ID))
		_, _, err = b.store.Settle(b.Context(), bays, was.ID, done(wren), turned(h))
		b.refused(fault.Taken, err)
	},
	"an item put off lapses with the heap": func(b *bench) {
		h, was := b.reminded()
		later := done(wren)
		later.State, later.Until = duty.Later, evening(3).Day
		_, _, err := b.store.Settle(b.Context(), bays, was.ID, later)
		require.NoError(b, err)
		h.Finished = evening(1).At
		_, err = b.store.ChangeHeap(b.Context(), h, entry(h, 30*time.Hour, heap.Finished{}))
		require.NoError(b, err)
		found, err := b.store.Stale(b.Context(), all)
		require.NoError(b, err)
		lapsed := duty.Settled(b.item(was.ID), heap.Read(h, b.entries(h), evening(2).At))
		require.NoError(b, b.store.Arm(b.Context(), found[0], evening(2), lapsed))
		now := b.item(was.ID)
		assert.Equal(b, duty.Lapsed, now.State)
		assert.Zero(b, now.Until)
	},
	"a bad press stores nothing": func(b *bench) {
		h, was := b.reminded()
		theirs := b.start(plots, "South Bay")
		b.arm(1)
		undated, untimed, open, stranger := done(wren), done(wren), done(wren), done(heap.Person{Name: strings.Repeat("x", 101)})
		undated.State, untimed.At, open.State = duty.Later, time.Time{}, duty.Open
		for name, row := range map[string]struct {
			said  duty.Item
			entry heap.Entry
		}{
			"another place's heap": {done(wren), turned(theirs)},
			"a finish by itself":   {done(wren), entry(h, 0, heap.Finished{})},
			"a bad entry":          {done(wren), temp(h, 0, 5800)},
			"put off to no day":    {undated, turned(h)},
			"at no time":           {untimed, turned(h)},
			"open":                 {open, turned(h)},
			"too long a name":      {stranger, turned(h)},
		} {
			_, _, err := b.store.Settle(b.Context(), bays, was.ID, row.said, turned(h), row.entry)
			assert.Error(b, err, name)
		}
		assert.Len(b, b.entries(h), 1)
		assert.Equal(b, was, b.item(was.ID))
		assert.Empty(b, b.stale())
	},
	"what the log says closes an item, and an undo opens it again": func(b *bench) {
		h, was := b.reminded()
		settled := func() duty.Item {
			found, err := b.store.Stale(b.Context(), all)
			require.NoError(b, err)
			require.Len(b, found, 1)
			now := duty.Settled(b.item(was.ID), heap.Read(h, b.entries(h), evening(1).At))
			require.NoError(b, b.store.Arm(b.Context(), found[0], evening(1), now))
			assert.Equal(b, now, b.item(was.ID))
			return now
		}
		version := b.post(duty.Post{Place: bays, ID: was.Post}).Version
		logged := b.append(bays, turned(h))[0]
		assert.Equal(b, duty.Open, b.item(was.ID).State, "until it is armed")
		now := settled()
		assert.Equal(b, duty.Done, now.State)
		assert.Equal(b, logged.ID, now.Entry)
		assert.Equal(b, wren, now.By)
		assert.Len(b, b.outdated(evening(0).At), 1)
		b.void(bays, logged.ID)
		assert.Equal(b, duty.Done, b.item(was.ID).State, "until it is armed")
		assert.Equal(b, duty.Open, settled().State)
		assert.Equal(b, was, b.item(was.ID))
		assert.Equal(b, version+2, b.post(duty.Post{Place: bays, ID: was.Post}).Version)

		pressed, stored, err := b.store.Settle(b.Context(), bays, was.ID, done(tamsy), turned(h))
		require.NoError(b, err)
		assert.Equal(b, pressed, settled(), "a press stands by itself")
		b.void(bays, stored[0].ID)
		assert.Equal(b, duty.Open, settled().State)
	},
	"items are listed from a day on, the newest day first": func(b *bench) {
		h := b.start(bays, "North Bay")
		b.planned(bays)
		for n := range 3 {
			b.sent(h, n, "turn", "water")
		}
		items, err := b.store.Items(b.Context(), bays, evening(1).Day)
		require.NoError(b, err)
		var listed []string
		for _, i := range items {
			listed = append(listed, i.Day.String()+" "+i.Kind)
		}
		assert.Equal(b, []string{"2026-05-04 turn", "2026-05-04 water", "2026-05-03 turn", "2026-05-03 water"}, listed)
	},
	"at most 500 items are listed": func(b *bench) {
		h := b.start(bays, "North Bay")
		b.planned(bays)
		for n := range 101 {
			b.prepared(h, n, "turn", "water", "feel", "reading", "browns")
		}
		items, err := b.store.Items(b.Context(), bays, duty.Date{})
		require.NoError(b, err)
		require.Len(b, items, 500)
		assert.Equal(b, evening(100).Day, items[0].Day)
		assert.Equal(b, evening(1).Day, items[499].Day)
	},
	"items of another place are out of reach": func(b *bench) {
		h, was := b.reminded()
		for name, at := range strangers {
			_, err := b.store.Item(b.Context(), at, was.ID)
			b.refused(fault.Unknown, err)
			_, _, err = b.store.Settle(b.Context(), at, was.ID, done(wren))
			b.refused(fault.Unknown, err)
			items, err := b.store.Items(b.Context(), at, duty.Date{})
			require.NoError(b, err)
			assert.Empty(b, items, name)
			assert.Equal(b, duty.Plan{}, b.plan(at), name)
			assert.Zero(b, b.standing(at), name)
			b.planned(at)
			found, err := b.store.Stale(b.Context(), all)
			require.NoError(b, err)
			mine := was
			mine.State, mine.At = duty.Lapsed, noon
			for _, d := range found {
				require.NoError(b, b.store.Arm(b.Context(), d, evening(0), mine))
			}
		}
		assert.Equal(b, was, b.item(was.ID))
		assert.Len(b, b.entries(h), 1)
		assert.Equal(b, evening(1), b.standing(bays).Next)
	},
	"a number that is no item's is unknown": func(b *bench) {
		_, err := b.store.Item(b.Context(), bays, 99)
		b.refused(fault.Unknown, err)
		_, err = b.store.Post(b.Context(), bays, 99)
		b.refused(fault.Unknown, err)
	},
}
