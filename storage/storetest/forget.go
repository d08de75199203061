package storetest

import (
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"heapside/calc/duty"
	"heapside/calc/heap"
)

var forgetTests = map[string]func(*bench){
	"a forgotten person becomes somebody in all places, others stay": func(b *bench) {
		h, away := b.start(bays, "North Bay"), b.start(other, "Old Bay")
		stored := b.append(bays, temp(h, time.Hour, 58), heap.Entry{Heap: h.ID, At: noon, Logged: noon, By: tamsy, Payload: heap.Turned{}})
		require.NoError(b, b.store.SaveGarden(b.Context(), heap.Garden{Place: bays, Organisers: []heap.Person{wren, tamsy}}, wren, noon))
		_, err := b.store.ChangePlan(b.Context(), bays, wren, noon, func(p *duty.Plan) error {
			*p = duty.Usual()
			for _, who := range []heap.Person{wren, tamsy} {
				p.Rota.Members = append(p.Rota.Members, duty.Member{Person: who})
			}
			p.Rota.StandIns = []duty.StandIn{{For: tamsy, By: wren}}
			p.Taught = []duty.Taught{{Heap: h.ID, Kind: "turn", Never: true, By: wren}}
			return nil
		})
		require.NoError(b, err)

		_, err = b.store.ForgetPerson(b.Context(), wren.ID)
		require.NoError(b, err)
		somebody := heap.Person{Name: "somebody"}
		got := b.entries(h)
		require.Len(b, got, 3)
		for _, e := range got {
			want := somebody
			if e.ID == stored[1].ID {
				want = tamsy
			}
			assert.Equal(b, want, e.By)
			if e.ID == stored[0].ID {
				assert.Equal(b, stored[0].Payload, e.Payload, "what was read stays")
			}
		}
		assert.Equal(b, somebody, b.entries(away)[0].By)
		g, err := b.store.Garden(b.Context(), bays)
		require.NoError(b, err)
		assert.Equal(b, []heap.Person{tamsy}, g.Organisers)
		plan := b.plan(bays)
		assert.Equal(b, []duty.Member{{Person: tamsy}}, plan.Rota.Members)
		assert.Empty(b, plan.Rota.StandIns)
		assert.Equal(b, somebody, plan.Taught[0].By)
		assert.True(b, plan.Taught[0].Never, "what was taught stays")
	},
	"a forgotten guild is gone, the others stay, and it can begin anew": func(b *bench) {
		h := b.start(bays, "North Bay")
		b.start(plots, "Kitchen Bin")
		away := b.start(other, "Old Bay")
		taken := b.append(bays, temp(h, time.Hour, 58))
		b.void(bays, taken[0].ID)
		b.planned(bays)
		require.NoError(b, b.store.SaveStock(b.Context(), bays, wren, noon, heap.Stock{Material: "straw", Said: "a bale", VolumeL: 120, At: noon}))

		_, err := b.store.ForgetGuild(b.Context(), bays.Guild)
		require.NoError(b, err)
		for _, at := range []heap.Place{bays, plots} {
			heaps, err := b.store.Heaps(b.Context(), at)
			require.NoError(b, err)
			assert.Empty(b, heaps)
			assert.Equal(b, duty.Plan{}, b.plan(at))
		}
		stock, err := b.store.Stock(b.Context(), bays)
		require.NoError(b, err)
		assert.Empty(b, stock)
		assert.Len(b, b.entries(away), 1)
		again := b.start(bays, "North Bay")
		assert.Greater(b, again.ID, away.ID, "no number is given twice")
	},
}
