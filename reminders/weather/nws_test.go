package weather

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestNWSRecordedAnswer(t *testing.T) {
	start := noon.Truncate(time.Hour)
	r, err := (&nws{wire: testWire(NWS)}).decode(recorded(t, noon), start, start.Add(7*day))
	require.NoError(t, err)
	// The values recorded for Little Rock (weather.gov repository, commit b349070f, seen).
	assert.InDelta(t, 75.8952, *r.ElevationM, 1e-9)
	first := must(t, r.Hours, start)
	assert.InDelta(t, 2.2222, *first.AirC, 1e-4)
	assert.InDelta(t, 0.81, *first.RH, 1e-9)
	assert.InDelta(t, 1.852/3.6, *first.WindMS, 1e-9)
	assert.InDelta(t, 7.7778, *must(t, r.Hours, start.Add(21*time.Hour)).AirC, 1e-4, "merged with its neighbour as PT2H")
	rain := 0.0
	for _, h := range r.Hours {
		if h.RainMm != nil {
			rain += *h.RainMm
		}
	}
	assert.Positive(t, rain)
}

// nwsBody is a grid answer of one layer.
func nwsBody(name, unit, values string) []byte {
	return []byte(`{"properties":{"` + name + `":{"uom":"` + unit + `","values":[` + values + `]}}}`)
}

func TestNWSIntervals(t *testing.T) {
	for _, row := range []struct {
		name, layer, unit, values string
		want                      map[int]float64 // by hour of the day; all others are unknown
	}{
		{
			"six hours share their rain", "quantitativePrecipitation", "wmoUnit:mm",
			`{"validTime":"2026-11-24T06:00:00+00:00/PT6H","value":3}`,
			map[int]float64{6: 0.5, 7: 0.5, 8: 0.5, 9: 0.5, 10: 0.5, 11: 0.5},
		},
		{
			"an offset is heeded", "quantitativePrecipitation", "wmoUnit:mm",
			`{"validTime":"2026-11-24T06:00:00-02:00/PT1H","value":3}`, map[int]float64{8: 3},
		},
		{
			"two halves make an hour, one half none", "quantitativePrecipitation", "wmoUnit:mm",
			`{"validTime":"2026-11-24T06:00:00Z/PT30M","value":1},{"validTime":"2026-11-24T06:30:00Z/PT1H","value":4}`,
			map[int]float64{6: 3},
		},
		{
			"a null leaves a hole", "temperature", "wmoUnit:degC",
			`{"validTime":"2026-11-24T06:00:00Z/PT1H","value":1},{"validTime":"2026-11-24T07:00:00Z/PT1H","value":null},{"validTime":"2026-11-24T08:00:00Z/PT2H","value":3}`,
			map[int]float64{6: 1, 8: 3, 9: 3},
		},
		{"an empty layer", "temperature", "", ``, nil},
		{"a value that cannot be", "temperature", "wmoUnit:degC", `{"validTime":"2026-11-24T06:00:00Z/PT1H","value":-999}`, nil},
		{"wind turns into metres a second", "windSpeed", "wmoUnit:km_h-1", `{"validTime":"2026-11-24T06:00:00Z/PT1H","value":36}`, map[int]float64{6: 10}},
	} {
		t.Run(row.name, func(t *testing.T) {
			r, err := (&nws{wire: testWire(NWS)}).decode(nwsBody(row.layer, row.unit, row.values), at(0), at(24))
			require.NoError(t, err)
			got := map[int]float64{}
			for _, h := range r.Hours {
				for _, field := range h.fields() {
					if *field != nil {
						got[h.At.Hour()] = **field
					}
				}
			}
			require.Len(t, got, len(row.want))
			for hour, want := range row.want {
				assert.InDelta(t, want, got[hour], 1e-9, "at %d", hour)
			}
		})
	}
	t.Run("a week and more in one interval", func(t *testing.T) {
		body := nwsBody("quantitativePrecipitation", "wmoUnit:mm", `{"validTime":"2026-11-24T00:00:00+00:00/P7DT13H","value":0}`)
		r, err := (&nws{wire: testWire(NWS)}).decode(body, at(0), at(15*24))
		require.NoError(t, err)
		require.Len(t, r.Hours, 7*24+13)
		assert.Equal(t, 0.0, *r.Hours[180].RainMm)
	})
}

func TestNWSRefuses(t *testing.T) {
	for _, row := range []struct {
		name string
		body []byte
	}{
		{"Fahrenheit", nwsBody("temperature", "wmoUnit:degF", `{"validTime":"2026-11-24T06:00:00Z/PT1H","value":40}`)},
		{"inches", nwsBody("quantitativePrecipitation", "wmoUnit:in", `{"validTime":"2026-11-24T06:00:00Z/PT1H","value":1}`)},
		{"an interval without length", nwsBody("temperature", "wmoUnit:degC", `{"validTime":"2026-11-24T06:00:00Z","value":1}`)},
		{"text for a value", nwsBody("temperature", "wmoUnit:degC", `{"validTime":"2026-11-24T06:00:00Z/PT1H","value":"warm"}`)},
		{"no properties", []byte(`{}`)},
		{"cut off", recorded(t, noon)[:5000]},
	} {
		t.Run(row.name, func(t *testing.T) {
			_, err := (&nws{wire: testWire(NWS)}).decode(row.body, at(0), at(24))
			garbled(t, err)
		})
	}
	for _, row := range []struct{ name, body string }{
		{"no grid", `{"properties":{}}`},
		{"a path in the office", `{"properties":{"gridId":"../","gridX":1,"gridY":2}}`},
		{"a negative cell", `{"properties":{"gridId":"LZK","gridX":-1,"gridY":2}}`},
		{"html", `<html>`},
	} {
		t.Run(row.name, func(t *testing.T) {
			_, err := (&nws{wire: testWire(NWS)}).decodePoint([]byte(row.body))
			garbled(t, err)
		})
	}
}

func FuzzNWS(f *testing.F) {
	f.Add(read(f, "nws-points.json"))
	f.Add(nwsBody("quantitativePrecipitation", "wmoUnit:mm", `{"validTime":"2026-11-24T00:00:00+00:00/P7DT13H","value":1e308}`))
	f.Add(nwsBody("temperature", "wmoUnit:degC", `{"validTime":"2026-11-24T06:10:00Z/PT30M","value":null}`))
	f.Fuzz(func(t *testing.T, body []byte) {
		s := &nws{wire: testWire(NWS)}
		if r, err := s.decode(body, at(-48), at(360)); err == nil {
			lawful(t, r, at(-48), at(360))
		}
		if path, err := s.decodePoint(body); err == nil {
			require.Regexp(t, `^/gridpoints/[A-Z]{3}/\d+,\d+$`, path)
		}
	})
}
