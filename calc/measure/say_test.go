package measure

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// groups of every system, and one with measures of its own.
var groupsOfAllKinds = map[string]Measures{
	"metric":   {},
	"us":       {System: US, Fahrenheit: true},
	"imperial": {System: Imperial},
	"own":      {Sizes: map[string]float64{"bucket": 14, "barrow": 100}},
	"odd":      {Sizes: map[string]float64{"bucket": 60, "barrow": 50}},
	"tiny":     {System: US, Sizes: map[string]float64{"bucket": 2, "barrow": 300}},
}

func TestSay(t *testing.T) {
	tests := map[float64]string{
		0: "0", 0.25: "¼", 0.5: "½", 0.75: "¾", 1: "1", 2.5: "2½", 2.4: "2.4", 3: "3", 12.5: "12½", 0.05: "0.05", 0.1: "0.1",
		17.3: "17", 100: "100", 1200: "1,200", 1234567: "1,234,567", 1. / 3: "0.33", -2.5: "-2½",
	}
	for v, want := range tests {
		assert.Equal(t, want, Say(v))
	}
}

func TestSayOdds(t *testing.T) {
	for p, want := range map[float64]string{
		0: "less than 1 in 10", 0.04: "less than 1 in 10", 0.06: "1 in 10", 0.72: "7 in 10", 0.94: "9 in 10",
		0.96: "more than 9 in 10", 1: "more than 9 in 10",
	} {
		assert.Equal(t, want, SayOdds(p), "%v", p)
	}
}

func TestSayVolume(t *testing.T) {
	us, imperial := Measures{System: US}, Measures{System: Imperial}
	tests := []struct {
		m      Measures
		litres float64
		want   string
	}{
		{Measures{}, 6, "half a bucket"},
		{Measures{}, 30, "2½ buckets"},
		{Measures{}, 12, "1 bucket"},
		{Measures{}, 11.8, "1 bucket"},
		{Measures{}, 3.2, "3 litres"},
		{Measures{}, 1.4, "1½ litres"},
		{Measures{}, 0.32, "300 ml"},
		{Measures{}, 0.49, "half a litre"},
		{Measures{}, 0, "nothing"},
		{Measures{}, math.NaN(), "nothing"},
		{Measures{}, 170, "14 buckets"},
		{Measures{}, 340, "4 barrows (about 28 buckets)"},
		{Measures{}, 2000, "24 barrows (about 165 buckets)"},
		{us, 18.9, "1 bucket"},
		{us, 9.5, "half a bucket"},
		{us, 4.7, "1¼ gallons"},
		{us, 0.5, "1 pint"},
		{us, 0.1, "3 fluid ounces"},
		{imperial, 4.6, "1 gallon"},
		{Measures{Sizes: map[string]float64{"bucket": 14}}, 35, "2½ buckets"},
	}
	for _, tt := range tests {
		assert.Equal(t, tt.want, tt.m.SayVolume(tt.litres), "%v litres, %q", tt.litres, tt.m.System)
	}
}

func TestSayOthers(t *testing.T) {
	metric, us, imperial := Measures{}, Measures{System: US, Fahrenheit: true}, Measures{System: Imperial}
	tests := []struct{ got, want string }{
		{metric.SayBulk(900), "0.9 m³ (about 75 buckets)"},
		{metric.SayBulk(1000), "1 m³ (about 85 buckets)"},
		{metric.SayBulk(60), "5 buckets"},
		{us.SayBulk(917), "1.2 cubic yards (about 48 buckets)"},
		{imperial.SayBulk(764.6), "1 cubic yard (about 65 buckets)"},
		{metric.SayWater(0.4), "half a litre"},
		{metric.SayWater(0.1), "a splash"},
		{metric.SayWater(0), "nothing"},
		{metric.SayWater(4.1), "4 litres"},
		{metric.SayWater(4.4), "4½ litres"},
		{metric.SayWater(1), "1 litre"},
		{metric.SayWater(20), "20 litres (2 cans)"},
		{metric.SayWater(23), "23 litres (about 2½ cans)"},
		{metric.SayWater(43), "45 litres (4½ cans)"},
		{us.SayWater(3.9), "1 gallon"},
		{us.SayWater(4.7), "1¼ gallons"},
		{us.SayWater(20), "5½ gallons (about 3 cans)"},
		{metric.SayMass(0.02), "20 g"},
		{metric.SayMass(0.31), "300 g"},
		{metric.SayMass(3.1), "3 kg"},
		{metric.SayMass(3.3), "3½ kg"},
		{metric.SayMass(0.98), "1 kg"},
		{metric.SayMass(45.4), "45 kg"},
		{metric.SayMass(1200), "1.2 tonnes"},
		{us.SayMass(1), "2 lb"},
		{us.SayMass(0.1), "3½ oz"},
		{us.SayMass(2000), "2.2 tons"},
		{metric.SayTemperature(57.6), "58 °C"},
		{metric.SayTemperature(-0.2), "0 °C"},
		{us.SayTemperature(57.8), "136 °F"},
		{metric.SayLength(40.3), "40 cm"},
		{metric.SayLength(120), "1.2 m"},
		{us.SayLength(40.64), "16 in"},
		{us.SayLength(96.52), "3 ft 2 in"},
		{us.SayLength(91.44), "3 ft"},
		{metric.SayRain(12.3), "12 mm"},
		{metric.SayRain(2.5), "2.5 mm"},
		{metric.SayRain(0), "0 mm"},
		{us.SayRain(12.7), "0.5 in"},
	}
	for _, tt := range tests {
		assert.Equal(t, tt.want, tt.got)
	}
}

