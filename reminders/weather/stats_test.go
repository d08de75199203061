package weather

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestStats(t *testing.T) {
	w := newWorld(t, func(c *Config) { c.NWS.Off = true })
	w.Weather(t.Context(), about(ghent, day, day))
	w.Weather(t.Context(), about(ghent, day, day)) // from what is kept
	w.advance(time.Hour)
	w.reply[OpenMeteo] = fail(429, "", "")
	w.Weather(t.Context(), about(portland, day, day))
	w.Weather(t.Context(), about(portland, day, day)) // the service is left alone meanwhile
	got := w.Stats()
	require.Len(t, got, 2, "of the services in use")
	for i, want := range []struct {
		service            string
		fetched, throttled int
		newest             time.Time
	}{
		{OpenMeteo, 1, 1, noon},
		{MetNorway, 1, 0, noon.Add(time.Hour)},
	} {
		assert.Equal(t, want.service, got[i].Service)
		assert.Equal(t, want.fetched, got[i].Fetched)
		assert.Equal(t, want.throttled, got[i].Failed[Throttled])
		assert.Len(t, got[i].Failed, len(saidAs))
		assert.True(t, want.newest.Equal(got[i].Newest), got[i].Newest)
	}
	got[0].Failed[Throttled] = 99
	assert.Equal(t, 1, w.Stats()[0].Failed[Throttled], "it is a copy")
}
