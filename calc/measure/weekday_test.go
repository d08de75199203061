package measure

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"heapside/calc/fault"
)

func TestParseClock(t *testing.T) {
	for text, want := range map[string]int{
		"18:00": 18 * 60, "18": 18 * 60, "18h": 18 * 60, "18h30": 18*60 + 30, "1800": 18 * 60, "0630": 6*60 + 30, "06": 6 * 60, "6:30": 6*60 + 30, "18.30": 18*60 + 30,
		"6 pm": 18 * 60, "6pm": 18 * 60, "6 p.m.": 18 * 60, "6:15 am": 6*60 + 15, "12 am": 0, "12pm": 12 * 60, "noon": 12 * 60, "midnight": 0, "24:00": 0, "00:00": 0,
		"half past six": 18*60 + 30, "half six": 18*60 + 30, "half past 9": 9*60 + 30, "half past six in the morning": 6*60 + 30, "quarter to 7 pm": 18*60 + 45, "a quarter past five": 17*60 + 15,
		"ten past six": 18*60 + 10, "twenty minutes to eight": 7*60 + 40, "half past twelve": 12*60 + 30, "quarter to 12 am": 23*60 + 45,
		"6": 18 * 60, "at 7": 19 * 60, "8": 8 * 60, "six o'clock": 18 * 60, "6 o'clock in the evening": 18 * 60, "11": 11 * 60, "12": 12 * 60, "9 at night": 21 * 60,
		"in the evening": 19 * 60, "morning": 9 * 60,
	} {
		t.Run(text, func(t *testing.T) {
			got, err := ParseClock(text)
			require.NoError(t, err)
			assert.Equal(t, want, got, "%02d:%02d", got/60, got%60)
		})
	}
	for _, text := range []string{"", "soon", "25", "25:00", "7:75", "13pm", "0pm", "half", "half past", "half past 18:20", "ten to", "6 7", "-6", "six thousand", "1e3", "18:00 18:00", "9999", "monday"} {
		t.Run(text, func(t *testing.T) {
			_, err := ParseClock(text)
			mustBe(t, fault.NotUnderstood, err)
		})
	}
}

func TestParseHours(t *testing.T) {
	for text, want := range map[string][2]int{
		"21:00-8:00":                           {21 * 60, 8 * 60},
		"21:00 – 08:00":                        {21 * 60, 8 * 60},
		"from 9 pm to 8 am":                    {21 * 60, 8 * 60},
		"between 9pm and half past seven":      {21 * 60, 7*60 + 30},
		"9 to 8":                               {21 * 60, 8 * 60},
		"10-7":                                 {22 * 60, 7 * 60},
		"after 9 in the evening until 8":       {21 * 60, 8 * 60},
		"midnight to 6am":                      {0, 6 * 60},
		"12 to 14":                             {0, 14 * 60},
		"2100-0800":                            {21 * 60, 8 * 60},
		"10 pm until 8 o'clock in the morning": {22 * 60, 8 * 60},
	} {
		t.Run(text, func(t *testing.T) {
			from, to, err := ParseHours(text)
			require.NoError(t, err)
			assert.Equal(t, want, [2]int{from, to})
		})
	}
	for _, text := range []string{"", "9", "9 pm", "9 pm to", "9 pm to 9 pm", "21:00-25:00", "night", "all day", "9 to 8 to 7"} {
		t.Run(text, func(t *testing.T) {
			_, _, err := ParseHours(text)
			mustBe(t, fault.NotUnderstood, err)
		})
	}
}

func mustBe(t *testing.T, code fault.Code, err error) {
	t.Helper()
	f, ok := fault.As(err)
	require.True(t, ok, "%v", err)
	assert.Equal(t, code, f.Code, f.Message)
}

