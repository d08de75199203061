package water

import (
	"math"
	"math/rand/v2"
	"testing"

	"heapside/calc/fault"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestET0PicksTheBestMethodTheDataAllow(t *testing.T) {
	day := Day{OfYear: 187, MinC: 12.3, MaxC: 21.5}
	for _, row := range []struct {
		name, how string
		fill      func(*Day)
	}{
		{"temperatures alone", "Hargreaves, from temperatures alone", func(*Day) {}},
		{"half a humidity", "Hargreaves, from temperatures alone", func(d *Day) { d.RHMin = new(60.0) }},
		{"all", "Penman-Monteith", func(d *Day) { d.RHMean, d.WindMS, d.SunMJ = new(70.0), new(2.0), new(20.0) }},
		{"no humidity", "Penman-Monteith with the lowest temperature as dew point", func(d *Day) { d.WindMS, d.SunMJ = new(2.0), new(20.0) }},
		{"dew point only", "Penman-Monteith with wind taken as 2 m/s and sun from temperatures", func(d *Day) { d.DewC = new(11.0) }},
	} {
		t.Run(row.name, func(t *testing.T) {
			d := day
			row.fill(&d)
			mm, how, err := ET0(d, 50.8, 100)
			require.NoError(t, err)
			assert.Equal(t, row.how, how)
			assert.InDelta(t, 4, mm, 1.5, "a July day in Brussels")
		})
	}
}

func TestET0RefusesWhatCannotBe(t *testing.T) {
	for _, row := range []struct {
		name      string
		d         Day
		lat, high float64
	}{
		{"not a number", Day{OfYear: 1, MinC: math.NaN(), MaxC: 3}, 0, 0},
		{"humidity not a number", Day{OfYear: 1, MaxC: 3, RHMean: new(math.NaN())}, 0, 0},
		{"infinite wind", Day{OfYear: 1, MaxC: 3, WindMS: new(math.Inf(1))}, 0, 0},
		{"negative wind", Day{OfYear: 1, MaxC: 3, WindMS: new(-1.0)}, 0, 0},
		{"upside down", Day{OfYear: 1, MinC: 9, MaxC: 3}, 0, 0},
		{"day 0", Day{MaxC: 3}, 0, 0},
		{"day 367", Day{OfYear: 367, MaxC: 3}, 0, 0},
		{"beyond the pole", Day{OfYear: 1, MaxC: 3}, 90.1, 0},
		{"no latitude", Day{OfYear: 1, MaxC: 3}, math.NaN(), 0},
		{"in orbit", Day{OfYear: 1, MaxC: 3}, 0, 1e6},
	} {
		t.Run(row.name, func(t *testing.T) {
			_, _, err := ET0(row.d, row.lat, row.high)
			f, ok := fault.As(err)
			require.True(t, ok, "%v", err)
			assert.Equal(t, fault.OutOfRange, f.Code)
		})
	}
}

// maybe is a value drawn from low to high, or nil.
func maybe(r *rand.Rand, low, high float64) *float64 {
	if r.IntN(2) == 0 {
		return nil
	}
	return new(low + (high-low)*r.Float64())
}

func TestET0IsFiniteAndNotNegativeAnywhere(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	for lat := -90; lat <= 90; lat++ {
		for day := 1; day <= 366; day++ {
			low := -95 + 150*r.Float64()
			d := Day{
				OfYear: day, MinC: low, MaxC: min(60, low+30*r.Float64()),
				RHMin: maybe(r, 0, 100), RHMax: maybe(r, 0, 100), RHMean: maybe(r, 0, 100), DewC: maybe(r, -100, 40),
				WindMS: maybe(r, 0, 120), SunMJ: maybe(r, 0, 60), SunshineH: maybe(r, 0, 24), Coast: r.IntN(2) == 0,
			}
			mm, _, err := ET0(d, float64(lat), -500+9500*r.Float64())
			require.NoError(t, err)
			require.True(t, mm >= 0 && mm < 500, "%v at %d on day %d", mm, lat, day)
		}
	}
}

func TestPolarDayAndNight(t *testing.T) {
	for _, row := range []struct {
		name     string
		lat      float64
		day      int
		daylight float64
	}{
		{"north pole in June", 90, 172, 24},
		{"north pole in December", 90, 355, 0},
		{"south pole in June", -90, 172, 0},
		{"south pole in December", -90, 355, 24},
		{"Arctic circle garden in December", 70, 355, 0},
	} {
		t.Run(row.name, func(t *testing.T) {
			s := SunOn(row.lat, row.day)
			assert.InDelta(t, row.daylight, s.DaylightH(), 1e-9)
			assert.Equal(t, row.daylight > 0, s.TopMJ > 0)
		})
	}
}

func TestMoreOfItDriesMore(t *testing.T) {
	p := Penman{MeanC: 16.9, NetMJ: 13.28, WindMS: 2.078, SaturatedKPa: 1.997, ActualKPa: 1.409, ElevationM: 100}
	for _, row := range []struct {
		name string
		at   func(x float64) float64 // x from 0 to 1
	}{
		{"vapour pressure in temperature", func(x float64) float64 { return VapourPressure(-90 + 150*x) }},
		{"slope in temperature", func(x float64) float64 { return Slope(-90 + 150*x) }},
		{"net radiation", func(x float64) float64 { p := p; p.NetMJ = 25 * x; return p.ET0Mm() }},
		{"drier air", func(x float64) float64 { p := p; p.ActualKPa = 1.99 * (1 - x); return p.ET0Mm() }},
		{"wider day under Hargreaves", func(x float64) float64 { return Hargreaves(15-10*x, 15+10*x, 30) }},
		{"warmer day under Hargreaves", func(x float64) float64 { return Hargreaves(30*x, 10+30*x, 30) }},
		{"sunshine", func(x float64) float64 { return SunOn(50, 180).FromSunshine(16 * x) }},
		{"higher wind at 2 m", func(x float64) float64 { return WindAt2m(30*x, 10) }},
	} {
		t.Run(row.name, func(t *testing.T) {
			for i := range 200 {
				require.Less(t, row.at(float64(i)/200), row.at(float64(i+1)/200), "at step %d", i)
			}
		})
	}
}

func TestHoursKeepTheDay(t *testing.T) {
	for _, daylight := range []float64{0, 0.3, 8, 12, 16, 24} {
		hours := Hours(8, 20, 4.2, daylight)
		sum, low, high := 0.0, 99.0, -99.0
		for _, h := range hours {
			require.GreaterOrEqual(t, h.ET0Mm, 0.0)
			sum, low, high = sum+h.ET0Mm, min(low, h.AirC), max(high, h.AirC)
		}
		assert.InDelta(t, 4.2, sum, 1e-9, "daylight %v", daylight)
		assert.InDelta(t, 8, low, 0.1)
		assert.InDelta(t, 20, high, 0.1)
	}
	assert.Zero(t, Hours(8, 20, 4.2, 12)[2].ET0Mm, "no sun at night")
}

func BenchmarkET0(b *testing.B) {
	d := Day{OfYear: 187, MinC: 12.3, MaxC: 21.5, RHMean: new(70.0), WindMS: new(2.0), SunshineH: new(9.25)}
	for b.Loop() {
		if _, _, err := ET0(d, 50.8, 100); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkHours(b *testing.B) {
	for b.Loop() {
		Hours(8, 20, 4.2, 16)
	}
}
