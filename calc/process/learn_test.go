package process

import (
	"fmt"
	"math"
	"reflect"
	"slices"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"heapside/calc/fault"
	"heapside/calc/feedstock"
	"heapside/calc/heap"
)

var spring = time.Date(2026, 4, 1, 9, 0, 0, 0, time.UTC)

// diary builds the entries of one heap.
type diary struct {
	start   time.Time
	entries []heap.Entry
}

func (d *diary) at(days float64, p heap.Payload) {
	at := d.start.Add(time.Duration(days * 24 * float64(time.Hour)))
	d.entries = append(d.entries, heap.Entry{ID: heap.EntryID(len(d.entries) + 1), Heap: 7, At: at, Logged: at, Payload: p})
}

// bay is a pallet bay of about a cubic metre of grass and leaves with twelve
// readings in 90 days: a good season as the trade tells it, no real heap.
func bay() Record {
	d := diary{start: spring}
	d.at(0, heap.Added{Material: "grass-clippings", VolumeL: 400, MassKg: 100})
	d.at(0.01, heap.Added{Material: "leaves-dry", VolumeL: 600, MassKg: 48})
	d.at(0.02, heap.Watered{Litres: 40})
	readings := []struct{ day, c float64 }{{1.2, 38}, {2.3, 55}, {4, 63}, {6, 61}, {8.2, 48}, {10, 57}, {14, 52}, {21, 45}, {28, 36}, {40, 27}, {60, 20}, {85, 19}}
	for _, r := range readings {
		d.at(r.day, heap.Temp{C: r.c, DepthCm: 40})
	}
	d.at(7, heap.Turned{})
	d.at(20, heap.Turned{})
	d.at(20, heap.Feel{Squeeze: heap.Drops})
	return Record{
		Heap:    heap.Heap{ID: 7, Name: "North Bay", Container: heap.PalletBay, SizeL: 1000, Started: spring},
		Entries: d.entries, Table: feedstock.Default(), Weather: mild(120), Climate: Climate{Located: true, Lat: 51, Lon: 0},
	}
}

// hourly is weather known hour by hour from a start on a full hour.
type hourly struct {
	Start time.Time
	Hours []Hour
}

// Hour is the hour that holds t; false before the start and after the end.
func (w hourly) Hour(t time.Time) (Hour, bool) {
	since := t.Sub(w.Start)
	i := int(since / time.Hour)
	if since < 0 || i >= len(w.Hours) {
		return Hour{}, false
	}
	return w.Hours[i], true
}

// learn is the track of a record from the first addition to now.
func learn(rec Record, now time.Time) (*Track, error) {
	t := new(Track)
	return t, t.Advance(rec, now)
}

// mild is the climate of 51 N as though it had been measured.
func mild(days int) hourly {
	w := hourly{Start: spring.Truncate(24*time.Hour).AddDate(0, 0, -2)}
	c := Climate{Located: true, Lat: 51}
	for h := range (days + 2) * 24 {
		w.Hours = append(w.Hours, c.Hour(w.Start.Add(time.Duration(h)*time.Hour)))
	}
	return w
}

func after(days float64) time.Time { return spring.Add(time.Duration(days * 24 * float64(time.Hour))) }

// slow passes over a test that learns many heaps where that is not wanted.
func slow(t *testing.T) {
	t.Helper()
	if testing.Short() || underRace {
		t.Skip("learns many heaps")
	}
}

func TestEveryNumberOfAMemberIsInTheSnapshot(t *testing.T) {
	assert.Equal(t, stateValues, floats(reflect.TypeFor[member]())-floats(reflect.TypeFor[Params]()))
	var m member
	seen := map[*float64]bool{}
	for _, v := range m.values() {
		seen[v] = true
	}
	assert.Len(t, seen, stateValues)
}

func floats(t reflect.Type) int {
	if t.Kind() != reflect.Struct {
		return 1
	}
	n := 0
	for i := range t.NumField() {
		n += floats(t.Field(i).Type)
	}
	return n
}

func TestLearnFollowsTheReadings(t *testing.T) {
	slow(t)
	rec := bay()
	for _, e := range rec.Entries {
		read, ok := e.Payload.(heap.Temp)
		if !ok || e.At.After(after(30)) {
			continue
		}
		t.Run(fmt.Sprintf("%g", read.C), func(t *testing.T) {
			got := learned(t, rec, e.At)
			at := got.now.reading(40)
			assert.InDelta(t, read.C, at.Mid, 12)
			assert.Less(t, at.High-at.Low, 45.0)
		})
	}
}

