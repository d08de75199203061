package weather

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"net"
	"net/http"
	"net/http/httptest"
	"os"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
)

// noon is the moment at which the tests begin.
var noon = time.Date(2026, 11, 24, 12, 20, 0, 0, time.UTC)

// ghent and portland are gardens' places inside and outside the US.
var ghent, portland = Place{51.05, 3.72}, Place{45.52, -122.68}

// loopbackOnly fails every request that would leave the machine.
type loopbackOnly struct{ http.RoundTripper }

func (l loopbackOnly) RoundTrip(r *http.Request) (*http.Response, error) {
	if ip := net.ParseIP(r.URL.Hostname()); ip == nil || !ip.IsLoopback() {
		return nil, fmt.Errorf("a test asked %s", r.URL.Host)
	}
	return l.RoundTripper.RoundTrip(r)
}

// memory is a Cache in a slice.
type memory struct {
	mu      sync.Mutex
	reports []Report
	broken  error
}

func (m *memory) Append(_ context.Context, r Report) error {
	m.mu.Lock()
	defer m.mu.Unlock()
	if m.broken != nil {
		return m.broken
	}
	known := slices.ContainsFunc(m.reports, func(k Report) bool {
		return k.Service == r.Service && k.Place == r.Place && k.FetchedAt.Equal(r.FetchedAt)
	})
	if !known {
		m.reports = append(m.reports, viaJSON(r))
	}
	return nil
}

func (m *memory) Latest(_ context.Context, service string, at Place) (last Report, ok bool, err error) {
	m.mu.Lock()
	defer m.mu.Unlock()
	for _, r := range m.reports {
		if r.Service == service && r.Place == at && (!ok || r.FetchedAt.After(last.FetchedAt)) {
			last, ok = r, true
		}
	}
	return last, ok, m.broken
}

func (m *memory) Reports(_ context.Context, at Place, since, until, asOf time.Time) ([]Report, error) {
	m.mu.Lock()
	defer m.mu.Unlock()
	var found []Report
	for _, r := range m.reports {
		inSpan := slices.ContainsFunc(r.Hours, func(h Hour) bool { return !h.At.Before(since) && h.At.Before(until) })
		if r.Place == at && !r.FetchedAt.After(asOf) && inSpan {
			r.Hours = clip(r.Hours, since, until)
			found = append(found, r)
		}
	}
	slices.SortStableFunc(found, func(a, b Report) int { return a.FetchedAt.Compare(b.FetchedAt) })
	return found, m.broken
}

// viaJSON is the report as a store may keep it.
func viaJSON(r Report) (out Report) {
	data, err := json.Marshal(r)
	if err == nil {
		err = json.Unmarshal(data, &out)
	}
	if err != nil {
		panic(err)
	}
	return out
}

// world is a station, its services on loopback, and a clock that moves by hand.
type world struct {
	*Station
	t      *testing.T
	server *httptest.Server
	kept   *memory

	mu    sync.Mutex
	clock time.Time
	slept []time.Duration
	hits  map[string]int // by service
	seen  []*http.Request
	reply map[string]http.HandlerFunc // by service
}

func newWorld(t *testing.T, change func(*Config)) *world {
	t.Helper()
	w := &world{t: t, kept: new(memory), clock: noon, hits: map[string]int{}, reply: map[string]http.HandlerFunc{}}
	w.reply[OpenMeteo] = w.openMeteo
	w.reply[MetNorway] = w.metNorway
	w.reply[NWS] = w.nws
	w.reply["places"] = serve("application/json; charset=utf-8", read(t, "places-constructed.json"))
	w.server = httptest.NewServer(http.HandlerFunc(w.route))
	t.Cleanup(w.server.Close)
	base := Source{BaseURL: w.server.URL}
	c := Config{Agent: "millrace-test/1 organiser@example.org", OpenMeteo: base, MetNorway: base, NWS: base, Places: base}
	if change != nil {
		change(&c)
	}
	s, err := New(c, w.kept, Options{
		Now: w.now, Sleep: w.sleep, Transport: loopbackOnly{newTransport(c.Timeouts.orDefault())},
	})
	require.NoError(t, err)
	w.Station = s
	t.Cleanup(s.Close)
	return w
}

func (w *world) now() time.Time {
	w.mu.Lock()
	defer w.mu.Unlock()
	return w.clock
}

func (w *world) advance(d time.Duration) {
	w.mu.Lock()
	defer w.mu.Unlock()
	w.clock = w.clock.Add(d)
}

func (w *world) sleep(ctx context.Context, d time.Duration) error {
	w.mu.Lock()
	defer w.mu.Unlock()
	w.slept = append(w.slept, d)
	return ctx.Err()
}

func (w *world) count(service string) int {
	w.mu.Lock()
	defer w.mu.Unlock()
	return w.hits[service]
}

