package storetest

import (
	"errors"
	"strings"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"heapside/calc/audit"
	"heapside/calc/duty"
	"heapside/calc/fault"
	"heapside/calc/heap"
)

// acts are all that people changed in a place, oldest first.
func (b *bench) acts(at heap.Place) []audit.Act {
	b.Helper()
	acts, n, err := b.store.Acts(b.Context(), at, "", time.Time{}, all)
	require.NoError(b, err)
	require.Len(b, acts, n)
	return acts
}

// whats are what acts changed, those of one act in a row.
func whats(acts []audit.Act) []string {
	var all []string
	for _, a := range acts {
		var said []string
		for _, c := range a.Changes {
			said = append(said, strings.TrimSuffix(string(c.What)+" "+c.Of, " ")+" "+string(c.From)+">"+string(c.To))
		}
		all = append(all, string(a.Topic)+": "+strings.Join(said, ", "))
	}
	return all
}

var auditTests = map[string]func(*bench){
	"what people change is kept, with who and when": func(b *bench) {
		g := heap.Garden{Place: bays, Zone: "Europe/London"}
		require.NoError(b, b.store.SaveGarden(b.Context(), g, wren, noon))
		g.Zone, g.Organisers = "Asia/Kathmandu", []heap.Person{tamsy}
		require.NoError(b, b.store.SaveGarden(b.Context(), g, tamsy, noon.Add(time.Minute)))
		require.NoError(b, b.store.SaveStock(b.Context(), bays, wren, noon.Add(2*time.Minute), stock("straw", 40), stock("leaves", 100)))
		require.NoError(b, b.store.SaveStock(b.Context(), bays, tamsy, noon.Add(3*time.Minute), stock("straw", 0)))
		require.NoError(b, b.store.SaveMaterial(b.Context(), bays, grass(bays), wren, noon.Add(4*time.Minute)))
		_, err := b.store.ChangePlan(b.Context(), bays, wren, noon.Add(5*time.Minute), func(p *duty.Plan) error {
			p.On, p.At = true, 7*60
			return nil
		})
		require.NoError(b, err)

		acts := b.acts(bays)
		const spread = `{"Low":180,"Typical":210.5,"High":260}`
		assert.Equal(b, []string{
			`settings: zone >"Europe/London"`, `settings: zone "Europe/London">"Asia/Kathmandu", organiser >true`,
			`stock: stock straw >40, stock leaves >100`, `stock: stock straw 40>`,
			`stock: carbon grass >` + spread + `, density grass >` + spread,
			`reminders: reminders false>true, days >0, hour >420, quiet >{"from":0,"to":0}`,
		}, whats(acts))
		for i, want := range []heap.Person{wren, tamsy, wren, tamsy, wren, wren} {
			assert.Equal(b, want, acts[i].By)
			assert.Equal(b, noon.Add(time.Duration(i)*time.Minute), acts[i].At)
		}
		assert.Equal(b, []heap.Person{tamsy}, acts[1].Changes[1].People)
	},
	"what changes nothing is not kept": func(b *bench) {
		b.fill(bays)
		b.planned(bays)
		before := b.acts(bays)
		require.NotEmpty(b, before)
		require.NoError(b, b.store.SaveGarden(b.Context(), garden(bays), tamsy, noon))
		require.NoError(b, b.store.SaveStock(b.Context(), bays, tamsy, noon, stock("straw", 40), stock("leaves", 0)))
		require.NoError(b, b.store.SaveMaterial(b.Context(), bays, grass(bays), tamsy, noon))
		b.changed(bays, func(*duty.Plan) {})
		b.changed(bays, func(p *duty.Plan) { p.Rota.Members[0].Name = "Wren of the mill" })
		assert.Equal(b, before, b.acts(bays))
	},
	"what fails is neither changed nor kept": func(b *bench) {
		b.fill(bays)
		b.planned(bays)
		before, acts := b.everything(bays), b.acts(bays)
		b.refused(fault.OutOfRange, b.store.SaveGarden(b.Context(), heap.Garden{Place: bays, Located: true, Lat: 91}, wren, noon))
		b.refused(fault.OutOfRange, b.store.SaveStock(b.Context(), bays, wren, noon, stock("straw", 4), stock("leaves", -1)))
		b.refused(fault.TooLong, b.store.SaveStock(b.Context(), bays, wren, noon, stock("straw", 4), stock(strings.Repeat("x", 200), 1)))
		_, err := b.store.ChangePlan(b.Context(), bays, wren, noon, func(p *duty.Plan) error { p.On = false; return errors.New("no") })
		require.Error(b, err)
		_, err = b.store.ChangePlan(b.Context(), bays, wren, noon, func(p *duty.Plan) error { p.At = 22 * 60; return nil })
		b.refused(fault.OutOfRange, err)
		assert.Equal(b, before, b.everything(bays))
		assert.Equal(b, acts, b.acts(bays))
	},
	"the newest of a topic since a moment are listed, and all counted": func(b *bench) {
		for i := range 9 {
			at := noon.Add(time.Duration(i) * time.Hour)
			require.NoError(b, b.store.SaveStock(b.Context(), bays, wren, at, stock("straw", float64(i+1))))
			if i%3 == 0 {
				require.NoError(b, b.store.SaveGarden(b.Context(), heap.Garden{Place: bays, Language: []string{"de", "fr", "nl"}[i/3]}, wren, at))
			}
		}
		for _, row := range []struct {
			topic audit.Topic
			since time.Time
			limit int
			want  []string
			all   int
		}{
			{"", time.Time{}, 2, []string{"stock: stock straw 7>8", "stock: stock straw 8>9"}, 12},
			{"", noon.Add(7 * time.Hour), all, []string{"stock: stock straw 7>8", "stock: stock straw 8>9"}, 2},
			{audit.Settings, time.Time{}, 2, []string{`settings: language "de">"fr"`, `settings: language "fr">"nl"`}, 3},
			{audit.Stock, noon.Add(6 * time.Hour), 1, []string{"stock: stock straw 8>9"}, 3},
			{audit.Reminders, time.Time{}, all, nil, 0},
		} {
			acts, n, err := b.store.Acts(b.Context(), bays, row.topic, row.since, row.limit)
			require.NoError(b, err)
			assert.Equal(b, row.want, whats(acts))
			assert.Equal(b, row.all, n)
		}
	},
	"of changes at once each is kept with what it found": func(b *bench) {
		for _, err := range together(8, func(i int) error {
			return b.store.SaveStock(b.Context(), bays, wren, noon, stock("straw", float64(i+1)))
		}) {
			require.NoError(b, err)
		}
		from := ""
		for _, a := range b.acts(bays) {
			assert.Equal(b, from, string(a.Changes[0].From), "the one before it")
			from = string(a.Changes[0].To)
		}
	},
	"a forgotten person is taken out of what was changed": func(b *bench) {
		require.NoError(b, b.store.SaveGarden(b.Context(), heap.Garden{Place: bays, Organisers: []heap.Person{wren, tamsy}}, wren, noon))
		b.planned(bays)
		b.changed(bays, func(p *duty.Plan) {
			p.Rota.Members[0], p.Rota.Members[1] = p.Rota.Members[1], p.Rota.Members[0]
			p.Rota.StandIns = []duty.StandIn{{For: tamsy, By: wren}}
		})
		before := b.acts(bays)
		_, err := b.store.ForgetPerson(b.Context(), wren.ID)
		require.NoError(b, err)
		after := b.acts(bays)
		assert.Equal(b, whats(before), whats(after))
		for _, a := range after {
			assert.NotEqual(b, wren, a.By)
			for _, c := range a.Changes {
				assert.NotContains(b, c.People, wren)
				assert.NotContains(b, c.Was, wren)
			}
		}
		somebody := heap.Person{Name: "somebody"}
		last := after[len(after)-1].Changes
		require.Len(b, last, 2)
		assert.Equal(b, audit.Change{What: audit.Order, People: []heap.Person{tamsy, somebody}, Was: []heap.Person{somebody, tamsy}}, last[0])
		assert.Equal(b, []heap.Person{tamsy, somebody}, last[1].People)
	},
}
