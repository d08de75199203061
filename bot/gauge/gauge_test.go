package gauge

import (
	"context"
	"log/slog"
	"net/http"
	"net/http/httptest"
	"path/filepath"
	"strings"
	"testing"
	"time"

	dto "github.com/prometheus/client_model/go"
	"github.com/prometheus/common/expfmt"
	"github.com/prometheus/common/model"
	"github.com/stretchr/testify/require"

	"heapside/bot/discord"
	"heapside/calc/duty"
	"heapside/commands"
	"heapside/reminders"
	"heapside/reminders/weather"
	"heapside/storage"
)

var noon = time.Date(2026, 6, 10, 12, 0, 0, 0, time.UTC)

// garden is everything that is asked, as a test sets it.
type garden struct {
	Record
	link      discord.Link
	stats     reminders.Stats
	passed    time.Time
	asked     commands.TurnedAway
	suggested commands.TurnedAway
	sky       []weather.Stats
	traffic   *Traffic
	handler   http.Handler
}

func (g *garden) Link() discord.Link                     { return g.link }
func (g *garden) Stats() reminders.Stats                 { return g.stats }
func (g *garden) Passed() time.Time                      { return g.passed }
func (g *garden) TurnedAway() (a, s commands.TurnedAway) { return g.asked, g.suggested }

// station is the weather of a garden.
type station struct{ *garden }

func (s station) Stats() []weather.Stats { return s.sky }

// newGarden is one in which all is well, over a record of its own.
func newGarden(t testing.TB) *garden {
	t.Helper()
	path := filepath.Join(t.TempDir(), "garden.db")
	g := &garden{
		Record: opened(t, path), traffic: NewTraffic(), passed: noon.Add(-2 * time.Second),
		link: discord.Link{Open: true, Acked: noon.Add(-20 * time.Second), Silent: 20 * time.Second, Patience: 3 * time.Minute, Connects: 3, Resumes: 2},
	}
	g.handler = Handler(g.traffic, Sources{
		Version: "v1", Path: path, Now: func() time.Time { return noon },
		Record: recordOf{g}, Gateway: g, Reminders: g, Limits: g, Weather: station{g},
	}, slog.New(slog.DiscardHandler))
	return g
}

// recordOf is the record that a garden has by now.
type recordOf struct{ g *garden }

func (r recordOf) Backlog(ctx context.Context, now time.Time) (int, time.Time, error) {
	return r.g.Record.Backlog(ctx, now)
}

func (r recordOf) Troubled(ctx context.Context) (map[duty.Trouble]int, error) {
	return r.g.Record.Troubled(ctx)
}

func opened(t testing.TB, path string) *storage.Reached {
	t.Helper()
	db, err := storage.Open(t.Context(), path)
	require.NoError(t, err)
	t.Cleanup(func() { require.NoError(t, db.Close()) })
	return db.Within(storage.Reach{})
}

// backlog is a record with posts that wait.
type backlog struct {
	posts  int
	oldest time.Time
	gone   int
	err    error
}

func (b backlog) Backlog(context.Context, time.Time) (int, time.Time, error) {
	return b.posts, b.oldest, b.err
}
func (b backlog) Troubled(context.Context) (map[duty.Trouble]int, error) {
	return map[duty.Trouble]int{duty.Refused: 0, duty.Gone: b.gone}, b.err
}

// get asks the handler.
func (g *garden) get(method, path string) (status int, said string) {
	w := httptest.NewRecorder()
	g.handler.ServeHTTP(w, httptest.NewRequest(method, path, nil))
	return w.Code, w.Body.String()
}

// scrape reads what is shown.
func (g *garden) scrape(t testing.TB) map[string]*dto.MetricFamily {
	t.Helper()
	status, said := g.get("GET", "/metrics")
	require.Equal(t, 200, status, said)
	parser := expfmt.NewTextParser(model.UTF8Validation)
	families, err := parser.TextToMetricFamilies(strings.NewReader(said))
	require.NoError(t, err)
	return families
}

// value is that of the one metric of a family that has these label values.
func value(t testing.TB, families map[string]*dto.MetricFamily, name string, labels ...string) float64 {
	t.Helper()
	for _, m := range families[name].GetMetric() {
		var has []string
		for _, l := range m.GetLabel() {
			has = append(has, l.GetValue())
		}
		if strings.Join(has, ",") == strings.Join(labels, ",") {
			return m.GetCounter().GetValue() + m.GetGauge().GetValue() + float64(m.GetHistogram().GetSampleCount())
		}
	}
	require.Fail(t, "nothing is shown", "%s %v", name, labels)
	return 0
}
