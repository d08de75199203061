package reminders

import (
	"context"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"heapside/calc/advice"
	"heapside/calc/duty"
	"heapside/calc/heap"
	"heapside/calc/measure"
)

// advised finds what the record calls for, as the assistant does.
type advised struct{ *garden }

// Jobs implements Finder.
func (a advised) Jobs(ctx context.Context, at heap.Place, now time.Time) ([]duty.Found, error) {
	s, err := a.engine.survey(ctx, at, now)
	return onRecord(s.heaps, s.garden.Measures), err
}

// A place is not looked at each day while nothing calls for work, and yet what
// is said is the same.
func TestLookingAheadChangesNothingThatIsSaid(t *testing.T) {
	said := func(ahead bool) ([]duty.Post, int) {
		g := newGarden(t)
		g.engine = New(g.db, advised{g}, g.voice, Config{Now: g.clock, Owner: "a"})
		if !ahead {
			g.engine.foresee = atOnce
		}
		g.plan(bays)
		log := func(day int, payloads ...heap.Payload) {
			at := noon.AddDate(0, 0, day)
			g.set(at)
			for _, p := range payloads {
				_, err := g.db.Append(t.Context(), bays, heap.Entry{Heap: g.bay.ID, At: at, Logged: at, By: wren, Payload: p})
				require.NoError(t, err)
			}
		}
		log(0, heap.Added{Material: "grass", Name: "grass clippings", VolumeL: 300, MassKg: 120}, heap.Temp{C: 20}, heap.Feel{Squeeze: heap.Drops})
		for day := range 100 {
			switch day {
			case 3, 8, 15:
				log(day, heap.Temp{C: 66})
			case 9, 20:
				log(day, heap.Turned{}, heap.Feel{Squeeze: heap.Holds})
			case 24, 60:
				log(day, heap.Temp{C: 24}, heap.Temp{C: 18, Spot: heap.SpotAir})
			}
			g.at(noon.AddDate(0, 0, day))
			g.at(six.AddDate(0, 0, day))
		}
		return g.voice.said, g.engine.Stats().Quiet
	}
	always, looks := said(false)
	ahead, fewer := said(true)
	require.NotEmpty(t, always)
	brief := func(posts []duty.Post) (out []string) {
		for _, p := range posts {
			for _, i := range p.Items {
				out = append(out, p.Day.String()+" "+i.Kind)
			}
		}
		return out
	}
	assert.Equal(t, brief(always), brief(ahead))
	assert.Less(t, fewer, looks)
	t.Logf("looks in vain over 100 days: %d, looking ahead %d", looks, fewer)
}

func TestADayThatStandsOutIsNotPassedOver(t *testing.T) {
	g := newGarden(t)
	g.engine.foresee = func(_ heap.State, _ measure.Measures, from time.Time, _ time.Duration) time.Time {
		return from.AddDate(1, 0, 0)
	}
	s := scene{now: noon, zone: time.UTC, plan: duty.Usual(), heaps: []heap.State{{}}}
	next := func(found ...duty.Found) duty.Date { return g.engine.next(s, noon, found).Day }
	assert.Equal(t, monday.Add(3), next(), "three days are the most")
	assert.Equal(t, monday, next(g.turn()), "there is something to say")
	s.items = []duty.Item{{Day: monday.Add(-1), Found: g.turn(), State: duty.Open}}
	s.items[0].Urgency = advice.Soon
	soon := g.turn()
	soon.Urgency = advice.Soon
	assert.Equal(t, monday.Add(1), next(soon), "what was named yesterday is named every two days")
	s.items[0].State, s.items[0].Until = duty.Later, monday.Add(2)
	assert.Equal(t, monday.Add(2), next(), "put off to that day")
	s.plan.Weekly = duty.Week(time.Tuesday)
	assert.Equal(t, monday.Add(1), next(), "the week is summed up")
	s.plan.On = false
	assert.True(t, next().IsZero())
}
