package measure

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"heapside/calc/fault"
)

// A foot is 0.3048 m, so a square foot is 0.09290304 m² (agreement of 1959).
const sqFootM2 = 0.3048 * 0.3048

func TestParseArea(t *testing.T) {
	metric, us := Measures{}, Measures{System: US}
	parses(t, Measures.ParseArea, []scalar{
		{"attached", metric, "3m2", 3},
		{"spaced", metric, "3 m2", 3},
		{"superscript", metric, "3 m²", 3},
		{"caret", metric, "3 m^2", 3},
		{"words", metric, "three square metres", 3},
		{"short", metric, "3 sq m", 3},
		{"one word", metric, "3sqm", 3},
		{"decimal comma", metric, "2,5 m2", 2.5},
		{"half", metric, "half a square metre", 0.5},
		{"about", metric, "about 3 m2", 3},
		{"range", metric, "2-4 m2", 3},
		{"square feet", metric, "32 sq ft", 32 * sqFootM2},
		{"square feet with a point", metric, "32 sq. ft.", 32 * sqFootM2},
		{"square foot", metric, "32 square foot", 32 * sqFootM2},
		{"ft2", metric, "32 ft2", 32 * sqFootM2},
		{"square yards", metric, "10 yd2", 90 * sqFootM2},
		{"square centimetres", metric, "5000 cm2", 0.5},
		{"acre", metric, "half an acre", 43560.0 / 2 * sqFootM2}, // 43,560 square feet: Clackamas SWCD's sum
		{"hectare", metric, "0.5 ha", 5000},
		{"sides", metric, "4 x 1.2 m", 4.8},
		{"sides run together", metric, "4x1.2m", 4.8},
		{"sides with both units", metric, "4 m x 120 cm", 4.8},
		{"first side's unit", metric, "4 m x 1.2", 4.8},
		{"by", metric, "3 by 1 metres", 3},
		{"times sign", metric, "4 × 1.2 m", 4.8},
		{"bare sides are metres", metric, "1.2 x 3", 3.6},
		{"bare sides are feet in the US", us, "4 x 8", 32 * sqFootM2},
		{"feet", us, "4 x 8 ft", 32 * sqFootM2},
		{"foot marks", us, "4' x 8'", 32 * sqFootM2},
		{"feet and inches", us, "4 ft 6 in x 8 ft", 36 * sqFootM2},
		{"inches on the second side", us, "8 ft x 4 ft 6 in", 36 * sqFootM2},
		{"beds", metric, "4 beds of 1.2 x 3 m", 14.4},
		{"raised beds", metric, "4 raised beds 1.2 by 2.4 m", 11.52},
		{"beds of an area", metric, "4 beds of 3 m2 each", 12},
		{"a bed", metric, "a bed of 3 by 1 m", 3},
		{"beds without of", metric, "two beds 1.2 x 3 m", 7.2},
		{"least", metric, "0.01 m2", 0.01},
		{"most", metric, "1 ha", 10000},
	})
}

func TestParseAreaRefuses(t *testing.T) {
	metric, us := Measures{}, Measures{System: US}
	tests := []struct {
		name, text string
		m          Measures
		code       fault.Code
		contains   string
	}{
		{"nothing", "", metric, fault.NotUnderstood, "3 m2"},
		{"words", "big", metric, fault.NotUnderstood, "“big”"},
		{"one side", "3 m", metric, fault.Missing, "one side"},
		{"bare", "12", metric, fault.Missing, "no unit"},
		{"bare in the US", "12", us, fault.Missing, "32 sq ft"},
		{"acres", "5 acres", metric, fault.OutOfRange, "between 0.01 m² and 10,000 m²"},
		{"nothing of it", "0 m2", metric, fault.OutOfRange, "“0 m2”"},
		{"negative", "-3 m2", metric, fault.NotUnderstood, "“-3 m2”"},
		{"volume", "3 m3", metric, fault.NotUnderstood, "not an area"},
		{"bags", "2 x 40 l", metric, fault.NotUnderstood, "not an area"},
		{"not a number", "NaN m2", metric, fault.NotUnderstood, "not an area"},
		{"endless", "99999999999999999999999 m2", metric, fault.OutOfRange, "between"},
		{"three sides", "1 x 2 x 3 m", metric, fault.NotUnderstood, "not an area"},
		{"emoji", "🌱", metric, fault.NotUnderstood, "That is not an area"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			_, err := tt.m.ParseArea(tt.text)
			f, ok := fault.As(err)
			require.True(t, ok, "%v", err)
			assert.Equal(t, tt.code, f.Code)
			assert.Contains(t, f.Message, tt.contains)
		})
	}
}

func TestParseDepth(t *testing.T) {
	metric, us := Measures{}, Measures{System: US}
	parses(t, Measures.ParseDepth, []scalar{
		{"attached", metric, "5cm", 5},
		{"deep", metric, "5 cm deep", 5},
		{"millimetres", metric, "5 mm", 0.5},
		{"range", metric, "2-3 cm", 2.5},
		{"inch", metric, "an inch", 2.54},
		{"half an inch", metric, "half an inch", 1.27},
		{"quarter inch", metric, "¼ in", 0.635},
		{"third of an inch", metric, "a third of an inch", 2.54 / 3},
		{"bare is centimetres", metric, "3", 3},
		{"bare is inches in the US", us, "2", 5.08},
		{"inch mark", us, `2"`, 5.08},
		{"least", metric, "1 mm", 0.1},
		{"most", metric, "half a metre", 50},
	})
	for text, code := range map[string]fault.Code{
		"": fault.NotUnderstood, "deep": fault.NotUnderstood, "5 kg": fault.NotUnderstood, "5 cm 2": fault.NotUnderstood, "-5 cm": fault.NotUnderstood,
		"0 cm": fault.OutOfRange, "60 cm": fault.OutOfRange, "3 m": fault.OutOfRange,
	} {
		_, err := metric.ParseDepth(text)
		f, ok := fault.As(err)
		if assert.True(t, ok, "%q: %v", text, err) {
			assert.Equal(t, code, f.Code, "%q", text)
		}
	}
}

