package process

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"heapside/calc/heap"
	"heapside/calc/water"
)

// drying is what the water of a run did.
type drying struct {
	books        Balance
	leastO2      float64
	leastCarried float64         // kg of water that the exhausted air must have carried
	core, whole  map[int]float64 // wet-basis moisture by day
}

// dry runs an attempt, left alone, and follows its water. Air that came in for
// its oxygen leaves with at least the vapour of the mantle, even if it gives up
// every bit of that oxygen.
func (r attempt) dry() drying {
	d := drying{leastO2: 1, core: map[int]float64{}, whole: map[int]float64{}}
	var s State
	s.Add(&r.p, r.m)
	for i := range r.weather {
		air := &r.weather[i]
		lost := d.books.LostKg
		s.StepAir(&r.p, &r.set, air, 3600, &d.books)
		usedM3 := (d.books.LostKg - lost) * o2PerLoss / (o2PerVolume * ambientO2)
		moist := vapourDensity(s.Mantle.T, water.VapourPressure(s.Mantle.T)) * saturated(MoistureFactor(s.MantleMoisture()))
		d.leastCarried += usedM3 * max(0, moist-air.moist)
		d.leastO2 = min(d.leastO2, s.Core.O2)
		if i%24 == 0 {
			d.core[i/24], d.whole[i/24] = s.CoreMoisture(), s.Moisture()
		}
	}
	return d
}

// under puts an attempt into a container under a cover.
func (r attempt) under(c heap.Container, cover string) attempt {
	r.set = SetupOf(c, true, cover)
	return r
}

// kitchen is a cool bin fed with kitchen scraps.
func (r attempt) kitchen() attempt {
	r = r.wet(0.70).under(heap.PlasticBin, "lid")
	r.m.Degradable, r.m.FastShare = 0.68, 0.55
	return r
}

// How heaps dry. That hot ones dry from inside is common practice, and that
// closed bins hold their moisture common experience; the ranges are own choice.
func TestDrying(t *testing.T) {
	for _, row := range []struct {
		name                string
		heap                attempt
		evaporated, o2      [2]float64 // kg in 40 days; mole fraction at the lowest
		coreDay20, wholeEnd [2]float64
	}{
		{"a cubic metre in the open", kept(t, 1), [2]float64{50, 110}, [2]float64{0.08, 0.12}, [2]float64{0.45, 0.56}, [2]float64{0.58, 0.68}},
		{"a cubic metre under a tarp", kept(t, 1).under(heap.PalletBay, "tarp"), [2]float64{50, 110}, [2]float64{0.08, 0.12}, [2]float64{0.45, 0.55}, [2]float64{0.55, 0.64}},
		{"kitchen scraps in a bin", kept(t, 0.25).kitchen(), [2]float64{2, 20}, [2]float64{0.005, 0.12}, [2]float64{0.65, 0.77}, [2]float64{0.68, 0.77}},
		{"a cool bin in autumn", kept(t, 0.25).kitchen().in(t, "weather-290-4"), [2]float64{2, 20}, [2]float64{0.005, 0.12}, [2]float64{0.65, 0.77}, [2]float64{0.68, 0.77}},
	} {
		t.Run(row.name, func(t *testing.T) {
			d := row.heap.dry()
			for _, c := range []struct {
				what   string
				got    float64
				bounds [2]float64
			}{
				{"kg evaporated", d.books.EvaporatedKg, row.evaporated},
				{"lowest oxygen", d.leastO2, row.o2},
				{"core on day 20", d.core[20], row.coreDay20},
				{"whole on day 39", d.whole[39], row.wholeEnd},
			} {
				assert.GreaterOrEqual(t, c.got, c.bounds[0], c.what)
				assert.LessOrEqual(t, c.got, c.bounds[1], c.what)
			}
		})
	}
}

// The oxygen a heap used came in with air, and that air went out moist. Where
// only oxygen diffuses, a wet heap breaks this: it burns and does not dry.
func TestBreathingDries(t *testing.T) {
	closed := kept(t, 1).wet(0.76)
	closed.set.RainIn, closed.set.Open = 0, 0
	for name, r := range map[string]attempt{
		"open": kept(t, 1), "tarp": kept(t, 1).under(heap.PalletBay, "tarp"), "large": kept(t, 3),
		"small": kept(t, 0.3), "bin": kept(t, 0.25).kitchen(), "closed": closed,
	} {
		d := r.dry()
		assert.GreaterOrEqual(t, d.books.EvaporatedKg, d.leastCarried, name)
	}
	closed.p.VapourDiffusion = 0
	d := closed.dry()
	assert.Less(t, d.books.EvaporatedKg, d.leastCarried, "oxygen alone")
}

// The hotter heap is the drier one, and vapour takes heat with it.
func TestVapourDiffusion(t *testing.T) {
	with, without := kept(t, 1), kept(t, 1)
	without.p.VapourDiffusion = 0
	a, b := with.dry(), without.dry()
	assert.Less(t, a.core[20], b.core[20]-0.03)
	assert.Greater(t, a.books.EvaporatedKg, b.books.EvaporatedKg+10)
	assert.Less(t, with.run().peakC(), without.run().peakC())
	assert.Less(t, a.books.AirKJ, b.books.AirKJ)

	// Nothing is drunk from the air by what is dry and as warm as it.
	p, set := DefaultParams(), OpenGround()
	p.Permeability = 0
	var s State
	s.Add(&p, garden(1, 15))
	s.Core.Water, s.Mantle.Water = 0.1*s.Core.dry(), 0.1*s.Mantle.dry()
	air := Hour{AirC: 15, RH: 0.9}.Air()
	var books Balance
	for range 24 {
		s.StepAir(&p, &set, &air, 3600, &books)
	}
	assert.GreaterOrEqual(t, books.EvaporatedKg, 0.0)
}
