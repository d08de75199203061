package main

import (
	"context"
	"fmt"
	"io"
	"net"
	"net/http"
	"path/filepath"
	"regexp"
	"runtime"
	"slices"
	"strconv"
	"strings"
	"sync"
	"testing"
	"time"

	dto "github.com/prometheus/client_model/go"
	"github.com/prometheus/common/expfmt"
	"github.com/prometheus/common/model"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"heapside/bot/discord/discordtest"
	"heapside/commands"
)

// shownAt is a log that waits for the line which says where metrics are shown.
type shownAt struct {
	mu   sync.Mutex
	text strings.Builder
	at   chan string
}

var metricsAddress = regexp.MustCompile(`metrics=(http://\S+)/metrics`)

func (s *shownAt) Write(line []byte) (int, error) {
	s.mu.Lock()
	defer s.mu.Unlock()
	if found := metricsAddress.FindSubmatch(line); found != nil {
		s.at <- string(found[1])
	}
	return s.text.Write(line)
}

// watched is a serve that shows its metrics.
type watched struct {
	t    testing.TB
	base string // of the addresses
	stop func() int
}

// watching starts serve with metrics, and any more of the environment, against
// a stand-in of the platform.
func watching(t testing.TB, p *discordtest.Platform, now func() time.Time, env ...string) watched {
	t.Helper()
	log := &shownAt{at: make(chan string, 1)}
	m := &Main{
		In: strings.NewReader(""), Out: io.Discard, Err: log, HTTP: p.Transport(), Now: now,
		Getenv: getenv(append(env, "HEAPSIDE_METRICS=127.0.0.1:0", "HEAPSIDE_TOKEN="+discordtest.Token, "HEAPSIDE_WEATHER=off")),
	}
	ctx, cancel := context.WithCancel(context.WithoutCancel(t.Context()))
	status := make(chan int, 1)
	go func() { status <- m.Main(ctx, []string{"serve", "-db", filepath.Join(t.TempDir(), "garden.db")}) }()
	w := watched{t: t, base: <-log.at}
	w.stop = func() int {
		cancel()
		s := <-status
		status <- s
		return s
	}
	t.Cleanup(func() { w.stop() })
	p.Registered()
	return w
}

func (w watched) get(path string) (status int, said string) {
	w.t.Helper()
	resp, err := http.Get(w.base + path)
	require.NoError(w.t, err)
	defer resp.Body.Close()
	body, err := io.ReadAll(resp.Body)
	require.NoError(w.t, err)
	return resp.StatusCode, string(body)
}

// families is what is shown by now.
func (w watched) families() map[string]*dto.MetricFamily {
	w.t.Helper()
	status, said := w.get("/metrics")
	require.Equal(w.t, 200, status)
	parser := expfmt.NewTextParser(model.UTF8Validation)
	found, err := parser.TextToMetricFamilies(strings.NewReader(said))
	require.NoError(w.t, err)
	return found
}

// values are those of what is shown, by name and the values of the labels in
// the order of the labels' names; of a histogram, how much it has seen.
func (w watched) values() map[string]float64 {
	w.t.Helper()
	all := map[string]float64{}
	for name, family := range w.families() {
		for _, m := range family.GetMetric() {
			key := name
			for _, l := range m.GetLabel() {
				key += "|" + l.GetValue()
			}
			all[strings.TrimPrefix(key, "heapside_")] = m.GetCounter().GetValue() + m.GetGauge().GetValue() + float64(m.GetHistogram().GetSampleCount())
		}
	}
	return all
}

// await looks until the values are there: what is answered is counted after it.
func (w watched) await(want map[string]float64) {
	w.t.Helper()
	var got map[string]float64
	for range 100_000 {
		got = w.values()
		if !slices.ContainsFunc(keys(want), func(k string) bool { return got[k] != want[k] }) {
			return
		}
	}
	for key, value := range want {
		assert.InDelta(w.t, value, got[key], 0, key)
	}
	w.t.FailNow()
}

func keys(of map[string]float64) []string {
	var all []string
	for key := range of {
		all = append(all, key)
	}
	return all
}

// healthy looks until health is as wanted, and returns what is said of it.
func (w watched) healthy(want bool) string {
	w.t.Helper()
	for range 1_000_000 {
		if status, said := w.get("/healthz"); (status == http.StatusOK) == want {
			return said
		}
	}
	require.Fail(w.t, "health does not change", "to %v", want)
	return ""
}

