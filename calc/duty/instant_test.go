package duty

import (
	"fmt"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// zones hold the oddities: gaps and repeats of an hour and of half an hour, at
// night and at midnight, a day left out, quarter-hour offsets. The years are
// those in which the oddity happened (IANA time zone database).
var zones = []struct {
	name string
	year int
}{
	{"America/New_York", 2026},
	{"Europe/Berlin", 2026},
	{"Asia/Beirut", 2026},
	{"Australia/Lord_Howe", 2026},
	{"America/Sao_Paulo", 2018},
	{"Pacific/Apia", 2011},
	{"Asia/Kathmandu", 2026},
	{"UTC", 2026},
}

func zone(t testing.TB, name string) *time.Location {
	t.Helper()
	z, err := time.LoadLocation(name)
	require.NoError(t, err)
	return z
}

// TestInstantByWalking holds Instant against a walk through the year in steps of
// a quarter of an hour: the first instant on which the clocks show the time, or
// the first after it on the same day.
func TestInstantByWalking(t *testing.T) {
	for _, z := range zones {
		t.Run(z.name, func(t *testing.T) {
			t.Parallel()
			loc := zone(t, z.name)
			for _, at := range []Clock{0, 30, 60, 90, 120, 150, 180, 18 * 60, 23*60 + 45} {
				want := map[Date]time.Time{}
				end := time.Date(z.year+1, 1, 3, 0, 0, 0, 0, time.UTC)
				for step := time.Date(z.year-1, 12, 29, 0, 0, 0, 0, time.UTC); step.Before(end); step = step.Add(15 * time.Minute) {
					local := step.In(loc)
					if _, met := want[On(local)]; !met && clockOf(local) >= at {
						want[On(local)] = step
					}
				}
				days := 0
				for day := (Date{z.year, 1, 1}); day.Year == z.year; day = day.Add(1) {
					got, ok := Instant(day, at, loc)
					expected, there := want[day]
					require.Equal(t, there, ok, "%s %s", day, at)
					if ok {
						days++
						require.True(t, expected.Equal(got), "%s %s: want %s, got %s", day, at, expected.In(loc), got)
					}
				}
				if z.name == "Pacific/Apia" {
					assert.Equal(t, 364, days, "30 December 2011 was left out")
				} else {
					assert.Equal(t, 365, days)
				}
			}
		})
	}
}

func TestInstantAtTheChanges(t *testing.T) {
	for _, tc := range []struct{ zone, day, at, want string }{
		// IANA time zone database; the first three were measured to be skipped or doubled by a cron of wall time.
		{"America/New_York", "2026-03-08", "02:30", "2026-03-08T03:00:00-04:00"},
		{"Europe/Berlin", "2026-10-25", "02:30", "2026-10-25T02:30:00+02:00"},
		{"Asia/Beirut", "2026-03-29", "00:00", "2026-03-29T01:00:00+03:00"},
		{"America/Sao_Paulo", "2018-11-04", "00:30", "2018-11-04T01:00:00-02:00"},
		{"Australia/Lord_Howe", "2026-10-04", "02:15", "2026-10-04T02:30:00+11:00"},
		{"Australia/Lord_Howe", "2026-04-05", "01:45", "2026-04-05T01:45:00+11:00"},
		{"Asia/Kathmandu", "2026-06-01", "18:00", "2026-06-01T18:00:00+05:45"},
	} {
		t.Run(tc.zone+" "+tc.day+" "+tc.at, func(t *testing.T) {
			day, err := ParseDate(tc.day)
			require.NoError(t, err)
			var h, m int
			_, err = fmt.Sscanf(tc.at, "%d:%d", &h, &m)
			require.NoError(t, err)
			got, ok := Instant(day, Clock(60*h+m), zone(t, tc.zone))
			require.True(t, ok)
			assert.Equal(t, tc.want, got.Format(time.RFC3339))
		})
	}
}

func TestDate(t *testing.T) {
	d := Date{2026, 12, 31}
	assert.Equal(t, Date{2027, 1, 1}, d.Add(1))
	assert.Equal(t, time.Thursday, d.Weekday())
	assert.Equal(t, 365, d.Since(Date{2025, 12, 31}))
	assert.True(t, d.Before(d.Add(1)))
	assert.Equal(t, "2026-12-31", d.String())
	var back Date
	require.NoError(t, back.UnmarshalText([]byte("2026-12-31")))
	assert.Equal(t, d, back)
	require.NoError(t, back.UnmarshalText(nil))
	assert.True(t, back.IsZero())
	assert.Error(t, back.UnmarshalText([]byte("tomorrow")))
}
