package process

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestEmptyHeap(t *testing.T) {
	p, set := DefaultParams(), OpenGround()
	var s State
	s.Turn(&p, 10)
	s.Wet(&p, 20, 15)
	s.Keep(0.5)
	for range 48 {
		s.Step(&p, &set, Hour{AirC: 20, RH: 0.5, RainMm: 3})
	}
	assert.True(t, s.Empty())
	assert.Greater(t, s.SoilC, 0.0)
	for name, v := range map[string]float64{
		"volume": s.VolumeL(&p), "moisture": s.Moisture(), "core": s.CoreMoisture(), "mantle": s.MantleMoisture(), "air": s.AirSpace(&p),
		"respiration": s.RespirationIndex(&p), "loss": s.Loss(), "wanted": s.WaterWanted(0.58), "C:N": s.CN(), "reading": s.Reading(&p, 30),
	} {
		assert.Zero(t, v, name)
	}
}

func TestUnrealAdditions(t *testing.T) {
	p, set := DefaultParams(), OpenGround()
	good := garden(0.5, 18)
	nan, inf := math.NaN(), math.Inf(1)
	for _, row := range []struct {
		name  string
		spoil func(*Material)
		empty bool // nothing may come of it
	}{
		{"negative dry mass", func(m *Material) { m.DryKg = -3 }, true},
		{"dry mass not a number", func(m *Material) { m.DryKg = nan }, true},
		{"only water", func(m *Material) { m.DryKg = 0 }, true},
		{"endless dry mass", func(m *Material) { m.DryKg = inf }, false},
		{"negative water", func(m *Material) { m.WaterKg = -1 }, false},
		{"endless water", func(m *Material) { m.WaterKg = inf }, false},
		{"temperature not a number", func(m *Material) { m.TempC = nan }, false},
		{"hotter than boiling", func(m *Material) { m.TempC = 900 }, false},
		{"shares beyond one", func(m *Material) { m.VolatileShare, m.Degradable, m.FastShare = 7, 7, 7 }, false},
		{"shares not numbers", func(m *Material) { m.VolatileShare, m.Degradable, m.FastShare = nan, nan, nan }, false},
		{"carbon and nitrogen not numbers", func(m *Material) { m.CarbonKg, m.NitrogenKg = nan, -inf }, false},
		{"density not a number", func(m *Material) { m.LooseDensity = nan }, false},
		{"endless density", func(m *Material) { m.LooseDensity = inf }, false},
		{"no organic matter", func(m *Material) { m.VolatileShare = 0 }, false},
	} {
		t.Run(row.name, func(t *testing.T) {
			bad := good
			row.spoil(&bad)
			var alone, onTop State
			alone.Add(&p, bad)
			assert.Equal(t, row.empty, alone.Empty())
			onTop.Add(&p, good)
			onTop.Add(&p, bad)
			for _, s := range []*State{&alone, &onTop} {
				for range 48 {
					s.Step(&p, &set, Hour{AirC: 12, RH: 0.8})
				}
				require.True(t, inRange(&s.Core) && inRange(&s.Mantle), "%+v", *s)
			}
		})
	}
}

func TestTwoTurnsInAMinute(t *testing.T) {
	p, set := DefaultParams(), OpenGround()
	var s State
	s.Add(&p, garden(1, 18))
	for range 96 {
		s.Step(&p, &set, Hour{AirC: 14, RH: 0.7})
	}
	s.Turn(&p, 14)
	once := s
	s.Turn(&p, 14)
	assert.Equal(t, once.DryKg(), s.DryKg())
	assert.Less(t, s.Core.T, once.Core.T) // it lies open twice
	assert.Greater(t, s.Core.T, 14.0)
	assert.InDelta(t, once.Core.T-p.TurnLoss*(once.Core.T-14), s.Core.T, 1e-9)
}

func TestTurningInWarmerAirTakesNoHeat(t *testing.T) {
	p := DefaultParams()
	var s State
	s.Add(&p, garden(1, 10))
	before := s.HeatKJ()
	s.Turn(&p, 30)
	assert.InDelta(t, before, s.HeatKJ(), 1e-6)
	s.Turn(&p, math.NaN())
	assert.True(t, inRange(&s.Core))
}

