package weather

import (
	"compress/gzip"
	"net/http"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

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
		c.Order = []string{OpenMeteo}
		c.Timeouts.Header = 30 * time.Millisecond
	})
	w.reply[OpenMeteo] = func(_ http.ResponseWriter, r *http.Request) { <-r.Context().Done() }
	r := w.Weather(t.Context(), about(ghent, 0, day))
	assert.Contains(t, r.Reason, "Open-Meteo did not answer in time")
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