// Whatever is printed can be read back, and means the same within half a step.
func TestPrintedAmountsReadBack(t *testing.T) {
	for name, m := range groupsOfAllKinds {
		t.Run(name, func(t *testing.T) {
			random := rand.New(rand.NewPCG(1, 2))
			for range 3000 {
				x := math.Exp(math.Log(0.02) + random.Float64()*(math.Log(19000)-math.Log(0.02)))
				requireVolume(t, m, m.SayVolume(x), x, m.Step(x)/2)
				requireVolume(t, m, m.SayBulk(x), x, max(m.Step(x)/2, x*0.06))
				if water := m.SayWater(x); water != "a splash" {
					requireVolume(t, m, water, x, m.WaterStep(x)/2)
				}
				a, err := m.ParseAmount(m.SayMass(x))
				require.NoError(t, err)
				mass, ok := a.Mass()
				require.True(t, ok)
				require.InDelta(t, x, mass.Typical, max(0.26, x*0.06), m.SayMass(x))
			}
		})
	}
}

func requireVolume(t *testing.T, m Measures, said string, litres, within float64) {
	t.Helper()
	a, err := m.ParseAmount(said)
	require.NoError(t, err, "%v litres", litres)
	v, ok := a.Volume()
	require.True(t, ok, said)
	require.InDelta(t, litres, v.Typical, within*(1+1e-6), "%q", said)
}

func TestPrintedReadingsReadBack(t *testing.T) {
	for name, m := range groupsOfAllKinds {
		t.Run(name, func(t *testing.T) {
			for c := -40.0; c <= 100; c += 0.37 {
				got, err := m.ParseTemperature(m.SayTemperature(c))
				require.NoError(t, err)
				require.InDelta(t, c, got, 0.51)
			}
			for cm := 2.0; cm <= 499; cm += 0.7 {
				got, err := m.ParseLength(m.SayLength(cm))
				require.NoError(t, err)
				require.InDelta(t, cm, got, inchCm/2+1e-9)
			}
			for mm := 0.0; mm <= 500; mm += 0.7 {
				got, err := m.ParseRain(m.SayRain(mm))
				require.NoError(t, err)
				require.InDelta(t, mm, got, 0.51)
			}
		})
	}
}

func TestStepsGrowWithTheAmount(t *testing.T) {
	for name, m := range groupsOfAllKinds {
		last, lastWater := 0.0, 0.0
		for x := 0.001; x < 30000; x *= 1.01 {
			step, water := m.Step(x), m.WaterStep(x)
			assert.Positive(t, step)
			if name != "odd" && name != "tiny" {
				require.GreaterOrEqual(t, step, last, "%s: step at %v litres", name, x)
			}
			require.GreaterOrEqual(t, water, lastWater, "%s: water step at %v litres", name, x)
			last, lastWater = step, water
		}
	}
	assert.InDelta(t, 6, Measures{}.Step(24), 1e-9, "half a bucket")
	assert.InDelta(t, 1, Measures{}.Step(8), 1e-9, "a litre below one bucket")
	assert.InDelta(t, 0.5, Measures{}.Step(2), 1e-9, "half a litre below three")
	assert.InDelta(t, 12, Measures{}.Step(150), 1e-9, "a bucket above ten")
	assert.InDelta(t, 85, Measures{}.Step(2000), 1e-9, "a barrow above a hundred")
}

// TestSayFine holds that an amount reckoned in parts of a measure is not
// written as a whole one.
func TestSayFine(t *testing.T) {
	metric, us, imperial := Measures{}, Measures{System: US}, Measures{System: Imperial}
	for _, tt := range []struct {
		m            Measures
		litres       float64
		solid, water string
	}{
		{metric, 24, "2 buckets", "24 litres (about 2½ cans)"},
		{metric, 5.5, "5½ litres", "5½ litres"},
		{metric, 6, "half a bucket", "6 litres"},
		{metric, 15, "1¼ buckets", "15 litres"},
		{metric, 0.25, "250 ml", "250 ml"},
		{us, 0.473176473, "1 pint", "1 pint"},
		{us, 5.204941203, "1.4 gallons", "1.4 gallons"},
		{imperial, 5.6826125, "1¼ gallons", "1¼ gallons"},
		{metric, 0, "nothing", "nothing"},
	} {
		assert.Equal(t, tt.solid, tt.m.SayFine(tt.litres), "%v litres in a %q group", tt.litres, tt.m.System)
		assert.Equal(t, tt.water, tt.m.SayFineWater(tt.litres), "%v litres of water in a %q group", tt.litres, tt.m.System)
	}
}
