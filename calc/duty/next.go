package duty

import (
	"slices"
	"time"
)

// Fold is how late a reminder may still come. A later one is left out, and the
// next one names it (own choice).
const Fold = 12 * time.Hour

// reach is how many days Next looks ahead: two weeks hold each day of the week
// twice, so that a day that a zone leaves out does not end the search.
const reach = 15

// Occurrence is one reminder to come: the local day it is for, and when.
type Occurrence struct {
	Day Date
	At  time.Time
}

// IsZero reports whether there is none.
func (o Occurrence) IsZero() bool { return o.Day.IsZero() }

// Next is the first occurrence after a moment; false when the plan is off.
// Extra days count as chosen: they are days to which something was put off.
func (p Plan) Next(after time.Time, zone *time.Location, extra ...Date) (Occurrence, bool) {
	if !p.On {
		return Occurrence{}, false
	}
	first := On(after.In(zone)).Add(-1) // quiet hours can carry yesterday's over midnight
	if !p.Paused.IsZero() && first.Before(p.Paused) {
		first = p.Paused
	}
	for n := range reach {
		day := first.Add(n)
		if !p.chosen(day) && !slices.Contains(extra, day) {
			continue
		}
		at, ok := Instant(day, p.At, zone)
		if !ok {
			continue
		}
		if at = p.Speakable(at, zone); at.After(after) {
			return Occurrence{day, at}, true
		}
	}
	return Occurrence{}, false
}

func (p Plan) chosen(day Date) bool { return p.Days == 0 || p.Days.Has(day.Weekday()) }

// Speakable is t, or the end of the quiet hours that t lies in.
func (p Plan) Speakable(t time.Time, zone *time.Location) time.Time {
	local := t.In(zone)
	if !p.Quiet.Holds(clockOf(local)) {
		return t
	}
	for _, day := range []Date{On(local), On(local).Add(1), On(local).Add(2)} {
		if end, ok := Instant(day, p.Quiet.To, zone); ok && end.After(t) && !p.Quiet.Holds(clockOf(end)) {
			return end
		}
	}
	return t
}

func clockOf(local time.Time) Clock { return Clock(60*local.Hour() + local.Minute()) }