func TestWatering(t *testing.T) {
	p := DefaultParams()
	var s State
	s.Add(&p, garden(1, 50))
	water, heat := s.WaterKg(), s.HeatKJ()
	s.Wet(&p, 30, 10)
	assert.InDelta(t, water+30, s.WaterKg(), 1e-9)
	assert.InDelta(t, heat+30*waterHeat*10, s.HeatKJ(), 1e-6)
	for _, kg := range []float64{-5, math.NaN(), 0} {
		before := s
		s.Wet(&p, kg, 10)
		assert.InDelta(t, before.WaterKg(), s.WaterKg(), 1e-12, "%v kg", kg)
		assert.InDelta(t, before.Core.T, s.Core.T, 1e-12, "%v kg", kg)
	}
	s.Wet(&p, s.WaterWanted(0.70), 10)
	assert.InDelta(t, 0.70, s.Moisture(), 1e-9)
	assert.Zero(t, s.WaterWanted(0.58))
}

func TestKeepingAShare(t *testing.T) {
	p := DefaultParams()
	var s State
	s.Add(&p, garden(1, 18))
	half := s
	half.Keep(0.5)
	assert.InDelta(t, s.DryKg()/2, half.DryKg(), 1e-9)
	assert.InDelta(t, s.Moisture(), half.Moisture(), 1e-12)
	assert.Equal(t, s.Core.T, half.Core.T)
	assert.Equal(t, s.Loss(), half.Loss())
	for _, share := range []float64{0, -1, math.NaN()} {
		gone := s
		gone.Keep(share)
		assert.True(t, gone.Empty(), "%v", share)
		gone.Add(&p, garden(0.2, 9))
		assert.InDelta(t, 22, gone.DryKg(), 1e-9)
		assert.InDelta(t, 9, gone.Core.T, 1e-9)
	}
	more := s
	more.Keep(7)
	assert.Equal(t, s.DryKg(), more.DryKg())
}

// A heap that is filled by a bucket a day over four weeks warms, but less and
// later than the same material at once, and what is new is at the outside.
func TestFillingOverWeeks(t *testing.T) {
	p, set := DefaultParams(), OpenGround()
	weather := airs(weatherOf(t, "weather-150-4"))
	run := func(parts, everyDays int) (peak, peakDay float64, s State) {
		for i := range weather {
			if i%(24*everyDays) == 0 && i/(24*everyDays) < parts {
				s.Add(&p, garden(0.8/float64(parts), 18))
			}
			s.StepAir(&p, &set, &weather[i], 3600, nil)
			if s.Core.T > peak {
				peak, peakDay = s.Core.T, float64(i)/24
			}
		}
		return peak, peakDay, s
	}
	peak, day, once := run(1, 1)
	slowPeak, slowDay, slow := run(28, 1)
	assert.Greater(t, peak, slowPeak)
	assert.Greater(t, slowPeak, 30.0)
	assert.Greater(t, slowDay, day)
	assert.InDelta(t, once.AddedDegradable, slow.AddedDegradable, 1e-9)
	assert.Greater(t, slow.RespirationIndex(&p), once.RespirationIndex(&p))
	assert.Greater(t, slow.Mantle.Fast, slow.Core.Fast)
}

// The mixture's C:N sets the rate, whatever the order.
func TestMixtureCarbonNitrogen(t *testing.T) {
	p := DefaultParams()
	grass, leaves := garden(0.4, 15), garden(0.6, 15)
	grass.NitrogenKg, leaves.NitrogenKg = grass.CarbonKg/17, leaves.CarbonKg/54
	var a, b State
	a.Add(&p, grass)
	a.Add(&p, leaves)
	b.Add(&p, leaves)
	b.Add(&p, grass)
	want := (grass.CarbonKg + leaves.CarbonKg) / (grass.NitrogenKg + leaves.NitrogenKg)
	assert.InDelta(t, want, a.CN(), 1e-9)
	assert.InDelta(t, want, b.CN(), 1e-9)
	assert.Equal(t, 1.0, CarbonNitrogenFactor(17))
	assert.Equal(t, 1.0, CarbonNitrogenFactor(math.NaN()))
	assert.InDelta(t, math.Pow(0.5, 0.8), CarbonNitrogenFactor(60), 1e-12)
}
