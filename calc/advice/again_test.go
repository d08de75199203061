package advice

import (
	"math/rand/v2"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"heapside/calc/heap"
	"heapside/calc/maturity/scenario"
	"heapside/calc/measure"
)

const someWeeks = 40 * day

// TestLookAgainMissesNothing steps through the days of any record and finds
// nothing to say before the day that was named, and something on it.
func TestLookAgainMissesNothing(t *testing.T) {
	r := rand.New(rand.NewPCG(9, 10))
	for range 300 {
		s := scenario.Random(r)
		again := LookAgain(s, measure.Measures{}, s.Now, someWeeks)
		known := Find(Case{State: s})
		for then := s.Now.AddDate(0, 0, 1); then.Before(again); then = then.AddDate(0, 0, 1) {
			later := heap.Read(s.Heap, s.Entries, then)
			later.VolumeL, later.VolumeHow = s.VolumeL, s.VolumeHow
			require.False(t, news(known, Find(Case{State: later})), "%v", then)
		}
		require.True(t, again.After(s.Now) && !again.After(s.Now.Add(someWeeks)))
	}
}

func TestLookAgain(t *testing.T) {
	london, err := time.LoadLocation("Europe/London")
	require.NoError(t, err)
	curing := func(now time.Time) heap.State {
		ago := func(n int) time.Time { return now.AddDate(0, 0, -n) }
		h := heap.Heap{Container: heap.PalletBay, Aim: heap.Steady, Started: ago(60)}
		return heap.Read(h, []heap.Entry{
			{ID: 1, At: ago(60), Payload: heap.Added{Material: "grass-clippings", VolumeL: 1200, MassKg: 300}},
			{ID: 2, At: ago(50), Payload: heap.Temp{C: 58, DepthCm: 40}},
			{ID: 3, At: ago(12), Payload: heap.Turned{}},
			{ID: 4, At: now, Payload: heap.Temp{C: 30, DepthCm: 40}},
		}, now)
	}
	summer, autumn := time.Date(2026, 6, 15, 18, 0, 0, 0, london), time.Date(2026, 10, 24, 18, 0, 0, 0, london)
	finished := curing(summer)
	finished.Heap.Finished = summer
	rows := []struct {
		name string
		s    heap.State
		from time.Time
		want time.Time
	}{
		{"hot: the next day", reading(58), scenario.Now, scenario.Now.AddDate(0, 0, 1)},
		{"curing: the air is to be read from two weeks on", curing(summer), summer, summer.AddDate(0, 0, 2)},
		{"over a change of the clocks it stays 18:00", curing(autumn), autumn, time.Date(2026, 10, 26, 18, 0, 0, 0, london)},
		{"an empty heap: nothing in sight", heap.State{Now: summer}, summer, summer.Add(someWeeks)},
		{"finished", finished, summer, summer.Add(someWeeks)},
	}
	for _, r := range rows {
		t.Run(r.name, func(t *testing.T) {
			assert.Equal(t, r.want, LookAgain(r.s, measure.Measures{}, r.from, someWeeks))
		})
	}
}

func TestLookAgainNeverLooksBeyondTheHorizon(t *testing.T) {
	assert.Equal(t, scenario.Now.Add(time.Hour), LookAgain(reading(58), measure.Measures{}, scenario.Now, time.Hour))
}

// quiet is a heap with n entries that cures and needs nothing new for two weeks.
func quiet(n int) heap.State {
	now := scenario.Now
	h := heap.Heap{Container: heap.PalletBay, SizeL: 1000, Aim: heap.Steady, Started: now.AddDate(0, 0, -200)}
	var entries []heap.Entry
	add := func(daysAgo int, p heap.Payload) {
		entries = append(entries, heap.Entry{ID: heap.EntryID(len(entries) + 1), At: now.AddDate(0, 0, -daysAgo), Payload: p})
	}
	add(200, heap.Added{Material: "grass-clippings", VolumeL: 1200, MassKg: 300})
	for i := range n - 4 {
		add(190-150*i/n, heap.Temp{C: 58, DepthCm: 40})
	}
	add(22, heap.Turned{})
	add(0, heap.Temp{C: 20, DepthCm: 40})
	add(0, heap.Test{Test: "bag", Passed: true})
	return heap.Read(h, entries, now)
}

func BenchmarkLookAgain50(b *testing.B) {
	s := quiet(50)
	require.Equal(b, s.Now.AddDate(0, 0, 14), LookAgain(s, measure.Measures{}, s.Now, 14*day), "all days are looked at")
	for b.Loop() {
		LookAgain(s, measure.Measures{}, s.Now, 14*day)
	}
}

func BenchmarkFind50(b *testing.B) {
	s := scenario.Long(50)
	for b.Loop() {
		Find(Case{State: s})
	}
}
