package weather

import (
	"errors"
	"fmt"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// only leaves one service on.
func only(service string) func(*Config) {
	return func(c *Config) { c.Order = []string{service} }
}

func TestEachServiceAnswers(t *testing.T) {
	for _, row := range []struct {
		service string
		place   Place
		past    bool
		credit  string
	}{
		{OpenMeteo, ghent, true, "Open-Meteo"},
		{MetNorway, ghent, false, "MET Norway"},
		{NWS, portland, false, "National Weather Service"},
	} {
		t.Run(row.service, func(t *testing.T) {
			w := newWorld(t, only(row.service))
			r := w.Weather(t.Context(), about(row.place, 2*day, day))
			require.True(t, r.Known, r.Reason)
			assert.Empty(t, r.Reason)
			assert.Equal(t, noon, r.AsOf)
			assert.Equal(t, 72, r.Asked)
			require.Len(t, r.Credits, 1)
			assert.Contains(t, r.Credits[0].Text, row.credit)
			assert.Equal(t, row.past, r.Hours[0].At.Before(noon.Add(-day)))
			lawful(t, Report{Hours: r.Hours}, noon.Add(-2*day-time.Hour), noon.Add(day))
		})
	}
}

// inOrder checks which services were asked, in order.
func (w *world) inOrder(want ...string) {
	w.t.Helper()
	paths := map[string]string{OpenMeteo: "/v1/forecast", MetNorway: "/weatherapi/", NWS: "/points/"}
	w.mu.Lock()
	defer w.mu.Unlock()
	require.GreaterOrEqual(w.t, len(w.seen), len(want))
	for i, service := range want {
		assert.True(w.t, strings.HasPrefix(w.seen[i].URL.Path, paths[service]), "request %d went to %s, not %s", i, w.seen[i].URL.Path, service)
	}
}

func TestFallback(t *testing.T) {
	down := fail(503, "text/html", "down")
	t.Run("each in its turn", func(t *testing.T) {
		w := newWorld(t, nil)
		w.reply[OpenMeteo], w.reply[MetNorway] = fail(429, "", ""), fail(429, "", "")
		r := w.Weather(t.Context(), about(portland, 0, day))
		require.True(t, r.Known)
		w.inOrder(OpenMeteo, MetNorway, NWS)
		assert.Len(t, r.Credits, 1)
		assert.Equal(t, NWS, r.Credits[0].Service)
	})
	t.Run("one that does not cover the place is left out", func(t *testing.T) {
		w := newWorld(t, nil)
		w.reply[OpenMeteo], w.reply[MetNorway] = down, down
		r := w.Weather(t.Context(), about(ghent, 0, day))
		assert.False(t, r.Known)
		assert.Zero(t, w.count(NWS))
		assert.Equal(t, "No weather: Open-Meteo did not answer properly; MET Norway did not answer properly.", r.Reason)
	})
	t.Run("the operator's own order", func(t *testing.T) {
		w := newWorld(t, func(c *Config) { c.Order = []string{NWS, OpenMeteo} })
		w.Weather(t.Context(), about(portland, 0, day))
		w.inOrder(NWS)
		assert.Zero(t, w.count(OpenMeteo))
	})
	t.Run("what is kept stands in when all are down", func(t *testing.T) {
		w := newWorld(t, nil)
		w.Weather(t.Context(), about(ghent, day, 3*day))
		w.reply[OpenMeteo], w.reply[MetNorway] = down, down
		w.advance(14 * time.Hour)
		r := w.Weather(t.Context(), about(ghent, day, 3*day))
		require.True(t, r.Known)
		assert.Contains(t, r.Reason, "No newer weather")
		age, ok := r.Age(w.now())
		assert.True(t, ok)
		assert.Equal(t, 14*time.Hour, age)
	})
	t.Run("both services are credited where both are used", func(t *testing.T) {
		w := newWorld(t, nil)
		w.Weather(t.Context(), about(ghent, day, day))
		w.reply[OpenMeteo] = down
		w.advance(4 * time.Hour)
		r := w.Weather(t.Context(), about(ghent, day, day))
		require.Len(t, r.Credits, 2)
		assert.Equal(t, []string{OpenMeteo, MetNorway}, []string{r.Credits[0].Service, r.Credits[1].Service})
	})
}

func TestSwitches(t *testing.T) {
	t.Run("a service that is off is never asked", func(t *testing.T) {
		w := newWorld(t, func(c *Config) { c.OpenMeteo.Off = true })
		r := w.Weather(t.Context(), about(ghent, 0, day))
		assert.True(t, r.Known)
		assert.Zero(t, w.count(OpenMeteo))
		assert.Equal(t, MetNorway, r.Credits[0].Service)
	})
	t.Run("all off says so", func(t *testing.T) {
		w := newWorld(t, func(c *Config) { c.OpenMeteo.Off, c.MetNorway.Off, c.NWS.Off = true, true, true })
		r := w.Weather(t.Context(), about(ghent, 0, day))
		assert.False(t, r.Known)
		assert.Contains(t, r.Reason, "Open-Meteo is switched off")
		assert.Empty(t, w.seen)
	})
	t.Run("without a name only one is asked", func(t *testing.T) {
		w := newWorld(t, func(c *Config) { c.Agent, c.OpenMeteo.Off = "", true })
		r := w.Weather(t.Context(), about(portland, 0, day))
		assert.Contains(t, r.Reason, "MET Norway is not asked without a way to reach whoever runs this")
		assert.Empty(t, w.seen)
	})
	for _, row := range []struct {
		name   string
		change func(*Config)
	}{
		{"an address without host", func(c *Config) { c.NWS.BaseURL = "api" }},
		{"another scheme", func(c *Config) { c.Places.BaseURL = "ftp://example.org" }},
		{"an unknown service", func(c *Config) { c.Order = []string{"almanac"} }},
		{"a service twice", func(c *Config) { c.Order = []string{NWS, NWS} }},
		{"a name with a line break", func(c *Config) { c.Agent = "a\r\nCookie: b" }},
	} {
		t.Run(row.name, func(t *testing.T) {
			var c Config
			row.change(&c)
			_, err := New(c, new(memory), Options{})
			assert.Error(t, err)
		})
	}
}

func TestWithoutAPlace(t *testing.T) {
	w := newWorld(t, nil)
	for _, row := range []struct {
		name   string
		q      Query
		reason string
	}{
		{"none set", Query{Since: noon.Add(-day), Until: noon}, "No place is set"},
		{"not on earth", Query{Located: true, Lat: 95, Since: noon.Add(-day), Until: noon}, "A latitude of 95"},
		{"no span", Query{Located: true, Since: noon, Until: noon.Add(-day)}, "No hours"},
		{"only times far off", Query{Located: true, Since: noon.Add(30 * day), Until: noon.Add(40 * day)}, "No hours"},
	} {
		t.Run(row.name, func(t *testing.T) {
			r := w.Weather(t.Context(), row.q)
			assert.False(t, r.Known)
			assert.Contains(t, r.Reason, row.reason)
			_, aged := r.Age(noon)
			assert.False(t, aged)
		})
	}
	assert.Empty(t, w.seen)
}

func TestOddPlaces(t *testing.T) {
	for _, row := range []struct{ lat, lon float64 }{{90, 12}, {-90, 0}, {-17.5, 180}, {-17.5, -180}, {0, 0}, {51.999, -179.999}} {
		t.Run(fmt.Sprint(row), func(t *testing.T) {
			w := newWorld(t, only(OpenMeteo))
			r := w.Weather(t.Context(), Query{Located: true, Lat: row.lat, Lon: row.lon, Since: noon.Add(-day), Until: noon.Add(day)})
			assert.True(t, r.Known, r.Reason)
		})
	}
}

func TestBrokenCache(t *testing.T) {
	w := newWorld(t, nil)
	w.kept.broken = errors.New("disk full")
	r := w.Weather(t.Context(), about(ghent, day, day))
	assert.False(t, r.Known)
	assert.Contains(t, r.Reason, "could not be asked")
	assert.Empty(t, w.seen, "services are not asked for what cannot be kept")
}
