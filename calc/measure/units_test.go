package measure

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"heapside/testdata/published"
)

// publishedNames are the unit ids behind the names that the published table uses.
var publishedNames = map[string]string{
	"ft3": "ft3", "yd3": "yd3", "m3": "m3", "L": "l", "US gal": "us_gallon", "Imp gal": "imperial_gallon",
}

func TestFactorsAgreeWithThePublishedTable(t *testing.T) {
	rows := 0
	for _, c := range published.Mix() {
		from, isConversion := c.Inputs["from"].(string)
		if !isConversion {
			continue
		}
		rows++
		t.Run(c.ID, func(t *testing.T) {
			a, ok := Measures{}.Unit(publishedNames[from])
			require.True(t, ok, from)
			b, ok := Measures{}.Unit(publishedNames[c.Inputs["to"].(string)])
			require.True(t, ok, c.Inputs["to"])
			assert.InDelta(t, c.Expect["factor"], a.Size.Typical/b.Size.Typical, c.Tolerance["factor"].(float64), "%s, %s", c.Source, c.Locator)
		})
	}
	assert.Equal(t, 15, rows, "conversion rows of the published table")
}

func TestBucketMarksOfThePublishedProcedure(t *testing.T) {
	c, ok := published.ByID("wsu-bucket")
	require.True(t, ok)
	gallons := Measures{System: US}
	for _, mark := range []string{"1", "2"} {
		u, ok := gallons.Unit("gal")
		require.True(t, ok)
		litres := c.Inputs["gal_"+mark].(float64) * u.Size.Typical
		assert.InDelta(t, c.Expect["l_"+mark], litres, c.Tolerance["l_"+mark].(float64), c.Source)
	}
	// The marks stand at thirds of the pail, which is how it holds 5 gallons.
	pail, _ := gallons.Unit("pail")
	assert.InDelta(t, c.Inputs["gal_1"].(float64)*3*usGallonL, pail.Size.Typical, 1e-9, c.Source)
	third, err := gallons.ParseLength("4 1/3 in")
	require.NoError(t, err)
	assert.InDelta(t, c.Expect["mark1_in"], third/inchCm, c.Tolerance["mark1_in"].(float64), c.Source)
}

func TestExactFactors(t *testing.T) {
	tests := []struct {
		unit   string
		want   float64
		source string
	}{
		{"lb", 0.45359237, "international yard and pound agreement of 1959 (from memory)"},
		{"oz", 0.028349523125, "a sixteenth of the pound (from memory)"},
		{"stone", 6.35029318, "14 pounds (from memory)"},
		{"short ton", 907.18474, "2000 pounds (from memory)"},
		{"long ton", 1016.0469088, "2240 pounds (from memory)"},
		{"us gallon", 3.785411784, "231 cubic inches of 16.387064 ml (from memory)"},
		{"us fl oz", 0.0295735295625, "a 128th of the US gallon (from memory)"},
		{"imperial pint", 0.56826125, "an eighth of 4.54609 litres (from memory)"},
		{"us bushel", 35.23907016688, "2150.42 cubic inches (from memory)"},
		{"cubic foot", 28.316846592, "1728 cubic inches (from memory)"},
		{"cc", 0.001, "SI"},
		{"tonne", 1000, "SI"},
	}
	for _, tt := range tests {
		t.Run(tt.unit, func(t *testing.T) {
			u, ok := Measures{}.Unit(tt.unit)
			require.True(t, ok)
			assert.InEpsilon(t, tt.want, u.Size.Typical, 1e-12, tt.source)
			assert.Equal(t, u.Size, Exact(u.Size.Typical), "true units have no spread")
		})
	}
}

