package chart

import (
	"bytes"
	"math"
	"math/rand/v2"
	"strings"
	"testing"
	"time"
	"unicode"
	"unicode/utf8"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"heapside/calc/fault"
)

var noon = time.Date(2026, 11, 21, 12, 0, 0, 0, time.UTC)

func TestNothingToDrawIsSaid(t *testing.T) {
	nan, inf := math.NaN(), math.Inf(1)
	tests := []struct {
		name string
		data Data
	}{
		{"no data at all", Data{}},
		{"a threshold and a name", Data{Heap: "North Bay", Now: noon, ThresholdC: 55}},
		{"no reading that is a number", Data{Now: noon, Readings: []Reading{{noon, nan, false}, {noon, inf, true}, {noon, -inf, false}}}},
		{"a reading no heap can have", Data{Now: noon, Readings: []Reading{{noon, 580, false}}}},
		{"a band with a hole in it", Data{Now: noon, Band: []BandPoint{{At: noon, Low: 40, Mid: nan, High: 60}}}},
		{"rain that falls up", Data{Now: noon, Rain: []RainBar{{Day: noon, Mm: -1}}}},
		{"rain without number", Data{Now: noon, Rain: []RainBar{{Day: noon, Mm: nan}}}},
		{"a mark of no kind", Data{Now: noon, Marks: []Mark{{noon, Covered + 1}}}},
		{"no time", Data{Now: noon, Readings: []Reading{{C: 40}}}},
		{"the year 30000", Data{Now: noon, Readings: []Reading{{noon.AddDate(28000, 0, 0), 40, false}}}},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			_, err := PNG(tt.data)
			f, ok := fault.As(err)
			require.True(t, ok, "an error meant for people, not %v", err)
			assert.Equal(t, fault.Missing, f.Code)
			assert.Contains(t, f.Message, "nothing to draw")
			assert.Equal(t, nothing, Alt(tt.data))
			assert.Equal(t, nothing, Text(tt.data, 76))
		})
	}
}

// drawn checks what every chart keeps to, whatever it shows, and returns which
// pixels are black.
func drawn(t *testing.T, d Data) *[height][width]bool {
	t.Helper()
	data, err := PNG(d)
	require.NoError(t, err)
	img := pixels(t, data)
	require.Equal(t, width, img.Bounds().Dx())
	require.Equal(t, height, img.Bounds().Dy())

	checkWords(t, d)
	var ink [height][width]bool
	for y := range height {
		for x := range width {
			c := img.RGBAAt(x, y)
			ink[y][x] = c.R < 0x40 && c.G < 0x40 && c.B < 0x40
		}
	}
	return &ink
}

// checkWords holds the words and the text chart to their limits.
func checkWords(t *testing.T, d Data) {
	t.Helper()
	alt := Alt(d)
	require.LessOrEqual(t, utf8.RuneCountInString(alt), maxAlt)
	checkPlain(t, alt)
	for _, w := range []int{-5, 0, 24, 40, 76, 1000} {
		text := Text(d, w)
		lines := strings.Split(text, "\n")
		require.LessOrEqual(t, len(lines), 12, text)
		for _, line := range lines {
			require.LessOrEqual(t, columnsOf(line), max(24, min(76, w)), text)
			checkPlain(t, line)
		}
	}
}

func checkPlain(t *testing.T, s string) {
	t.Helper()
	require.True(t, utf8.ValidString(s))
	for _, r := range s {
		require.False(t, unicode.In(r, unicode.Cc, unicode.Cf, unicode.Zl, unicode.Zp), "%q in %q", r, s)
	}
}

