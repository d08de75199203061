package weather

import (
	"path/filepath"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"heapside/storage"
)

// TestKeptGivesBackWhatWasSaid holds the record to the Cache's semantics.
func TestKeptGivesBackWhatWasSaid(t *testing.T) {
	db, err := storage.Open(t.Context(), filepath.Join(t.TempDir(), "record.db"))
	require.NoError(t, err)
	t.Cleanup(func() { require.NoError(t, db.Close()) })
	cache := Kept{db}
	at, err := At(51.7534, -1.2612)
	require.NoError(t, err)
	noon := time.Date(2026, 6, 14, 12, 0, 0, 0, time.UTC)
	said := func(service string, fetched, first time.Time, hours int) Report {
		r := Report{Service: service, Place: at, FetchedAt: fetched, Since: first, Until: first.Add(time.Duration(hours) * time.Hour), Expires: fetched.Add(time.Hour)}
		for i := range hours {
			r.Hours = append(r.Hours, Hour{At: first.Add(time.Duration(i) * time.Hour), AirC: new(float64(i)), Observed: i == 0})
		}
		return r
	}
	first, second := said(OpenMeteo, noon, noon.Add(-24*time.Hour), 48), said(OpenMeteo, noon.Add(3*time.Hour), noon, 48)
	for _, r := range []Report{second, first, said(MetNorway, noon, noon, 3)} {
		require.NoError(t, cache.Append(t.Context(), r))
	}
	changed := first
	changed.Hours = nil
	require.NoError(t, cache.Append(t.Context(), changed), "the same again")

	latest, ok, err := cache.Latest(t.Context(), OpenMeteo, at)
	require.NoError(t, err)
	require.True(t, ok)
	assert.Equal(t, second, latest)
	_, ok, err = cache.Latest(t.Context(), NWS, at)
	require.NoError(t, err)
	assert.False(t, ok)

	known, err := cache.Reports(t.Context(), at, noon.Add(-20*time.Hour), noon.Add(-10*time.Hour), noon.Add(9*time.Hour))
	require.NoError(t, err)
	assert.Equal(t, []Report{first}, known)
	known, err = cache.Reports(t.Context(), at, noon, noon.Add(time.Hour), noon)
	require.NoError(t, err)
	assert.Len(t, known, 2, "the second was not known yet")
}
