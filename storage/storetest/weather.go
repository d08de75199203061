package storetest

import (
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"heapside/storage"
)

var weatherTests = map[string]func(*bench){
	"a report reads back, and the same again changes nothing": func(b *bench) {
		r := report("open-meteo", 0, 51.75, -1.26)
		require.NoError(b, b.store.AppendReport(b.Context(), r))
		again := r
		again.Data = []byte("changed")
		require.NoError(b, b.store.AppendReport(b.Context(), again))
		got, ok, err := b.store.LatestReport(b.Context(), "open-meteo", 51.75, -1.26)
		require.NoError(b, err)
		assert.True(b, ok)
		assert.Equal(b, r, got)
		require.Error(b, b.store.AppendReport(b.Context(), storage.Report{Service: "x", Fetched: noon, Since: noon, Until: noon}), "nothing said")
	},
	"the latest is that of its service and place": func(b *bench) {
		for _, r := range []storage.Report{
			report("open-meteo", 0, 51.75, -1.26), report("open-meteo", 2, 51.75, -1.26), report("open-meteo", 1, 51.75, -1.26),
			report("met-norway", 9, 51.75, -1.26), report("open-meteo", 9, 51.75, -1.27), report("open-meteo", 9, -90, 180),
		} {
			require.NoError(b, b.store.AppendReport(b.Context(), r))
		}
		got, _, err := b.store.LatestReport(b.Context(), "open-meteo", 51.75, -1.26)
		require.NoError(b, err)
		assert.Equal(b, noon.Add(2*time.Hour), got.Fetched)
		_, ok, err := b.store.LatestReport(b.Context(), "nws", 51.75, -1.26)
		require.NoError(b, err)
		assert.False(b, ok)
	},
	"reports are those known at a moment about a span": func(b *bench) {
		for after := range 4 {
			require.NoError(b, b.store.AppendReport(b.Context(), report("open-meteo", after, 51.75, -1.26)))
		}
		known := func(since, until, asOf time.Time) int {
			got, err := b.store.Reports(b.Context(), 51.75, -1.26, since, until, asOf)
			require.NoError(b, err)
			return len(got)
		}
		day := 24 * time.Hour
		assert.Equal(b, 2, known(noon, noon.Add(day), noon.Add(time.Hour)), "later ones were not known yet")
		assert.Equal(b, 4, known(noon, noon.Add(day), noon.Add(day)))
		assert.Equal(b, 0, known(noon.Add(9*day), noon.Add(10*day), noon.Add(day)), "none speaks of that week")
		assert.Equal(b, 0, known(noon.Add(-9*day), noon.Add(-8*day), noon.Add(day)))
	},
}

func report(service string, after int, lat, lon float64) storage.Report {
	fetched := noon.Add(time.Duration(after) * time.Hour)
	return storage.Report{Service: service, Lat: lat, Lon: lon, Fetched: fetched,
		Since: fetched.Add(-48 * time.Hour), Until: fetched.Add(72 * time.Hour), Data: []byte(service)}
}