func TestAreaAndDepthInAText(t *testing.T) {
	metric, us := Measures{}, Measures{System: US}
	for _, tt := range []struct {
		m                       Measures
		text, area, depth, rest string
	}{
		{metric, "3 m2 5 cm", "3 m2", "5 cm", ""},
		{metric, "3m2 1/2 in", "3m2", "1/2 in", ""},
		{metric, "5 cm on 3 m2", "3 m2", "5 cm", "on"},
		{metric, "4 x 1.2 m 5 cm deep", "4 x 1.2 m", "5 cm deep", ""},
		{us, "4 x 8 ft 2 in", "4 x 8 ft", "2 in", ""},
		{us, "4 ft 6 in x 8 ft 2 in deep", "4 ft 6 in x 8 ft", "2 in deep", ""},
		{metric, "how much for a bed of 3 by 1 metres, 5 cm deep?", "a bed of 3 by 1 metres", "5 cm deep", "how much for , ?"},
		{metric, "2 x 40 l bags", "", "", "2 x 40 l bags"},
		{metric, "40 litres 3cm", "", "3cm", "40 litres"},
		{metric, "2 in north bay", "", "", "2 in north bay"},
		{metric, "4 beds", "", "", "4 beds"},
		{metric, "a row 10 m long", "", "", "a row 10 m long"},
		{metric, "-3 m2", "", "", "-3 m2"},
		{metric, "1 m of board, 4 cm thick", "", "4 cm thick", "1 m of board,"},
	} {
		t.Run(tt.text, func(t *testing.T) {
			area, rest, ok := tt.m.AreaIn(tt.text)
			assert.Equal(t, tt.area != "", ok)
			depth, rest, ok := tt.m.DepthIn(rest)
			assert.Equal(t, tt.depth != "", ok)
			assert.Equal(t, []string{tt.area, tt.depth, tt.rest}, []string{area, depth, rest})
		})
	}
}

func TestSayAreaDepthAndLoose(t *testing.T) {
	metric, us := Measures{}, Measures{System: US}
	for want, got := range map[string]string{
		"3½ m²": metric.SayArea(3.5), "12 m²": metric.SayArea(12.3), "¼ m²": metric.SayArea(0.251),
		"less than 0.01 m²": metric.SayArea(0.001), "32 sq ft": us.SayArea(32 * sqFootM2), "1 acre": us.SayArea(acreM2), "2½ acres": us.SayArea(2.5 * acreM2),
		"5 mm": metric.SayDepth(0.5), "1 cm": metric.SayDepth(0.96), "2½ cm": metric.SayDepth(2.6), "12 cm": metric.SayDepth(12.2), "less than ½ mm": metric.SayDepth(0.01),
		"¼ in": us.SayDepth(0.635), "0.33 in": us.SayDepth(2.54 / 3), "1.7 cm": metric.SayDepth(1.667), "3½ mm": metric.SayDepth(0.35), "2 in": us.SayDepth(5.08),
		"7½ litres": metric.SayLoose(7.4), "38 litres": metric.SayLoose(38.2), "150 litres": metric.SayLoose(151), "1.2 m³": metric.SayLoose(1200), "1 m³": metric.SayLoose(1000),
		"5½ cubic feet": us.SayLoose(5.5 * cubicFootL), "1 cubic yard": us.SayLoose(cubicYardL), "1.5 cubic yards": us.SayLoose(1.5 * cubicYardL),
	} {
		assert.Equal(t, want, got)
	}
}

func FuzzArea(f *testing.F) {
	for _, s := range []string{"3 m2", "4 x 1.2 m", "4 x 8 ft 2 in", "4 ft 6 in x 8 ft", "4 beds of 3 m2 each", "half an acre", "5 acres", "3m2 1/2 in", "2 x 40 l", "²", "m2m2m2", "3 sq", "beds of", "5 cm", "2-3 cm deep", "2 in north bay", "½ in", "-3 m2", "NaN m2", "x x x"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, text string) {
		for _, m := range groupsOfAllKinds {
			if m2, err := m.ParseArea(text); err != nil {
				mustBeForPeople(t, err)
			} else if !(m2 >= leastM2 && m2 <= mostM2) {
				t.Fatalf("%q is %v m2", text, m2)
			} else if back, err := m.ParseArea(m.SayArea(m2)); m2 > 1.01*leastM2 && m2 < 0.99*mostM2 && (err != nil || math.Abs(back-m2) > 0.05*m2+0.06) {
				t.Fatalf("%q is %v m2, printed as %q, read back as %v: %v", text, m2, m.SayArea(m2), back, err)
			}
			if cm, err := m.ParseDepth(text); err != nil {
				mustBeForPeople(t, err)
			} else if !(cm >= leastLayerCm && cm <= mostLayerCm) {
				t.Fatalf("%q is %v cm", text, cm)
			}
			said, rest, ok := m.AreaIn(text)
			if _, err := m.ParseArea(said); ok && err != nil {
				mustBeForPeople(t, err)
			}
			if said, _, ok := m.DepthIn(rest); ok && said == "" {
				t.Fatalf("%q has a depth without words", text)
			}
		}
	})
}
