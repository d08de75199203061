package process

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// anyMaterial is something people might bring, from a handful to a lorry load.
func anyMaterial(r *rand.Rand) Material {
	dry := math.Exp(-3 + 9*r.Float64())
	wet := 0.05 + 0.85*r.Float64()
	return Material{
		DryKg: dry, WaterKg: dry * wet / (1 - wet), CarbonKg: dry * 0.45, NitrogenKg: dry * 0.45 / (8 + 200*r.Float64()),
		VolatileShare: r.Float64(), Degradable: r.Float64(), FastShare: r.Float64(),
		LooseDensity: 400 * r.Float64(), TempC: -20 + 80*r.Float64(),
	}
}

func anyHour(r *rand.Rand) Hour {
	return Hour{AirC: -45 + 100*r.Float64(), RH: r.Float64(), RainMm: max(0, 40*r.Float64()-30), ET0Mm: r.Float64(), WindMS: 20 * r.Float64()}
}

func anySetup(r *rand.Rand) Setup {
	return Setup{
		Surface: 1 + r.Float64(), BaseOn: 0.3 * r.Float64(), Top: 0.5 + r.Float64(), CoverR: r.Float64(),
		Shelter: r.Float64(), RainIn: r.Float64(), Open: r.Float64(), Draught: r.Float64(), Exchange: r.Float64(),
	}
}

// live carries a heap drawn at random through random weather and events and
// calls see after each hour.
func live(r *rand.Rand, wide float64, hours int, see func(s *State, p *Params)) {
	p, set := draw(r, wide), anySetup(r)
	var s State
	s.Add(&p, anyMaterial(r))
	for range hours {
		h := anyHour(r)
		switch r.IntN(60) {
		case 0:
			s.Turn(&p, h.AirC)
		case 1:
			s.Wet(&p, s.DryKg()*r.Float64(), 30*r.Float64())
		case 2:
			s.Add(&p, anyMaterial(r))
		case 3:
			s.Keep(0.5 + r.Float64())
		case 4:
			set = anySetup(r)
		}
		s.Eps = 0.3 * r.NormFloat64()
		s.Step(&p, &set, h)
		see(&s, &p)
	}
}

func inRange(z *Zone) bool {
	masses := min(z.Fast, z.Slow, z.Inert, z.Ash, z.Water)
	return z.T >= minC && z.T <= maxC && masses >= 0 && z.O2 >= 0 && z.O2 <= ambientO2 && z.Activity >= 0 && z.Activity <= 1 &&
		!math.IsInf(z.Fast+z.Slow+z.Inert+z.Ash+z.Water, 0)
}

func TestNoStateLeavesItsRange(t *testing.T) {
	r := rand.New(rand.NewPCG(11, 1))
	for range 400 {
		live(r, 3, 300, func(s *State, p *Params) {
			require.True(t, inRange(&s.Core), "core %+v of %+v", s.Core, *p)
			require.True(t, inRange(&s.Mantle), "mantle %+v of %+v", s.Mantle, *p)
			require.True(t, s.Loose >= 0 && s.Loose <= 1 && s.Loss() >= 0 && s.Loss() <= 1 && s.VolumeL(p) > 0, "%+v", *s)
		})
	}
}

func TestStateStaysWithinWeatherWithoutMicrobes(t *testing.T) {
	r := rand.New(rand.NewPCG(11, 2))
	p, set := DefaultParams(), OpenGround()
	p.KFast, p.KSlow = 0, 0
	for range 50 {
		var s State
		s.Add(&p, garden(math.Exp(4*r.Float64()-4), 15))
		for range 200 {
			s.Step(&p, &set, Hour{AirC: 20 * r.Float64(), RH: 0.9, WindMS: 5 * r.Float64()})
			require.True(t, s.Core.T > -3 && s.Core.T < 20.5 && s.Mantle.T > -3 && s.Mantle.T < 20.5, "%+v", s)
		}
	}
}

// Water and heat that are there are what was there and what crossed the border.
func TestBooksClose(t *testing.T) {
	r := rand.New(rand.NewPCG(11, 3))
	for range 200 {
		p, set := draw(r, 2), anySetup(r)
		var s State
		var b Balance
		s.Add(&p, garden(math.Exp(4*r.Float64()-3), 40*r.Float64()))
		water, dry, heat := s.WaterKg(), s.DryKg(), s.HeatKJ()
		var turnover float64
		for range 240 {
			air := anyHour(r).Air()
			before := b
			s.StepAir(&p, &set, &air, 3600, &b)
			turnover += math.Abs(b.AirKJ-before.AirKJ) + math.Abs(b.ConductedKJ-before.ConductedKJ) + math.Abs(b.MadeKJ-before.MadeKJ)
		}
		assert.InDelta(t, water+b.RainKg+b.MadeKg-b.EvaporatedKg-b.DrainedKg, s.WaterKg(), 1e-6, "kg water")
		assert.InDelta(t, dry-b.LostKg, s.DryKg(), 1e-6, "kg dry")
		assert.InDelta(t, heat+b.MadeKJ+b.ConductedKJ+b.AirKJ+b.CarriedKJ+b.HeldKJ, s.HeatKJ(), 1e-9*(turnover+heat)+1e-6, "kJ")
	}
}