func TestParseWeekly(t *testing.T) {
	const mon, tue, wed, thu, fri, sat, sun = time.Monday, time.Tuesday, time.Wednesday, time.Thursday, time.Friday, time.Saturday, time.Sunday
	days := func(d ...time.Weekday) []time.Weekday { return d }
	for text, want := range map[string]Weekly{
		"daily 18:00":                      {week, 18 * 60},
		"every day at 6":                   {week, 18 * 60},
		"every evening":                    {week, 19 * 60},
		"every evening at 8":               {week, 20 * 60},
		"at 7 every morning":               {week, 7 * 60},
		"sat":                              {days(sat), -1},
		"Saturdays at half past six":       {days(sat), 18*60 + 30},
		"on saturday at 6pm":               {days(sat), 18 * 60},
		"18:00":                            {nil, 18 * 60},
		"mon wed fri":                      {days(mon, wed, fri), -1},
		"fri, mon and wed 07:30":           {days(mon, wed, fri), 7*60 + 30},
		"mon-fri 17:00":                    {days(mon, tue, wed, thu, fri), 17 * 60},
		"fri to mon":                       {days(mon, fri, sat, sun), -1},
		"weekdays at noon":                 {days(mon, tue, wed, thu, fri), 12 * 60},
		"at the weekend 10 am":             {days(sat, sun), 10 * 60},
		"weekends":                         {days(sat, sun), -1},
		"daily except sundays 18:00":       {days(mon, tue, wed, thu, fri, sat), 18 * 60},
		"not on sundays":                   {days(mon, tue, wed, thu, fri, sat), -1},
		"tues & thurs":                     {days(tue, thu), -1},
		"wendesday and saterday 6 o'clock": {days(wed, sat), 18 * 60},
		"every other sunday":               {},
		"twice a week":                     {},
		"in 3 days":                        {},
		"sat 6 sun 7":                      {},
		"daily except daily":               {},
		"whenever":                         {},
		"":                                 {},
		"on":                               {},
		"every":                            {week, -1},
	} {
		t.Run(text, func(t *testing.T) {
			got, err := ParseWeekly(text)
			if want.Days == nil && want.Minute == 0 {
				mustBe(t, fault.NotUnderstood, err)
				return
			}
			require.NoError(t, err)
			assert.Equal(t, want, got)
		})
	}
}

func TestParseWeekday(t *testing.T) {
	for _, text := range []string{"sunday", "Sundays", "on sun"} {
		day, err := ParseWeekday(text)
		require.NoError(t, err)
		assert.Equal(t, time.Sunday, day)
	}
	for _, text := range []string{"", "daily", "sat sun", "sunday 18:00", "someday"} {
		_, err := ParseWeekday(text)
		mustBe(t, fault.NotUnderstood, err)
	}
}

func FuzzWeekly(f *testing.F) {
	for _, s := range []string{"daily 18:00", "sat", "mon wed fri at 7", "weekdays at half past six", "every evening at 8", "daily except sundays", "fri-mon", "quarter to 7 pm",
		"21:00-8:00", "9 to 8", "from 9 pm to 8 am", "1800", "half", "ten to", "6 to 7 to 8", "24:00 mon", "٦ مساء", "999999999999999999", "sat\u202e 18:00", "½ past 6"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, text string) {
		if minute, err := ParseClock(text); err != nil {
			mustBeForPeople(t, err)
		} else if minute < 0 || minute >= wholeDay {
			t.Fatalf("%q is minute %d", text, minute)
		}
		if from, to, err := ParseHours(text); err != nil {
			mustBeForPeople(t, err)
		} else if from < 0 || from >= wholeDay || to < 0 || to >= wholeDay || from == to {
			t.Fatalf("%q is %d to %d", text, from, to)
		}
		w, err := ParseWeekly(text)
		if err != nil {
			mustBeForPeople(t, err)
		} else if w.Minute < -1 || w.Minute >= wholeDay || len(w.Days) > 7 || w.Minute < 0 && len(w.Days) == 0 {
			t.Fatalf("%q is %v", text, w)
		}
	})
}
