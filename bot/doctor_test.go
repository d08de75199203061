package main

import (
	"encoding/json"
	"io"
	"net/http"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// platformSays answers every request without a network.
type platformSays struct {
	status int
	date   string
	asked  *http.Request
}

func (p *platformSays) RoundTrip(req *http.Request) (*http.Response, error) {
	p.asked = req
	return &http.Response{StatusCode: p.status, Header: http.Header{"Date": {p.date}}, Body: io.NopCloser(strings.NewReader("{}"))}, nil
}

func TestDoctor(t *testing.T) {
	const noon = "2026-06-10T12:00:00Z"
	right, late := "Wed, 10 Jun 2026 12:00:03 GMT", "Wed, 10 Jun 2026 12:05:00 GMT"
	good := filled(t).db
	mud := filepath.Join(t.TempDir(), "mud.db")
	require.NoError(t, os.WriteFile(mud, []byte(strings.Repeat("mud ", 2000)), 0o600))
	for _, tt := range []struct {
		name, db, token string
		says            platformSays
		status          int
		out             string
	}{
		{"all is well", good, "secret", platformSays{status: 200, date: right}, 0, "ok    token      The platform accepts it."},
		{"what the record holds", good, "secret", platformSays{status: 200, date: right}, 0, "1 heap, 3 entries"},
		{"the token is refused", good, "secret", platformSays{status: 401, date: right}, 1, "bad   token      The platform refuses it"},
		{"no token", good, "", platformSays{}, 1, "bad   token      Put the bot's token"},
		{"the platform is out of order", good, "secret", platformSays{status: 503, date: right}, 0, "warn  token"},
		{"the clock is late", good, "secret", platformSays{status: 200, date: late}, 1, "bad   clock      The clock here is -5m0s off"},
		{"no time told", good, "secret", platformSays{status: 200}, 0, "warn  clock"},
		{"no record yet", filepath.Join(t.TempDir(), "absent.db"), "secret", platformSays{status: 200, date: right}, 0, "warn  record"},
		{"no record of ours", mud, "secret", platformSays{status: 200, date: right}, 1, "bad   record"},
	} {
		t.Run(tt.name, func(t *testing.T) {
			var out, errs strings.Builder
			m := &Main{Out: &out, Err: &errs, HTTP: &tt.says, Now: clockOf(noon), Getenv: getenv([]string{"HEAPSIDE_TOKEN=" + tt.token})}
			assert.Equal(t, tt.status, m.Main(t.Context(), []string{"doctor", "-db", tt.db}), out.String())
			assert.Contains(t, out.String(), tt.out)
			assert.NotContains(t, out.String()+errs.String(), "secret")
			if tt.token != "" {
				assert.Equal(t, "Bot secret", tt.says.asked.Header.Get("Authorization"))
			}
		})
	}
	t.Run("offline nobody is asked", func(t *testing.T) {
		says := platformSays{}
		var out strings.Builder
		m := &Main{Out: &out, Err: io.Discard, HTTP: &says, Now: time.Now, Getenv: getenv([]string{"HEAPSIDE_TOKEN=secret"})}
		assert.Equal(t, 0, m.Main(t.Context(), []string{"doctor", "-offline", "-json", "-db", good}))
		assert.Nil(t, says.asked)
		var found []finding
		require.NoError(t, json.Unmarshal([]byte(out.String()), &found))
		for _, f := range found {
			assert.Equal(t, "ok", f.Is, f.Say)
		}
	})
}
