package measure

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"heapside/calc/fault"
)

func zone(t testing.TB, name string) *time.Location {
	t.Helper()
	loc, err := time.LoadLocation(name)
	require.NoError(t, err)
	return loc
}

const stamp = "Mon 2006-01-02 15:04"

func TestParseWhen(t *testing.T) {
	london := zone(t, "Europe/London")
	now := time.Date(2026, 11, 25, 14, 30, 0, 0, london) // a Wednesday
	tests := []struct{ text, want string }{
		{"now", "Wed 2026-11-25 14:30"},
		{"just now", "Wed 2026-11-25 14:30"},
		{"today", "Wed 2026-11-25 12:00"},
		{"yesterday", "Tue 2026-11-24 12:00"},
		{"Yesterday 18:00", "Tue 2026-11-24 18:00"},
		{"yesterday at 6 p.m.", "Tue 2026-11-24 18:00"},
		{"7pm yesterday", "Tue 2026-11-24 19:00"},
		{"yesterday evening", "Tue 2026-11-24 19:00"},
		{"the day before yesterday", "Mon 2026-11-23 12:00"},
		{"this morning", "Wed 2026-11-25 09:00"},
		{"this afternoon", "Wed 2026-11-25 14:30"},
		{"8 in the morning", "Wed 2026-11-25 08:00"},
		{"last night", "Tue 2026-11-24 21:00"},
		{"last night at 11pm", "Tue 2026-11-24 23:00"},
		{"last night at 1am", "Wed 2026-11-25 01:00"},
		{"2h ago", "Wed 2026-11-25 12:30"},
		{"2 hours ago", "Wed 2026-11-25 12:30"},
		{"2h30m ago", "Wed 2026-11-25 12:00"},
		{"half an hour ago", "Wed 2026-11-25 14:00"},
		{"an hour and a half ago", "Wed 2026-11-25 13:00"},
		{"3 days ago", "Sun 2026-11-22 12:00"},
		{"3 days ago at 18:00", "Sun 2026-11-22 18:00"},
		{"a couple of days ago", "Mon 2026-11-23 12:00"},
		{"2 weeks ago", "Wed 2026-11-11 12:00"},
		{"last week", "Wed 2026-11-18 12:00"},
		{"monday", "Mon 2026-11-23 12:00"},
		{"on monday morning", "Mon 2026-11-23 09:00"},
		{"monday, 10am", "Mon 2026-11-23 10:00"},
		{"last tuesday 7pm", "Tue 2026-11-24 19:00"},
		{"wednesday 9:00", "Wed 2026-11-25 09:00"},
		{"wednesday 18:00", "Wed 2026-11-18 18:00"},
		{"last wednesday", "Wed 2026-11-18 12:00"},
		{"thursday", "Thu 2026-11-19 12:00"},
		{"07:30", "Wed 2026-11-25 07:30"},
		{"7am", "Wed 2026-11-25 07:00"},
		{"12am", "Wed 2026-11-25 00:00"},
		{"12 pm", "Wed 2026-11-25 12:00"},
		{"noon", "Wed 2026-11-25 12:00"},
		{"8 o'clock", "Wed 2026-11-25 08:00"},
		{"14:33", "Wed 2026-11-25 14:33"},
		{"7.15 am", "Wed 2026-11-25 07:15"},
		{"yesterday 18.30", "Tue 2026-11-24 18:30"},
		{"1.25 hours ago", "Wed 2026-11-25 13:15"},
		{"2026-11-20", "Fri 2026-11-20 12:00"},
		{"2026-11-20 18:00", "Fri 2026-11-20 18:00"},
		{"2026-11-20T18:00", "Fri 2026-11-20 18:00"},
		{"2026-07-20T18:00:00Z", "Mon 2026-07-20 19:00"},
		{"2026-07-20t18:00:00+01:00", "Mon 2026-07-20 18:00"},
		{"20 Nov", "Fri 2026-11-20 12:00"},
		{"Nov 20", "Fri 2026-11-20 12:00"},
		{"nov 20 18:00", "Fri 2026-11-20 18:00"},
		{"20th of November 2025 7:15 pm", "Thu 2025-11-20 19:15"},
		{"Sept 3rd at 9am", "Thu 2026-09-03 09:00"},
		{"30 Nov", "Sun 2025-11-30 12:00"},
		{"29 feb", "Thu 2024-02-29 12:00"},
	}
	for _, tt := range tests {
		t.Run(tt.text, func(t *testing.T) {
			got, err := ParseWhen(tt.text, now, london)
			require.NoError(t, err)
			assert.Equal(t, tt.want, got.Format(stamp))
		})
	}
}

