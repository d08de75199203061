package heap_test

import (
	"fmt"
	"math/rand/v2"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"heapside/calc/heap"
)

const cases = 300

// random is a log of n entries over 100 days, with times that often coincide.
func random(r *rand.Rand, n int) []heap.Entry {
	make := []func() heap.Payload{
		func() heap.Payload {
			return heap.Added{Name: "leaves", VolumeL: r.Float64() * 100, MassKg: r.Float64() * 20}
		},
		func() heap.Payload { return heap.Temp{C: r.Float64()*90 - 10} },
		func() heap.Payload { return heap.Temp{C: r.Float64() * 30, Spot: "air"} },
		func() heap.Payload { return heap.Turned{} },
		func() heap.Payload { return heap.Feel{Squeeze: heap.Holds} },
		func() heap.Payload { return heap.Rain{Mm: float64(r.IntN(20))} },
		func() heap.Payload { return heap.Height{Cm: r.Float64() * 150} },
		func() heap.Payload { return heap.Covered{On: r.IntN(2) == 0} },
		func() heap.Payload { return heap.Moved{Share: float64(r.IntN(5)) / 4} },
		func() heap.Payload { return heap.Voided{Entry: heap.EntryID(1 + r.IntN(n))} },
	}
	entries := []heap.Entry{}
	for i := range n {
		entries = append(entries, heap.Entry{ID: heap.EntryID(i + 1), At: day(float64(r.IntN(100))), Payload: make[r.IntN(len(make))]()})
	}
	return entries
}

func bay(r *rand.Rand) heap.Heap {
	kinds := []heap.Container{heap.OpenHeap, heap.PalletBay, heap.PlasticBin, heap.Tumbler}
	return heap.Heap{Container: kinds[r.IntN(len(kinds))], SizeL: float64(r.IntN(3) * 400), Started: began}
}

func TestTheOrderOfLoggingDoesNotMatter(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 1))
	for range cases {
		h, entries := bay(r), random(r, 40)
		want := heap.Read(h, entries, day(60))
		r.Shuffle(len(entries), func(i, j int) { entries[i], entries[j] = entries[j], entries[i] })
		given := append([]heap.Entry{}, entries...)
		require.Equal(t, want, heap.Read(h, entries, day(60)))
		require.Equal(t, given, entries, "what was given is left as it was")
	}
}

func TestTakenBackIsAsIfNeverSaid(t *testing.T) {
	r := rand.New(rand.NewPCG(2, 2))
	for range cases {
		h, entries := bay(r), random(r, 40)
		gone := map[heap.EntryID]bool{}
		for _, e := range entries {
			if v, ok := e.Payload.(heap.Voided); ok {
				gone[v.Entry], gone[e.ID] = true, true
			}
		}
		var kept []heap.Entry
		for _, e := range entries {
			if !gone[e.ID] {
				kept = append(kept, e)
			}
		}
		require.Equal(t, heap.Read(h, kept, day(60)), heap.Read(h, entries, day(60)))
	}
}

func TestAMarkOfBeingTakenBackIsEnough(t *testing.T) {
	s := heap.Read(heap.Heap{Started: began}, []heap.Entry{
		{ID: 1, At: day(1), Payload: heap.Temp{C: 95}, VoidedBy: 3},
		{ID: 2, At: day(1), Payload: heap.Temp{C: 45}},
	}, day(2))
	assert.Len(t, s.Entries, 1)
	assert.InDelta(t, 45, s.PeakC, 0)
}

func TestTheFutureDoesNotMatter(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 3))
	for range cases {
		h := bay(r)
		var all, past []heap.Entry
		for _, e := range random(r, 40) {
			if e.Payload.Kind() == heap.KindVoided {
				continue
			}
			all = append(all, e)
			if !e.At.After(day(50)) {
				past = append(past, e)
			}
		}
		require.Equal(t, heap.Read(h, past, day(50)), heap.Read(h, all, day(50)))
	}
}

func TestVolumesStayPossible(t *testing.T) {
	r := rand.New(rand.NewPCG(4, 4))
	for range cases {
		h, entries := bay(r), random(r, 40)
		for n := range 12 {
			s := heap.Read(h, entries, day(float64(n*10)))
			require.GreaterOrEqual(t, s.VolumeL, 0.0)
			require.NotEmpty(t, s.VolumeHow)
			if h.Container != heap.OpenHeap && h.SizeL > 0 {
				require.LessOrEqual(t, s.VolumeL, h.SizeL)
			}
			later := heap.Read(h, s.Entries, day(float64(n*10)+5))
			require.LessOrEqual(t, later.VolumeL, s.VolumeL+1e-9, "a heap left alone does not grow")
		}
	}
}

