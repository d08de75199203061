package weather

import (
	"testing"
	"time"

	"github.com/stretchr/testify/require"
)

// lawful is what holds of every report whatever the answer was.
func lawful(t *testing.T, r Report, since, until time.Time) {
	t.Helper()
	for i, h := range r.Hours {
		require.False(t, h.At.Before(since) || !h.At.Before(until), "hour %s is outside", h.At)
		require.True(t, h.At.Equal(h.At.Truncate(time.Hour)))
		require.True(t, i == 0 || r.Hours[i-1].At.Before(h.At), "hours are in order")
		for k, field := range h.fields() {
			b := [5]bound{airBounds, {0, 1}, rainBounds, et0Bounds, windBounds}[k]
			require.True(t, *field == nil || (**field >= b.low && **field <= b.high), "field %d", k)
		}
	}
}
