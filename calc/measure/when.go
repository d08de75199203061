package measure

import (
	"regexp"
	"strings"
	"time"

	"heapside/calc/fault"
)

// What may be logged: up to futureSlack ahead, because clocks differ, and
// yearsBack years ago. Own choice.
const (
	futureSlack = 5 * time.Minute
	yearsBack   = 3
)

// clockTime is a time of day, exact or the middle of a part of it that begins
// at from: "this morning" may be now, "this evening" may not have come yet.
type clockTime struct {
	hour, minute int
	from         int // the hour a vague part begins; -1 for an exact time
}

// aDay is a day named without a time: noon, or now when that is yet to come.
var aDay = clockTime{hour: 12}

// dayParts are own choice but for noon and midnight.
var dayParts = map[string]clockTime{
	"first thing": {hour: 7, from: 4}, "early morning": {hour: 7, from: 4}, "morning": {hour: 9, from: 4}, "mid morning": {hour: 10, from: 9},
	"noon": {hour: 12, from: -1}, "midday": {hour: 12, from: -1}, "lunch": {hour: 12, minute: 30, from: 11}, "lunchtime": {hour: 12, minute: 30, from: 11},
	"afternoon": {hour: 15, from: 12}, "teatime": {hour: 17, from: 16}, "evening": {hour: 19, from: 17}, "night": {hour: 21, from: 20}, "midnight": {from: -1},
}

var weekdays = map[string]time.Weekday{
	"sunday": 0, "sun": 0, "monday": 1, "mon": 1, "tuesday": 2, "tue": 2, "tues": 2, "wednesday": 3, "wed": 3, "weds": 3,
	"thursday": 4, "thu": 4, "thur": 4, "thurs": 4, "friday": 5, "fri": 5, "saturday": 6, "sat": 6,
}

// ParseWhen reads when something happened, in the time zone loc: "now", "2h
// ago", "yesterday 18:00", "last tuesday 7pm", "20 Nov", RFC 3339. A day
// without a time is noon, or now if noon is yet to come. The future and more
// than three years ago are refused; the error is a *fault.Error.
func ParseWhen(text string, now time.Time, loc *time.Location) (time.Time, error) {
	if loc == nil {
		loc = time.UTC
	}
	line, err := oneLine(text)
	if err != nil {
		return time.Time{}, err
	}
	line = trimEnds(line)
	w := when{now: now.In(loc), loc: loc, t: lex(spaceDates(line))}
	at, ok := w.read(line)
	if !ok {
		return time.Time{}, fault.New(fault.NotUnderstood, "%s is not a time that can be read. Write it such as “now”, “2 hours ago”, “yesterday 18:00”, “monday 7pm” or “%s”.",
			quote(line), w.now.AddDate(0, 0, -2).Format("2 Jan 15:04"))
	}
	return at, w.check(line, at)
}

func (w when) check(line string, at time.Time) error {
	switch {
	case at.After(w.now.Add(futureSlack)):
		return fault.New(fault.OutOfRange, "%s is still to come; the record holds what has happened, up to now (%s).", quote(line), w.now.Format("2 Jan 2006 15:04"))
	case at.Before(w.now.AddDate(-yearsBack, 0, 0)):
		return fault.New(fault.OutOfRange, "%s is more than %d years ago; is the year right?", quote(line), yearsBack)
	}
	return nil
}

// when reads the tokens of one time.
type when struct {
	now time.Time // in loc
	loc *time.Location
	t   []token
}

