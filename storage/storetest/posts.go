package storetest

import (
	"strings"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"heapside/calc/duty"
	"heapside/calc/fault"
	"heapside/calc/heap"
	"heapside/storage"
)

// endings are the calls that only the owner of a claimed post may make.
var endings = map[string]func(*bench, duty.Post) error{
	"sent":  func(b *bench, p duty.Post) error { return b.store.Sent(b.Context(), p, "late", evening(1).At) },
	"retry": func(b *bench, p duty.Post) error { return b.store.Retry(b.Context(), p, evening(9).At, "late") },
	"drop":  func(b *bench, p duty.Post) error { return b.store.Drop(b.Context(), p, false, "late") },
	"fold":  func(b *bench, p duty.Post) error { return b.store.Drop(b.Context(), p, true, "late") },
}

var postTests = map[string]func(*bench){
	"posts are claimed from their hour on, the oldest first": func(b *bench) {
		for n, at := range []heap.Place{bays, plots, other} {
			h := b.start(at, "Bay")
			b.planned(at)
			b.prepared(h, 2-n, "turn")
		}
		assert.Empty(b, b.claim("one", evening(0).At.Add(-time.Millisecond)))
		for limit, want := range map[int]int{-1: 0, 0: 0} {
			posts, err := b.store.Claim(b.Context(), "one", evening(9).At, lease, limit)
			require.NoError(b, err)
			assert.Len(b, posts, want)
		}
		first, err := b.store.Claim(b.Context(), "one", evening(2).At, lease, 2)
		require.NoError(b, err)
		require.Len(b, first, 2)
		assert.Equal(b, []heap.Place{other, plots}, []heap.Place{first[0].Place, first[1].Place})
		assert.Equal(b, bays, b.claimed("two", evening(2).At).Place)
	},
	"a claimed post is claimed again when its lease has ended": func(b *bench) {
		h := b.start(bays, "North Bay")
		b.planned(bays)
		b.prepared(h, 0, "turn")
		now := evening(0).At
		p := b.claimed("one", now)
		assert.Equal(b, 1, p.Attempt)
		assert.Empty(b, b.claim("one", now.Add(lease-time.Millisecond)))
		again := b.claimed("two", now.Add(lease))
		assert.Equal(b, 2, again.Attempt)
		assert.Equal(b, "two", again.Owner)
		p.Attempt, p.Owner = again.Attempt, again.Owner
		assert.Equal(b, p, again)
	},
	"who lost a post can neither close it nor give it back": func(b *bench) {
		h := b.start(bays, "North Bay")
		b.planned(bays)
		b.prepared(h, 0, "turn")
		now := evening(0).At
		for _, owner := range []string{"two", "one"} {
			lost := b.claimed("one", now)
			now = now.Add(lease)
			held := b.claimed(owner, now)
			now = now.Add(lease)
			for name, end := range endings {
				require.ErrorIs(b, end(b, lost), storage.ErrFenced, "%s to %s", name, owner)
			}
			assert.Equal(b, held, b.post(held))
			assert.Empty(b, b.missed(bays))
		}
	},
	"a claimed post is its owner's alone": func(b *bench) {
		h := b.start(bays, "North Bay")
		b.planned(bays)
		b.prepared(h, 0, "turn")
		held := b.claimed("one", evening(0).At)
		stranger := held
		stranger.Owner = "two"
		for name, end := range endings {
			require.ErrorIs(b, end(b, stranger), storage.ErrFenced, name)
		}
		assert.Equal(b, held, b.post(held))
	},
	"who holds a post across the end of its lease may still close it": func(b *bench) {
		h := b.start(bays, "North Bay")
		b.planned(bays)
		b.prepared(h, 0, "turn")
		p := b.claimed("one", evening(0).At)
		require.NoError(b, b.store.Sent(b.Context(), p, "message", evening(9).At))
		assert.Empty(b, b.claim("two", evening(9).At))
	},
	"a post ends once": func(b *bench) {
		h := b.start(bays, "North Bay")
		b.planned(bays)
		n := 0
		for name, end := range endings {
			b.prepared(h, n, "turn")
			p := b.claimed("one", evening(n).At)
			require.NoError(b, end(b, p), name)
			for after, again := range endings {
				require.ErrorIs(b, again(b, p), storage.ErrFenced, "%s after %s", after, name)
			}
			n++
			if name == "retry" {
				p = b.claimed("one", evening(9).At)
				require.NoError(b, b.store.Drop(b.Context(), p, false, ""))
			}
			assert.Empty(b, b.claim("one", evening(99).At), name)
		}
	},
	"a post put off comes at the hour it was put off to": func(b *bench) {
		h := b.start(bays, "North Bay")
		b.planned(bays)
		b.prepared(h, 0, "turn")
		now := evening(0).At
		p := b.claimed("one", now)
		require.NoError(b, b.store.Retry(b.Context(), p, now.Add(time.Hour), strings.Repeat("no \x00\xff", 500)))
		assert.Empty(b, b.claim("one", now.Add(time.Hour-time.Millisecond)))
		again := b.claimed("one", now.Add(time.Hour))
		assert.Equal(b, 2, again.Attempt)
		assert.Equal(b, now, again.Due, "it stays due when it was")
	},
	"a sent post keeps its message": func(b *bench) {
		h := b.start(bays, "North Bay")
		b.planned(bays)
		p := b.sent(h, 0, "turn")
		assert.Equal(b, "message", p.Message)
		assert.Equal(b, duty.Open, p.Items[0].State)
		assert.Empty(b, b.outdated(evening(9).At))
	},
	"what is in a dropped post lapses, and nobody was reminded of it": func(b *bench) {
		h := b.start(bays, "North Bay")
		b.planned(bays)
		b.prepared(h, 0, "turn", "water")
		p := b.claimed("one", evening(0).At)
		_, _, err := b.store.Settle(b.Context(), bays, p.Items[1].ID, done(wren))
		require.NoError(b, err)
		items, err := b.store.Items(b.Context(), bays, evening(0).Day)
		require.NoError(b, err)
		assert.Len(b, items, 2)
		b.arm(0)
		require.NoError(b, b.store.Drop(b.Context(), p, false, "gone"))
		assert.Equal(b, []heap.Place{bays}, b.stale())
		items, err = b.store.Items(b.Context(), bays, evening(0).Day)
		require.NoError(b, err)
		assert.Empty(b, items)
		var states []duty.State
		for _, i := range b.post(p).Items {
			states = append(states, i.State)
		}
		assert.Equal(b, []duty.State{duty.Lapsed, duty.Done}, states)
		assert.Empty(b, b.missed(bays))
	},
	"posts of another place are out of reach": func(b *bench) {
		h := b.start(bays, "North Bay")
		b.planned(bays)
		b.prepared(h, 0, "turn")
		p := b.claimed("one", evening(0).At)
		for name, at := range strangers {
			_, err := b.store.Post(b.Context(), at, p.ID)
			b.refused(fault.Unknown, err)
			mine := p
			mine.Place = at
			for _, end := range endings {
				require.ErrorIs(b, end(b, mine), storage.ErrFenced, name)
			}
		}
		require.NoError(b, b.store.Sent(b.Context(), p, "message", evening(0).At))
		_, _, err := b.store.Settle(b.Context(), bays, p.Items[0].ID, done(wren))
		require.NoError(b, err)
		for _, at := range strangers {
			mine := b.post(p)
			mine.Place = at
			require.NoError(b, b.store.Shown(b.Context(), mine))
			require.NoError(b, b.store.EditLater(b.Context(), mine, evening(9).At))
		}
		assert.Len(b, b.outdated(evening(0).At), 1)
	},
}

