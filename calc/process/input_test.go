package process

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"heapside/calc/feedstock"
	"heapside/calc/heap"
)

func TestWeatherThatIsNoWeather(t *testing.T) {
	nan, inf := math.NaN(), math.Inf(1)
	for _, row := range []struct {
		name  string
		h, as Hour
	}{
		{"nothing known", Hour{nan, nan, nan, nan, nan}, Hour{12, 0.75, 0, 0, 1.5}},
		{"endless", Hour{inf, inf, inf, inf, inf}, Hour{60, 1, 200, 3, 40}},
		{"endless the other way", Hour{-inf, -inf, -inf, -inf, -inf}, Hour{-30, 0.02, 0, 0, 0}},
		{"percent for a share", Hour{15, 75, 0, 0, 1}, Hour{15, 1, 0, 0, 1}},
		{"plain", Hour{15, 0.6, 1, 0.2, 3}, Hour{15, 0.6, 1, 0.2, 3}},
	} {
		t.Run(row.name, func(t *testing.T) { assert.Equal(t, row.as.Air(), row.h.Air()) })
	}
}

func TestStepsThatAreNone(t *testing.T) {
	p, set := DefaultParams(), OpenGround()
	air := Hour{AirC: 12, RH: 0.8}.Air()
	var want State
	want.Add(&p, garden(1, 18))
	start := want
	want.StepAir(&p, &set, &air, shortest, nil)
	for _, most := range []float64{0, -1, 1e-9, math.NaN()} {
		s := start
		s.StepAir(&p, &set, &air, most, nil)
		assert.Equal(t, want, s, "%v s", most)
	}
}

func FuzzStep(f *testing.F) {
	f.Add(14.0, 0.7, 1.0, 0.1, 2.0, 100.0, 160.0, 18.0)
	f.Add(math.NaN(), -1.0, 1e300, math.Inf(1), -5.0, 1e-9, 1e9, -300.0)
	f.Add(-40.0, 0.0, 0.0, 0.0, 90.0, 1e6, 0.0, 500.0)
	f.Fuzz(func(t *testing.T, airC, rh, rain, et0, wind, dry, water, temp float64) {
		p, set := DefaultParams(), OpenGround()
		var s State
		s.Add(&p, Material{DryKg: dry, WaterKg: water, TempC: temp, VolatileShare: 0.9, Degradable: 0.6, FastShare: 0.4})
		for range 30 {
			s.Step(&p, &set, Hour{airC, rh, rain, et0, wind})
		}
		s.Turn(&p, airC)
		s.Wet(&p, water, temp)
		s.Step(&p, &set, Hour{airC, rh, rain, et0, wind})
		require.True(t, inRange(&s.Core) && inRange(&s.Mantle), "%+v", s)
	})
}

func TestPriors(t *testing.T) {
	median := DefaultParams()
	r := rand.New(rand.NewPCG(1, 1))
	const n = 4000
	below := make([]int, len(priors))
	for range n {
		p := Draw(r)
		assert.InDelta(t, p.TMax-optBelowMax, p.TOpt, 1e-12)
		for i := range priors {
			v := *priors[i].of(&p)
			require.True(t, v >= priors[i].low && v <= priors[i].high)
			if v < *priors[i].of(&median) {
				below[i]++
			}
		}
	}
	for i, b := range below {
		assert.InDelta(t, n/2, b, 0.04*n, "parameter %d is not drawn around its median", i)
	}
	assert.Equal(t, Draw(rand.New(rand.NewPCG(7, 7))), Draw(rand.New(rand.NewPCG(7, 7))))
}

func TestCoordinatesGoRound(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 3))
	for range 100 {
		p := Draw(r)
		q := DefaultParams()
		q.SetCoordinates(p.Coordinates())
		for i := range priors {
			assert.InEpsilon(t, 1+*priors[i].of(&p), 1+*priors[i].of(&q), 1e-12)
		}
	}
	var broken [Learned]float64
	for i := range broken {
		broken[i] = math.NaN()
	}
	q := Draw(r)
	q.SetCoordinates(broken)
	assert.Equal(t, DefaultParams(), q)
}

