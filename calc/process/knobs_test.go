package process

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"heapside/calc/heap"
)

// Supply and use of oxygen balance in both zones, wherever the search begins.
func TestOxygenBalances(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 1))
	for range 2000 {
		toMantle, toCore := math.Exp(-12+10*r.Float64()), math.Exp(-12+10*r.Float64())
		useMantle, useCore := math.Exp(-14+10*r.Float64()), math.Exp(-14+10*r.Float64())
		core, mantle := Zone{O2: ambientO2 * r.Float64()}, Zone{O2: ambientO2}
		oxygen(&core, &mantle, toMantle, toCore, useMantle, useCore)
		inCore := useCore * OxygenFactor(core.O2, o2Half)
		inMantle := useMantle * OxygenFactor(mantle.O2, o2Half)
		require.InDelta(t, toCore*o2PerVolume*(mantle.O2-core.O2), inCore, 1e-5*(useCore+toCore))
		require.InDelta(t, toMantle*o2PerVolume*(ambientO2-mantle.O2), inCore+inMantle, 1e-5*(useCore+useMantle+toMantle))
		require.True(t, core.O2 >= 0 && core.O2 <= mantle.O2 && mantle.O2 <= ambientO2)
	}
}

// Each number of a setup does what its name says.
func TestSetupNumbers(t *testing.T) {
	evaporated := func(r attempt) float64 {
		var s State
		var b Balance
		s.Add(&r.p, r.m)
		for i := range r.weather {
			s.StepAir(&r.p, &r.set, &r.weather[i], 3600, &b)
		}
		return b.EvaporatedKg
	}
	for _, row := range []struct {
		name string
		less func(*Setup) // the change
		of   func(attempt) float64
		more bool // the value rises with it
	}{
		{"less draught keeps heat", func(s *Setup) { s.Draught = 0.3 }, func(r attempt) float64 { return r.run().peakC() }, true},
		{"less draught brings less oxygen", func(s *Setup) { s.Draught = 0.3 }, func(r attempt) float64 { return r.run().o2[72] }, false},
		{"less exchange brings less oxygen", func(s *Setup) { s.Exchange = 0.3 }, func(r attempt) float64 { return r.run().o2[72] }, false},
		{"less exchange dries less", func(s *Setup) { s.Exchange = 0.3 }, evaporated, false},
		{"shelter keeps warmth in wind", func(s *Setup) { s.Shelter = 0.2 }, func(r attempt) float64 {
			for i := range r.weather {
				r.weather[i] = Hour{AirC: 10, RH: 0.7, WindMS: 8}.Air()
			}
			return r.run().core[40]
		}, true},
		{"cover keeps warmth", func(s *Setup) { s.CoverR = 0.6 }, func(r attempt) float64 { return r.run().core[40] }, true},
		{"a closed top dries less", func(s *Setup) { s.Open = 0 }, evaporated, false},
		{"a closed top stays drier in rain", func(s *Setup) { s.RainIn = 0 }, func(r attempt) float64 { c := r.run(); return c.end.Moisture() }, false},
	} {
		t.Run(row.name, func(t *testing.T) {
			before, after := kept(t, 0.5), kept(t, 0.5)
			row.less(&after.set)
			assert.Equal(t, row.more, row.of(after) > row.of(before))
			assert.NotEqual(t, row.of(before), row.of(after))
		})
	}
	assert.Less(t, SetupOf(heap.OpenHeap, true, "tarp").Open, 0.5)
}

// What lies loose in the bucket lies looser in the heap, by less.
func TestLooseMaterialMakesALooseHeap(t *testing.T) {
	p := DefaultParams()
	volume := func(density float64) float64 {
		m := garden(1, 15)
		m.LooseDensity = density
		var s State
		s.Add(&p, m)
		return s.VolumeL(&p)
	}
	assert.InDelta(t, 1000, volume(0), 1e-9)
	assert.InDelta(t, 1000, volume(bucketDensity), 1e-9)
	assert.Greater(t, volume(40), 1000.0)
	assert.Less(t, volume(40), 1500.0)
	assert.Less(t, volume(90), 1000.0)

	var both State // volumes add
	light, heavy := garden(0.3, 15), garden(0.7, 15)
	light.LooseDensity, heavy.LooseDensity = 35, 170
	both.Add(&p, light)
	alone := both.VolumeL(&p)
	both.Add(&p, heavy)
	var other State
	other.Add(&p, heavy)
	assert.InDelta(t, alone+other.VolumeL(&p), both.VolumeL(&p), 1e-6)
}

func TestProbeShareShiftsReadingsAtEveryDepth(t *testing.T) {
	p := DefaultParams()
	var s State
	s.Add(&p, garden(1, 18))
	s.Core.T, s.Mantle.T = 60, 30
	q := p
	q.ProbeShare += 0.1
	for _, cm := range []float64{0, 15, 20} {
		assert.InDelta(t, s.Reading(&p, cm)-3, s.Reading(&q, cm), 1e-9, "%v cm", cm)
	}
}