var editTests = map[string]func(*bench){
	"a post whose item changed is outdated until it is shown": func(b *bench) {
		h := b.start(bays, "North Bay")
		b.planned(bays)
		p := b.sent(h, 0, "turn", "water")
		now := evening(0).At
		_, _, err := b.store.Settle(b.Context(), bays, p.Items[0].ID, done(tamsy))
		require.NoError(b, err)
		edits := b.outdated(now)
		require.Len(b, edits, 1)
		assert.Equal(b, b.post(p), edits[0])
		assert.Equal(b, tamsy, edits[0].Items[0].By)
		assert.Empty(b, b.outdated(now), "one program edits at a time")
		require.NoError(b, b.store.Shown(b.Context(), edits[0]))
		assert.Empty(b, b.outdated(evening(9).At))
	},
	"an edit that nobody brought to its end comes again": func(b *bench) {
		h := b.start(bays, "North Bay")
		b.planned(bays)
		p := b.sent(h, 0, "turn")
		_, _, err := b.store.Settle(b.Context(), bays, p.Items[0].ID, done(tamsy))
		require.NoError(b, err)
		now := evening(0).At
		require.Len(b, b.outdated(now), 1)
		assert.Empty(b, b.outdated(now.Add(lease-time.Millisecond)))
		edits := b.outdated(now.Add(lease))
		require.Len(b, edits, 1)
		require.NoError(b, b.store.EditLater(b.Context(), edits[0], now.Add(time.Hour)))
		assert.Empty(b, b.outdated(now.Add(time.Hour-time.Millisecond)))
		assert.Len(b, b.outdated(now.Add(time.Hour)), 1)
	},
	"what changes while a post is sent or edited makes it outdated": func(b *bench) {
		h := b.start(bays, "North Bay")
		b.planned(bays)
		b.prepared(h, 0, "turn", "water", "feel")
		now := evening(0).At
		p := b.claimed("one", now)
		settle := func(i int) {
			_, _, err := b.store.Settle(b.Context(), bays, p.Items[i].ID, done(tamsy))
			require.NoError(b, err)
		}
		settle(0)
		assert.Empty(b, b.outdated(now), "there is no message to edit")
		require.NoError(b, b.store.Sent(b.Context(), p, "message", now))
		first := b.outdated(now)
		require.Len(b, first, 1)
		settle(1)
		require.NoError(b, b.store.Shown(b.Context(), first[0]))
		second := b.outdated(now)
		require.Len(b, second, 1, "at once, without waiting for the lease")
		settle(2)
		require.NoError(b, b.store.Shown(b.Context(), b.post(p)))
		assert.Empty(b, b.outdated(now))
		require.NoError(b, b.store.Shown(b.Context(), second[0]))
		assert.Len(b, b.outdated(now), 1, "an older edit came last")
	},
	"as many are given out as asked for, and none where the place is gone": func(b *bench) {
		for _, at := range []heap.Place{bays, plots, other} {
			h := b.start(at, "Bay")
			b.planned(at)
			p := b.sent(h, 0, "turn")
			_, _, err := b.store.Settle(b.Context(), at, p.Items[0].ID, done(wren))
			require.NoError(b, err)
		}
		_, err := b.store.Trouble(b.Context(), other, duty.Gone, noon)
		require.NoError(b, err)
		now := evening(0).At
		for _, row := range []struct{ limit, want int }{{-1, 0}, {0, 0}, {1, 1}, {9, 1}, {9, 0}} {
			posts, err := b.store.Outdated(b.Context(), now, lease, row.limit)
			require.NoError(b, err)
			assert.Len(b, posts, row.want)
		}
	},
}
