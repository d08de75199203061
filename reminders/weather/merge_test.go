package weather

import (
	"fmt"
	"math/rand/v2"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// said is a report on some hours of the day, fetched so many hours after its
// midnight.
func said(service string, fetched int, hours ...Hour) Report {
	for i := range hours {
		hours[i].Observed = !hours[i].At.Add(time.Hour).After(at(fetched))
	}
	return Report{Service: service, Place: ghent, FetchedAt: at(fetched), Hours: hours}
}

func rained(hour int, mm float64) Hour { return Hour{At: at(hour), RainMm: new(mm)} }

func TestMergeTakesTheBest(t *testing.T) {
	for _, row := range []struct {
		name    string
		reports []Report
		want    float64
	}{
		{"a newer forecast beats an older", []Report{said(MetNorway, 0, rained(9, 1)), said(MetNorway, 3, rained(9, 2))}, 2},
		{"in whatever order they come", []Report{said(MetNorway, 3, rained(9, 2)), said(MetNorway, 0, rained(9, 1))}, 2},
		{"observed beats forecast", []Report{said(MetNorway, 0, rained(9, 1)), said(OpenMeteo, 12, rained(9, 3))}, 3},
		{"newer observed beats older", []Report{said(OpenMeteo, 12, rained(9, 3)), said(OpenMeteo, 20, rained(9, 4))}, 4},
		{"unknown does not beat known", []Report{said(MetNorway, 0, rained(9, 1)), said(OpenMeteo, 12, Hour{At: at(9), AirC: new(5.0)})}, 1},
	} {
		t.Run(row.name, func(t *testing.T) {
			assert.Equal(t, row.want, *must(t, Merge(row.reports), at(9)).RainMm)
		})
	}
	t.Run("a late forecast of the past does not beat what was observed", func(t *testing.T) {
		stale := said(MetNorway, 20, rained(9, 9))
		stale.Hours[0].Observed = false
		got := must(t, Merge([]Report{said(OpenMeteo, 12, rained(9, 3)), stale}), at(9))
		assert.Equal(t, 3.0, *got.RainMm)
		assert.True(t, got.Observed)
	})
	t.Run("an hour partly from a forecast is not observed", func(t *testing.T) {
		got := Merge([]Report{said(MetNorway, 0, Hour{At: at(9), AirC: new(5.0)}), said(OpenMeteo, 12, rained(9, 3))})
		assert.False(t, got[0].Observed)
	})
	t.Run("an hour of which nothing is known is left out", func(t *testing.T) {
		assert.Empty(t, Merge([]Report{said(OpenMeteo, 12, Hour{At: at(9)})}))
	})
	t.Run("nothing of nothing", func(t *testing.T) { assert.Empty(t, Merge(nil)) })
}

func TestMergeChangesNoReport(t *testing.T) {
	reports := []Report{said(OpenMeteo, 3, rained(9, 2)), said(OpenMeteo, 0, rained(9, 1))}
	Merge(reports)
	assert.Equal(t, 2.0, *reports[0].Hours[0].RainMm)
	assert.Equal(t, at(3), reports[0].FetchedAt)
}

func TestMergeHasEachHourOnceAndInOrder(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	for range 200 {
		var reports []Report
		for range r.IntN(6) {
			var hours []Hour
			for h := r.IntN(20); h < 40; h += 1 + r.IntN(3) {
				hours = append(hours, rained(h, r.Float64()))
			}
			reports = append(reports, said(DefaultOrder[r.IntN(3)], r.IntN(40), hours...))
		}
		lawful(t, Report{Hours: Merge(reports)}, at(0), at(60))
	}
}

func TestDaysFollowTheGardensClock(t *testing.T) {
	brussels, err := time.LoadLocation("Europe/Brussels")
	require.NoError(t, err)
	kolkata, err := time.LoadLocation("Asia/Kolkata")
	require.NoError(t, err)
	santiago, err := time.LoadLocation("America/Santiago")
	require.NoError(t, err)
	for _, row := range []struct {
		name  string
		zone  *time.Location
		start time.Time // any moment of the day
		hours int
	}{
		{"a plain day", brussels, time.Date(2026, 11, 24, 12, 0, 0, 0, brussels), 24},
		{"clocks go forward", brussels, time.Date(2026, 3, 29, 12, 0, 0, 0, brussels), 23},
		{"clocks go back", brussels, time.Date(2026, 10, 25, 12, 0, 0, 0, brussels), 25},
		{"half an hour off", kolkata, time.Date(2026, 11, 24, 12, 0, 0, 0, kolkata), 24},
		{"no midnight", santiago, time.Date(2026, 9, 6, 12, 0, 0, 0, santiago), 23},
	} {
		t.Run(row.name, func(t *testing.T) {
			y, m, d := row.start.Date()
			var hours []Hour
			for h := row.start.UTC().Truncate(time.Hour).Add(-3 * day); h.Before(row.start.Add(3 * day)); h = h.Add(time.Hour) {
				hours = append(hours, Hour{At: h, RainMm: new(0.5), AirC: new(float64(h.In(row.zone).Hour()))})
			}
			found := false
			for _, got := range Days(hours, row.zone) {
				gy, gm, gd := got.Start.Date()
				if gy != y || gm != m || gd != d {
					continue
				}
				found = true
				assert.Equal(t, row.hours, got.Hours)
				assert.Equal(t, row.hours, got.RainHours)
				assert.InDelta(t, 0.5*float64(row.hours), *got.RainMm, 1e-9)
				assert.Equal(t, 23.0, *got.MaxC)
			}
			assert.True(t, found)
		})
	}
	t.Run("unknown is not 0", func(t *testing.T) {
		got := Days([]Hour{{At: at(3), AirC: new(4.0)}, {At: at(4), RainMm: new(1.5)}, {At: at(5)}}, time.UTC)
		require.Len(t, got, 1)
		assert.Equal(t, 1, got[0].RainHours)
		assert.Equal(t, 24, got[0].Hours)
		assert.Equal(t, 1.5, *got[0].RainMm)
		assert.Nil(t, got[0].ET0Mm)
		assert.Equal(t, 4.0, *got[0].MinC)
	})
}

func TestFillET0(t *testing.T) {
	// July in Uccle as in FAO-56 example 18 (12.3 to 21.5 C), by temperature and
	// humidity; the example's day has 3.9 mm (seen second-hand).
	uccle := Place{50.8, 4.35}
	midnight := time.Date(2026, 7, 6, 0, 0, 0, 0, time.UTC)
	build := func() (hours []Hour) {
		for h := range 24 {
			c := 12.3
			if h >= 8 && h < 20 {
				c = 21.5
			}
			hours = append(hours, Hour{At: midnight.Add(time.Duration(h) * time.Hour), AirC: new(c), RH: new(0.735), WindMS: new(2.78)})
		}
		return hours
	}
	total := func(hours []Hour) (mm float64, known int) {
		for _, h := range hours {
			if h.ET0Mm != nil {
				mm, known = mm+*h.ET0Mm, known+1
			}
		}
		return mm, known
	}
	t.Run("a day is filled", func(t *testing.T) {
		hours := build()
		FillET0(hours, uccle, 100)
		mm, known := total(hours)
		assert.Equal(t, 24, known)
		assert.InDelta(t, 3.9, mm, 0.7)
		assert.Zero(t, *hours[1].ET0Mm, "at night")
		assert.Greater(t, *hours[12].ET0Mm, *hours[7].ET0Mm)
	})
	t.Run("what is known stays", func(t *testing.T) {
		hours := build()
		hours[12].ET0Mm = new(0.123)
		FillET0(hours, uccle, 100)
		assert.Equal(t, 0.123, *hours[12].ET0Mm)
	})
	t.Run("too few hours stay unknown", func(t *testing.T) {
		hours := build()[:enoughHours-1]
		FillET0(hours, uccle, 100)
		_, known := total(hours)
		assert.Zero(t, known)
	})
	t.Run("the day is the sun's, not Greenwich's", func(t *testing.T) {
		hours := append(build(), build()...)
		for i := range hours {
			hours[i].At = midnight.Add(time.Duration(i+8) * time.Hour) // midnight at 120 W
		}
		FillET0(hours, Place{45, -120}, 100)
		mm, known := total(hours[:24])
		assert.Equal(t, 24, known)
		assert.Positive(t, mm)
		assert.Zero(t, *hours[1].ET0Mm)
	})
	t.Run("heights and places that cannot be stay unknown", func(t *testing.T) {
		hours := build()
		FillET0(hours, uccle, 1e6)
		_, known := total(hours)
		assert.Zero(t, known)
	})
}

func TestStandsInForET0(t *testing.T) {
	w := newWorld(t, only(NWS))
	r := w.Weather(t.Context(), about(portland, 0, 3*day))
	filled := 0
	for _, h := range r.Hours {
		if h.ET0Mm != nil {
			filled++
		}
	}
	assert.GreaterOrEqual(t, filled, 48, "of the %d hours", len(r.Hours))
}

// season is 90 days of three-hourly reports, each with two days past and
// fifteen to come.
func season() (reports []Report) {
	for n := range 90 * 8 {
		var hours []Hour
		for h := n*3 - 48; h < n*3+360; h++ {
			hours = append(hours, Hour{At: at(h), AirC: new(8.0), RH: new(0.8), RainMm: new(0.1), ET0Mm: new(0.05), WindMS: new(3.0)})
		}
		reports = append(reports, said(OpenMeteo, n*3, hours...))
	}
	return reports
}

func BenchmarkMergeSeason(b *testing.B) {
	reports := season()
	b.ReportAllocs()
	for b.Loop() {
		Merge(reports)
	}
}

func BenchmarkDecodeNWS(b *testing.B) {
	body, s := recorded(b, noon), &nws{wire: testWire(NWS)}
	b.SetBytes(int64(len(body)))
	for b.Loop() {
		if _, err := s.decode(body, at(-48), at(360)); err != nil {
			b.Fatal(err)
		}
	}
}

func ExampleDays() {
	for _, d := range Days([]Hour{rained(22, 1), rained(23, 2), rained(24, 4)}, time.FixedZone("one ahead", 3600)) {
		fmt.Println(d.Start.Format("2 January"), *d.RainMm, "mm")
	}
	// Output:
	// 24 November 1 mm
	// 25 November 6 mm
}
