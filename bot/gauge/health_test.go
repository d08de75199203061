package gauge

import (
	"context"
	"errors"
	"net/http"
	"path/filepath"
	"strings"
	"testing"
	"testing/synctest"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"heapside/calc/duty"
)

func TestHealth(t *testing.T) {
	const platform, record, passes = "There is no connection to the platform.", "The record does not answer.", "The reminders were not looked through"
	for _, tc := range []struct {
		name   string
		change func(*garden)
		faults []string // what each line begins with
	}{
		{"all is well", func(*garden) {}, nil},
		{"no connection", func(g *garden) { g.link.Open = false }, []string{platform}},
		{"a heartbeat is late", func(g *garden) { g.link.Silent = 89 * time.Second }, nil},
		{"two heartbeats were not answered", func(g *garden) { g.link.Silent = 91 * time.Second }, []string{"The platform has answered no heartbeat for 1m31s."}},
		{"a pass takes long", func(g *garden) { g.passed = noon.Add(-4 * time.Minute) }, nil},
		{"no pass comes to its end", func(g *garden) { g.passed = noon.Add(-6 * time.Minute) }, []string{passes + " for 6m0s."}},
		{"no pass yet", func(g *garden) { g.passed = time.Time{} }, []string{passes + " yet."}},
		{"a clock that was set back", func(g *garden) { g.passed = noon.Add(time.Hour) }, nil},
		{"the record fails", func(g *garden) { g.Record = backlog{err: errors.New("disk I/O error")} }, []string{record}},
		{"all at once", func(g *garden) {
			g.Record, g.link.Open, g.passed = backlog{err: errors.New("x")}, false, time.Time{}
		}, []string{record, platform, passes}},
	} {
		t.Run(tc.name, func(t *testing.T) {
			g := newGarden(t)
			tc.change(g)
			status, said := g.get("GET", "/healthz")
			if tc.faults == nil {
				assert.Equal(t, 200, status)
				assert.Equal(t, "ok\n", said)
				return
			}
			assert.Equal(t, http.StatusServiceUnavailable, status)
			lines := strings.Split(strings.TrimSuffix(said, "\n"), "\n")
			require.Len(t, lines, len(tc.faults), said)
			for i, begins := range tc.faults {
				assert.True(t, strings.HasPrefix(lines[i], begins), lines[i])
			}
		})
	}
}

// stuck is a record that answers when it is too late.
type stuck struct{}

func (stuck) Backlog(ctx context.Context, _ time.Time) (int, time.Time, error) {
	<-ctx.Done()
	return 0, time.Time{}, ctx.Err()
}
func (stuck) Troubled(context.Context) (map[duty.Trouble]int, error) { return nil, nil }

func TestHealthOfTheRecord(t *testing.T) {
	g := newGarden(t)
	healthy := func() int { status, _ := g.get("GET", "/healthz"); return status }
	require.Equal(t, 200, healthy())
	path := filepath.Join(t.TempDir(), "other.db")
	record := opened(t, path)
	g.Record = record
	require.Equal(t, 200, healthy())
	require.NoError(t, record.Close())
	assert.Equal(t, 503, healthy(), "closed")
	g.Record = opened(t, path)
	assert.Equal(t, 200, healthy(), "open again")
}

func TestHealthDoesNotWaitForARecordThatHangs(t *testing.T) {
	g := newGarden(t)
	g.Record = stuck{}
	synctest.Test(t, func(t *testing.T) { // by a clock that goes on when everybody waits
		begun := time.Now()
		status, said := g.get("GET", "/healthz")
		assert.Equal(t, 503, status)
		assert.Equal(t, "The record does not answer.\n", said)
		assert.Equal(t, time.Second, time.Since(begun))
	})
}
