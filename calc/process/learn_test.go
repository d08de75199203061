package process

import (
	"reflect"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

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

// mild is the climate of 51 N as though it had been measured.
func mild(days int) Hourly {
	w := Hourly{Start: spring.Truncate(24 * time.Hour)}
	c := Climate{Located: true, Lat: 51}
	for h := range days * 24 {
		w.Hours = append(w.Hours, c.Hour(w.Start.Add(time.Duration(h)*time.Hour)))
	}
	return w
}

func after(days float64) time.Time { return spring.Add(time.Duration(days * 24 * float64(time.Hour))) }

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
	for _, days := range []float64{3, 9, 15, 30, 90} {
		track, err := Learn(bay(), after(days))
		require.NoError(t, err)
		t.Logf("day %g: %+v", days, track.now.reading(40))
	}
}

func BenchmarkLearn90(b *testing.B) {
	rec := bay()
	b.ReportAllocs()
	for b.Loop() {
		if _, err := Learn(rec, after(90)); err != nil {
			b.Fatal(err)
		}
	}
}