func learned(t testing.TB, rec Record, now time.Time) *Track {
	t.Helper()
	track, err := learn(rec, now)
	require.NoError(t, err)
	return track
}

func TestSameRecordSameAnswer(t *testing.T) {
	a, b := learned(t, bay(), after(12)), learned(t, bay(), after(12))
	assert.Equal(t, a.now, b.now)
	other := bay()
	other.Heap.ID++
	assert.NotEqual(t, a.now.members, learned(t, other, after(12)).now.members, "another heap, other chances")
	shuffled := bay()
	slices.Reverse(shuffled.Entries)
	assert.Equal(t, a.now, learned(t, shuffled, after(12)).now, "the order of the list says nothing")
}

// TestWeatherKnownLateIsLearned: a place set late, and weather told late, give
// the answer of a record that had them from the start.
func TestWeatherKnownLateIsLearned(t *testing.T) {
	slow(t)
	full := bay()
	want := learned(t, full, after(13))
	for _, tt := range []struct {
		name   string
		before func(*Record)
	}{
		{"no weather before", func(r *Record) { r.Weather = nil }},
		{"no place before", func(r *Record) { r.Climate = Climate{} }},
		{"two days missing before", func(r *Record) {
			r.Weather = gap{full.Weather, after(4), after(6)}
		}},
	} {
		t.Run(tt.name, func(t *testing.T) {
			rec := full
			tt.before(&rec)
			track := learned(t, rec, after(12))
			require.NoError(t, track.Advance(full, after(13)))
			assert.Equal(t, want.now, track.now)
		})
	}
	t.Run("an evening told late changes little and is let be", func(t *testing.T) {
		rec := full
		rec.Weather = gap{full.Weather, after(4), after(4.3)}
		track := learned(t, rec, after(12))
		assert.True(t, track.Knows(full, after(13)))
	})
	t.Run("a service that is down now takes nothing back", func(t *testing.T) {
		track := learned(t, full, after(12))
		rec := full
		rec.Weather = nil
		assert.True(t, track.Knows(rec, after(13)))
	})
}

// gap is weather that nobody told from one moment to another.
type gap struct {
	Weather
	from, to time.Time
}

func (g gap) Hour(t time.Time) (Hour, bool) {
	if !t.Before(g.from) && t.Before(g.to) {
		return Hour{}, false
	}
	return g.Weather.Hour(t)
}

func TestGoingOnGivesWhatStartingOverGives(t *testing.T) {
	track := learned(t, bay(), after(0.5))
	for _, days := range []float64{1, 2.4, 5, 5.01, 9, 12.3, 15} {
		snapshot, err := track.MarshalBinary()
		require.NoError(t, err)
		require.Less(t, len(snapshot), 64<<10)
		*track = Track{}
		require.NoError(t, track.UnmarshalBinary(snapshot))
		if days > 5 {
			require.True(t, track.Knows(bay(), after(days)))
		}
		require.NoError(t, track.Advance(bay(), after(days)))
		assert.Equal(t, learned(t, bay(), after(days)).now, track.now, "day %g", days)
	}
}

func TestEntriesBeforeTheBaseUndoIt(t *testing.T) {
	slow(t)
	voided := func(r *Record, i int) {
		r.Entries[i].VoidedBy = 99
	}
	add := func(r *Record, days float64, p heap.Payload) {
		d := diary{start: spring, entries: r.Entries}
		d.at(days, p)
		r.Entries = d.entries
	}
	for _, row := range []struct {
		name   string
		change func(*Record)
		knows  bool
	}{
		{"nothing new", func(*Record) {}, true},
		{"a reading taken back", func(r *Record) { voided(r, 5) }, false},
		{"a turn logged late", func(r *Record) { add(r, 8.5, heap.Turned{}) }, false},
		{"a note logged late", func(r *Record) { add(r, 8.5, heap.Note{Text: "it rained"}) }, true},
		{"a reading of yesterday", func(r *Record) { add(r, 11.2, heap.Temp{C: 34}) }, true},
		{"rain measured over the last week", func(r *Record) { add(r, 11.9, heap.Rain{Mm: 12}) }, false},
		{"another container from the first", func(r *Record) { r.Heap.Container = heap.Tumbler }, false},
		{"another table", func(r *Record) { r.Table = nil }, false},
		{"another size from today on", func(r *Record) {
			add(r, 11.9, heap.Changed{Field: "size", From: "1000 l", To: "800 l"})
			r.Heap.SizeL = 800
		}, true},
		{"another container from today on", func(r *Record) {
			add(r, 11.9, heap.Changed{Field: "container", From: string(heap.PalletBay), To: string(heap.Tumbler)})
			r.Heap.Container = heap.Tumbler
		}, true},
	} {
		t.Run(row.name, func(t *testing.T) {
			track := learned(t, bay(), after(12))
			rec := bay()
			row.change(&rec)
			assert.Equal(t, row.knows, track.Knows(rec, after(12)))
			require.NoError(t, track.Advance(rec, after(12)))
			assert.Equal(t, learned(t, rec, after(12)).now, track.now)
		})
	}
}

