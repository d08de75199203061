package storetest

import (
	"errors"
	"fmt"
	"strings"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"heapside/calc/duty"
	"heapside/calc/fault"
	"heapside/calc/heap"
)

var planTests = map[string]func(*bench){
	"a plan is zero until it is changed, and reads back": func(b *bench) {
		assert.Equal(b, duty.Plan{}, b.plan(bays))
		day := duty.On(noon)
		want := duty.Usual()
		want.Days, want.Weekly, want.Off, want.Paused = duty.Week(time.Monday, time.Friday), duty.Week(time.Sunday), []string{"browns"}, day
		want.Rota = duty.Rota{
			Members:  []duty.Member{{Person: wren, Joined: day, Away: []duty.Span{{From: day, To: day.Add(3)}}, Asked: 1.25, AskedOn: day}},
			StandIns: []duty.StandIn{{For: wren, By: tamsy}},
		}
		want.Taught = []duty.Taught{{Heap: 3, Kind: "turn", Every: 5, Until: day, Never: true, By: tamsy}}
		assert.Equal(b, want, b.changed(bays, func(p *duty.Plan) { *p = want }))
		assert.Equal(b, want, b.plan(bays))
		b.changed(bays, func(p *duty.Plan) { p.At = 7 * 60; p.Quiet = duty.Quiet{} })
		assert.Equal(b, duty.Clock(7*60), b.plan(bays).At)
		assert.Equal(b, want.Rota, b.plan(bays).Rota)
	},
	"a change that fails, and a plan that cannot be kept, store nothing": func(b *bench) {
		failure := errors.New("no")
		_, err := b.store.ChangePlan(b.Context(), bays, wren, noon, func(p *duty.Plan) error { *p = duty.Usual(); return failure })
		require.ErrorIs(b, err, failure)
		b.planned(bays)
		b.arm(0)
		before := b.plan(bays)
		for code, change := range map[fault.Code]func(*duty.Plan){
			fault.OutOfRange: func(p *duty.Plan) { p.At = 22 * 60 },
			fault.TooLong:    func(p *duty.Plan) { p.Off = []string{strings.Repeat("x", 50_000)} },
		} {
			_, err := b.store.ChangePlan(b.Context(), bays, wren, noon, func(p *duty.Plan) error { change(p); return nil })
			b.refused(code, err)
		}
		assert.Equal(b, before, b.plan(bays))
		assert.Empty(b, b.stale())
	},
	"of changes at once none is lost": func(b *bench) {
		const each = 10
		for _, err := range together(4, func(who int) error {
			for i := range each {
				_, err := b.store.ChangePlan(b.Context(), bays, wren, noon, func(p *duty.Plan) error {
					p.Off = append(p.Off, fmt.Sprint(who, "-", i))
					return nil
				})
				if err != nil {
					return err
				}
			}
			return nil
		}) {
			require.NoError(b, err)
		}
		assert.Len(b, b.plan(bays).Off, 4*each)
	},
	"what is stored in a place makes its plan stale, and no other": func(b *bench) {
		h := b.start(bays, "North Bay")
		b.planned(bays)
		b.planned(plots)
		b.planned(other)
		item := b.sent(h, 0, "turn").Items[0]
		reading := b.append(bays, temp(h, 0, 50))[0]
		for name, write := range map[string]func() error{
			"a start": func() error {
				_, err := b.store.StartHeap(b.Context(), heap.Heap{Place: bays, Name: "New"}, wren, noon)
				return err
			},
			"a change": func() error { _, err := b.store.ChangeHeap(b.Context(), h); return err },
			"an entry": func() error { _, err := b.store.Append(b.Context(), bays, temp(h, 0, 51)); return err },
			"an undo":  func() error { _, err := b.store.Void(b.Context(), bays, wren, noon, reading.ID); return err },
			"a garden": func() error { return b.store.SaveGarden(b.Context(), garden(bays), wren, noon) },
			"stock":    func() error { return b.store.SaveStock(b.Context(), bays, wren, noon, stock("straw", 4)) },
			"material": func() error { return b.store.SaveMaterial(b.Context(), bays, grass(bays), wren, noon) },
			"a plan":   func() error { b.changed(bays, func(p *duty.Plan) { p.On = false }); return nil },
			"a press": func() error {
				_, _, err := b.store.Settle(b.Context(), bays, item.ID, done(wren), turned(h))
				return err
			},
		} {
			b.arm(1)
			require.Empty(b, b.stale(), name)
			require.NoError(b, write(), name)
			assert.Equal(b, []heap.Place{bays}, b.stale(), name)
		}
	},
	"what the model learns makes no plan stale": func(b *bench) {
		h := b.start(bays, "North Bay")
		b.planned(bays)
		b.arm(0)
		require.NoError(b, b.store.SaveTrack(b.Context(), bays, h.ID, []byte{1}))
		require.NoError(b, b.store.SaveForecasts(b.Context(), bays, h.ID, forecast(0, 24, 50, 48)))
		assert.Empty(b, b.stale())
	},
	"a place without a plan is never stale": func(b *bench) {
		b.fill(bays)
		assert.Empty(b, b.stale())
		standing, err := b.store.Standing(b.Context(), bays)
		require.NoError(b, err)
		assert.Zero(b, standing)
	},
	"trouble is news once, with its notices": func(b *bench) {
		b.planned(bays)
		b.planned(plots)
		b.arm(1)
		day := duty.On(noon)
		notice := duty.Post{Place: plots, Kind: duty.Notice, Day: day, Due: noon, Notes: []string{"Reminders cannot be posted elsewhere."}}
		for i, want := range []bool{true, false} {
			news, err := b.store.Trouble(b.Context(), bays, duty.Refused, noon.Add(time.Duration(i)*time.Hour), notice)
			require.NoError(b, err)
			assert.Equal(b, want, news)
		}
		standing, err := b.store.Standing(b.Context(), bays)
		require.NoError(b, err)
		assert.Equal(b, duty.Standing{Next: evening(1), Trouble: duty.Refused, Since: noon}, standing)
		p := b.claimed("one", noon)
		assert.Equal(b, notice.Notes, p.Notes)
		assert.Equal(b, plots, p.Place)
		assert.Equal(b, duty.Notice, p.Kind)

		again, err := b.store.Trouble(b.Context(), other, duty.Refused, noon, notice)
		require.NoError(b, err)
		assert.False(b, again, "a place without a plan has nothing to be troubled about")
	},
	"refused lasts until a message gets through, and stops nothing": func(b *bench) {
		h := b.start(bays, "North Bay")
		b.planned(bays)
		_, err := b.store.Trouble(b.Context(), bays, duty.Refused, noon)
		require.NoError(b, err)
		b.append(bays, temp(h, 0, 50))
		b.prepared(h, 0, "turn")
		p := b.claimed("one", evening(0).At)
		assert.Equal(b, duty.Refused, b.standing(bays).Trouble)
		require.NoError(b, b.store.Sent(b.Context(), p, "message", evening(0).At))
		assert.Equal(b, duty.Standing{Next: evening(1)}, b.standing(bays))
	},
	"the newest reminder is unsaid until it gets through": func(b *bench) {
		h := b.start(bays, "North Bay")
		b.planned(bays)
		b.prepared(h, 0, "turn")
		assert.Zero(b, b.standing(bays).Unsaid, "before it is tried")
		p := b.claimed("one", evening(0).At)
		assert.Zero(b, b.standing(bays).Unsaid, "on its way")
		again := evening(0).At.Add(time.Hour)
		require.NoError(b, b.store.Retry(b.Context(), p, again, "no access"))
		assert.Equal(b, duty.Unsaid{Due: evening(0).At, Again: again}, b.standing(bays).Unsaid)
		p = b.claimed("one", again)
		assert.Equal(b, evening(0).At, b.standing(bays).Unsaid.Due, "tried again, and nobody knows")
		require.NoError(b, b.store.Drop(b.Context(), p, true, "too late"))
		assert.Equal(b, duty.Unsaid{Due: evening(0).At}, b.standing(bays).Unsaid)

		b.prepared(h, 1, "turn")
		p = b.claimed("one", evening(1).At)
		require.NoError(b, b.store.Drop(b.Context(), p, false, "nothing calls for it any more"))
		assert.Equal(b, duty.Unsaid{Due: evening(0).At}, b.standing(bays).Unsaid, "one that nothing calls for says nothing")
		b.sent(h, 2, "water")
		assert.Zero(b, b.standing(bays).Unsaid)
		assert.Zero(b, b.standing(plots))
	},
	"where a place is gone nothing is done until somebody writes there": func(b *bench) {
		h := b.start(bays, "North Bay")
		b.planned(bays)
		b.prepared(h, 0, "turn")
		b.changed(bays, func(*duty.Plan) {})
		_, err := b.store.Trouble(b.Context(), bays, duty.Gone, noon)
		require.NoError(b, err)
		assert.Empty(b, b.stale())
		assert.Empty(b, b.claim("one", evening(0).At))
		b.append(bays, temp(h, 0, 50))
		assert.Equal(b, []heap.Place{bays}, b.stale())
		assert.Len(b, b.claim("one", evening(0).At), 1)
		assert.Zero(b, b.standing(bays).Trouble)
		assert.Zero(b, b.standing(bays).Since)

		b.arm(0)
		require.NoError(b, b.store.GuildGone(b.Context(), bays.Guild, noon))
		due, err := b.store.Due(b.Context(), evening(9).At, all)
		require.NoError(b, err)
		assert.Empty(b, due)
	},
	"a guild that is gone is gone in all its channels, and no other": func(b *bench) {
		for _, at := range []heap.Place{bays, plots, other} {
			b.planned(at)
		}
		require.NoError(b, b.store.GuildGone(b.Context(), bays.Guild, noon))
		require.NoError(b, b.store.GuildGone(b.Context(), bays.Guild, noon.Add(time.Hour)))
		assert.Equal(b, []heap.Place{other}, b.stale())
		assert.Equal(b, duty.Standing{Trouble: duty.Gone, Since: noon}, b.standing(plots))
		assert.Zero(b, b.standing(other))
	},
	"a notice goes to the place of the guild that took a message last": func(b *bench) {
		sheds := heap.Place{Guild: bays.Guild, Channel: "sheds"}
		for n, at := range []heap.Place{other, plots, sheds, bays} {
			h := b.start(at, "Bay")
			b.planned(at)
			b.sent(h, n, "turn")
		}
		for _, row := range []struct {
			besides heap.Place
			want    heap.Place
		}{
			{bays, sheds}, {plots, bays}, {sheds, bays}, {other, heap.Place{}}, {heap.Place{Guild: "none", Channel: "bays"}, heap.Place{}},
		} {
			at, ok, err := b.store.LastSent(b.Context(), row.besides)
			require.NoError(b, err)
			assert.Equal(b, row.want, at)
			assert.Equal(b, row.want != heap.Place{}, ok)
		}
		_, err := b.store.Trouble(b.Context(), sheds, duty.Refused, noon)
		require.NoError(b, err)
		at, _, err := b.store.LastSent(b.Context(), bays)
		require.NoError(b, err)
		assert.Equal(b, plots, at, "not where there is trouble")
	},
}

func (b *bench) standing(at heap.Place) duty.Standing {
	b.Helper()
	s, err := b.store.Standing(b.Context(), at)
	require.NoError(b, err)
	return s
}
