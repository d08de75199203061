package weather

import (
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestMetNorwayDocumentedSample(t *testing.T) {
	when := time.Date(2020, 6, 10, 13, 0, 0, 0, time.UTC)
	r, err := metNorway{testWire(MetNorway)}.decode(read(t, "met-norway.json"), when, when.Add(day))
	require.NoError(t, err)
	h := must(t, r.Hours, when)
	// The values of the documented sample (weatherapi-docs, commit 23d20d99, seen).
	assert.Equal(t, 20.7, *h.AirC)
	assert.InDelta(t, 0.486, *h.RH, 1e-9)
	assert.Equal(t, 2.5, *h.WindMS)
	assert.Equal(t, 0.0, *h.RainMm)
	assert.Nil(t, h.ET0Mm)
	assert.False(t, h.Observed)
	assert.Equal(t, 267.0, *r.ElevationM)
}

func TestMetNorwaySteps(t *testing.T) {
	r, err := metNorway{testWire(MetNorway)}.decode(read(t, "met-norway-constructed.json"), at(0), at(48))
	require.NoError(t, err)
	t.Run("an hourly step stands for its hour", func(t *testing.T) {
		assert.Equal(t, 0.4, *must(t, r.Hours, at(16)).RainMm)
		assert.Equal(t, 8.0, *must(t, r.Hours, at(16)).AirC)
	})
	t.Run("six hours keep their rain", func(t *testing.T) {
		sum := 0.0
		for h := 18; h < 24; h++ {
			sum += *must(t, r.Hours, at(h)).RainMm
		}
		assert.InDelta(t, 3.5, sum, 1e-9, "next_6_hours of the step at 18:00")
		assert.InDelta(t, 0.2, *must(t, r.Hours, at(27)).RainMm, 1e-9, "1.2 mm over six hours")
	})
	t.Run("moments between steps lie on a line", func(t *testing.T) {
		assert.InDelta(t, 4.5, *must(t, r.Hours, at(21)).AirC, 1e-9)
		assert.InDelta(t, 0.87, *must(t, r.Hours, at(21)).RH, 1e-9)
	})
	t.Run("a line needs both ends", func(t *testing.T) {
		assert.InDelta(t, 0.9, *must(t, r.Hours, at(24)).RH, 1e-9)
		assert.Nil(t, must(t, r.Hours, at(25)).RH)
	})
	t.Run("nothing is known after the last step", func(t *testing.T) {
		assert.Equal(t, at(30), r.Hours[len(r.Hours)-1].At)
		assert.Nil(t, must(t, r.Hours, at(30)).RainMm)
	})
}

func TestMetNorwayRefuses(t *testing.T) {
	good := read(t, "met-norway-constructed.json")
	for _, row := range []struct{ name, old, new string }{
		{"Fahrenheit", `"celsius"`, `"fahrenheit"`},
		{"knots", `"m/s"`, `"kn"`},
		{"no units", `"units"`, `"other"`},
		{"out of order", `2026-11-24T17:00:00Z`, `2026-11-24T15:00:00Z`},
		{"twice", `2026-11-24T17:00:00Z`, `2026-11-24T16:00:00Z`},
		{"off the hour", `2026-11-24T17:00:00Z`, `2026-11-24T17:30:00Z`},
		{"not a time", `2026-11-24T17:00:00Z`, `tomorrow`},
		{"no series", `"timeseries"`, `"other"`},
		{"cut off", string(good[len(good)/2:]), ``},
	} {
		t.Run(row.name, func(t *testing.T) {
			_, err := metNorway{testWire(MetNorway)}.decode(swap(good, row.old, row.new), at(0), at(48))
			garbled(t, err)
		})
	}
}

func FuzzMetNorway(f *testing.F) {
	f.Add(read(f, "met-norway.json"))
	f.Add(read(f, "met-norway-constructed.json"))
	f.Add([]byte(strings.Repeat("[", 100)))
	f.Fuzz(func(t *testing.T, body []byte) {
		if r, err := (metNorway{testWire(MetNorway)}).decode(body, at(-48), at(360)); err == nil {
			lawful(t, r, at(-48), at(360))
		}
	})
}