func TestOddInputIsDrawn(t *testing.T) {
	reading := []Reading{{At: noon.Add(-48 * time.Hour), C: 41}}
	extreme := []Reading{{noon, -60, false}, {noon.Add(-time.Hour), 120, false}, {noon, 20, true}}
	tests := []struct {
		name string
		data Data
	}{
		{"no zone", Data{Heap: "North Bay", Now: noon, Readings: reading}},
		{"no name", Data{Now: noon, Readings: reading}},
		{"no now", Data{Heap: "North Bay", Readings: reading}},
		{"now before everything", Data{Heap: "North Bay", Now: noon.AddDate(-1, 0, 0), Readings: reading}},
		{"now of a clock never set", Data{Heap: "North Bay", Now: time.Unix(0, 0), Readings: reading}},
		{"now long after everything", Data{Heap: "North Bay", Now: noon.AddDate(2, 0, 0), Readings: reading}},
		{"readings without number between others", Data{Now: noon, Readings: append([]Reading{{At: noon, C: math.NaN()}}, reading...)}},
		{"a thousand readings at once", Data{Now: noon, Readings: repeat(reading, 1000)}},
		{"the same in one minute", Data{Now: noon, Band: repeat([]BandPoint{{At: noon, Low: 30, Mid: 40, High: 50}}, 500)}},
		{"a band upside down", Data{Now: noon, Band: []BandPoint{{noon, 60, 50, 40, false}, {noon.Add(time.Hour), 10, 90, 20, true}}}},
		{"as cold and as hot as can be", Data{Now: noon, Readings: extreme, ThresholdC: 55}},
		{"the same in Fahrenheit", Data{Now: noon, Readings: extreme, ThresholdC: 55, Fahrenheit: true}},
		{"a threshold without number", Data{Now: noon, Readings: reading, ThresholdC: math.NaN()}},
		{"a threshold above all", Data{Now: noon, Readings: reading, ThresholdC: 119}},
		{"a flood", Data{Now: noon, Rain: []RainBar{{Day: noon, Mm: maxRainMm}}, Inches: true}},
		{"no rain fell", Data{Now: noon, Rain: []RainBar{{Day: noon}}}},
		{"a century without now", Data{Readings: append([]Reading{{time.Date(2000, 1, 2, 0, 0, 0, 0, time.UTC), 20, false},
			{time.Date(2099, 12, 1, 0, 0, 0, 0, time.UTC), 30, false}}, reading...)}},
		{"a name that writes backwards", Data{Heap: "\u202eyaB htroN\x1b[31m\u2066\u200b\n@everyone", Now: noon, Readings: reading}},
		{"a name without end", Data{Heap: strings.Repeat("Bay of the lane ", 400), Now: noon, Readings: reading}},
		{"a name in letters the face lacks", Data{Heap: strings.Repeat("堆肥箱", 30), Now: noon, Readings: reading}},
		{"a name that is no text", Data{Heap: "\xff\xfe\x00", Now: noon, Readings: reading}},
		{"a name in emoji", Data{Heap: "🌱🪱👩‍🌾", Now: noon, Readings: reading}},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			t.Parallel()
			ink := drawn(t, tt.data)
			dark := 0
			for y := titleHeight + legendHeight; y < height; y++ {
				for _, on := range ink[y] {
					if on {
						dark++
					}
				}
			}
			if len(tt.data.Readings) > 0 {
				assert.Greater(t, dark, 100, "a dot of a reading is about 150 pixels")
			}
		})
	}
	for name, d := range gardens(t) {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			drawn(t, d)
		})
	}
}

func repeat[T any](items []T, n int) []T {
	var out []T
	for range n {
		out = append(out, items...)
	}
	return out
}

func TestOrderOfTheDataDoesNotMatter(t *testing.T) {
	d := northBay(t)
	want, err := PNG(d)
	require.NoError(t, err)
	alt, text := Alt(d), Text(d, 76)
	rnd := rand.New(rand.NewPCG(1, 2))
	shuffle := func(n int, swap func(i, j int)) { rnd.Shuffle(n, swap) }
	shuffle(len(d.Readings), func(i, j int) { d.Readings[i], d.Readings[j] = d.Readings[j], d.Readings[i] })
	shuffle(len(d.Band), func(i, j int) { d.Band[i], d.Band[j] = d.Band[j], d.Band[i] })
	shuffle(len(d.Rain), func(i, j int) { d.Rain[i], d.Rain[j] = d.Rain[j], d.Rain[i] })
	shuffle(len(d.Air), func(i, j int) { d.Air[i], d.Air[j] = d.Air[j], d.Air[i] })
	before := append([]Reading{}, d.Readings...)
	got, err := PNG(d)
	require.NoError(t, err)
	assert.True(t, bytes.Equal(want, got))
	assert.Equal(t, alt, Alt(d))
	assert.Equal(t, text, Text(d, 76))
	assert.Equal(t, before, d.Readings, "the caller's data is left as it was")
}

// A reading is where its time and its degree say: the middle of its dot is
// black, found here by sums of the layout's own numbers.
func TestAReadingIsWhereItBelongs(t *testing.T) {
	d := Data{Now: noon, Readings: []Reading{{At: noon.Add(-10 * 24 * time.Hour), C: 0}, {At: noon, C: 70}, {At: noon.Add(-5 * 24 * time.Hour), C: 35}}}
	ink := drawn(t, d)
	left, right := marginLeft+edge, width-marginRight-edge
	top, foot := titleHeight+legendHeight, height-datesHeight-stripGap
	for _, p := range []struct{ x, y int }{{left, foot}, {right, top}, {(left + right) / 2, (top + foot) / 2}} {
		for _, off := range []struct{ x, y int }{{0, 0}, {-4, 0}, {4, 0}, {0, -4}, {0, 4}} {
			assert.True(t, ink[p.y+off.y][p.x+off.x], "black at %d, %d", p.x+off.x, p.y+off.y)
		}
	}
	assert.False(t, ink[top+30][left+30], "and white where there is none")
}
