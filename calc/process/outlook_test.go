package process

import (
	"fmt"
	"math"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"heapside/calc/fault"
	"heapside/calc/heap"
)

// looked is the outlook of a record.
func looked(t testing.TB, rec Record, now time.Time, q Question) Outlook {
	t.Helper()
	o, err := learned(t, rec, now).Outlook(q)
	require.NoError(t, err)
	return o
}

func TestOutlookOfAHotHeap(t *testing.T) {
	o := looked(t, bay(), after(5), Question{DepthCm: 40})
	require.Len(t, o.Hours, 14*24+1)
	require.Len(t, o.Days, 14)
	assert.Equal(t, o.Now.Reading, o.Hours[0])
	assert.Equal(t, PhaseHot, o.Now.Phase)
	assert.Equal(t, 63.0, o.LastC)
	assert.Equal(t, 5*24*time.Hour, o.Age)
	assert.InDelta(t, 0, o.Unknown, 1e-9)
	assert.InDelta(t, 62, o.Now.Reading.Mid, 6)
	for _, d := range o.Days {
		ordered(t, d.Reading)
		ordered(t, d.Moisture)
		ordered(t, d.VolumeL)
	}
	first, last := o.Days[0], o.Days[13]
	assert.Less(t, last.Reading.Mid, first.Reading.Mid, "a heap left alone cools within two weeks (process notes 2.2)")
	assert.Less(t, last.VolumeL.Mid, first.VolumeL.Mid, "and shrinks")
	assert.False(t, o.Ready.Likely.Before(after(5).AddDate(0, 0, 28)), "not ready before it has cured")
	assert.Equal(t, o, looked(t, bay(), after(5), Question{DepthCm: 40}), "the same record, the same outlook")
}

func ordered(t *testing.T, b Band) {
	t.Helper()
	assert.LessOrEqual(t, b.Low, b.Mid)
	assert.LessOrEqual(t, b.Mid, b.High)
}

func TestOutlookWidens(t *testing.T) {
	slow(t)
	track := learned(t, bay(), after(5))
	plain, err := track.Outlook(Question{})
	require.NoError(t, err)
	wide, err := track.Outlook(Question{Widen: 2})
	require.NoError(t, err)
	for h := range plain.Hours {
		assert.InDelta(t, plain.Hours[h].Mid, wide.Hours[h].Mid, 1e-9)
		assert.InDelta(t, 2*(plain.Hours[h].High-plain.Hours[h].Low), wide.Hours[h].High-wide.Hours[h].Low, 1e-9)
	}
}

func TestOutlookWithoutWeatherIsWider(t *testing.T) {
	slow(t)
	rec, blind := bay(), bay()
	blind.Weather = nil
	var known, guessed float64 // widths of all bands, since two sets of members differ in any one
	for _, days := range []float64{12, 16} {
		a, b := looked(t, rec, after(days), Question{}), looked(t, blind, after(days), Question{})
		assert.InDelta(t, 1, b.Unknown, 1e-9)
		for i := range a.Days {
			known += a.Days[i].Reading.High - a.Days[i].Reading.Low
			guessed += b.Days[i].Reading.High - b.Days[i].Reading.Low
		}
	}
	assert.Greater(t, guessed, known)
}

func TestNoonInTheGroupsZone(t *testing.T) {
	// Clocks change in Berlin on 29 March 2026, in this fortnight.
	rec := bay()
	for i := range rec.Entries {
		rec.Entries[i].At = rec.Entries[i].At.AddDate(0, 0, -20)
	}
	track := learned(t, rec, after(-15))
	for _, name := range []string{"UTC", "Europe/Berlin", "America/Los_Angeles", "Asia/Kolkata", "Pacific/Chatham"} {
		t.Run(name, func(t *testing.T) {
			zone, err := time.LoadLocation(name)
			if err != nil {
				t.Skip("no time zones here")
			}
			var o Outlook
			track.fortnight(Question{Zone: zone, Widen: 1}, &o)
			require.GreaterOrEqual(t, len(o.Days), 13)
			for i, d := range o.Days {
				noon := d.At.In(zone)
				assert.InDelta(t, 12, float64(noon.Hour())+float64(noon.Minute())/60, 0.51)
				if i > 0 {
					assert.NotEqual(t, o.Days[i-1].At.In(zone).Day(), noon.Day())
				}
			}
		})
	}
}

func TestOutlookNeedsARecord(t *testing.T) {
	_, err := new(Track).Outlook(Question{})
	said, ok := fault.As(err)
	require.True(t, ok)
	assert.Equal(t, fault.Missing, said.Code)
}

