package weather

import (
	"compress/gzip"
	"context"
	"errors"
	"fmt"
	"net/http"
	"strings"
	"sync"
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

func TestEveryRequestIntroducesUsAndIsCoarse(t *testing.T) {
	for _, service := range DefaultOrder {
		w := newWorld(t, only(service))
		r := w.Weather(t.Context(), Query{Located: true, Lat: 45.523456, Lon: -122.676543, Since: noon, Until: noon.Add(day)})
		require.Empty(t, r.Reason)
		require.NotEmpty(t, w.seen)
		for _, req := range w.seen {
			assert.Equal(t, "millrace-test/1 organiser@example.org", req.Header.Get("User-Agent"))
			assert.Equal(t, "gzip", req.Header.Get("Accept-Encoding"))
			assert.NotContains(t, req.URL.String(), "45.523", "two decimals at most")
			if strings.HasPrefix(req.URL.Path, "/points/") {
				assert.Equal(t, "/points/45.52,-122.68", req.URL.Path)
			}
			if service == NWS {
				assert.Empty(t, req.URL.RawQuery, "unknown parameters are refused there")
			}
		}
	}
}

func TestWhatIsFreshIsNotAskedAgain(t *testing.T) {
	w := newWorld(t, only(OpenMeteo))
	w.Weather(t.Context(), about(ghent, day, day))
	w.Weather(t.Context(), about(Place{51.0512, 3.7155}, day, day))
	assert.Equal(t, 1, w.count(OpenMeteo), "two gardens in one cell share it")
	w.Weather(t.Context(), about(portland, day, day))
	assert.Equal(t, 2, w.count(OpenMeteo), "another place")
	w.advance(time.Minute)
	w.Weather(t.Context(), about(ghent, 30*day, day))
	assert.Equal(t, 3, w.count(OpenMeteo), "days that were never asked for")
	w.Weather(t.Context(), about(ghent, 30*day, day))
	assert.Equal(t, 3, w.count(OpenMeteo))
	w.advance(leastFresh + 16*time.Minute)
	w.Weather(t.Context(), about(ghent, 30*day, day))
	assert.Equal(t, 4, w.count(OpenMeteo), "out of date")
	assert.Equal(t, "2", w.seen[3].URL.Query().Get("past_days"), "only the newest days again")
}

func TestTheExpiryOfTheServiceIsKept(t *testing.T) {
	w := newWorld(t, only(MetNorway))
	plain := w.reply[MetNorway]
	w.reply[MetNorway] = func(rw http.ResponseWriter, r *http.Request) {
		rw.Header().Set("Cache-Control", "private, max-age=36000")
		plain(rw, r)
	}
	w.Weather(t.Context(), about(ghent, 0, day))
	last, ok, err := w.kept.Latest(t.Context(), MetNorway, ghent)
	require.NoError(t, err)
	require.True(t, ok)
	assert.False(t, last.Expires.Before(noon.Add(10*time.Hour+time.Minute)), "%s", last.Expires)
	assert.False(t, last.Expires.After(noon.Add(10*time.Hour+16*time.Minute)))
	w.advance(10 * time.Hour)
	w.Weather(t.Context(), about(ghent, 0, day))
	assert.Equal(t, 1, w.count(MetNorway))
}

func TestHoldsIsNeverOnTheHourAndDiffersByPlace(t *testing.T) {
	minutes := map[int]bool{}
	for i := range 200 {
		at := holds(Report{Service: MetNorway, Place: Place{float64(i) / 100, 3}, FetchedAt: noon})
		require.NotZero(t, at.Minute())
		minutes[at.Minute()] = true
	}
	assert.Greater(t, len(minutes), 10)
}

func TestNothingChanged(t *testing.T) {
	w := newWorld(t, only(MetNorway))
	first := w.Weather(t.Context(), about(ghent, 0, day))
	w.advance(4 * time.Hour)
	w.reply[MetNorway] = func(rw http.ResponseWriter, r *http.Request) {
		assert.Equal(t, "Tue, 24 Nov 2026 11:31:08 GMT", r.Header.Get("If-Modified-Since"), "exactly as it was given")
		rw.WriteHeader(http.StatusNotModified)
	}
	second := w.Weather(t.Context(), about(ghent, 0, day))
	assert.Equal(t, first.Hours, second.Hours)
	assert.Equal(t, w.now(), second.AsOf, "it still held when it was asked for again")
	assert.Len(t, w.kept.reports, 2, "both are kept")
	w.advance(time.Hour)
	w.Weather(t.Context(), about(ghent, 0, day))
	assert.Equal(t, 2, w.count(MetNorway))
}

func TestNothingChangedOfNothing(t *testing.T) {
	w := newWorld(t, only(MetNorway))
	w.reply[MetNorway] = fail(http.StatusNotModified, "", "")
	r := w.Weather(t.Context(), about(ghent, 0, day))
	assert.False(t, r.Known)
	assert.Contains(t, r.Reason, "cannot be read")
}

func TestServicesThatFail(t *testing.T) {
	long := strings.Repeat("x", 2000)
	for _, row := range []struct {
		name    string
		reply   http.HandlerFunc
		reason  string
		asked   int // how often, with the repeat
		waitsAt time.Duration
	}{
		{"400 with a reason", fail(400, "application/json", `{"error":true,"reason":"Data corrupted"}`), "refused to answer", 1, refusedWait},
		{"403 in HTML", fail(403, "text/html", "<html>no "+long), "refused to answer", 1, refusedWait},
		{"404", fail(404, "application/json", `{}`), "refused to answer", 1, refusedWait},
		{"429", fail(429, "application/json", `{"error":true,"reason":"Daily API request limit exceeded"}`), "asked less often", 1, firstWait},
		{"429 with a time", func(rw http.ResponseWriter, r *http.Request) {
			rw.Header().Set("Retry-After", "1800")
			fail(429, "text/plain", "slow down")(rw, r)
		}, "asked less often", 1, 30 * time.Minute},
		{"429 with a date", func(rw http.ResponseWriter, r *http.Request) {
			rw.Header().Set("Retry-After", noon.Add(2*time.Hour).Format(http.TimeFormat))
			fail(429, "text/plain", "slow down")(rw, r)
		}, "asked less often", 1, 2 * time.Hour},
		{"500 twice", fail(500, "application/problem+json", `{"title":"Unexpected Problem"}`), "did not answer properly", 2, firstWait},
		{"502 in HTML", fail(502, "text/html", "<html>Bad Gateway</html>"), "did not answer properly", 2, firstWait},
		{"503 with a long wait is not repeated", func(rw http.ResponseWriter, r *http.Request) {
			rw.Header().Set("Retry-After", "600")
			fail(503, "text/plain", "overloaded")(rw, r)
		}, "did not answer properly", 1, 10 * time.Minute},
		{"HTML with status 200", serve("text/html", []byte("<html>welcome</html>")), "cannot be read", 1, firstWait},
		{"HTML that says it is JSON", serve("application/json", []byte("<html>welcome</html>")), "cannot be read", 1, firstWait},
		{"an empty answer", serve("application/json", nil), "cannot be read", 1, firstWait},
		{"cut off within its length", func(rw http.ResponseWriter, _ *http.Request) {
			rw.Header().Set("Content-Type", "application/json")
			rw.Header().Set("Content-Length", "5000")
			_, _ = rw.Write([]byte(`{"hourly":`))
		}, "did not answer properly", 1, firstWait},
		{"a broken connection", func(http.ResponseWriter, *http.Request) { panic(http.ErrAbortHandler) }, "did not answer properly", 1, firstWait},
		{"a redirect to another host", func(rw http.ResponseWriter, r *http.Request) {
			http.Redirect(rw, r, "https://elsewhere.example/v1/forecast", http.StatusFound)
		}, "did not answer properly", 1, firstWait},
		{"a redirect in a circle", func(rw http.ResponseWriter, r *http.Request) {
			http.Redirect(rw, r, r.URL.String(), http.StatusFound)
		}, "did not answer properly", 4, firstWait},
		{"more than anyone should send", func(rw http.ResponseWriter, _ *http.Request) {
			rw.Header().Set("Content-Type", "application/json")
			rw.Header().Set("Content-Encoding", "gzip")
			z := gzip.NewWriter(rw)
			block := []byte(strings.Repeat(" ", 1<<20))
			for range 20 {
				_, _ = z.Write(block)
			}
			_ = z.Close()
		}, "cannot be read", 1, firstWait},
	} {
		t.Run(row.name, func(t *testing.T) {
			w := newWorld(t, only(OpenMeteo))
			good := w.reply[OpenMeteo]
			w.reply[OpenMeteo] = row.reply
			r := w.Weather(t.Context(), about(ghent, day, day))
			assert.False(t, r.Known)
			assert.Empty(t, r.Hours, "nothing is made up")
			assert.Empty(t, r.Credits)
			assert.Contains(t, r.Reason, "Open-Meteo ")
			assert.Contains(t, r.Reason, row.reason)
			assert.NotContains(t, r.Reason, "html", "no body reaches a person")
			assert.Equal(t, row.asked, w.count(OpenMeteo))
			if row.asked == 2 {
				assert.Equal(t, []time.Duration{repeatAfter}, w.slept)
			}
			w.reply[OpenMeteo] = good
			w.advance(row.waitsAt - time.Second)
			again := w.Weather(t.Context(), about(ghent, day, day))
			assert.False(t, again.Known, "asked again too early")
			assert.Contains(t, again.Reason, row.reason)
			assert.Equal(t, row.asked, w.count(OpenMeteo))
			w.advance(2 * time.Second)
			assert.True(t, w.Weather(t.Context(), about(ghent, day, day)).Known, "it recovered")
		})
	}
}

func TestOneHiccupIsRepeated(t *testing.T) {
	w := newWorld(t, only(NWS))
	good, times := w.reply[NWS], 0
	w.reply[NWS] = func(rw http.ResponseWriter, r *http.Request) {
		if times++; times == 2 {
			fail(500, "application/problem+json", `{"title":"Unexpected Problem"}`)(rw, r)
			return
		}
		good(rw, r)
	}
	r := w.Weather(t.Context(), about(portland, 0, day))
	assert.True(t, r.Known, r.Reason)
	assert.Equal(t, 3, w.count(NWS))
}

func TestSlowService(t *testing.T) {
	w := newWorld(t, func(c *Config) {
		c.Order = []string{OpenMeteo, MetNorway}
		c.Timeouts.Header = 30 * time.Millisecond
	})
	w.reply[OpenMeteo] = func(_ http.ResponseWriter, r *http.Request) { <-r.Context().Done() }
	r := w.Weather(t.Context(), about(ghent, 0, day))
	assert.True(t, r.Known, "the next one answered")
	w.inOrder(OpenMeteo, MetNorway)
	assert.Equal(t, Slow, w.sources[0].gate.last)
}

func TestAnswerThatNeverEnds(t *testing.T) {
	w := newWorld(t, func(c *Config) {
		c.Order = []string{OpenMeteo}
		c.Timeouts.Total = 50 * time.Millisecond
	})
	w.reply[OpenMeteo] = func(rw http.ResponseWriter, r *http.Request) {
		rw.Header().Set("Content-Type", "application/json")
		_, _ = rw.Write([]byte(`{`))
		_ = http.NewResponseController(rw).Flush()
		<-r.Context().Done()
	}
	r := w.Weather(t.Context(), about(ghent, 0, day))
	assert.Contains(t, r.Reason, "did not answer in time")
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
		assert.Equal(t, "No newer weather: Open-Meteo did not answer properly; MET Norway did not answer properly.", r.Reason)
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

func TestBreaker(t *testing.T) {
	w := newWorld(t, only(OpenMeteo))
	good := w.reply[OpenMeteo]
	w.reply[OpenMeteo] = fail(429, "", "")
	ask := func() Result { return w.Weather(t.Context(), about(ghent, day, day)) }
	waits := []time.Duration{time.Minute, 2 * time.Minute, 15 * time.Minute, 30 * time.Minute, time.Hour, 2 * time.Hour, 4 * time.Hour, 6 * time.Hour, 6 * time.Hour}
	for i, wait := range waits {
		ask()
		require.Equal(t, i+1, w.count(OpenMeteo))
		w.advance(wait - time.Second)
		ask()
		require.Equal(t, i+1, w.count(OpenMeteo), "asked within its wait of %s", wait)
		w.advance(time.Second)
	}
	w.reply[OpenMeteo] = good
	assert.True(t, ask().Known)
	assert.Zero(t, w.sources[0].gate.failures)
}

func TestBrokenServiceIsTriedByOne(t *testing.T) {
	g := gate{outside: map[Place]time.Time{}}
	for range brokenAfter {
		g.failed(ghent, &Failure{Kind: Down}, noon)
	}
	later := noon.Add(brokenWait)
	_, open := g.open(ghent, later, 30*time.Second)
	assert.True(t, open)
	kind, open := g.open(portland, later, 30*time.Second)
	assert.False(t, open, "the first is still out")
	assert.Equal(t, Down, kind)
	_, open = g.open(portland, later.Add(30*time.Second), 30*time.Second)
	assert.True(t, open, "it never came back")
}

func TestLongWaitsDoNotOverflow(t *testing.T) {
	g := gate{outside: map[Place]time.Time{}}
	for range 500 {
		g.failed(ghent, &Failure{Kind: Down}, noon)
		require.True(t, g.shut.After(noon) && !g.shut.After(noon.Add(longestWait)), "%s", g.shut)
	}
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

func TestTogetherTheyAskOnce(t *testing.T) {
	w := newWorld(t, only(OpenMeteo))
	good, arrived, release := w.reply[OpenMeteo], make(chan struct{}, 1), make(chan struct{})
	w.reply[OpenMeteo] = func(rw http.ResponseWriter, r *http.Request) {
		arrived <- struct{}{}
		<-release
		good(rw, r)
	}
	var all sync.WaitGroup
	results := make([]Result, 20)
	all.Go(func() { results[0] = w.Weather(t.Context(), about(ghent, day, day)) })
	<-arrived
	gone, cancel := context.WithCancel(t.Context())
	cancel()
	hasty := w.Weather(gone, about(ghent, day, day))
	assert.Contains(t, hasty.Reason, "took too long")
	for i := range results[1:] {
		all.Go(func() { results[i+1] = w.Weather(t.Context(), about(ghent, day, day)) })
	}
	close(release)
	all.Wait()
	assert.Equal(t, 1, w.count(OpenMeteo))
	for _, r := range results {
		assert.True(t, r.Known)
	}
}

func TestAFetchOutlivesWhoAskedForIt(t *testing.T) {
	w := newWorld(t, only(OpenMeteo))
	good := w.reply[OpenMeteo]
	ctx, cancel := context.WithCancel(t.Context())
	release := make(chan struct{})
	w.reply[OpenMeteo] = func(rw http.ResponseWriter, r *http.Request) {
		cancel()
		<-release
		good(rw, r)
	}
	r := w.Weather(ctx, about(ghent, day, day))
	assert.False(t, r.Known)
	close(release)
	w.running.Wait()
	assert.Len(t, w.kept.reports, 1)
}

func TestOneRequestAtATimePerService(t *testing.T) {
	w := newWorld(t, only(OpenMeteo))
	good := w.reply[OpenMeteo]
	var mu sync.Mutex
	under, most := 0, 0
	w.reply[OpenMeteo] = func(rw http.ResponseWriter, r *http.Request) {
		mu.Lock()
		under++
		most = max(most, under)
		mu.Unlock()
		good(rw, r)
		mu.Lock()
		under--
		mu.Unlock()
	}
	var all sync.WaitGroup
	for i := range 8 {
		all.Go(func() { w.Weather(t.Context(), about(Place{float64(i), 3}, day, day)) })
	}
	all.Wait()
	assert.Equal(t, 8, w.count(OpenMeteo))
	assert.Equal(t, 1, most)
}

func TestCloseEndsWhatIsUnderWay(t *testing.T) {
	w := newWorld(t, only(OpenMeteo))
	arrived := make(chan struct{})
	w.reply[OpenMeteo] = func(_ http.ResponseWriter, r *http.Request) {
		close(arrived)
		<-r.Context().Done()
	}
	var asked sync.WaitGroup
	asked.Go(func() { w.Weather(t.Context(), about(ghent, day, day)) })
	<-arrived
	w.Close()
	asked.Wait()
	assert.Empty(t, w.kept.reports)
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
	t.Run("a gauge is heard all the same", func(t *testing.T) {
		q := Query{Since: noon.Add(-day), Until: noon, Gauge: []GaugeReading{{at(0), at(10), 5}}}
		r := w.Weather(t.Context(), q)
		require.Len(t, r.Hours, 10)
		assert.InDelta(t, 0.5, *r.Hours[0].RainMm, 1e-9)
	})
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

func TestGridMovesUnderAPlace(t *testing.T) {
	w := newWorld(t, only(NWS))
	w.Weather(t.Context(), about(portland, 0, day))
	assert.Equal(t, 2, w.count(NWS), "the cell, then its forecast")
	good, moved := w.reply[NWS], false
	w.reply[NWS] = func(rw http.ResponseWriter, r *http.Request) {
		if strings.HasPrefix(r.URL.Path, "/points/") {
			moved = true
			serve("application/geo+json", swap(read(t, "nws-points.json"), `"gridX": 83`, `"gridX": 84`))(rw, r)
			return
		}
		if !strings.HasSuffix(r.URL.Path, "/84,73") {
			fail(404, "application/problem+json", `{"title":"Marine Forecast Not Supported"}`)(rw, r)
			return
		}
		good(rw, r)
	}
	w.advance(4 * time.Hour)
	r := w.Weather(t.Context(), about(portland, 0, day))
	assert.Empty(t, r.Reason)
	assert.True(t, moved)
	w.advance(4 * time.Hour)
	w.Weather(t.Context(), about(portland, 0, day))
	assert.Equal(t, 2+3+1, w.count(NWS), "the new cell is remembered")
	w.advance(cellHolds)
	w.Weather(t.Context(), Query{Located: true, Lat: portland.Lat, Lon: portland.Lon, Since: w.now(), Until: w.now().Add(day)})
	assert.Equal(t, 2+3+1+2, w.count(NWS), "and looked up again after a while")
}

func TestPlacesThatTheServiceDoesNotKnow(t *testing.T) {
	w := newWorld(t, only(NWS))
	w.reply[NWS] = fail(404, "application/problem+json", `{"title":"Data Unavailable For Requested Point"}`)
	windsor := Place{42.3, -83.02} // within the box, but Canadian
	assert.Contains(t, w.Weather(t.Context(), about(windsor, 0, day)).Reason, "does not cover this place")
	w.advance(day)
	w.Weather(t.Context(), about(windsor, 0, 2*day))
	assert.Equal(t, 1, w.count(NWS), "not asked again for a week")
	w.reply[NWS] = w.nws
	assert.True(t, w.Weather(t.Context(), about(portland, 0, 2*day)).Known, "other places are not punished")
}

func TestBrokenCache(t *testing.T) {
	w := newWorld(t, nil)
	w.kept.broken = errors.New("disk full")
	r := w.Weather(t.Context(), about(ghent, day, day))
	assert.False(t, r.Known)
	assert.Contains(t, r.Reason, "could not be asked")
	assert.Empty(t, w.seen, "services are not asked for what cannot be kept")
}

func TestNullsOfThePastAreAskedForAgain(t *testing.T) {
	w := newWorld(t, only(OpenMeteo))
	good := w.reply[OpenMeteo]
	w.reply[OpenMeteo] = func(rw http.ResponseWriter, r *http.Request) {
		var a strings.Builder
		fmt.Fprintf(&a, `{"utc_offset_seconds":0,"hourly_units":{"time":"unixtime","precipitation":"mm"},"hourly":{"time":[%d,%d],"precipitation":[null,1]}}`,
			at(-96).Unix(), at(-95).Unix())
		serve("application/json", []byte(a.String()))(rw, r)
	}
	w.Weather(t.Context(), about(ghent, 5*day, day))
	w.reply[OpenMeteo] = good
	w.advance(4 * time.Hour)
	r := w.Weather(t.Context(), about(ghent, 5*day, day))
	assert.Equal(t, "5", w.seen[1].URL.Query().Get("past_days"))
	assert.InDelta(t, 0.1, *must(t, r.Hours, at(-97)).RainMm, 1e-9)
	assert.InDelta(t, 0.1, *must(t, r.Hours, at(-96)).RainMm, 1e-9, "the newer report counts")
}
