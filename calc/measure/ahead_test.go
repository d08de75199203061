package measure

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"heapside/calc/fault"
)

const dayStamp = "Mon 2006-01-02"

func TestParseDay(t *testing.T) {
	now := time.Date(2026, 7, 22, 23, 30, 0, 0, time.UTC) // Thursday the 23rd in London
	for text, want := range map[string]string{
		"today": "Thu 2026-07-23", "tomorrow": "Fri 2026-07-24", "the day after tomorrow": "Sat 2026-07-25",
		"monday": "Mon 2026-07-27", "until monday": "Mon 2026-07-27", "next thursday": "Thu 2026-07-30", "thursday": "Thu 2026-07-30", "saturday week": "Sat 2026-08-01",
		"20 Aug": "Thu 2026-08-20", "August 20th": "Thu 2026-08-20", "until 20 July": "Tue 2027-07-20", "23 july": "Thu 2026-07-23", "2026-08-01": "Sat 2026-08-01",
		"the 17th": "Mon 2026-08-17", "until the 30th": "Thu 2026-07-30", "on the 31st": "Fri 2026-07-31",
		"in 2 weeks": "Thu 2026-08-06", "for two weeks": "Thu 2026-08-06", "a week": "Thu 2026-07-30", "10 days": "Sun 2026-08-02", "a fortnight": "Thu 2026-08-06", "in a month": "Sun 2026-08-23", "3 weeks from now": "Thu 2026-08-13",
		"next week": "Mon 2026-07-27", "the weekend": "Sat 2026-07-25", "next month": "Sat 2026-08-01", "september": "Tue 2026-09-01", "until march": "Mon 2027-03-01",
		"end of august": "Mon 2026-08-31", "the end of the month": "Fri 2026-07-31", "end of next month": "Mon 2026-08-31", "the end of the week": "Sun 2026-07-26", "end of the year": "Thu 2026-12-31",
	} {
		t.Run(text, func(t *testing.T) {
			got, err := ParseDay(text, now, zone(t, "Europe/London"))
			require.NoError(t, err)
			assert.Equal(t, want, got.Format(dayStamp))
			assert.Equal(t, time.UTC, got.Location())
		})
	}
	for text, code := range map[string]fault.Code{
		"": fault.NotUnderstood, "soon": fault.NotUnderstood, "17": fault.NotUnderstood, "20/8": fault.NotUnderstood, "31 nov": fault.NotUnderstood, "in 2 hours": fault.NotUnderstood,
		"yesterday": fault.NotUnderstood, "the 32nd": fault.NotUnderstood, "in 99999999 days": fault.NotUnderstood, "monday monday": fault.NotUnderstood, "for 0 days": fault.NotUnderstood,
		"2026-07-22": fault.OutOfRange, "2031-01-01": fault.OutOfRange, "in 3 years": fault.OutOfRange, "29 feb": fault.OutOfRange,
	} {
		t.Run(text, func(t *testing.T) {
			_, err := ParseDay(text, now, zone(t, "Europe/London"))
			mustBe(t, code, err)
		})
	}
}