func TestMovingLosesNothingAndMakesNothing(t *testing.T) {
	r := rand.New(rand.NewPCG(5, 5))
	for range cases {
		logs := [2][]heap.Entry{}
		id := heap.EntryID(0)
		log := func(which int, at time.Time, p heap.Payload) {
			id++
			logs[which] = append(logs[which], heap.Entry{ID: id, At: at, Payload: p})
		}
		read := func(which int, at time.Time) heap.State {
			return heap.Read(heap.Heap{Container: heap.OpenHeap, Started: began}, logs[which], at)
		}
		var litres, kg float64
		for n := range 20 {
			at, from := day(float64(n*3)), r.IntN(2)
			if r.IntN(2) == 0 {
				a := heap.Added{Name: fmt.Sprint("load ", n), VolumeL: r.Float64() * 100, MassKg: r.Float64() * 20}
				litres, kg = litres+a.VolumeL, kg+a.MassKg
				log(from, at, a)
				continue
			}
			share := float64(r.IntN(5)) / 4
			before := read(0, at).VolumeL + read(1, at).VolumeL
			portion := read(from, at).Portion(share)
			log(from, at, heap.Moved{Share: share})
			log(1-from, at, heap.Moved{In: true, Share: share})
			for _, a := range portion {
				log(1-from, at, a)
			}
			require.InDelta(t, before, read(0, at).VolumeL+read(1, at).VolumeL, 1e-6, "what has shrunk stays so")
		}
		var gotL, gotKg float64
		for which := range logs {
			s := read(which, day(60))
			gotL += s.AddedL
			for _, a := range s.Content {
				gotKg += a.MassKg
			}
		}
		require.InDelta(t, litres, gotL, 1e-6)
		require.InDelta(t, kg, gotKg, 1e-6)
	}
}

func TestMovedMaterialKeepsItsAge(t *testing.T) {
	old := heap.Read(heap.Heap{Started: began}, []heap.Entry{
		{ID: 1, At: day(0), Payload: heap.Added{Name: "leaves", VolumeL: 200, MassKg: 16}},
	}, day(30))
	portion := old.Portion(0.5)
	require.Equal(t, []heap.Added{{Name: "leaves", VolumeL: 100, MassKg: 8, AgeDays: 30}}, portion)

	cured := heap.Read(heap.Heap{Started: day(30)}, []heap.Entry{{ID: 2, At: day(30), Payload: portion[0]}}, day(90))
	assert.InDelta(t, 35, cured.VolumeL, 1e-9, "100 l at 90 days in all, 35 % left")
	assert.InDelta(t, 0.35, cured.LeftShare, 1e-9)
	assert.Equal(t, day(0), cured.LastAdded)
}

func TestAnEmptyLogSaysNothing(t *testing.T) {
	s := heap.Read(heap.Heap{}, nil, day(0))
	assert.Zero(t, s.Age)
	assert.Zero(t, s.VolumeL)
	assert.Zero(t, s.LastTurn())
	assert.Zero(t, s.LastAdded)
	assert.Empty(t, s.Waterings)
	assert.Empty(t, s.Air)
	_, ok := s.LastReading()
	assert.False(t, ok)
}

func TestACoverIsWhatWasLastSaid(t *testing.T) {
	for _, row := range []struct {
		name  string
		cover string
		log   []heap.Payload
		want  bool
	}{
		{"none said", "", nil, false},
		{"none", "None", nil, false},
		{"a tarp from the start", "tarp", nil, true},
		{"taken off", "tarp", []heap.Payload{heap.Covered{}}, false},
		{"put on", "none", []heap.Payload{heap.Covered{On: true}}, true},
		{"changed to none", "tarp", []heap.Payload{heap.Covered{On: true}, heap.Changed{Field: "cover", To: "none"}}, false},
		{"changed to a lid", "lid", []heap.Payload{heap.Covered{}, heap.Changed{Field: "cover", To: "lid"}}, true},
		{"another change", "lid", []heap.Payload{heap.Covered{}, heap.Changed{Field: "aim", To: "fast"}}, false},
	} {
		t.Run(row.name, func(t *testing.T) {
			var entries []heap.Entry
			for i, p := range row.log {
				entries = append(entries, heap.Entry{ID: heap.EntryID(i + 1), At: day(float64(i)), Payload: p})
			}
			assert.Equal(t, row.want, heap.Read(heap.Heap{Cover: row.cover, Started: began}, entries, day(9)).Covered)
		})
	}
}

// BenchmarkRead2000 reads the state of a heap with a long log.
func BenchmarkRead2000(b *testing.B) {
	r := rand.New(rand.NewPCG(6, 6))
	var entries []heap.Entry
	for i := range 2000 {
		p := heap.Payload(heap.Temp{C: r.Float64() * 70})
		if i%3 == 0 {
			p = heap.Added{Name: "leaves", VolumeL: 20, MassKg: 2}
		}
		entries = append(entries, heap.Entry{ID: heap.EntryID(i + 1), At: day(float64(i) / 5), Payload: p})
	}
	for b.Loop() {
		heap.Read(heap.Heap{Started: began}, entries, day(400))
	}
}

func TestAHeapIsAsOldAsWhatWasDoneToIt(t *testing.T) {
	h := heap.Heap{Started: day(30)} // entered here long after it was built
	s := heap.Read(h, []heap.Entry{{ID: 1, At: day(30), Payload: heap.Started{}}, {ID: 2, At: day(20), Payload: heap.Temp{C: 61}}}, day(31))
	assert.Equal(t, 11*24*time.Hour, s.Age)
	assert.InDelta(t, 61, s.PeakC, 1e-9, "the reading before the start counts")
}