func TestSharedNamesFollowTheSystem(t *testing.T) {
	tests := []struct {
		word                 string
		metric, us, imperial string
	}{
		{"gallons", "imperial_gallon", "us_gallon", "imperial_gallon"},
		{"pint", "imperial_pint", "us_pint", "imperial_pint"},
		{"fl oz", "imperial_floz", "us_floz", "imperial_floz"},
		{"bushel", "imperial_bushel", "us_bushel", "imperial_bushel"},
		{"ton", "t", "us_ton", "long_ton"},
		{"cup", "cup", "us_cup", "cup"},
		{"US gallon", "us_gallon", "us_gallon", "us_gallon"},
		{"imperial gallon", "imperial_gallon", "imperial_gallon", "imperial_gallon"},
	}
	for _, tt := range tests {
		t.Run(tt.word, func(t *testing.T) {
			for sys, want := range map[System]string{"": tt.metric, Metric: tt.metric, US: tt.us, Imperial: tt.imperial} {
				u, ok := Measures{System: sys}.Unit(tt.word)
				require.True(t, ok)
				assert.Equal(t, want, u.ID, "in a %q group", sys)
			}
		})
	}
}

func TestUnitSpellings(t *testing.T) {
	tests := map[string][]string{
		"l":         {"l", "L", "litre", "litres", "liter", "Liters", "ltr", "ℓ"},
		"m3":        {"m3", "m³", "m^3", "cubic metres", "cubic meter", "cu m"},
		"kg":        {"kg", "KG", "kilos", "kilogram", "kilogrammes"},
		"bucket":    {"bucket", "buckets", "pail", "bucketful", "bucketfuls", "bucket full", "bucket loads"},
		"barrow":    {"barrow", "wheelbarrows", "wheel barrow", "barrow-load", "barrowloads"},
		"caddy":     {"caddy", "kitchen caddy", "food caddies"},
		"shovelful": {"shovelful", "shovels", "shovelfuls"},
		"can":       {"can", "watering cans"},
		"bin_bag":   {"bin bag", "bin_bag", "trash bags"},
	}
	for id, words := range tests {
		for _, w := range words {
			u, ok := Measures{}.Unit(w)
			assert.True(t, ok, w)
			assert.Equal(t, id, u.ID, w)
		}
	}
	for _, w := range []string{"", " ", "foobar", "bin", "pile", "2", "l l", "°", "\x00"} {
		_, ok := Measures{}.Unit(w)
		assert.False(t, ok, "%q is no unit", w)
	}
}

func TestEveryUnitIsSoundAndFoundByItsNames(t *testing.T) {
	for _, sys := range []System{Metric, US, Imperial} {
		m := Measures{System: sys}
		seen := map[string]bool{}
		for _, u := range m.Units() {
			assert.False(t, seen[u.ID], "%s is listed twice", u.ID)
			seen[u.ID] = true
			assert.NotEmpty(t, u.Source, u.ID)
			assert.True(t, u.Dim == Volume || u.Dim == Mass, u.ID)
			assert.True(t, 0 < u.Size.Low && u.Size.Low <= u.Size.Typical && u.Size.Typical <= u.Size.High, "%s: %v", u.ID, u.Size)
			if u.ID == "cup" && sys == US {
				continue // a US group's cup is the unit
			}
			for _, name := range []string{u.ID, u.One, u.Many} {
				found, ok := m.Unit(name)
				assert.True(t, ok, name)
				assert.Equal(t, u.ID, found.ID, name)
			}
		}
	}
}

func TestGroupSizes(t *testing.T) {
	m := Measures{Sizes: map[string]float64{"bucket": 14, "barrow": math.NaN(), "sack": -2, "bale": 100, "trug": math.Inf(1)}}
	bucket, _ := m.Unit("buckets")
	assert.InDelta(t, 14, bucket.Size.Typical, 0)
	assert.InDelta(t, 14*0.95, bucket.Size.Low, 1e-9)
	assert.InDelta(t, 14*1.05, bucket.Size.High, 1e-9)
	for _, id := range []string{"barrow", "sack", "bale", "trug"} {
		own, _ := m.Unit(id)
		usual, _ := Measures{}.Unit(id)
		assert.Equal(t, usual, own, "a size that cannot be is not used for %s", id)
	}
	assert.Contains(t, m.Units(), bucket)
}
