package process

import (
	"math"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"

	"heapside/calc/heap"
)

func TestClimateIsPlausible(t *testing.T) {
	for _, row := range []struct {
		name           string
		c              Climate
		july, january  float64 // daily means by the sinusoid, own arithmetic
		daylightInJuly bool
	}{
		{"51 north", Climate{Located: true, Lat: 51}, 18.8, 1.4, true},
		{"35 south", Climate{Located: true, Lat: -35, Lon: 150}, 13.1, 25.0, true},
		{"equator", Climate{Located: true}, 27, 27, true},
		{"north pole", Climate{Located: true, Lat: 90}, -10.4, -41.0, true},
		{"no place", Climate{Lat: 80}, 21.5, 6.2, true},
		{"no number", Climate{Located: true, Lat: math.NaN()}, 21.5, 6.2, true},
	} {
		t.Run(row.name, func(t *testing.T) {
			for month, want := range map[time.Month]float64{time.July: row.july, time.January: row.january} {
				mean, et0, rain := 0.0, 0.0, 0.0
				for h := range 24 {
					x := row.c.Hour(time.Date(2026, month, 20, h, 30, 0, 0, time.UTC))
					assert.Equal(t, x, x.clean().restored(x), "an hour the model takes as it is")
					mean += x.AirC / 24
					et0 += x.ET0Mm
					rain += x.RainMm
				}
				assert.InDelta(t, want, mean, 0.6)
				assert.InDelta(t, rainMmPerDay, rain, 1e-9)
				assert.True(t, et0 >= 0 && et0 < 9)
			}
		})
	}
}

// restored gives back the air of x where only that was held: a pole is colder
// than the model goes.
func (h Hour) restored(x Hour) Hour {
	h.AirC = x.AirC
	return h
}

func TestHourlyKnowsItsHours(t *testing.T) {
	w := hourly{Start: spring, Hours: []Hour{{AirC: 1}, {AirC: 2}}}
	for _, row := range []struct {
		at   time.Duration
		want float64
		ok   bool
	}{{-time.Minute, 0, false}, {0, 1, true}, {59 * time.Minute, 1, true}, {time.Hour, 2, true}, {2 * time.Hour, 0, false}} {
		h, ok := w.Hour(spring.Add(row.at))
		assert.Equal(t, row.ok, ok, "%v", row.at)
		assert.Equal(t, row.want, h.AirC, "%v", row.at)
	}
}

func TestForecastsAreDoubtedMoreTheFurtherTheyLook(t *testing.T) {
	k := sky{weather: mild(60), climate: Climate{Located: true, Lat: 51}, now: hourOf(after(5))}
	last := -1.0
	for _, days := range []int64{0, 1, 5, 9, 10, 14} {
		_, doubt := k.hour(k.now + 24*days)
		assert.GreaterOrEqual(t, doubt, last)
		last = doubt
	}
	assert.Equal(t, 1.0, last)
	_, doubt := k.hour(k.now - 24)
	assert.Zero(t, doubt, "what was measured stands")
	k.load(k.now, 1)
	member := &member{AirC: 7}
	assert.Equal(t, k.airs[airSteps].C, k.of(member).C, "now there is no doubt")
	k.load(k.now+24*20, 1)
	assert.InDelta(t, 8, k.of(member).C-k.airs[airSteps].C, 1e-9, "7 C is nearest to four steps of 2")
}

func TestHoursBefore1970(t *testing.T) {
	at := time.Date(1969, 12, 31, 23, 30, 0, 0, time.UTC)
	assert.Equal(t, int64(-1), hourOf(at))
	assert.Equal(t, at.Truncate(time.Hour), moment(-1))
	assert.Equal(t, int64(1), stride(-1, 24*500, 100), "to midnight")
	assert.Equal(t, int64(24), stride(-24, 24*500, 100))
	assert.Equal(t, int64(5), stride(-24, 24*500, -19), "not past the next entry")
}

func TestGaugeOverridesTheWeather(t *testing.T) {
	at := func(days float64, mm float64) heap.Entry {
		return heap.Entry{At: after(days), Payload: heap.Rain{Mm: mm}}
	}
	start := hourOf(spring)
	weather := func(h int64) float64 {
		if h == start+30 {
			return 4
		}
		return 0
	}
	g := readGauge([]heap.Entry{at(2, 10), {At: after(3), Payload: heap.Turned{}}, at(4, 6), at(4, 3), at(30, 7)}, weather)
	sum := func(from, to float64) (mm float64, known int) {
		for h := start + int64(from*24); h < start+int64(to*24); h++ {
			if x, ok := g.at(h); ok {
				mm += x
				known++
			}
		}
		return mm, known
	}
	mm, _ := sum(-7, 2)
	assert.InDelta(t, 10, mm, 1e-9)
	fell, _ := g.at(start + 30)
	assert.InDelta(t, 10, fell, 1e-9, "all of it when the weather says it fell")
	mm, known := sum(2, 4)
	assert.InDelta(t, 6, mm, 1e-9, "spread evenly where the weather knew of none")
	assert.Equal(t, 48, known)
	mm, known = sum(4, 30)
	assert.InDelta(t, 7, mm, 1e-9)
	assert.Equal(t, gaugeBackH, known, "a reading after a long pause covers a week")
}

func TestRainInTheGaugeWetsTheHeap(t *testing.T) {
	wet := func(mm float64) float64 {
		rec := bay()
		d := diary{start: spring, entries: rec.Entries[:2]}
		d.at(4, heap.Rain{Mm: mm})
		rec.Entries = d.entries
		return learned(t, rec, after(6)).now.band(func(m *member) float64 { return m.S.WaterKg() }).Mid
	}
	assert.Greater(t, wet(30), wet(0)+5)
}
