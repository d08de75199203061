package process

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// course is what a run showed.
type course struct {
	core, o2, litres []float64 // after each hour
	uptake           float64   // most oxygen used, g per kg organic solids and hour
	end              State
	p                Params
}

// attempt is a heap to run; zero fields are those of the garden mixture.
type attempt struct {
	p       Params
	m       Material
	set     Setup
	weather []Air
	turns   []int // days, in the eleventh hour; watered to 58 % then
}

// kept is a attempt of that many m3 of the garden mixture in the open in early summer.
func kept(t testing.TB, m3 float64) attempt {
	return attempt{p: DefaultParams(), m: garden(m3, 18), set: OpenGround(), weather: airs(weatherOf(t, "weather-150-4"))}
}

func (r attempt) wet(share float64) attempt {
	r.m.WaterKg = r.m.DryKg * share / (1 - share)
	r.p.FreeWater = max(r.p.FreeWater, share/(1-share))
	return r
}

func (r attempt) cn(ratio float64) attempt { r.m.NitrogenKg = r.m.CarbonKg / ratio; return r }

func (r attempt) in(t testing.TB, weather string) attempt {
	r.weather = airs(weatherOf(t, weather))
	return r
}

// indoors is still air of one temperature.
func (r attempt) indoors(c float64, days int) attempt {
	r.weather = make([]Air, 24*days)
	for i := range r.weather {
		r.weather[i] = Hour{AirC: c, RH: 0.6, WindMS: 0.2}.Air()
	}
	r.m.TempC, r.set.RainIn, r.set.Open = c, 0, 0
	return r
}

func (r attempt) turned(days ...int) attempt { r.turns = days; return r }

func (r attempt) run() course {
	c := course{p: r.p}
	var s State
	s.Add(&r.p, r.m)
	for i := range r.weather {
		for _, day := range r.turns {
			if i == 24*day+10 {
				s.Turn(&r.p, r.weather[i].C)
				s.Wet(&r.p, s.WaterWanted(0.58), 15)
			}
		}
		var b Balance
		s.StepAir(&r.p, &r.set, &r.weather[i], 3600, &b)
		c.uptake = max(c.uptake, 1000*o2PerLoss*b.LostKg/(s.Core.organic()+s.Mantle.organic()))
		c.core, c.o2, c.litres = append(c.core, s.Core.T), append(c.o2, s.Core.O2), append(c.litres, s.VolumeL(&r.p))
	}
	c.end = s
	return c
}

func (c course) peak() (celsius, day float64) {
	for i, v := range c.core {
		if v > celsius {
			celsius, day = v, float64(i)/24
		}
	}
	return celsius, day
}

func (c course) peakC() float64 { p, _ := c.peak(); return p }

// above is how many days the core spent at or above.
func (c course) above(celsius float64) float64 {
	n := 0
	for _, v := range c.core {
		if v >= celsius {
			n++
		}
	}
	return float64(n) / 24
}

