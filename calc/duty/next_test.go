package duty

import (
	"math/rand/v2"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"heapside/calc/fault"
)

func at(t testing.TB, text string) time.Time {
	t.Helper()
	when, err := time.Parse(time.RFC3339, text)
	require.NoError(t, err)
	return when
}

func TestNext(t *testing.T) {
	daily := Plan{On: true, At: 18 * 60}
	saturdays := Plan{On: true, At: 18 * 60, Days: Week(time.Saturday)}
	for _, tc := range []struct {
		name  string
		plan  Plan
		after string
		extra []Date
		want  string // empty: none
	}{
		{"off", Plan{At: 18 * 60}, "2026-11-26T12:00:00Z", nil, ""},
		{"later today", daily, "2026-11-26T12:00:00Z", nil, "2026-11-26T18:00:00Z"},
		{"at the very moment the next day", daily, "2026-11-26T18:00:00Z", nil, "2026-11-27T18:00:00Z"},
		{"the next Saturday", saturdays, "2026-11-26T12:00:00Z", nil, "2026-11-28T18:00:00Z"},
		{"put off to a day that is not chosen", saturdays, "2026-11-26T19:00:00Z", []Date{{2026, 11, 27}}, "2026-11-27T18:00:00Z"},
		{"paused", Plan{On: true, At: 18 * 60, Paused: Date{2026, 12, 24}}, "2026-11-26T12:00:00Z", nil, "2026-12-24T18:00:00Z"},
		{"paused wins over what was put off", Plan{On: true, At: 18 * 60, Paused: Date{2026, 12, 24}}, "2026-11-26T12:00:00Z", []Date{{2026, 11, 27}}, "2026-12-24T18:00:00Z"},
		{"a pause that is over", Plan{On: true, At: 18 * 60, Paused: Date{2026, 11, 2}}, "2026-11-26T12:00:00Z", nil, "2026-11-26T18:00:00Z"},
	} {
		t.Run(tc.name, func(t *testing.T) {
			got, ok := tc.plan.Next(at(t, tc.after), time.UTC, tc.extra...)
			require.Equal(t, tc.want != "", ok)
			if ok {
				assert.Equal(t, at(t, tc.want), got.At)
				assert.Equal(t, On(got.At), got.Day)
			}
		})
	}
}

// TestNextMissesNoDay follows a plan through the year of each odd zone: every
// day that exists comes once, in order, never in quiet hours.
func TestNextMissesNoDay(t *testing.T) {
	for _, z := range zones {
		t.Run(z.name, func(t *testing.T) {
			t.Parallel()
			loc := zone(t, z.name)
			draw := rand.New(rand.NewPCG(1, 2))
			for range 20 {
				p := Plan{On: true, At: Clock(draw.IntN(24 * 60)), Quiet: Quiet{Clock(draw.IntN(24 * 60)), Clock(draw.IntN(24 * 60))}}
				if p.Check() != nil {
					continue
				}
				now := time.Date(z.year, 1, 1, 0, 0, 0, 0, loc)
				var last Date
				for now.Year() == z.year {
					o, ok := p.Next(now, loc)
					require.True(t, ok)
					require.True(t, o.At.After(now))
					if !last.IsZero() && last != (Date{2011, 12, 29}) {
						require.Equal(t, last.Add(1), o.Day)
					}
					require.False(t, p.Quiet.Holds(clockOf(o.At.In(loc))), "%s lies in %v", o.At.In(loc), p.Quiet)
					last, now = o.Day, o.At
				}
			}
		})
	}
}

func TestSpeakable(t *testing.T) {
	night := Plan{Quiet: Quiet{21 * 60, 8 * 60}}
	noon := Plan{Quiet: Quiet{12 * 60, 14 * 60}}
	for _, tc := range []struct {
		plan       Plan
		from, want string
	}{
		{night, "2026-11-26T18:00:00Z", "2026-11-26T18:00:00Z"},
		{night, "2026-11-26T21:00:00Z", "2026-11-27T08:00:00Z"},
		{night, "2026-11-27T03:00:00Z", "2026-11-27T08:00:00Z"},
		{night, "2026-11-27T08:00:00Z", "2026-11-27T08:00:00Z"},
		{noon, "2026-11-27T12:30:00Z", "2026-11-27T14:00:00Z"},
		{Plan{}, "2026-11-27T03:00:00Z", "2026-11-27T03:00:00Z"},
	} {
		assert.Equal(t, at(t, tc.want), tc.plan.Speakable(at(t, tc.from), time.UTC).UTC(), tc.from)
	}
}

func TestPlanIsChecked(t *testing.T) {
	assert.NoError(t, Usual().Check())
	err := Plan{On: true, At: 22 * 60, Quiet: Quiet{21 * 60, 8 * 60}}.Check()
	f, ok := fault.As(err)
	require.True(t, ok)
	assert.Contains(t, f.Message, "22:00 lies in the quiet hours, 21:00 to 08:00")
	assert.Error(t, Plan{Rota: Rota{Members: make([]Member, MaxMembers+1)}}.Check())
}