func TestTurningMovesNothingButWaterAndHeat(t *testing.T) {
	r := rand.New(rand.NewPCG(11, 4))
	for range 50 {
		live(r, 2, 100, func(s *State, p *Params) {
			turned := *s
			turned.Turn(p, 10)
			for _, of := range []func(*Zone) float64{
				func(z *Zone) float64 { return z.Fast }, func(z *Zone) float64 { return z.Slow },
				func(z *Zone) float64 { return z.Inert }, func(z *Zone) float64 { return z.Ash },
			} {
				was := of(&s.Core) + of(&s.Mantle)
				require.InDelta(t, was, of(&turned.Core)+of(&turned.Mantle), 1e-9*(was+1))
			}
			require.LessOrEqual(t, turned.WaterKg(), s.WaterKg())
			require.GreaterOrEqual(t, turned.WaterKg(), 0.97*s.WaterKg()-1e-9)
			require.Equal(t, turned.Core.T, turned.Mantle.T)
			require.LessOrEqual(t, turned.HeatKJ(), s.HeatKJ()+1e-6*math.Abs(s.HeatKJ()))
		})
	}
}

func TestAddingTheSameAtTheSameTemperature(t *testing.T) {
	r := rand.New(rand.NewPCG(11, 5))
	p := DefaultParams()
	for range 100 {
		m := anyMaterial(r)
		var once, twice State
		once.Add(&p, m)
		twice.Add(&p, m)
		twice.Add(&p, m)
		assert.InDelta(t, once.Core.T, twice.Core.T, 1e-9)
		assert.InDelta(t, once.Mantle.T, twice.Mantle.T, 1e-9)
		assert.InDelta(t, once.CN(), twice.CN(), 1e-9*once.CN())
		assert.InDelta(t, once.Moisture(), twice.Moisture(), 1e-9)
		assert.InDelta(t, 2*once.Core.dry(), twice.Core.dry(), 1e-9*once.DryKg())
		assert.InDelta(t, 2*once.VolumeL(&p), twice.VolumeL(&p), 1e-6*once.VolumeL(&p))
		assert.InDelta(t, once.Loose, twice.Loose, 1e-12)
	}
}

// A small addition changes a heap by no more than its share.
func TestAddingALittleChangesLittle(t *testing.T) {
	p, set := DefaultParams(), OpenGround()
	var s State
	s.Add(&p, garden(1, 18))
	for range 96 {
		s.Step(&p, &set, Hour{AirC: 14, RH: 0.7})
	}
	after := s
	after.Add(&p, garden(0.01, 5))
	assert.InDelta(t, s.Core.T, after.Core.T, 1)
	assert.Less(t, after.Mantle.T, s.Mantle.T)
	assert.InDelta(t, s.DryKg()+1.1, after.DryKg(), 1e-9)
	assert.Greater(t, after.Loose, s.Loose)
	assert.InDelta(t, s.HeatKJ()+(1.1*solidsHeat+1.1*0.62/0.38*waterHeat)*5, after.HeatKJ(), 1e-6)
}

// The time step hardly matters: within 0.3 C over heaps drawn from the prior.
func TestHalvingTheStep(t *testing.T) {
	r := rand.New(rand.NewPCG(5, 5))
	weather := airs(weatherOf(t, "weather-150-4"))
	set := OpenGround()
	for range 60 {
		p := Draw(r)
		m := garden(math.Exp(3*r.Float64()-1.7), 5+20*r.Float64())
		var whole, half State
		whole.Add(&p, m)
		half.Add(&p, m)
		for i := range weather {
			if i == 240 {
				whole.Turn(&p, weather[i].C)
				half.Turn(&p, weather[i].C)
			}
			whole.StepAir(&p, &set, &weather[i], 3600, nil)
			half.StepAir(&p, &set, &weather[i], 1800, nil)
			require.InDelta(t, half.Core.T, whole.Core.T, 0.3, "hour %d of %+v", i, p)
		}
	}
}

func airs(hours [][5]float64) []Air {
	out := make([]Air, len(hours))
	for i, h := range hours {
		out[i] = Hour{AirC: h[0], RH: h[1], RainMm: h[2], ET0Mm: h[3], WindMS: h[4]}.Air()
	}
	return out
}

func TestAnHourDoesNotAllocate(t *testing.T) {
	p, set := DefaultParams(), OpenGround()
	var s State
	s.Add(&p, garden(1, 18))
	assert.Zero(t, testing.AllocsPerRun(100, func() { s.Step(&p, &set, Hour{AirC: 14, RH: 0.7, RainMm: 1, ET0Mm: 0.1}) }))
}

// A quiet spell in one piece of six hours ends where six hours do.
func TestLongerPieces(t *testing.T) {
	p, set := DefaultParams(), OpenGround()
	var hours, pieces State
	hours.Add(&p, garden(0.5, 8))
	pieces = hours
	air := Hour{AirC: 4, RH: 0.8, RainMm: 0.1, WindMS: 2}.Air()
	long := air
	long.Seconds *= 6
	for range 40 {
		for range 6 {
			hours.StepAir(&p, &set, &air, 3600, nil)
		}
		pieces.StepAir(&p, &set, &long, 3600, nil)
	}
	assert.InDelta(t, hours.Core.T, pieces.Core.T, 0.05)
	assert.InDelta(t, hours.SoilC, pieces.SoilC, 0.05)
	assert.InDelta(t, hours.WaterKg(), pieces.WaterKg(), 0.01)
}