func TestParseDays(t *testing.T) {
	now := time.Date(2026, 7, 23, 12, 0, 0, 0, time.UTC) // a Thursday
	for text, want := range map[string][2]string{
		"3 to 17 August":               {"Mon 2026-08-03", "Mon 2026-08-17"},
		"from 3 to 17 August":          {"Mon 2026-08-03", "Mon 2026-08-17"},
		"3-17 aug":                     {"Mon 2026-08-03", "Mon 2026-08-17"},
		"the 3rd to the 17th of Aug":   {"Mon 2026-08-03", "Mon 2026-08-17"},
		"Aug 3-17":                     {"Mon 2026-08-03", "Mon 2026-08-17"},
		"3 Aug – 17 Aug":               {"Mon 2026-08-03", "Mon 2026-08-17"},
		"28 to 3 August":               {"Tue 2026-07-28", "Mon 2026-08-03"},
		"2026-08-03 to 2026-08-17":     {"Mon 2026-08-03", "Mon 2026-08-17"},
		"20 dec to 5 jan":              {"Sun 2026-12-20", "Tue 2027-01-05"},
		"20 july to 1 aug":             {"Mon 2026-07-20", "Sat 2026-08-01"},
		"15 to 30 july":                {"Wed 2026-07-15", "Thu 2026-07-30"},
		"until friday":                 {"Thu 2026-07-23", "Fri 2026-07-24"},
		"until 3 August":               {"Thu 2026-07-23", "Mon 2026-08-03"},
		"from monday to friday":        {"Mon 2026-07-27", "Fri 2026-07-31"},
		"saturday to wednesday":        {"Sat 2026-07-25", "Wed 2026-07-29"},
		"from monday for 2 weeks":      {"Mon 2026-07-27", "Sun 2026-08-09"},
		"from 3 august for a week":     {"Mon 2026-08-03", "Sun 2026-08-09"},
		"for a week":                   {"Thu 2026-07-23", "Wed 2026-07-29"},
		"tomorrow":                     {"Fri 2026-07-24", "Fri 2026-07-24"},
		"sunday":                       {"Sun 2026-07-26", "Sun 2026-07-26"},
		"next week":                    {"Mon 2026-07-27", "Sun 2026-08-02"},
		"this week":                    {"Thu 2026-07-23", "Sun 2026-07-26"},
		"at the weekend":               {"Sat 2026-07-25", "Sun 2026-07-26"},
		"august":                       {"Sat 2026-08-01", "Mon 2026-08-31"},
		"all of august":                {"Sat 2026-08-01", "Mon 2026-08-31"},
		"july":                         {"Wed 2026-07-01", "Fri 2026-07-31"},
		"between 3 and 17 August":      {"Mon 2026-08-03", "Mon 2026-08-17"},
		"until the end of august":      {"Thu 2026-07-23", "Mon 2026-08-31"},
		"from tomorrow":                {"Fri 2026-07-24", ""},
		"from monday":                  {"Mon 2026-07-27", ""},
		"from 3 august until the 17th": {"Mon 2026-08-03", "Mon 2026-08-17"},
	} {
		t.Run(text, func(t *testing.T) {
			from, to, err := ParseDays(text, now, nil)
			require.NoError(t, err)
			assert.Equal(t, want[0], from.Format(dayStamp))
			if want[1] == "" {
				assert.True(t, to.IsZero(), "%v", to)
				return
			}
			assert.Equal(t, want[1], to.Format(dayStamp))
		})
	}
	for text, code := range map[string]fault.Code{
		"": fault.NotUnderstood, "a while": fault.NotUnderstood, "3 to 17": fault.NotUnderstood, "from": fault.NotUnderstood, "0 to 3 august": fault.NotUnderstood, "3 to 32 august": fault.NotUnderstood,
		"17 aug to 3 aug": fault.OutOfRange, "2026-06-01 to 2026-06-14": fault.OutOfRange, "until 2030-01-01": fault.OutOfRange,
	} {
		t.Run(text, func(t *testing.T) {
			_, _, err := ParseDays(text, now, nil)
			mustBe(t, code, err)
		})
	}
}

func TestTheWeekendOnItsOwnDays(t *testing.T) {
	for now, want := range map[string][2]string{
		"2026-07-25T12:00:00Z": {"Sat 2026-07-25", "Sun 2026-07-26"},
		"2026-07-26T12:00:00Z": {"Sun 2026-07-26", "Sun 2026-07-26"},
		"2026-07-27T12:00:00Z": {"Sat 2026-08-01", "Sun 2026-08-02"},
	} {
		at, err := time.Parse(time.RFC3339, now)
		require.NoError(t, err)
		from, to, err := ParseDays("this weekend", at, nil)
		require.NoError(t, err)
		assert.Equal(t, want, [2]string{from.Format(dayStamp), to.Format(dayStamp)})
	}
}

func FuzzDays(f *testing.F) {
	for _, s := range []string{"3 to 17 August", "from monday for 2 weeks", "until friday", "next week", "tomorrow", "the 31st", "29 feb", "20 dec to 5 jan", "in 99 months", "end of the end of march",
		"0 to 0 may", "2026-02-30", "saturday week to monday week", "for 36500 years", "the", "from from", "28 to 3 march"} {
		f.Add(s)
	}
	loc := zone(f, "Pacific/Apia")
	now := time.Date(2028, 2, 29, 10, 30, 0, 0, time.UTC)
	today := time.Date(2028, 2, 29, 0, 0, 0, 0, time.UTC)
	f.Fuzz(func(t *testing.T, text string) {
		day, err := ParseDay(text, now, loc)
		if err != nil {
			mustBeForPeople(t, err)
		} else if day.Before(today) || day.After(today.AddDate(0, 0, farAhead)) {
			t.Fatalf("%q is %v", text, day)
		}
		from, to, err := ParseDays(text, now, loc)
		if err != nil {
			mustBeForPeople(t, err)
		} else if !to.IsZero() && (to.Before(from) || to.Before(today)) || from.After(today.AddDate(0, 0, farAhead)) {
			t.Fatalf("%q is %v to %v", text, from, to)
		}
	})
}