func (w when) read(line string) (time.Time, bool) {
	if at, err := time.Parse(time.RFC3339, strings.ToUpper(line)); err == nil {
		return at.In(w.loc), true
	}
	switch strings.ToLower(line) {
	case "now", "just now", "right now":
		return w.now, true
	case "tomorrow":
		return w.now.AddDate(0, 0, 1), true
	}
	if at, ok := w.ago(); ok {
		return at, true
	}
	d, i, named := w.date(w.skip(0, "earlier"))
	clock := aDay
	if !named {
		d = w.dayOf(w.now)
	}
	for i < len(w.t) && is(w.t, i, "at", "in", "the", ",", "this", "around", "about", "on") {
		i++
	}
	if i < len(w.t) {
		c, next, ok := w.clock(i)
		if !ok {
			return time.Time{}, false
		}
		clock, i = c, next
		if is(w.t, 0, "last") && is(w.t, 1, "night") && c.from < 0 && c.hour < 5 {
			d = w.daysBack(0) // the small hours of last night are today's
		}
		if !named { // "7pm yesterday"
			if later, end, ok := w.date(w.skip(i, "on", ",")); ok {
				d, i = later, end
			}
		}
	} else if !named {
		return time.Time{}, false
	}
	return w.at(d, clock), i == len(w.t)
}

func (w when) skip(i int, words ...string) int {
	for is(w.t, i, words...) {
		i++
	}
	return i
}

// date is a day of the calendar; floating ones step back by days (a weekday)
// or years (no year given) rather than lie in the future.
type date struct {
	year  int
	month time.Month
	day   int
	back  [3]int // years, months, days; zero for a fixed date
}

func (w when) dayOf(t time.Time) date {
	y, m, d := t.Date()
	return date{year: y, month: m, day: d}
}

func (w when) daysBack(n int) date { return w.dayOf(w.now.AddDate(0, 0, -n)) }

// at is the instant of a clock time on a day.
func (w when) at(d date, c clockTime) time.Time {
	at := localTime(d.year, d.month, d.day, c.hour, c.minute, w.loc)
	if at.After(w.now) && c.from >= 0 && !w.now.Before(localTime(d.year, d.month, d.day, c.from, 0, w.loc)) {
		return w.now
	}
	if at.After(w.now.Add(futureSlack)) && d.back != [3]int{} {
		step := 1
		if d.month == time.February && d.day == 29 && d.back[0] > 0 {
			step = (d.year-1)%4 + 1
		}
		p := time.Date(d.year-d.back[0]*step, d.month, d.day-d.back[2], 0, 0, 0, 0, time.UTC)
		at = localTime(p.Year(), p.Month(), p.Day(), c.hour, c.minute, w.loc)
	}
	return at
}

// localTime is the instant a local clock shows a time: the first when it
// shows it twice, and the moment of the change when it skips it.
func localTime(year int, month time.Month, day, hour, minute int, loc *time.Location) time.Time {
	guess := time.Date(year, month, day, hour, minute, 0, 0, loc)
	wall := time.Date(year, month, day, hour, minute, 0, 0, time.UTC)
	start, end := guess.ZoneBounds()
	var first time.Time
	for _, near := range []time.Time{start.Add(-time.Second), guess, end} {
		if near.IsZero() || near.Year() < 1 {
			continue // no change on that side
		}
		_, offset := near.Zone()
		at := wall.Add(-time.Duration(offset) * time.Second).In(loc)
		_, real := at.Zone()
		if real == offset && (first.IsZero() || at.Before(first)) {
			first = at
		}
	}
	if !first.IsZero() {
		return first
	}
	if !start.IsZero() && guess.Sub(start) < 3*time.Hour {
		return start
	}
	return end
}

// pointedTime is "7.15" for 7:15.
var pointedTime = regexp.MustCompile(`\b(\d{1,2})\.([0-5]\d)\b`)

// spaceDates sets the parts of "2026-11-20T18:00" apart, so that they do not
// read as words, and writes "7.15" as a time where it is no number of hours ago.
func spaceDates(line string) string {
	if !strings.Contains(line, "ago") {
		line = pointedTime.ReplaceAllString(line, "$1:$2")
	}
	b := []byte(line)
	for i := 1; i+1 < len(b); i++ {
		if (b[i] == 'T' || b[i] == 't') && digitAt(line, i-1) && digitAt(line, i+1) {
			b[i] = ' '
		}
	}
	return string(b)
}
