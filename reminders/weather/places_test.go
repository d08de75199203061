package weather

import (
	"context"
	"net/http"
	"strings"
	"testing"
	"time"

	"heapside/calc/fault"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestSearch(t *testing.T) {
	w := newWorld(t, nil)
	found, err := w.Search(t.Context(), "  Millrace, \u202e Examplia\n")
	require.NoError(t, err)
	assert.Equal(t, []Candidate{
		{"Millrace", "Watermeadow", "Examplia", Place{51.05, 3.72}, "Europe/Brussels"},
		{"Millrace", "", "Elsewhere", Place{44.04, -123.09}, "America/Los_Angeles"},
		{"Millrace", "", "Third", Place{1.5, 2.5}, ""},
	}, found, "the one without coordinates is left out")
	q := w.seen[0].URL.Query()
	assert.Equal(t, "Millrace, Examplia", q.Get("name"))
	assert.Equal(t, "5", q.Get("count"))
}

func TestSearchThatFindsNothing(t *testing.T) {
	for _, row := range []struct {
		name, typed string
		reply       http.HandlerFunc
		code        fault.Code
		says        string
	}{
		{"no hit", "Xyzzyham", serve("application/json", []byte(`{"generationtime_ms":0.4}`)), fault.Unknown, `No place called “Xyzzyham”`},
		{"an empty list", "Xyzzyham", serve("application/json", []byte(`{"results":[]}`)), fault.Unknown, `“Xyzzyham”`},
		{"nothing typed", "  ", nil, fault.Missing, "too short"},
		{"a letter", "X", nil, fault.Missing, `“X” is too short`},
		{"an essay", strings.Repeat("by the mill ", 20), nil, fault.TooLong, "Say a town"},
		{"throttled", "Ghent", fail(429, "application/json", `{}`), fault.Unavailable, "asked less often"},
		{"down", "Ghent", fail(500, "text/html", "<html>"), fault.Unavailable, "did not answer properly"},
		{"HTML", "Ghent", serve("application/json", []byte("<html>")), fault.Unavailable, "cannot be read"},
		{"text for a number", "Ghent", serve("application/json", []byte(`{"results":[{"name":"Ghent","latitude":"51"}]}`)), fault.Unavailable, "cannot be read"},
	} {
		t.Run(row.name, func(t *testing.T) {
			w := newWorld(t, nil)
			w.reply["places"] = row.reply
			_, err := w.Search(t.Context(), row.typed)
			f, ok := fault.As(err)
			require.True(t, ok, "%v", err)
			assert.Equal(t, row.code, f.Code)
			assert.Contains(t, f.Message, row.says)
			assert.Equal(t, row.reply == nil, len(w.seen) == 0, "what cannot be a name is not sent")
		})
	}
	t.Run("switched off", func(t *testing.T) {
		w := newWorld(t, func(c *Config) { c.Places.Off = true })
		_, err := w.Search(t.Context(), "Ghent")
		f, _ := fault.As(err)
		assert.Equal(t, fault.Unavailable, f.Code)
		assert.Empty(t, w.seen)
	})
	t.Run("given up", func(t *testing.T) {
		w := newWorld(t, nil)
		ctx, cancel := context.WithCancel(t.Context())
		cancel()
		_, err := w.Search(ctx, "Ghent")
		assert.ErrorIs(t, err, context.Canceled)
	})
}

func FuzzPlaces(f *testing.F) {
	f.Add(read(f, "places-constructed.json"))
	f.Add([]byte(`{"results":null}`))
	f.Add([]byte(`{"results":[{"name":"\u0000\u202e","latitude":1e308,"longitude":0,"timezone":"../../etc"}]}`))
	f.Fuzz(func(t *testing.T, body []byte) {
		found, err := testWire("places").decodePlaces(body)
		if err != nil {
			return
		}
		require.LessOrEqual(t, len(found), maxCandidates)
		for _, c := range found {
			again, err := At(c.Place.Lat, c.Place.Lon)
			require.NoError(t, err)
			require.Equal(t, again, c.Place, "rounding is done once")
			_, err = time.LoadLocation(c.Zone)
			require.NoError(t, err)
			require.Equal(t, plain(c.Name), c.Name)
		}
	})
}
