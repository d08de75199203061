package measure

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"heapside/calc/fault"
)

// Conversions below follow from the definitions: an inch is 2.54 cm, and
// Fahrenheit is 9/5 of Celsius and 32.

// scalar is a text and the number it says to those who measure so.
type scalar struct {
	name string
	m    Measures
	text string
	want float64
}

func parses(t *testing.T, parse func(Measures, string) (float64, error), tests []scalar) {
	t.Helper()
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			got, err := parse(tt.m, tt.text)
			require.NoError(t, err)
			assert.InDelta(t, tt.want, got, 1e-9)
		})
	}
}

func TestParseTemperature(t *testing.T) {
	celsius, fahrenheit := Measures{}, Measures{Fahrenheit: true}
	parses(t, Measures.ParseTemperature, []scalar{
		{"bare", celsius, "58", 58},
		{"attached", celsius, "58C", 58},
		{"degree sign", celsius, "58 °C", 58},
		{"ordinal sign from a phone", celsius, "58ºC", 58},
		{"one-character unit", celsius, "58℃", 58},
		{"decimal comma", celsius, "58,5", 58.5},
		{"words", celsius, "58 degrees", 58},
		{"number words", celsius, "fifty-eight degrees celsius", 58},
		{"about", celsius, "about 58", 58},
		{"minus", celsius, "-5", -5},
		{"true minus", celsius, "−5 °C", -5},
		{"said minus", celsius, "minus 5", -5},
		{"lowest", celsius, "-40", -40},
		{"highest", celsius, "100", 100},
		{"Fahrenheit in a Celsius group", celsius, "140F", 60},
		{"spaced Fahrenheit", celsius, "140 f", 60},
		{"spelt Fahrenheit", celsius, "136 degrees fahrenheit", 57.0 + 7.0/9},
		{"bare in a Fahrenheit group", fahrenheit, "140", 60},
		{"Celsius in a Fahrenheit group", fahrenheit, "58C", 58},
		{"cold in a Fahrenheit group", fahrenheit, "-40", -40},
	})
}

func TestParseTemperatureRefuses(t *testing.T) {
	celsius, fahrenheit := Measures{}, Measures{Fahrenheit: true}
	tests := []struct {
		name     string
		m        Measures
		text     string
		code     fault.Code
		contains string
	}{
		{"a digit too many", celsius, "580", fault.OutOfRange, `“580” cannot be; a heap is between -40 and 100 °C. Did you mean 58?`},
		{"Fahrenheit unsaid", celsius, "140", fault.OutOfRange, `write “140F” (60 °C)`},
		{"boiling Fahrenheit unsaid", celsius, "212", fault.OutOfRange, `“212F”`},
		{"Celsius said", celsius, "140C", fault.OutOfRange, "mean 14?"},
		{"too hot in Fahrenheit", fahrenheit, "580", fault.OutOfRange, "between -40 and 212 °F. Did you mean 58?"},
		{"too cold", celsius, "-60", fault.OutOfRange, "mean -6?"},
		{"endless", celsius, "99999999999999999999999", fault.OutOfRange, "a heap is between"},
		{"nothing that shows", celsius, "🌱", fault.NotUnderstood, "That is not a temperature"},
		{"kelvin", celsius, "330K", fault.NotUnderstood, `“330K”`},
		{"words", celsius, "hot", fault.NotUnderstood, `“hot”`},
		{"nothing", celsius, "", fault.NotUnderstood, "58"},
		{"not a number", celsius, "NaN", fault.NotUnderstood, `“NaN”`},
		{"infinite", celsius, "+Inf", fault.NotUnderstood, `“+Inf”`},
		{"exponent", celsius, "5e1", fault.NotUnderstood, `“5e1”`},
		{"two readings", celsius, "55-60", fault.NotUnderstood, "one reading"},
		{"two units", celsius, "58 C F", fault.NotUnderstood, `“58 C F”`},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			_, err := tt.m.ParseTemperature(tt.text)
			f, ok := fault.As(err)
			require.True(t, ok, "%v", err)
			assert.Equal(t, tt.code, f.Code)
			assert.Contains(t, f.Message, tt.contains)
		})
	}
}

func TestParseLength(t *testing.T) {
	metric, us := Measures{}, Measures{System: US}
	parses(t, Measures.ParseLength, []scalar{
		{"attached", metric, "40cm", 40},
		{"spaced", metric, "40 cm", 40},
		{"metres", metric, "0.9 m", 90},
		{"decimal comma", metric, "0,9 m", 90},
		{"metre and centimetres", metric, "1 m 20 cm", 120},
		{"millimetres", metric, "400 mm", 40},
		{"half a metre", metric, "half a metre", 50},
		{"bare is centimetres", metric, "40", 40},
		{"inches", metric, "16in", 40.64},
		{"inch mark", metric, `16"`, 40.64},
		{"curly inch mark", metric, "16”", 40.64},
		{"feet", metric, "3ft", 91.44},
		{"foot mark", metric, "3'", 91.44},
		{"feet and inches", metric, "3 ft 2 in", 96.52},
		{"marks", metric, `3'2"`, 96.52},
		{"feet and a bare number", metric, "5 ft 6", 167.64},
		{"feet and a half", metric, "3 and a half feet", 106.68},
		{"bare is inches in the US", us, "16", 40.64},
		{"centimetres in the US", us, "40 cm", 40},
		{"least", metric, "1", 1},
		{"most", metric, "5 m", 500},
	})
	refused := map[string]fault.Code{
		"": fault.NotUnderstood, "deep": fault.NotUnderstood, "40 kg": fault.NotUnderstood, "2 in 3 ft": fault.NotUnderstood, "40 cm 2": fault.NotUnderstood,
		"-40 cm": fault.NotUnderstood, "0": fault.OutOfRange, "0.5 cm": fault.OutOfRange, "501": fault.OutOfRange, "40 m": fault.OutOfRange, "NaN": fault.NotUnderstood,
	}
	for text, code := range refused {
		_, err := metric.ParseLength(text)
		f, ok := fault.As(err)
		if assert.True(t, ok, "%q: %v", text, err) {
			assert.Equal(t, code, f.Code, "%q", text)
		}
	}
}

func TestParseRain(t *testing.T) {
	metric, us := Measures{}, Measures{System: US}
	parses(t, Measures.ParseRain, []scalar{
		{"bare", metric, "12", 12},
		{"millimetres", metric, "12mm", 12},
		{"centimetres", metric, "1.2 cm", 12},
		{"inches", metric, "0.5 in", 12.7},
		{"with its word", metric, "12 mm rain", 12},
		{"with of", metric, "12 mm of rain", 12},
		{"none", metric, "none", 0},
		{"no rain", metric, "no rain", 0},
		{"zero", metric, "0", 0},
		{"most", metric, "500", 500},
		{"bare in the US", us, "0.5", 12.7},
		{"half an inch", us, "half an inch", 12.7},
		{"millimetres in the US", us, "30 mm", 30},
	})
	for text, m := range map[string]Measures{"501": metric, "21": us, "": metric, "wet": metric, "-3": metric, "12 kg": metric, "NaN mm": metric} {
		_, err := m.ParseRain(text)
		_, ok := fault.As(err)
		assert.True(t, ok, "%q: %v", text, err)
	}
}
