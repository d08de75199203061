package weather

import (
	"net/http"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestCheck(t *testing.T) {
	const noAgent = "is not asked without a way to reach whoever runs this"
	const metHours = 15 // of its recorded answer that lie within a day of noon
	for _, row := range []struct {
		name   string
		at     Place
		change func(*Config)
		reply  map[string]http.HandlerFunc
		want   [4]Check // without the names, which are always the same
		hits   int
	}{
		{name: "all answer", at: portland, want: [4]Check{{Hours: 24}, {Hours: metHours}, {Hours: 24}, {}}, hits: 5},
		{name: "outside the US", at: ghent, want: [4]Check{{Hours: 24}, {Hours: metHours}, {Unasked: "does not cover this place"}, {}}, hits: 3},
		{name: "nobody to reach", at: portland, change: func(c *Config) { c.Agent = "" }, want: [4]Check{{Hours: 24}, {Unasked: noAgent}, {Unasked: noAgent}, {}}, hits: 2},
		{name: "switched off", at: ghent, change: func(c *Config) { c.OpenMeteo.Off, c.Places.Off = true, true },
			want: [4]Check{{Unasked: "is switched off"}, {Hours: metHours}, {Unasked: "does not cover this place"}, {Unasked: "is switched off"}}, hits: 1},
		{name: "ill", at: ghent, reply: map[string]http.HandlerFunc{
			OpenMeteo: fail(429, "application/json", `{}`),
			MetNorway: serve("application/json", []byte(`{"properties":{}}`)),
			"places":  fail(403, "text/html", "no"),
		}, want: [4]Check{{Failed: "wants to be asked less often"}, {Failed: "gave an answer that cannot be read"}, {Unasked: "does not cover this place"}, {Failed: "refused to answer"}}, hits: 3},
	} {
		t.Run(row.name, func(t *testing.T) {
			w := newWorld(t, row.change)
			for service, reply := range row.reply {
				w.reply[service] = reply
			}
			got, err := w.Check(t.Context(), row.at.Lat, row.at.Lon)
			require.NoError(t, err)
			require.Len(t, got, 4)
			for i, name := range []string{"Open-Meteo", "MET Norway", "the US National Weather Service", "the search for places"} {
				row.want[i].Name = name
				assert.Equal(t, row.want[i], got[i])
			}
			assert.Len(t, w.seen, row.hits)
			assert.Empty(t, w.kept.reports, "nothing is kept")
		})
	}
	t.Run("not on earth", func(t *testing.T) {
		_, err := newWorld(t, nil).Check(t.Context(), 91, 0)
		require.Error(t, err)
	})
}
