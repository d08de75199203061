package process

import (
	"math/rand/v2"
	"testing"
)

// garden is the mixture that most checks start from: grass and leaves, 62 % moist.
func garden(m3, tempC float64) Material {
	const dryDensity, wet, cn = 110, 0.62, 28
	dry := m3 * dryDensity
	return Material{
		DryKg: dry, WaterKg: dry * wet / (1 - wet), CarbonKg: 0.44 * dry, NitrogenKg: 0.44 * dry / cn,
		VolatileShare: 0.88, Degradable: 0.58, FastShare: 0.40, TempC: tempC,
	}
}

// BenchmarkStep is the cost of a member's hour. CPU time on one core of a shared
// machine (wall time there was up to tenfold): hot 640, cold 520, whole 40 days
// 595 ns. Of the hot hours pprof gives 12 % to Exp, 8 % to Cbrt, none to Pow, and
// 25 % to the search for oxygen, so no table or approximation is worth its error.
func BenchmarkStep(b *testing.B) {
	weather := airs(weatherOf(b, "weather-150-4"))
	for _, phase := range []struct {
		name     string
		from, to int // hours of age
	}{{"hot", 24, 240}, {"cold", 720, 960}, {"whole", 0, 960}} {
		b.Run(phase.name, func(b *testing.B) { benchmarkPhase(b, weather, phase.from, phase.to) })
	}
}

func benchmarkPhase(b *testing.B, weather []Air, from, to int) {
	r := rand.New(rand.NewPCG(1, 2))
	set := OpenGround()
	params := make([]Params, 64)
	starts := make([]State, len(params))
	for i := range params {
		params[i] = Draw(r)
		starts[i].Add(&params[i], garden(1, 18))
		for h := range from {
			starts[i].StepAir(&params[i], &set, &weather[h], 3600, nil)
		}
	}
	b.ReportAllocs()
	n := 0
	for b.Loop() {
		for i := range params {
			s := starts[i]
			for h := from; h < to; h++ {
				s.StepAir(&params[i], &set, &weather[h], 3600, nil)
			}
			n += to - from
		}
	}
	b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(n), "ns/member-hour")
	b.ReportMetric(0, "ns/op")
}
