package advice

import (
	"math/rand/v2"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"heapside/calc/heap"
	"heapside/calc/maturity/scenario"
)

// weatherKinds are the kinds of job that only weather calls for.
var weatherKinds = []string{Wait, Uncover, Rest}

func TestWithoutWeatherNobodySpeaksOfIt(t *testing.T) {
	r := rand.New(rand.NewPCG(11, 12))
	for range 1000 {
		for _, j := range Find(Case{State: scenario.Random(r)}) {
			require.NotContains(t, weatherKinds, j.Kind)
		}
	}
}

// TestMoreRainNeverCallsForTheCan: a heap that waits for some rain waits for more.
func TestMoreRainNeverCallsForTheCan(t *testing.T) {
	s := reading(50)
	s.Heap.Container, s.Squeeze, s.VolumeL = heap.OpenHeap, heap.Crumbles, 900
	waited := false
	for mm := range 80 {
		sky := Sky{Days: []Day{{Start: s.Now.Truncate(day).AddDate(0, 0, 1), RainMm: float64(mm), Ahead: true}}}
		jobs := Find(Case{State: s, Sky: sky})
		waits := find(jobs, Wait) >= 0
		require.True(t, waits || !waited, "%d mm", mm)
		require.NotEqual(t, waits, find(jobs, Water) >= 0, "%d mm: the rain or the can", mm)
		waited = waits
	}
	assert.True(t, waited, "80 mm is enough")
}

func TestWaitingIsNeverUrgent(t *testing.T) {
	r := rand.New(rand.NewPCG(13, 14))
	for range 2000 {
		s := scenario.Random(r)
		for _, j := range Find(Case{State: s, Sky: randomSky(r, s.Now)}) {
			require.False(t, Idle(j.Kind) && j.Urgency > WhenYouCan, j.Kind)
		}
	}
}

func TestComing(t *testing.T) {
	now := scenario.Now
	midnight := now.Truncate(day)
	at := func(n int, mm float64) Day {
		return Day{Start: midnight.AddDate(0, 0, n), RainMm: mm, Ahead: n >= 0}
	}
	rows := []struct {
		name string
		days []Day
		mm   float64
		by   int
		ok   bool
	}{
		{"nothing told", nil, 0, 0, false},
		{"nobody told of the rain", []Day{at(1, -1)}, 0, 0, false},
		{"a drizzle is none", []Day{at(1, 0.6), at(2, 0.3)}, 0, 0, false},
		{"two days", []Day{at(0, 0), at(1, 5), at(2, 7)}, 12, 2, true},
		{"a gap in what is told", []Day{at(0, 4), at(1, -1), at(2, 7)}, 11, 2, true},
		{"what fell already does not come", []Day{at(-1, 20), at(1, 3)}, 3, 1, true},
		{"the fourth day is too far", []Day{at(1, 3), at(4, 30)}, 3, 1, true},
	}
	for _, r := range rows {
		t.Run(r.name, func(t *testing.T) {
			got, ok := Sky{Days: r.days}.coming(now)
			require.Equal(t, r.ok, ok)
			if ok {
				assert.InDelta(t, r.mm, got.mm, 1e-9)
				assert.Equal(t, midnight.AddDate(0, 0, r.by), got.by)
			}
		})
	}
}

func TestDayName(t *testing.T) {
	auckland, err := time.LoadLocation("Pacific/Auckland")
	require.NoError(t, err)
	// 13:00 UTC on Sunday 14 June is Monday 15 June, 01:00, in Auckland.
	now := time.Date(2026, 6, 14, 13, 0, 0, 0, time.UTC)
	for n, want := range []string{"today", "tomorrow", "Wednesday", "Thursday"} {
		assert.Equal(t, want, dayName(time.Date(2026, 6, 15+n, 0, 0, 0, 0, auckland), now))
	}
}
