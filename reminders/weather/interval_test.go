package weather

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestParseInterval(t *testing.T) {
	for _, row := range []struct {
		name, said string
		length     time.Duration // 0 where it is refused
	}{
		{"hours", "2019-07-04T18:00:00+00:00/PT3H", 3 * time.Hour},
		{"days and hours", "2019-07-04T18:00:00+00:00/P7DT13H", 181 * time.Hour},
		{"a day", "2019-07-04T18:00:00+00:00/P1D", day},
		{"a week", "2019-07-04T18:00:00+00:00/P1W", 7 * day},
		{"minutes", "2019-07-04T18:00:00+00:00/PT90M", 90 * time.Minute},
		{"nothing", "2019-07-04T18:00:00+00:00/P", 0},
		{"an empty time part", "2019-07-04T18:00:00+00:00/PT", 0},
		{"zero", "2019-07-04T18:00:00+00:00/PT0H", 0},
		{"months have no length", "2019-07-04T18:00:00+00:00/P1M", 0},
		{"backwards", "2019-07-04T18:00:00+00:00/-PT1H", 0},
		{"too long", "2019-07-04T18:00:00+00:00/P99W", 0},
		{"two moments", "2019-07-04T18:00:00+00:00/2019-07-04T19:00:00+00:00", 0},
		{"no slash", "2019-07-04T18:00:00+00:00", 0},
		{"no zone", "2019-07-04T18:00:00/PT3H", 0},
		{"year one", "0001-01-01T00:00:00Z/PT3H", 0},
		{"empty", "", 0},
	} {
		t.Run(row.name, func(t *testing.T) {
			v, err := parseInterval(row.said)
			if row.length == 0 {
				require.ErrorIs(t, err, errInterval)
				return
			}
			require.NoError(t, err)
			assert.Equal(t, row.length, v.to.Sub(v.from))
		})
	}
}