func TestParseWhenRefuses(t *testing.T) {
	now := time.Date(2026, 11, 25, 14, 30, 0, 0, time.UTC)
	tests := []struct {
		text string
		code fault.Code
	}{
		{"18:30", fault.OutOfRange}, {"14:36", fault.OutOfRange}, {"tonight", fault.OutOfRange}, {"this evening", fault.OutOfRange}, {"tomorrow", fault.OutOfRange},
		{"2026-11-26", fault.OutOfRange}, {"2099-01-01", fault.OutOfRange}, {"1 jan 2020", fault.OutOfRange}, {"2023-11-24", fault.OutOfRange}, {"4 years ago", fault.OutOfRange},
		{"", fault.NotUnderstood}, {"soon", fault.NotUnderstood}, {"5", fault.NotUnderstood}, {"31 nov", fault.NotUnderstood}, {"2026-13-01", fault.NotUnderstood},
		{"20/11", fault.NotUnderstood}, {"20.11.2026", fault.NotUnderstood}, {"25:00", fault.NotUnderstood}, {"7:75", fault.NotUnderstood}, {"13pm", fault.NotUnderstood}, {"0pm", fault.NotUnderstood},
		{"99999999999 days ago", fault.NotUnderstood}, {"-2 hours ago", fault.NotUnderstood}, {"NaN hours ago", fault.NotUnderstood}, {"ago", fault.NotUnderstood},
		{"yesterday banana", fault.NotUnderstood}, {"2 buckets ago", fault.NotUnderstood},
	}
	for _, tt := range tests {
		t.Run(tt.text, func(t *testing.T) {
			_, err := ParseWhen(tt.text, now, nil)
			f, ok := fault.As(err)
			require.True(t, ok, "%v", err)
			assert.Equal(t, tt.code, f.Code, f.Message)
			assert.Contains(t, f.Message, quote(tt.text).String())
		})
	}
}

func TestAClockThatIsPutForwardOrBack(t *testing.T) {
	tests := []struct {
		name, zone, text string
		now, want        time.Time // UTC; the changes are those of the IANA time zone database
	}{
		{"skipped hour in London", "Europe/London", "yesterday 01:30",
			time.Date(2026, 3, 30, 12, 0, 0, 0, time.UTC), time.Date(2026, 3, 29, 1, 0, 0, 0, time.UTC)},
		{"repeated hour in London", "Europe/London", "yesterday 01:30",
			time.Date(2026, 10, 26, 12, 0, 0, 0, time.UTC), time.Date(2026, 10, 25, 0, 30, 0, 0, time.UTC)},
		{"skipped hour in New York", "America/New_York", "yesterday 02:30",
			time.Date(2026, 3, 9, 12, 0, 0, 0, time.UTC), time.Date(2026, 3, 8, 7, 0, 0, 0, time.UTC)},
		{"repeated hour in New York", "America/New_York", "yesterday 01:30",
			time.Date(2026, 11, 2, 18, 0, 0, 0, time.UTC), time.Date(2026, 11, 1, 5, 30, 0, 0, time.UTC)},
		{"skipped midnight in Sao Paulo", "America/Sao_Paulo", "2018-11-04 00:00",
			time.Date(2018, 11, 5, 12, 0, 0, 0, time.UTC), time.Date(2018, 11, 4, 3, 0, 0, 0, time.UTC)},
		{"hours ago across the change", "Europe/London", "6 hours ago",
			time.Date(2026, 10, 25, 6, 0, 0, 0, time.UTC), time.Date(2026, 10, 25, 0, 0, 0, 0, time.UTC)},
		{"a day ago across the change is the same clock", "Europe/London", "yesterday 18:00",
			time.Date(2026, 10, 25, 20, 0, 0, 0, time.UTC), time.Date(2026, 10, 24, 17, 0, 0, 0, time.UTC)},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			got, err := ParseWhen(tt.text, tt.now, zone(t, tt.zone))
			require.NoError(t, err)
			assert.Equal(t, tt.want.Format(time.RFC3339), got.UTC().Format(time.RFC3339))
		})
	}
}

func TestVagueTimesBeforeTheyCome(t *testing.T) {
	early := time.Date(2026, 11, 25, 8, 0, 0, 0, time.UTC)
	got, err := ParseWhen("today", early, time.UTC)
	require.NoError(t, err)
	assert.Equal(t, early, got, "noon is yet to come, so it was now")
	got, err = ParseWhen("this morning", early, time.UTC)
	require.NoError(t, err)
	assert.Equal(t, early, got)
}

func TestSayDays(t *testing.T) {
	for d, want := range map[time.Duration]string{
		0: "0 days", 23 * time.Hour: "0 days", 24 * time.Hour: "1 day", 47 * time.Hour: "1 day", 60 * time.Hour: "2 days",
		45 * 24 * time.Hour: "45 days",
	} {
		assert.Equal(t, want, SayDays(d), "%v", d)
	}
}

func TestSayAgo(t *testing.T) {
	tests := map[time.Duration]string{
		-time.Hour: "just now", 0: "just now", time.Minute: "just now", 5 * time.Minute: "5 minutes ago", time.Hour: "1 hour ago", 2*time.Hour + 59*time.Minute: "2 hours ago",
		day: "1 day ago", 3 * day: "3 days ago", 13 * day: "13 days ago", 21 * day: "3 weeks ago", 90 * day: "3 months ago", 800 * day: "2 years ago",
	}
	for d, want := range tests {
		assert.Equal(t, want, SayAgo(d), "%v", d)
	}
}
