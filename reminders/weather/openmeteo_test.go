package weather

import (
	"bytes"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func swap(body []byte, old, new string) []byte {
	return bytes.Replace(body, []byte(old), []byte(new), 1)
}

func garbled(t *testing.T, err error) {
	t.Helper()
	var f *Failure
	require.ErrorAs(t, err, &f)
	assert.Equal(t, Garbled, f.Kind, "%v", err)
}

func TestOpenMeteoHours(t *testing.T) {
	s := openMeteo{testWire(OpenMeteo)}
	r, err := s.decode(read(t, "open-meteo-constructed.json"), at(9), at(15), noon)
	require.NoError(t, err)
	assert.Equal(t, 9.0, *r.ElevationM)
	require.Len(t, r.Hours, 6, "10 to 15 o'clock, and the hour before the first for its sums; 15 is outside")
	ten, twelve, thirteen := must(t, r.Hours, at(10)), must(t, r.Hours, at(12)), must(t, r.Hours, at(13))
	t.Run("a moment stands at its hour", func(t *testing.T) {
		assert.Equal(t, 7.1, *ten.AirC)
		assert.InDelta(t, 0.91, *ten.RH, 1e-9)
		assert.Equal(t, 3.1, *ten.WindMS)
	})
	t.Run("a sum of the hour before moves to where it fell", func(t *testing.T) {
		assert.Equal(t, 0.4, *ten.RainMm)
		assert.Equal(t, 0.05, *ten.ET0Mm)
		assert.Equal(t, 0.0, *must(t, r.Hours, at(9)).RainMm)
	})
	t.Run("null is unknown and never 0", func(t *testing.T) {
		assert.Nil(t, twelve.AirC)
		assert.Nil(t, twelve.RainMm)
	})
	t.Run("a fill value is unknown", func(t *testing.T) { assert.Nil(t, twelve.WindMS) })
	t.Run("a little over saturation is saturation", func(t *testing.T) { assert.Equal(t, 1.0, *must(t, r.Hours, at(14)).RH) })
	t.Run("observed once the hour is over", func(t *testing.T) {
		assert.True(t, must(t, r.Hours, at(11)).Observed)
		assert.False(t, twelve.Observed, "12:20 lies within it")
		assert.False(t, thirteen.Observed)
	})
}

func TestOpenMeteoRefuses(t *testing.T) {
	good := read(t, "open-meteo-constructed.json")
	for _, row := range []struct{ name, old, new string }{
		{"Fahrenheit", `"temperature_2m":"°C"`, `"temperature_2m":"°F"`},
		{"inches", `"precipitation":"mm"`, `"precipitation":"inch"`},
		{"kilometres an hour", `"m/s"`, `"km/h"`},
		{"a unit left out", `"et0_fao_evapotranspiration":"mm",`, ``},
		{"text times", `"unixtime"`, `"iso8601"`},
		{"another zone", `"utc_offset_seconds":0`, `"utc_offset_seconds":3600`},
		{"no offset", `"utc_offset_seconds":0,`, ``},
		{"a list cut short", `3.60,3.20]`, `3.60]`},
		{"a list too long", `8.4,7.7]`, `8.4,7.7,7.0]`},
		{"times off the hour", `1795514400`, `1795514401`},
		{"times before our days", `[1795514400`, `[-3600`},
		{"no hours at all", `"hourly":`, `"daily":`},
		{"cut off", `"wind_speed_10m":[3.10`, ``},
		{"a number no float holds", `7.9`, `1e999`},
		{"text for a number", `7.9`, `"7.9"`},
		{"another document", string(good), `<html>busy</html>`},
	} {
		t.Run(row.name, func(t *testing.T) {
			_, err := openMeteo{testWire(OpenMeteo)}.decode(swap(good, row.old, row.new), at(0), at(24), noon)
			garbled(t, err)
		})
	}
	t.Run("an unknown variable is no fault", func(t *testing.T) {
		body := swap(swap(good, `"et0_fao_evapotranspiration":[`, `"other":[`), `"et0_fao_evapotranspiration":"mm",`, ``)
		r, err := openMeteo{testWire(OpenMeteo)}.decode(body, at(0), at(24), noon)
		require.NoError(t, err)
		assert.Nil(t, must(t, r.Hours, at(10)).ET0Mm)
	})
}

func TestOpenMeteoQuery(t *testing.T) {
	for _, row := range []struct {
		name         string
		since, until time.Time
		past, future string
	}{
		{"yesterday to tomorrow", at(-20), at(40), "1", "3"},
		{"today", at(2), at(20), "0", "2"},
		{"further than it goes", noon.AddDate(-1, 0, 0), noon.AddDate(1, 0, 0), "92", "16"},
	} {
		t.Run(row.name, func(t *testing.T) {
			q := openMeteoQuery(ghent, row.since, row.until, noon)
			assert.Equal(t, row.past, q.Get("past_days"))
			assert.Equal(t, row.future, q.Get("forecast_days"))
			assert.Equal(t, "GMT", q.Get("timezone"))
			assert.Equal(t, "unixtime", q.Get("timeformat"))
		})
	}
}

func FuzzOpenMeteo(f *testing.F) {
	good := read(f, "open-meteo-constructed.json")
	f.Add(good)
	f.Add(swap(good, "7.9", "1e308"))
	f.Add(good[:300])
	f.Add([]byte(`{"error":true,"reason":"no"}`))
	f.Fuzz(func(t *testing.T, body []byte) {
		if r, err := (openMeteo{testWire(OpenMeteo)}).decode(body, at(-48), at(360), noon); err == nil {
			lawful(t, r, at(-48), at(360))
		}
	})
}