func TestOf(t *testing.T) {
	table := feedstock.Default()
	grass, ok := table.ByID("grass-clippings")
	require.True(t, ok)
	m := Of(heap.Added{VolumeL: 100, MassKg: 25}, grass)
	assert.InDelta(t, 25, m.DryKg+m.WaterKg, 1e-9)
	assert.InDelta(t, grass.Moisture.Typical/100, m.WaterKg/25, 1e-12)
	assert.InDelta(t, grass.CN.Typical, m.CarbonKg/m.NitrogenKg, 1e-9)
	assert.InDelta(t, 10*m.DryKg, m.LooseDensity, 1e-9)
	for _, kg := range []float64{-4, math.NaN(), 0} {
		none := Of(heap.Added{VolumeL: 10, MassKg: kg}, grass)
		assert.Zero(t, none.DryKg+none.WaterKg, "%v kg", kg)
	}
	for _, f := range table.All() {
		m := Of(heap.Added{VolumeL: 50, MassKg: f.Density.Typical / 20}, f)
		assert.True(t, m.DryKg > 0 && m.WaterKg >= 0 && m.CarbonKg >= 0 && m.NitrogenKg >= 0, f.ID)
		assert.True(t, m.VolatileShare >= 0 && m.VolatileShare <= 1 && m.FastShare >= 0 && m.FastShare <= 1, f.ID)
	}
}

func TestAgedMaterialBringsLess(t *testing.T) {
	grass, _ := feedstock.Default().ByID("grass-clippings")
	fresh := Of(heap.Added{VolumeL: 100, MassKg: 25}, grass)
	degradable := func(m Material) float64 { return m.DryKg * m.VolatileShare * m.Degradable }
	last := fresh
	for _, days := range []float64{1, 7, 30, 120, 1e9} {
		m := Of(heap.Added{VolumeL: 100, MassKg: 25, AgeDays: days}, grass)
		assert.Less(t, degradable(m), degradable(last), "%v days", days)
		assert.LessOrEqual(t, m.FastShare, last.FastShare)
		assert.InDelta(t, fresh.DryKg*(1-fresh.VolatileShare), m.DryKg*(1-m.VolatileShare), 1e-9, "ash stays")
		assert.InDelta(t, fresh.DryKg*fresh.VolatileShare*(1-fresh.Degradable), m.DryKg*m.VolatileShare*(1-m.Degradable), 1e-9, "what does not rot stays")
		last = m
	}
	assert.Equal(t, fresh, Of(heap.Added{VolumeL: 100, MassKg: 25, AgeDays: math.NaN()}, grass))
}

func TestSetups(t *testing.T) {
	open := SetupOf(heap.OpenHeap, false, "")
	for _, row := range []struct {
		name string
		set  Setup
		warm bool // keeps more heat than an open heap
		rain float64
	}{
		{"unknown container", SetupOf("a hole", false, ""), false, open.RainIn},
		{"tarp", SetupOf(heap.OpenHeap, true, "an old tarp"), true, 0.1},
		{"straw", SetupOf(heap.OpenHeap, true, "Straw, a hand deep"), true, 0.5},
		{"bin with a lid", SetupOf(heap.PlasticBin, true, "lid"), true, 0.05},
		{"tumbler", SetupOf(heap.Tumbler, false, ""), true, 0},
	} {
		assert.Equal(t, row.warm, row.set.CoverR > open.CoverR, row.name)
		assert.InDelta(t, row.rain, row.set.RainIn, 1e-12, row.name)
	}
	assert.Greater(t, SetupOf(heap.OpenHeap, true, "straw").CoverR, SetupOf(heap.OpenHeap, true, "tarp").CoverR)
	assert.Equal(t, 1.0, open.Open)
}

func TestReadingByDepth(t *testing.T) {
	p, set := DefaultParams(), OpenGround()
	var s State
	s.Add(&p, garden(1, 18))
	for range 96 {
		s.Step(&p, &set, Hour{AirC: 14, RH: 0.7})
	}
	last := 0.0
	for _, cm := range []float64{1, 10, 20, 30, 60} {
		at := s.Reading(&p, cm)
		assert.GreaterOrEqual(t, at, last, "%v cm", cm)
		assert.GreaterOrEqual(t, at, s.Mantle.T)
		assert.LessOrEqual(t, at, s.Core.T)
		last = at
	}
	assert.Equal(t, s.Mantle.T, s.Reading(&p, 1))
	assert.Equal(t, s.Core.T, s.Reading(&p, 60))
	for _, cm := range []float64{0, -3, math.NaN()} {
		assert.InDelta(t, s.Core.T-0.18*(s.Core.T-s.Mantle.T), s.Reading(&p, cm), 1e-9, "%v cm", cm)
	}
}