// TestServeShowsHowItFares: what is asked, typed, pressed, refused and said on
// the platform is counted, each once.
func TestServeShowsHowItFares(t *testing.T) {
	t.Parallel() // most of the time goes by waiting for the next look at what is due
	p, clock := discordtest.New(t), new(moved)
	clock.set("2026-06-10T08:00:00Z")
	w := watching(t, p, clock.now)
	p.AddChannel(wren.Guild, wren.Channel)
	p.Command(wren, "heap start", map[string]string{"name": "North Bay", "size": "1 m3"}).Answer()
	logged := p.Command(odalys, "log temp", map[string]string{"reading": "58", "depth": "40cm"}).Answer()
	p.Command(odalys, "log temp", map[string]string{"reading": "580"}).Answer()
	p.Press(odalys, logged, "Undo").Answer()
	p.Complete(odalys, "heap show", nil, "heap", "nor")
	p.Raw(odalys, 2, map[string]any{"id": "1", "name": "odalys likes compost", "type": 1}).Answer()
	private := odalys
	private.Guild = ""
	p.Command(private, "next", nil).Answer()
	for range 35 { // five of them too many, of which one is told so
		p.Command(tobiasToo, "heap list", nil)
	}
	w.await(map[string]float64{
		"interactions_total||heap start|command|answered":          1,
		"interactions_total||log temp|command|answered":            1,
		"interactions_total|out_of_range|log temp|command|refused": 1,
		"interactions_total||undo|button|answered":                 1,
		"interactions_total|unknown|other|command|refused":         1,
		"interactions_total|not_allowed|next|command|refused":      1,
		"interactions_total||heap list|command|answered":           30,
		"interactions_total|too_many|heap list|command|refused":    5,
		"interaction_duration_seconds|log temp":                    2,
		"interaction_duration_seconds|heap list":                   35,
		"completions_total|heap show|answered":                     1,
		"completion_duration_seconds|heap show":                    1,
		"limited_total|person|commands":                            5,
		"limited_total|group|commands":                             0,
		"limited_total|person|completions":                         0,
		"gateway_connected":                                        1,
		"gateway_connects_total":                                   1,
		"gateway_resumes_total":                                    0,
		"record_answers":                                           1,
		"build_info|" + runtime.Version() + "|" + programVersion(): 1,
		"reminders_sent_total":                                     0,
		"reminders_waiting":                                        0,
		"reminders_passed_timestamp_seconds":                       float64(clock.now().Unix()),
	})
	p.Drop()
	p.Await("a resumed session", func(c discordtest.Counts) bool { return c.Resumed == 1 })
	w.await(map[string]float64{"gateway_connected": 1, "gateway_connects_total": 2, "gateway_resumes_total": 1})
	w.boundedLabels(wren.Guild, wren.Channel, wren.ID, odalys.ID, tobias.ID, "Wren", "Odalys", "odalys", "Tobias", "North", "nor\"", "likes", discordtest.Token)
	assert.Equal(t, 0, w.stop())
	_, err := http.Get(w.base + "/healthz")
	assert.Error(t, err, "the port is closed")
}

// boundedLabels walks all values of all labels: each is one of a few that the
// program itself has words for. What is private stands nowhere at all.
func (w watched) boundedLabels(private ...string) {
	w.t.Helper()
	number := func(value string) bool { _, err := strconv.ParseFloat(value, 64); return err == nil }
	oneOf := func(all ...string) func(string) bool {
		return func(value string) bool { return slices.Contains(all, value) }
	}
	paths := []string{"other"}
	for _, c := range commands.New(nil, nil).Commands() {
		paths = append(paths, c.Name)
		for _, sub := range c.Subs {
			paths = append(paths, c.Name+" "+sub.Name)
		}
	}
	allowed := map[string]func(string) bool{
		"kind": oneOf("command", "button", "form"), "command": oneOf(paths...),
		"outcome": oneOf("answered", "refused", "failed", "late", "unsent", "busy", "dropped"),
		"code":    oneOf("", "not_understood", "unknown", "ambiguous", "out_of_range", "missing", "refused", "not_allowed", "taken", "too_long", "too_many", "unavailable"),
		"of":      oneOf("commands", "completions"), "limit": oneOf("person", "group"),
		"file": oneOf("record", "wal"), "why": oneOf("refused", "gone"),
		"version": oneOf(programVersion(), runtime.Version()), "goversion": oneOf(runtime.Version()), "quantile": number, "le": number,
	}
	seen := map[string]bool{}
	for name, family := range w.families() {
		for _, m := range family.GetMetric() {
			for _, l := range m.GetLabel() {
				seen[l.GetName()] = true
				known := allowed[l.GetName()]
				if assert.NotNil(w.t, known, "%s has the label %s", name, l.GetName()) {
					assert.True(w.t, known(l.GetValue()), "%s has %s=%q", name, l.GetName(), l.GetValue())
				}
			}
		}
	}
	for _, label := range []string{"kind", "command", "outcome", "code", "of", "limit", "file", "why"} {
		assert.True(w.t, seen[label], label)
	}
	for _, path := range []string{"/metrics", "/healthz"} {
		_, said := w.get(path)
		for _, word := range private {
			assert.NotContains(w.t, said, word)
		}
	}
}