func TestLearnRefusesEmptyHeaps(t *testing.T) {
	for _, row := range []struct {
		name   string
		change func(*Record)
	}{
		{"no entries", func(r *Record) { r.Entries = nil }},
		{"readings but no material", func(r *Record) { r.Entries = r.Entries[2:] }},
		{"everything still to come", func(r *Record) {
			for i := range r.Entries {
				r.Entries[i].At = after(100)
			}
		}},
		{"emptied since", func(r *Record) {
			d := diary{start: spring, entries: r.Entries}
			d.at(29, heap.Moved{Share: 1})
			r.Entries = d.entries
		}},
		{"additions of nothing", func(r *Record) {
			r.Entries = r.Entries[:2]
			for i := range r.Entries {
				r.Entries[i].Payload = heap.Added{Material: "leaves-dry"}
			}
		}},
		{"masses that are no numbers", func(r *Record) {
			r.Entries = r.Entries[:1]
			r.Entries[0].Payload = heap.Added{Material: "leaves-dry", MassKg: math.NaN()}
		}},
	} {
		t.Run(row.name, func(t *testing.T) {
			rec := bay()
			row.change(&rec)
			_, err := learn(rec, after(30))
			said, ok := fault.As(err)
			require.True(t, ok, "%v", err)
			assert.Equal(t, fault.Missing, said.Code)
			assert.Contains(t, said.Message, "Nothing is on record as put in")
		})
	}
}

func TestLearnBearsBadRecords(t *testing.T) {
	plain := learned(t, bay(), after(12)).now.reading(40)
	for _, row := range []struct {
		name    string
		change  func(*Record, *diary)
		withinC float64 // of the median without the trouble
	}{
		{"a reading nothing can have", func(_ *Record, d *diary) { d.at(11, heap.Temp{C: 180}) }, 0},
		{"a reading that is no number", func(_ *Record, d *diary) { d.at(11, heap.Temp{C: math.NaN()}) }, 0},
		{"Fahrenheit taken for Celsius", func(_ *Record, d *diary) { d.at(11.5, heap.Temp{C: 93}) }, 6},
		{"the air taken for the heap", func(_ *Record, d *diary) { d.at(11, heap.Temp{C: 5}) }, 8},
		{"the air, said so", func(_ *Record, d *diary) { d.at(11, heap.Temp{C: 5, Spot: " Air "}) }, 0},
		{"two turns in a minute", func(_ *Record, d *diary) { d.at(7.0005, heap.Turned{Note: "again"}) }, 0},
		{"a reading said twice", func(_ *Record, d *diary) { d.at(10.001, heap.Temp{C: 57, DepthCm: 40, Said: "36 C"}) }, 0},
		{"a smell", func(_ *Record, d *diary) { d.at(11, heap.Smell{Smell: "ammonia"}) }, 3},
		{"a height", func(_ *Record, d *diary) { d.at(11, heap.Height{Cm: 45}) }, 6},
		{"an unknown material", func(_ *Record, d *diary) { d.at(1, heap.Added{Material: "moon dust", VolumeL: 10, MassKg: 3}) }, 10},
		{"no weather", func(r *Record, _ *diary) { r.Weather = nil }, 10},
		{"weather with a gap", func(r *Record, _ *diary) { r.Weather = gap{r.Weather, after(5), after(9)} }, 10},
		{"weather that is no number", func(r *Record, _ *diary) { r.Weather = broken{} }, 10},
		{"no place", func(r *Record, _ *diary) { r.Weather, r.Climate = nil, Climate{} }, 12},
		{"the pole", func(r *Record, _ *diary) { r.Climate = Climate{Located: true, Lat: 90} }, 0},
		{"no size", func(r *Record, _ *diary) { r.Heap.SizeL = 0 }, 0},
		{"no table", func(r *Record, _ *diary) { r.Table = nil }, 15},
	} {
		t.Run(row.name, func(t *testing.T) {
			rec := bay()
			d := diary{start: spring, entries: rec.Entries}
			row.change(&rec, &d)
			rec.Entries = d.entries
			got := learned(t, rec, after(12))
			at := got.now.reading(40)
			assert.InDelta(t, plain.Mid, at.Mid, row.withinC+1e-9)
			if row.withinC == 0 {
				assert.Equal(t, plain, at)
			}
			sound(t, got)
		})
	}
}