func TestDryHeapsWantWater(t *testing.T) {
	slow(t)
	d := diary{start: spring}
	d.at(0, heap.Added{Material: "leaves-dry", VolumeL: 900, MassKg: 72})
	d.at(0, heap.Added{Material: "grass-dry", VolumeL: 300, MassKg: 24})
	d.at(1, heap.Feel{Squeeze: heap.Crumbles})
	rec := bay()
	rec.Entries = d.entries
	o := looked(t, rec, after(1.5), Question{})
	assert.True(t, o.Now.WantsWater)
	assert.Greater(t, o.Now.Dry, 0.9)
	// 96 kg with some 20 % water: 58 % wet basis takes 1.38 kg per kg dry.
	assert.InDelta(t, 80, o.Now.WaterL.Mid, 30)
	d.at(1.4, heap.Watered{Litres: o.Now.WaterL.Mid})
	rec.Entries = d.entries
	o = looked(t, rec, after(1.5), Question{})
	assert.False(t, o.Now.WantsWater)
	assert.InDelta(t, WaterTo, o.Now.Moisture.Mid, 0.04)
}

func TestOldHeapsAreReady(t *testing.T) {
	slow(t)
	o := looked(t, bay(), after(115), Question{})
	assert.Equal(t, PhaseReady, o.Now.Phase)
	assert.False(t, o.Ready.Likely.IsZero())
	assert.InDelta(t, 0, o.Ready.Likely.Sub(o.At).Hours(), 36)
	assert.False(t, o.Turning.Worth, "turning finished compost gains nothing")
}

// tried makes trials that lose so many kg on each day.
func tried(lost []float64, why map[int]string) []trial {
	var out []trial
	for d, kg := range lost {
		out = append(out, trial{lost: kg, days: []point{{kg - 10, 1}}, c: []point{{0, 1}}, why: why[d]})
	}
	return out
}

func TestJudgeTurnDays(t *testing.T) {
	flat := []float64{13, 13, 13.1, 13, 12.9}
	for _, row := range []struct {
		name    string
		lost    []float64
		without float64
		why     map[int]string
		want    []string
		day     int
		flat    bool
	}{
		{"any day", flat, 10, nil, []string{"0-4"}, 0, true},
		{"any day, asked for on the third", flat, 10, map[int]string{3: "hot"}, []string{"0-4"}, 3, true},
		{"best in the middle", []float64{11, 12, 14, 14, 13.9, 12}, 10, nil, []string{"2-4", "0-1", "5-5"}, 2, false},
		{"asked for outside of the best", []float64{11, 12, 14, 14}, 10, map[int]string{0: "hot"}, []string{"2-3", "0-1"}, 2, false},
		{"less than without", flat, 20, nil, []string{"0-4"}, never, true},
		{"next to nothing", []float64{10.2, 10.2}, 10, nil, []string{"0-1"}, never, true},
		{"less than a day", []float64{10.5, 10.5}, 10, nil, []string{"0-1"}, never, true},
	} {
		t.Run(row.name, func(t *testing.T) {
			got := judge(tried(row.lost, row.why), 40, row.without)
			var ranges []string
			for _, r := range got.Ranges {
				ranges = append(ranges, fmt.Sprintf("%d-%d", r.From, r.To))
			}
			assert.Equal(t, row.want, ranges)
			assert.Equal(t, row.day, got.day())
			assert.Equal(t, row.flat, got.Flat)
		})
	}
}

func TestReadyDates(t *testing.T) {
	from := spring
	inf := math.Inf(1)
	r := readyOf([]point{{10, 1}, {20, 1}, {30, 1}, {inf, 1}, {inf, 1}}, from)
	assert.InDelta(t, 0.6, r.Within, 1e-12)
	assert.False(t, r.Early.IsZero())
	assert.Equal(t, from.AddDate(0, 0, 30), r.Likely)
	assert.True(t, r.Late.IsZero(), "a tenth or more are not ready in time")
	assert.True(t, readyOf([]point{{inf, 1}, {inf, 1}}, from).Likely.IsZero())
}

func BenchmarkAdvanceDay(b *testing.B) {
	rec := bay()
	snapshot, err := learned(b, rec, after(89)).MarshalBinary()
	require.NoError(b, err)
	b.ReportAllocs()
	for b.Loop() {
		var t Track
		if err := t.UnmarshalBinary(snapshot); err != nil {
			b.Fatal(err)
		}
		if err := t.Advance(rec, after(90)); err != nil {
			b.Fatal(err)
		}
	}
}

// BenchmarkOutlook is at day 5, when the heap is hot and all is busy.
func BenchmarkOutlook(b *testing.B) {
	track := learned(b, bay(), after(5))
	b.ReportAllocs()
	for b.Loop() {
		if _, err := track.Outlook(Question{}); err != nil {
			b.Fatal(err)
		}
	}
}
