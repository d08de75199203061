package chart

import (
	"math/rand/v2"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// labels formats ticks with what is needed to see that each is right.
func labels(t []tick) []string {
	var out []string
	for _, tick := range t {
		out = append(out, tick.label+" @"+tick.at.Format("02T15:04Z07:00"))
	}
	return out
}

// The expected days are those of the calendar; the changes of the clock are
// those of the IANA time zone database.
func TestTicksLieAtLocalMidnights(t *testing.T) {
	tests := []struct {
		name, zone, from, to string
		want                 []string
	}{
		{"a week over the end of summer time", "Europe/London", "2026-10-22T09:00:00Z", "2026-10-28T09:00:00Z",
			[]string{"23 Oct @23T00:00+01:00", "24 Oct @24T00:00+01:00", "25 Oct @25T00:00+01:00",
				"26 Oct @26T00:00Z", "27 Oct @27T00:00Z", "28 Oct @28T00:00Z"}},
		{"a day that starts at one o'clock", "America/Sao_Paulo", "2018-11-02T12:00:00Z", "2018-11-06T13:00:00Z",
			[]string{"3 Nov @03T00:00-03:00", "4 Nov @04T01:00-02:00", "5 Nov @05T00:00-02:00", "6 Nov @06T00:00-02:00"}},
		{"another one", "Asia/Beirut", "2026-03-27T12:00:00Z", "2026-03-31T13:00:00Z",
			[]string{"28 Mar @28T00:00+02:00", "29 Mar @29T01:00+03:00", "30 Mar @30T00:00+03:00", "31 Mar @31T00:00+03:00"}},
		{"an island that left a day out", "Pacific/Apia", "2011-12-28T12:00:00Z", "2012-01-01T20:00:00Z",
			[]string{"29 Dec @29T00:00-10:00", "31 Dec @31T00:00+14:00", "1 Jan @01T00:00+14:00", "2 Jan @02T00:00+14:00"}},
		{"half an hour of summer time", "Australia/Lord_Howe", "2026-10-02T00:00:00Z", "2026-10-06T00:00:00Z",
			[]string{"3 Oct @03T00:00+10:30", "4 Oct @04T00:00+10:30", "5 Oct @05T00:00+11:00", "6 Oct @06T00:00+11:00"}},
		{"weeks start on Mondays", "Europe/London", "2026-10-10T00:00:00Z", "2026-12-05T00:00:00Z",
			[]string{"12 Oct @12T00:00+01:00", "19 Oct @19T00:00+01:00", "26 Oct @26T00:00Z", "2 Nov @02T00:00Z",
				"9 Nov @09T00:00Z", "16 Nov @16T00:00Z", "23 Nov @23T00:00Z", "30 Nov @30T00:00Z"}},
		{"three years", "Asia/Kathmandu", "2023-11-21T00:00:00Z", "2026-11-21T00:00:00Z",
			[]string{"Jan 2024 @01T00:00+05:45", "Jul 2024 @01T00:00+05:45", "Jan 2025 @01T00:00+05:45",
				"Jul 2025 @01T00:00+05:45", "Jan 2026 @01T00:00+05:45", "Jul 2026 @01T00:00+05:45"}},
		{"two days of which one starts at one o'clock", "Asia/Beirut", "2026-03-28T08:00:00Z", "2026-03-30T08:00:00Z",
			[]string{"12:00 @28T12:00+02:00", "18:00 @28T18:00+02:00", "29 Mar @29T01:00+03:00", "06:00 @29T06:00+03:00",
				"12:00 @29T12:00+03:00", "18:00 @29T18:00+03:00", "30 Mar @30T00:00+03:00", "06:00 @30T06:00+03:00"}},
		{"a day", "Europe/London", "2026-11-20T09:00:00Z", "2026-11-21T08:59:00Z",
			[]string{"09:00 @20T09:00Z", "12:00 @20T12:00Z", "15:00 @20T15:00Z", "18:00 @20T18:00Z", "21:00 @20T21:00Z",
				"21 Nov @21T00:00Z", "03:00 @21T03:00Z", "06:00 @21T06:00Z"}},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			from, err := time.Parse(time.RFC3339, tt.from)
			require.NoError(t, err)
			to, err := time.Parse(time.RFC3339, tt.to)
			require.NoError(t, err)
			assert.Equal(t, tt.want, labels(ticks(from, to, zone(t, tt.zone), maxTicks)))
		})
	}
}

func TestTicksOfAnyWindow(t *testing.T) {
	var zones []*time.Location
	for _, name := range []string{"UTC", "Europe/London", "America/New_York", "Asia/Beirut", "America/Sao_Paulo",
		"Australia/Lord_Howe", "Pacific/Apia", "Asia/Kathmandu", "Africa/Cairo", "America/Havana"} {
		zones = append(zones, zone(t, name))
	}
	rnd := rand.New(rand.NewPCG(3, 7))
	for range 5000 {
		z := zones[rnd.IntN(len(zones))]
		from := time.Date(2005+rnd.IntN(25), 1, rnd.IntN(366), rnd.IntN(24), rnd.IntN(60), 0, 0, z)
		days := 1 + rnd.ExpFloat64()*60
		to := from.Add(time.Duration(days * 24 * float64(time.Hour)))
		got := ticks(from, to, z, maxTicks)
		require.LessOrEqual(t, len(got), maxTicks, "%s for %.1f days", from, days)
		require.GreaterOrEqual(t, len(got), 4, "%s for %.1f days", from, days)
		for i, tick := range got {
			require.False(t, tick.at.Before(from) || tick.at.After(to), "%s is in the window", tick.at)
			require.True(t, i == 0 || tick.at.After(got[i-1].at), "%s comes after the one before", tick.at)
			if days > 4 {
				before := tick.at.Add(-time.Second)
				require.NotEqual(t, before.Day(), tick.at.Day(), "%s is the first second of its day", tick.at)
			}
		}
	}
}
