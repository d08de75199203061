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

var dueTests = map[string]func(*bench){
	"what is armed is due at its hour": func(b *bench) {
		b.planned(bays)
		b.arm(0)
		assert.Empty(b, b.stale())
		assert.Equal(b, evening(0), b.standing(bays).Next)
		early, err := b.store.Due(b.Context(), evening(0).At.Add(-time.Millisecond), all)
		require.NoError(b, err)
		assert.Empty(b, early)
		assert.Equal(b, evening(0), b.due(bays, 0).Occurrence)
		assert.Equal(b, evening(0), b.due(bays, 5).Occurrence, "it stays due")
	},
	"nothing ahead is never due": func(b *bench) {
		b.planned(bays)
		found, err := b.store.Stale(b.Context(), all)
		require.NoError(b, err)
		require.NoError(b, b.store.Arm(b.Context(), found[0], duty.Occurrence{}))
		assert.Empty(b, b.stale())
		due, err := b.store.Due(b.Context(), evening(999).At, all)
		require.NoError(b, err)
		assert.Empty(b, due)
		b.changed(bays, func(*duty.Plan) {})
		b.arm(1)
		assert.Equal(b, evening(1), b.due(bays, 1).Occurrence, "until it is armed again")
	},
	"stale and due list as many as asked for, the oldest due first": func(b *bench) {
		for _, at := range []heap.Place{bays, plots, other} {
			b.planned(at)
		}
		for limit, want := range map[int]int{-1: 0, 0: 0, 2: 2, 9: 3} {
			found, err := b.store.Stale(b.Context(), limit)
			require.NoError(b, err)
			assert.Len(b, found, want)
		}
		found, err := b.store.Stale(b.Context(), all)
		require.NoError(b, err)
		for n, d := range found {
			require.NoError(b, b.store.Arm(b.Context(), d, evening(len(found)-n)))
		}
		due, err := b.store.Due(b.Context(), evening(9).At, 2)
		require.NoError(b, err)
		assert.Equal(b, []heap.Place{found[2].Place, found[1].Place}, places(due))
	},
	"a plan that is stale is not due, and keeps what it was armed for": func(b *bench) {
		h := b.start(bays, "North Bay")
		b.planned(bays)
		b.arm(0)
		b.append(bays, temp(h, 0, 50))
		due, err := b.store.Due(b.Context(), evening(0).At, all)
		require.NoError(b, err)
		assert.Empty(b, due)
		found, err := b.store.Stale(b.Context(), all)
		require.NoError(b, err)
		assert.Equal(b, evening(0), found[0].Occurrence)
	},
	"arming by what has changed since does nothing": func(b *bench) {
		h := b.start(bays, "North Bay")
		b.planned(bays)
		item := b.sent(h, 0, "turn").Items[0]
		b.append(bays, temp(h, 0, 50))
		found, err := b.store.Stale(b.Context(), all)
		require.NoError(b, err)
		b.append(bays, temp(h, 0, 51))
		closed := item
		closed.State, closed.At = duty.Lapsed, noon
		require.NoError(b, b.store.Arm(b.Context(), found[0], evening(5), closed))
		assert.Equal(b, evening(1), b.standing(bays).Next)
		assert.Equal(b, []heap.Place{bays}, b.stale())
		now, err := b.store.Item(b.Context(), bays, item.ID)
		require.NoError(b, err)
		assert.Equal(b, item, now)
	},
	"of two that arm by the same, the one that comes after the reminder does nothing": func(b *bench) {
		h := b.start(bays, "North Bay")
		b.planned(bays)
		b.arm(0)
		b.append(bays, temp(h, 0, 50))
		slow, err := b.store.Stale(b.Context(), all)
		require.NoError(b, err)
		b.prepared(h, 0, "turn")
		require.NoError(b, b.store.Arm(b.Context(), slow[0], evening(0)))
		assert.Equal(b, evening(1), b.standing(bays).Next)
	},
	"what is due can be armed for a later hour": func(b *bench) {
		b.planned(bays)
		b.arm(0)
		later := evening(0)
		later.At = later.At.Add(14 * time.Hour)
		require.NoError(b, b.store.Arm(b.Context(), b.due(bays, 0), later))
		assert.Equal(b, later, b.standing(bays).Next)
	},
	"a post is prepared with its items, the next reminder and the rota": func(b *bench) {
		h := b.start(bays, "North Bay")
		b.planned(bays)
		b.arm(0)
		p := digest(h, 0, "turn", "water")
		p.Notes, p.Week = []string{"a \"note\" 🌱"}, []string{"one", "two"}
		p.Items = append(p.Items, duty.Item{Found: duty.Found{Job: p.Items[0].Job}, Said: evening(0).At, State: duty.Open})
		rota := b.plan(bays).Rota
		rota = rota.Took(duty.Turn{Whose: wren, Who: wren}, evening(0).Day)
		first, err := b.store.Prepare(b.Context(), b.due(bays, 0), p, evening(1), rota)
		require.NoError(b, err)
		assert.True(b, first)
		assert.Equal(b, rota, b.plan(bays).Rota)
		assert.Equal(b, evening(1), b.standing(bays).Next)
		assert.Empty(b, b.stale(), "a turn changes no hour")

		got := b.claimed("one", evening(0).At)
		require.Len(b, got.Items, 3)
		for i, item := range got.Items {
			assert.Equal(b, got.ID, item.Post)
			assert.NotZero(b, item.ID)
			p.Items[i].ID, p.Items[i].Post, p.Items[i].Day = item.ID, got.ID, evening(0).Day
		}
		p.ID, p.Place, p.Day, p.Due = got.ID, bays, evening(0).Day, evening(0).At
		p.Attempt, p.Owner, p.Version = 1, "one", 1
		assert.Equal(b, p, got)
		assert.Equal(b, p, b.post(p))
	},
	"preparing twice gives one post": func(b *bench) {
		h := b.start(bays, "North Bay")
		b.planned(bays)
		b.arm(0)
		was := b.due(bays, 0)
		b.prepared(h, 0, "turn")
		before := b.plan(bays)
		again, err := b.store.Prepare(b.Context(), was, digest(h, 0, "water"), evening(2), duty.Rota{})
		require.NoError(b, err)
		assert.False(b, again)
		assert.Equal(b, before, b.plan(bays))
		assert.Equal(b, evening(1), b.standing(bays).Next)
		p := b.claimed("one", evening(5).At)
		require.Len(b, p.Items, 1)
		assert.Equal(b, "turn", p.Items[0].Kind)
	},
	"of many that prepare at once one does": func(b *bench) {
		h := b.start(bays, "North Bay")
		b.planned(bays)
		b.arm(0)
		was := b.due(bays, 0)
		first := make([]bool, 8)
		for _, err := range together(len(first), func(i int) error {
			var err error
			first[i], err = b.store.Prepare(b.Context(), was, digest(h, 0, "turn"), evening(1), duty.Rota{})
			return err
		}) {
			require.NoError(b, err)
		}
		won := 0
		for _, ok := range first {
			if ok {
				won++
			}
		}
		assert.Equal(b, 1, won)
		b.claimed("one", evening(0).At)
	},
	"a second hour on one day gives no second post, and no turn": func(b *bench) {
		h := b.start(bays, "North Bay")
		b.planned(bays)
		b.sent(h, 0, "turn")
		b.changed(bays, func(p *duty.Plan) { p.At = 20 * 60 })
		b.arm(0)
		before := b.plan(bays)
		over, err := b.store.Prepare(b.Context(), b.due(bays, 0), digest(h, 0, "water"), evening(1), duty.Rota{})
		require.NoError(b, err)
		assert.True(b, over, "the reminder is over")
		assert.Equal(b, before, b.plan(bays))
		assert.Equal(b, evening(1), b.standing(bays).Next)
		assert.Empty(b, b.claim("one", evening(0).At))
	},
	"what was found before something was stored is not said": func(b *bench) {
		h := b.start(bays, "North Bay")
		b.planned(bays)
		for name, write := range map[string]func(){
			"an entry": func() { b.append(bays, temp(h, 0, 50)) },
			"a plan":   func() { b.changed(bays, func(p *duty.Plan) { p.On = false }) },
		} {
			b.arm(0)
			was := b.due(bays, 0)
			write()
			first, err := b.store.Prepare(b.Context(), was, digest(h, 0, "turn"), evening(1), duty.Rota{})
			require.NoError(b, err)
			assert.False(b, first, name)
			skipped, err := b.store.Skip(b.Context(), was, evening(1))
			require.NoError(b, err)
			assert.False(b, skipped, name)
			assert.Equal(b, evening(0), b.standing(bays).Next, name)
			b.arm(0)
			first, err = b.store.Prepare(b.Context(), was, digest(h, 0, "turn"), evening(1), duty.Rota{})
			require.NoError(b, err)
			assert.False(b, first, "%s: not even when the hour is the same again", name)
		}
		assert.Empty(b, b.claim("one", evening(0).At))
		assert.Len(b, b.plan(bays).Rota.Members, 2)
	},
	"nothing to say only moves on": func(b *bench) {
		b.planned(bays)
		b.arm(0)
		before := b.plan(bays)
		over, err := b.store.Prepare(b.Context(), b.due(bays, 0), duty.Post{Kind: duty.Digest, Notes: []string{"late"}}, evening(1), duty.Rota{})
		require.NoError(b, err)
		assert.True(b, over)
		assert.Equal(b, before, b.plan(bays))
		assert.Equal(b, evening(1), b.standing(bays).Next)
		assert.Empty(b, b.claim("one", evening(0).At))
	},
	"a post that cannot be kept leaves the reminder due": func(b *bench) {
		h := b.start(bays, "North Bay")
		theirs := b.start(plots, "South Bay")
		b.planned(bays)
		b.arm(0)
		long := digest(h, 0, "turn")
		long.Week = []string{strings.Repeat("x", 9000)}
		_, err := b.store.Prepare(b.Context(), b.due(bays, 0), long, evening(1), duty.Rota{})
		b.refused(fault.TooLong, err)
		_, err = b.store.Prepare(b.Context(), b.due(bays, 0), digest(theirs, 0, "turn"), evening(1), duty.Rota{})
		require.Error(b, err, "a heap of another place")
		b.prepared(h, 0, "turn")
	},
	"a job of a heap is named once a day": func(b *bench) {
		h := b.start(bays, "North Bay")
		b.planned(bays)
		b.prepared(h, 0, "turn", "turn", "water")
		assert.Len(b, b.claimed("one", evening(0).At).Items, 2)
	},
	"what is skipped is missed until a post names it": func(b *bench) {
		h := b.start(bays, "North Bay")
		b.planned(bays)
		b.arm(0)
		for n := range 2 {
			was := b.due(bays, n)
			for _, want := range []bool{true, false} {
				skipped, err := b.store.Skip(b.Context(), was, evening(n+1))
				require.NoError(b, err)
				assert.Equal(b, want, skipped)
			}
		}
		days := []duty.Date{evening(0).Day, evening(1).Day}
		assert.Equal(b, days, b.missed(bays))
		assert.Empty(b, b.missed(plots))
		assert.Empty(b, b.claim("one", evening(9).At))
		_, err := b.store.Prepare(b.Context(), b.due(bays, 2), duty.Post{Kind: duty.Digest}, evening(3), duty.Rota{})
		require.NoError(b, err)
		assert.Equal(b, days, b.missed(bays), "nothing was said")

		b.prepared(h, 3, "turn")
		assert.Empty(b, b.missed(bays))
		p := b.claimed("one", evening(3).At)
		require.NoError(b, b.store.Drop(b.Context(), p, true, "too late"))
		assert.Equal(b, append(days, evening(3).Day), b.missed(bays), "what named them did not come either")
		b.sent(h, 4, "turn")
		assert.Empty(b, b.missed(bays))
	},
	"what a place missed is not named by another's post": func(b *bench) {
		b.planned(bays)
		b.arm(0)
		_, err := b.store.Skip(b.Context(), b.due(bays, 0), evening(1))
		require.NoError(b, err)
		for _, at := range []heap.Place{plots, other} {
			h := b.start(at, "South Bay")
			b.planned(at)
			b.sent(h, 0, "turn")
		}
		assert.Equal(b, []duty.Date{evening(0).Day}, b.missed(bays))
	},
	"a skipped second hour of a day that had its post is not missed": func(b *bench) {
		h := b.start(bays, "North Bay")
		b.planned(bays)
		b.sent(h, 0, "turn")
		b.changed(bays, func(*duty.Plan) {})
		b.arm(0)
		skipped, err := b.store.Skip(b.Context(), b.due(bays, 0), evening(1))
		require.NoError(b, err)
		assert.True(b, skipped)
		assert.Empty(b, b.missed(bays))
	},
}