// TestServeShowsItsReminders: one that a channel does not take at first and
// takes three hours later.
func TestServeShowsItsReminders(t *testing.T) {
	t.Parallel()
	p, clock := discordtest.New(t), new(moved)
	clock.set("2026-06-10T08:00:00Z")
	w := watching(t, p, clock.now)
	p.AddChannel(wren.Guild, wren.Channel)
	p.Command(wren, "heap start", map[string]string{"name": "North Bay"}).Answer()
	p.Command(wren, "duty when", map[string]string{"when": "daily 12:00"}).Answer()
	p.Command(wren, "log temp", map[string]string{"reading": "72"}).Answer()
	p.Fail(discordtest.AtPost, discordtest.Fault{Status: 403, Code: 50013})
	clock.set("2026-06-10T12:00:01Z")
	w.await(map[string]float64{
		"channels_unreachable|refused": 1, "channels_unreachable|gone": 0, "reminders_prepared_total": 1,
		"reminders_sent_total": 0, "reminders_retried_total": 1, "reminders_waiting": 0, "reminders_waiting_age_seconds": 0,
	})
	clock.set("2026-06-10T15:00:02Z")
	p.AwaitPosts(wren.Channel, 1)
	w.await(map[string]float64{"channels_unreachable|refused": 0, "reminders_sent_total": 1, "reminders_late_total": 1})
}

func TestServeShowsItsWeather(t *testing.T) {
	t.Parallel()
	p, s := discordtest.New(t), newService(t)
	s.status.Store(http.StatusTooManyRequests)
	w := watching(t, p, time.Now, "HEAPSIDE_WEATHER=open-meteo", "HEAPSIDE_OPEN_METEO_URL="+s.URL)
	p.Command(wren, "garden place", map[string]string{"place": "51.75, -1.26"}).Answer()
	p.Command(wren, "heap start", map[string]string{"name": "North Bay"}).Answer()
	p.Command(wren, "log add", map[string]string{"what": "2 barrows of grass clippings and 3 barrows of dry leaves"}).Answer()
	p.Command(wren, "outlook", nil).Answer()
	w.await(map[string]float64{"weather_requests_total|throttled|open-meteo": 1, "weather_requests_total|fetched|open-meteo": 0})
}

// TestServeTellsItsHealth: well once all parts run, unwell while the gateway is
// silent, and well again.
func TestServeTellsItsHealth(t *testing.T) {
	t.Parallel()
	p := discordtest.New(t)
	w := watching(t, p, time.Now)
	assert.Equal(t, "ok\n", w.healthy(true))
	p.Silence()
	p.Drop()
	assert.Equal(t, "There is no connection to the platform.\n", w.healthy(false))
	p.Await("another connection", func(c discordtest.Counts) bool { return c.Connected == 2 })
	status, _ := w.get("/healthz")
	assert.Equal(t, http.StatusServiceUnavailable, status, "a connection that says nothing is none")
	p.Speak()
	p.Drop()
	assert.Equal(t, "ok\n", w.healthy(true))
}

func TestMetricsAreRefused(t *testing.T) {
	taken, err := net.Listen("tcp", "127.0.0.1:0")
	require.NoError(t, err)
	defer taken.Close()
	for _, tc := range []struct{ name, address, err string }{
		{"every address of this machine", "0.0.0.0:9464", "can be reached from other machines"},
		{"another machine's name", "garden.example:9464", "of names only localhost is taken"},
		{"no port", "127.0.0.1", "no address with the number of a port"},
		{"a port in use", taken.Addr().String(), "is in use by another program"},
	} {
		t.Run(tc.name, func(t *testing.T) {
			p := discordtest.New(t)
			got := newRecord(t).serve(p, "HEAPSIDE_TOKEN="+discordtest.Token, "HEAPSIDE_METRICS="+tc.address)
			assert.Equal(t, 2, got.status)
			assert.Contains(t, got.err, "HEAPSIDE_METRICS: “"+tc.address+"”")
			assert.Contains(t, got.err, tc.err)
			assert.Zero(t, p.Counts().Connected, "before anybody is asked")
		})
	}
}

func TestNoPortIsOpenedUnasked(t *testing.T) {
	for _, said := range []string{"", "off", "OFF"} {
		m := &Main{Getenv: getenv([]string{"HEAPSIDE_METRICS=" + said})}
		watch, err := m.monitor(t.Context(), nil)
		require.NoError(t, err)
		assert.Nil(t, watch, fmt.Sprintf("%q", said))
	}
}