func (w *world) route(rw http.ResponseWriter, r *http.Request) {
	service := ""
	for prefix, name := range map[string]string{
		"/v1/forecast": OpenMeteo, "/weatherapi/": MetNorway, "/points/": NWS, "/gridpoints/": NWS, "/v1/search": "places",
	} {
		if strings.HasPrefix(r.URL.Path, prefix) {
			service = name
		}
	}
	w.mu.Lock()
	w.hits[service]++
	w.seen = append(w.seen, r.Clone(context.Background()))
	reply := w.reply[service]
	w.mu.Unlock()
	if reply == nil {
		rw.WriteHeader(http.StatusTeapot)
		return
	}
	reply(rw, r)
}

// openMeteo answers with all the days asked for: 8 C, 80 %, 0.1 mm and 3 m/s in
// every hour.
func (w *world) openMeteo(rw http.ResponseWriter, r *http.Request) {
	q := r.URL.Query()
	past, errPast := strconv.Atoi(q.Get("past_days"))
	future, errFuture := strconv.Atoi(q.Get("forecast_days"))
	if errors.Join(errPast, errFuture) != nil || past > 92 || future > 16 {
		fail(http.StatusBadRequest, "application/json", `{"reason":"bad days","error":true}`)(rw, r)
		return
	}
	from := w.now().Truncate(day).Add(-time.Duration(past) * day)
	a := map[string]any{"utc_offset_seconds": 0, "elevation": 9.0, "hourly_units": map[string]string{
		"time": "unixtime", "temperature_2m": "°C", "relative_humidity_2m": "%", "precipitation": "mm",
		"et0_fao_evapotranspiration": "mm", "wind_speed_10m": "m/s",
	}}
	lists := map[string][]float64{}
	for h := range (past + future) * 24 {
		lists["time"] = append(lists["time"], float64(from.Add(time.Duration(h)*time.Hour).Unix()))
		for name, v := range map[string]float64{
			"temperature_2m": 8, "relative_humidity_2m": 80, "precipitation": 0.1, "et0_fao_evapotranspiration": 0.05, "wind_speed_10m": 3,
		} {
			lists[name] = append(lists[name], v)
		}
	}
	a["hourly"] = lists
	rw.Header().Set("Content-Type", "application/json; charset=utf-8")
	_ = json.NewEncoder(rw).Encode(a)
}

func (w *world) metNorway(rw http.ResponseWriter, r *http.Request) {
	rw.Header().Set("Expires", w.now().Add(30*time.Minute).UTC().Format(http.TimeFormat))
	rw.Header().Set("Last-Modified", "Tue, 24 Nov 2026 11:31:08 GMT")
	serve("application/json", read(w.t, "met-norway-constructed.json"))(rw, r)
}

func (w *world) nws(rw http.ResponseWriter, r *http.Request) {
	if strings.HasPrefix(r.URL.Path, "/points/") {
		serve("application/geo+json", read(w.t, "nws-points.json"))(rw, r)
		return
	}
	serve("application/geo+json", recorded(w.t, w.now()))(rw, r)
}

func serve(contentType string, body []byte) http.HandlerFunc {
	return func(rw http.ResponseWriter, _ *http.Request) {
		rw.Header().Set("Content-Type", contentType)
		_, _ = rw.Write(body)
	}
}

func fail(status int, contentType, body string) http.HandlerFunc {
	return func(rw http.ResponseWriter, _ *http.Request) {
		rw.Header().Set("Content-Type", contentType)
		rw.WriteHeader(status)
		_, _ = rw.Write([]byte(body))
	}
}

func read(t testing.TB, name string) []byte {
	t.Helper()
	data, err := os.ReadFile("../../testdata/weather/" + name)
	require.NoError(t, err)
	return data
}

var timeToken = regexp.MustCompile(`date:now(?::hour)? ([+-]\d+) (hours|seconds) / (P\w+)`)

// recorded is the recorded grid answer with times around now in place of its
// tokens.
func recorded(t testing.TB, now time.Time) []byte {
	t.Helper()
	return timeToken.ReplaceAllFunc(read(t, "nws-gridpoint.json"), func(token []byte) []byte {
		m := timeToken.FindSubmatch(token)
		n, err := strconv.Atoi(string(m[1]))
		require.NoError(t, err)
		at := now.Truncate(time.Hour).Add(time.Duration(n) * time.Hour)
		return []byte(at.UTC().Format("2006-01-02T15:04:05-07:00") + "/" + string(m[3]))
	})
}

// about is a question on the hours around now at a place.
func about(p Place, before, after time.Duration) Query {
	return Query{Located: true, Lat: p.Lat, Lon: p.Lon, Since: noon.Add(-before), Until: noon.Add(after)}
}

func testWire(service string) *wire {
	return &wire{service: service, now: func() time.Time { return noon }}
}

// at is a moment of the test's day and later, in hours from its midnight.
func at(hour int) time.Time { return noon.Truncate(day).Add(time.Duration(hour) * time.Hour) }

// must is the hour at a moment.
func must(t *testing.T, hours []Hour, when time.Time) Hour {
	t.Helper()
	i := slices.IndexFunc(hours, func(h Hour) bool { return h.At.Equal(when) })
	require.GreaterOrEqual(t, i, 0, "no hour %s", when)
	return hours[i]
}
