package duty

import (
	"fmt"
	"time"
)

// Date is a day of the calendar, without a zone. The zero Date is no day.
type Date struct {
	Year  int
	Month time.Month
	Day   int
}

// On is the day of t in t's own zone.
func On(t time.Time) Date {
	y, m, d := t.Date()
	return Date{y, m, d}
}

// ParseDate reads what String writes; an empty text is the zero Date.
func ParseDate(text string) (Date, error) {
	if text == "" {
		return Date{}, nil
	}
	t, err := time.Parse(time.DateOnly, text)
	if err != nil {
		return Date{}, fmt.Errorf("read day %q: %w", text, err)
	}
	return On(t), nil
}

// IsZero reports whether d is no day.
func (d Date) IsZero() bool { return d == Date{} }

// noon is the middle of the day in UTC, where days have 24 hours.
func (d Date) noon() time.Time { return time.Date(d.Year, d.Month, d.Day, 12, 0, 0, 0, time.UTC) }

// Add is the day n days later.
func (d Date) Add(n int) Date { return On(d.noon().AddDate(0, 0, n)) }

// Weekday is the day of the week.
func (d Date) Weekday() time.Weekday { return d.noon().Weekday() }

// Before reports whether d comes before e.
func (d Date) Before(e Date) bool { return d.noon().Before(e.noon()) }

// Since is how many days d comes after e.
func (d Date) Since(e Date) int { return int(d.noon().Sub(e.noon()) / (24 * time.Hour)) }

// String is the day as 2026-11-26; empty for the zero Date.
func (d Date) String() string {
	if d.IsZero() {
		return ""
	}
	return d.noon().Format(time.DateOnly)
}

// Say is the day as people of the group say it, "Thu 26 Nov".
func (d Date) Say() string { return d.noon().Format("Mon 2 Jan") }

// MarshalText writes the day as String does.
func (d Date) MarshalText() ([]byte, error) { return []byte(d.String()), nil }

// UnmarshalText reads what MarshalText wrote.
func (d *Date) UnmarshalText(text []byte) (err error) {
	*d, err = ParseDate(string(text))
	return err
}