// features are published observations of real heaps, and what a run with the
// medians must show of them. Ranges are wide where the source leaves volume,
// weather or mixture open. Check is the id among the published checks, if any.
var features = []struct {
	name, check, source string
	seen                bool // the source was read, at least its abstract or page
	holds               func(t *testing.T)
}{
	{"heats in three days", "feat-publiclab", "Public Lab notes, wire cage in Vermont, June 2016: 69 C on day 3 (parameters were chosen with it in view: no test)", true, func(t *testing.T) {
		peak, day := kept(t, 1).run().peak()
		assert.InDelta(t, 69, peak, 4)
		assert.InDelta(t, 3, day, 1)
	}},
	{"small home bin", "feat-urbanag", "urbanagroecology.org 2010: 71, 71, 68, 64 C on days 2-5, 49 C at two weeks (in view too: no test)", true, func(t *testing.T) {
		r := kept(t, 0.7).wet(0.58).in(t, "weather-290-4")
		r.m.TempC = 20
		c := r.run()
		assert.InDelta(t, 68, c.core[4*24], 8)
		assert.Less(t, c.core[14*24], 55.0)
	}},
	{"indoor bin", "feat-cornell-heatup", "Cornell Waste Management Institute: above 10 gallons indoors 40-50 C in 2-3 days; piles 60-70 C in 3-5", true, func(t *testing.T) {
		bin := kept(t, 0.1).indoors(20, 6).run()
		assert.GreaterOrEqual(t, bin.peakC(), 40.0)
		assert.LessOrEqual(t, bin.peakC(), 60.0) // 100 L, more than twice the least
		bottle := kept(t, 0.002).indoors(20, 6).run()
		assert.Less(t, bottle.peakC(), 40.0) // a soda bottle peaks at 30-40 C, insulated
		pile := kept(t, 3).run()
		assert.GreaterOrEqual(t, pile.core[5*24], 60.0)
		assert.LessOrEqual(t, pile.core[5*24], 73.0)
	}},
	{"60 L bin", "feat-bin-60L", "Thai Environmental Engineering Journal 187564: passive peak 44.75 C at 55 % moisture, C:N 32 (air about 28 C is our guess)", true, func(t *testing.T) {
		peak := kept(t, 0.06).wet(0.55).cn(32).indoors(28, 15).run().peakC()
		assert.InDelta(t, 44.75, peak, 12)
	}},
	{"200 L bins", "", "Karnchanawong and Suriyanon 2011: 24-57 C", true, func(t *testing.T) {
		peak := kept(t, 0.2).run().peakC()
		assert.GreaterOrEqual(t, peak, 45.0)
		assert.LessOrEqual(t, peak, 62.0)
	}},
	{"larger is hotter for longer", "", "Michel et al. 1996 (big piles much hotter); Cornell (hot stage by size)", true, func(t *testing.T) {
		var lastPeak, lastHot float64
		for _, m3 := range []float64{0.06, 0.1, 0.2, 0.3, 0.5, 1, 2, 3} {
			c := kept(t, m3).run()
			assert.Greater(t, c.peakC(), lastPeak, "%v m3", m3)
			assert.GreaterOrEqual(t, c.above(50), lastHot, "%v m3", m3)
			lastPeak, lastHot = c.peakC(), c.above(50)
		}
	}},
	{"oxygen uptake", "feat-o2-uptake", "Haug 1993 in T. Richard, Cornell 1996: 1 to 10 g O2 per kg volatile solids and hour", true, func(t *testing.T) {
		c := kept(t, 1).run()
		assert.GreaterOrEqual(t, c.uptake, 1.0)
		assert.LessOrEqual(t, c.uptake, 10.0)
	}},
	{"denser piles hold less oxygen", "", "own reading of the literature's direction; straw windrows kept near-ambient oxygen and stayed cooler (Michel et al. 2004)", true, func(t *testing.T) {
		mixed, straw := kept(t, 1), kept(t, 1)
		straw.p.DryDensity = 45
		a, b := mixed.run(), straw.run()
		assert.Less(t, a.o2[72], b.o2[72])
		assert.Greater(t, b.o2[72], 0.17)
		assert.Greater(t, a.peakC(), b.peakC())
		assert.Less(t, kept(t, 3).run().o2[72], a.o2[72])
		assert.Less(t, a.o2[72], 0.15)
	}},
	{"too dry", "", "AgriFutures, Water: below 30 % stops", true, func(t *testing.T) {
		assert.Less(t, kept(t, 1).wet(0.25).in(t, "weather-150-0").run().peakC(), 40.0)
	}},
	{"wetter is hotter until it is soaked", "", "small vessels, same feed, 50/60/70 % moisture: 48.8/56.9/42.8 C (measured on the Cotera thesis files); the order only, a heap sheds water", true, func(t *testing.T) {
		peak := func(wet float64) float64 { return kept(t, 1).wet(wet).in(t, "weather-150-0").run().peakC() }
		assert.Less(t, peak(0.35), peak(0.50))
		assert.Less(t, peak(0.50), peak(0.60))
		assert.Less(t, peak(0.78), peak(0.60))
		assert.Less(t, peak(0.82), 40.0)
	}},
	{"more carbon is no hotter", "", "C:N 25/30/35, small vessels: 56.5/51.5/46.5 C (measured on the Cotera thesis files); the order only", true, func(t *testing.T) {
		peak := func(cn float64) float64 { return kept(t, 0.3).cn(cn).run().peakC() }
		assert.GreaterOrEqual(t, peak(25), peak(30))
		assert.Greater(t, peak(30), peak(35))
		assert.Greater(t, peak(35), peak(60))
	}},
	{"more grass, faster and more loss", "feat-michel-yard-lab", "Michel, Reddy and Forney 1993: C:N 48, 30, 22 for none, a third, two thirds grass", true, func(t *testing.T) {
		last := 0.0
		for _, m := range []struct{ cn, degradable, fast float64 }{{48, 0.42, 0.12}, {30, 0.51, 0.28}, {22, 0.61, 0.44}} {
			r := kept(t, 1).cn(m.cn)
			r.m.Degradable, r.m.FastShare = m.degradable, m.fast
			c := r.run()
			lost := c.end.Loss() * m.degradable
			assert.Greater(t, lost, last)
			last = lost
		}
	}},
	{"winter", "feat-winter-1yd3", "King et al. 2012, BioCycle 53(10): a cubic yard and more can stay active whatever the air", true, func(t *testing.T) {
		started := func(m3 float64) attempt { r := kept(t, m3).in(t, "weather-340-3"); r.m.TempC = 35; return r }
		yard, small := started(0.76).run(), started(0.1).run()
		assert.GreaterOrEqual(t, yard.above(40), 7.0)
		assert.Less(t, small.above(40), 3.0)
		covered := started(0.76)
		covered.set.CoverR, covered.set.RainIn, covered.set.Open = 0.6, 0.2, 0.2
		assert.Greater(t, covered.run().above(40), yard.above(40)+2)
	}},
	{"reheats after a turn", "", "southernorganicgardening (60 C on day 4 after turning and watering) and blog.kenweiner.com (64 C next day), facts of diaries", true, func(t *testing.T) {
		c := kept(t, 1).turned(7).run()
		turn := 7*24 + 10
		best := 0.0
		for _, v := range c.core[turn : turn+4*24] {
			best = max(best, v)
		}
		assert.Less(t, c.core[turn], c.core[turn-1]-5)
		assert.GreaterOrEqual(t, best, 55.0)
	}},
	{"turning costs little heat", "", "Michel et al. 1996: seven turns against one per four weeks had little effect on temperature; Raabe, quick compost by frequent turning (second-hand)", true, func(t *testing.T) {
		alone := kept(t, 1).run()
		weekly := kept(t, 1).turned(7, 14, 21, 28).run()
		fourth := kept(t, 1).turned(4, 8, 12, 16, 20, 24, 28, 32, 36).run()
		assert.GreaterOrEqual(t, weekly.above(55), 0.85*alone.above(55))
		assert.GreaterOrEqual(t, weekly.above(40), alone.above(40))
		assert.GreaterOrEqual(t, fourth.above(55), 0.7*alone.above(55)) // still less than lore says
		assert.Greater(t, weekly.end.Loss(), alone.end.Loss())
	}},
	{"shrinks", "", "manure windrows -40 to -50 % (Abbassi et al.); yard waste up to -75 % of volume (waste360, trade page)", true, func(t *testing.T) {
		c := kept(t, 1).turned(14).run()
		left := c.litres[len(c.litres)-1] / 1000
		assert.GreaterOrEqual(t, left, 0.25)
		assert.LessOrEqual(t, left, 0.60)
	}},
	{"becomes stable", "feat-stable-ri", "Barrena Gomez et al. 2005: stable below 1 mg O2 per g dry matter and hour at 37 C", true, func(t *testing.T) {
		r := kept(t, 1)
		var fresh State
		fresh.Add(&r.p, r.m)
		c := r.run()
		assert.Greater(t, fresh.RespirationIndex(&r.p), 1.0)
		assert.Less(t, c.end.RespirationIndex(&r.p), 1.0)
	}},
	{"conducts as moist organic matter", "feat-thermal-k", "Ahn et al. 2009: 0.12-0.81 W/mK for manure, sawdust and compost", true, func(t *testing.T) {
		r := kept(t, 1)
		theta := r.m.WaterKg / r.m.DryKg * r.p.DryDensity / 1000
		k := conduct0 + r.p.ConductSlope*theta
		assert.GreaterOrEqual(t, k, 0.12)
		assert.LessOrEqual(t, k, 0.81)
	}},
}

func TestPublishedFeatures(t *testing.T) {
	for _, f := range features {
		t.Run(f.name, func(t *testing.T) {
			assert.NotEmpty(t, f.source)
			f.holds(t)
		})
	}
}