// broken says that it knows and does not.
type broken struct{}

func (broken) Hour(time.Time) (Hour, bool) {
	return Hour{AirC: math.NaN(), RH: math.Inf(1), RainMm: -5}, true
}

// sound checks that no member is impossible.
func sound(t *testing.T, track *Track) {
	t.Helper()
	total := 0.0
	for i := range track.now.members {
		m := &track.now.members[i]
		for _, v := range m.values() {
			require.False(t, math.IsNaN(*v) || math.IsInf(*v, 0))
		}
		require.GreaterOrEqual(t, m.S.Core.T, float64(minC))
		require.LessOrEqual(t, m.S.Core.T, float64(maxC))
		require.GreaterOrEqual(t, m.S.WaterKg(), 0.0)
		total += track.now.weight[i]
	}
	require.InDelta(t, 1, total, 1e-3)
}

func TestLongSilenceIsCheapAndEndsCold(t *testing.T) {
	slow(t)
	rec := bay()
	rec.Weather = nil
	for _, years := range []float64{1, 30} {
		got := learned(t, rec, after(365*years))
		at := got.now.reading(0)
		air := rec.Climate.Hour(after(365 * years)).AirC
		assert.InDelta(t, air, at.Mid, 12, "%g years", years)
		sound(t, got)
	}
}

func TestPastFollowsTheEstimate(t *testing.T) {
	slow(t)
	past := learned(t, bay(), after(12)).Past()
	require.NotEmpty(t, past)
	for i, m := range past {
		assert.Zero(t, m.At.Hour()%markEveryH)
		assert.LessOrEqual(t, m.Reading.Low, m.Reading.High)
		if i > 0 {
			assert.Equal(t, markEveryH*time.Hour, m.At.Sub(past[i-1].At))
		}
	}
	assert.InDelta(t, 12*24/markEveryH, len(past), 2)
	long := learned(t, bay(), after(400)).Past()
	assert.LessOrEqual(t, len(long), mostMarks)
	assert.WithinDuration(t, spring, long[0].At, markEveryH*time.Hour, "the first mark stays")
	assert.WithinDuration(t, after(400), long[len(long)-1].At, 31*24*time.Hour)
}

// A shared heap is filled by whoever turns up.
func TestHeapsFilledOverWeeks(t *testing.T) {
	slow(t)
	rec := bay()
	d := diary{start: spring}
	for day := range 20 {
		d.at(float64(day), heap.Added{Material: "food-scraps", VolumeL: 20, MassKg: 9})
		d.at(float64(day), heap.Added{Material: "leaves-dry", VolumeL: 30, MassKg: 2.4})
	}
	d.at(20.2, heap.Temp{C: 41})
	rec.Entries = d.entries
	litres := func(m *member) float64 { return m.S.VolumeL(&m.P) }
	early, late := learned(t, rec, after(3)), learned(t, rec, after(21))
	assert.Greater(t, late.now.band(litres).Mid, 2*early.now.band(litres).Mid)
	assert.InDelta(t, 41, late.now.reading(0).Mid, 10)
	sound(t, late)
}

func TestFinishedHeapsStandStill(t *testing.T) {
	slow(t)
	rec := bay()
	rec.Heap.Finished = after(40)
	assert.Equal(t, learned(t, rec, after(40)).now, learned(t, rec, after(80)).now)
}

func TestMovedShareLeavesTheRest(t *testing.T) {
	slow(t)
	rec := bay()
	d := diary{start: spring, entries: rec.Entries}
	d.at(29.9, heap.Moved{Share: 0.5})
	half := bay()
	half.Entries = d.entries
	litres := func(m *member) float64 { return m.S.VolumeL(&m.P) }
	whole := learned(t, rec, after(30)).now.band(litres)
	rest := learned(t, half, after(30)).now.band(litres)
	assert.InEpsilon(t, whole.Mid/2, rest.Mid, 0.02)
}

func TestMembersStepWithoutAllocating(t *testing.T) {
	track := learned(t, bay(), after(6))
	a := track.ahead(track.now.members)
	assert.Zero(t, testing.AllocsPerRun(20, func() {
		a.sky.load(a.hour, 1)
		for i := range a.members {
			a.members[i].step(&track.settings.setup, a.sky.of(&a.members[i]))
		}
	}))
}

func BenchmarkLearn90(b *testing.B) {
	rec := bay()
	b.ReportAllocs()
	for b.Loop() {
		if _, err := learn(rec, after(90)); err != nil {
			b.Fatal(err)
		}
	}
}
