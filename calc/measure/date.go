package measure

import (
	"math"
	"strings"
	"time"
)

var months = monthWords()

func monthWords() map[string]time.Month {
	all := map[string]time.Month{"sept": time.September}
	for m := time.January; m <= time.December; m++ {
		name := strings.ToLower(m.String())
		all[name], all[name[:3]] = m, m
	}
	return all
}

// spans are the units of "ago": a length of time, or days counted on the calendar.
var spans = map[string]struct {
	length time.Duration
	days   int
}{
	"s": {time.Second, 0}, "sec": {time.Second, 0}, "secs": {time.Second, 0}, "second": {time.Second, 0}, "seconds": {time.Second, 0},
	"min": {time.Minute, 0}, "mins": {time.Minute, 0}, "minute": {time.Minute, 0}, "minutes": {time.Minute, 0}, "m": {time.Minute, 0},
	"h": {time.Hour, 0}, "hr": {time.Hour, 0}, "hrs": {time.Hour, 0}, "hour": {time.Hour, 0}, "hours": {time.Hour, 0},
	"d": {0, 1}, "day": {0, 1}, "days": {0, 1}, "w": {0, 7}, "wk": {0, 7}, "wks": {0, 7}, "week": {0, 7}, "weeks": {0, 7}, "fortnight": {0, 14}, "fortnights": {0, 14},
	"month": {0, 30}, "months": {0, 30}, "year": {0, 365}, "years": {0, 365},
}

// farthest bounds "ago" so that sums of time cannot overflow, in days.
const farthest = 36500

// ago reads "2h 30m ago" and "3 days ago at 18:00". Hours count from now, days
// are days of the calendar.
func (w when) ago() (time.Time, bool) {
	var length time.Duration
	days, i := 0.0, 0
	for i < len(w.t) && !is(w.t, i, "ago", "back", "earlier") {
		i = w.skip(i, "and", ",", "about", "around", "~")
		n, next, ok := quantity(w.t, i)
		if !ok || next >= len(w.t) {
			return time.Time{}, false
		}
		s, ok := spans[w.t[next].text]
		if !ok || n.Typical > farthest || length > farthest*24*time.Hour {
			return time.Time{}, false
		}
		i = next + 1
		if is(w.t, i, "and") { // an hour and a half
			if f, end, ok := fraction(w.t, i+1); ok && is(w.t, end, "ago") {
				n.Typical, i = n.Typical+f, end
			}
		}
		length += time.Duration(n.Typical * float64(s.length))
		days += n.Typical * float64(s.days)
	}
	if i == 0 || i >= len(w.t) || days > farthest || length > farthest*24*time.Hour {
		return time.Time{}, false
	}
	i++
	if days == 0 {
		return w.now.Add(-length), i == len(w.t)
	}
	if whole := math.Round(days); length == 0 && whole >= 1 {
		return w.agoAt(w.daysBack(int(whole)), i)
	}
	return w.now.Add(-length - time.Duration(days*24*float64(time.Hour))), i == len(w.t)
}

func (w when) agoAt(d date, i int) (time.Time, bool) {
	if i == len(w.t) {
		return w.at(d, aDay), true
	}
	c, next, ok := w.clock(w.skip(i, "at", ",", "in", "the"))
	return w.at(d, c), ok && next == len(w.t)
}

// date reads a day at i: "yesterday", "last tuesday", "2026-11-20", "20 Nov".
func (w when) date(i int) (date, int, bool) {
	i = w.skip(i, "on")
	switch {
	case is(w.t, i, "today", "tonight"):
		if is(w.t, i, "tonight") {
			return w.daysBack(0), i, false // a part of today, read by clock
		}
		return w.daysBack(0), i + 1, true
	case is(w.t, i, "yesterday"):
		return w.daysBack(1), i + 1, true
	case is(w.t, i, "last") && is(w.t, i+1, "night", "evening"):
		return w.daysBack(1), i + 1, true
	case is(w.t, i, "last") && is(w.t, i+1, "week"):
		return w.daysBack(7), i + 2, true
	case is(w.t, i, "the") && is(w.t, i+1, "day") && is(w.t, i+2, "before") && is(w.t, i+3, "yesterday"):
		return w.daysBack(2), i + 4, true
	case is(w.t, i, "day") && is(w.t, i+1, "before") && is(w.t, i+2, "yesterday"):
		return w.daysBack(2), i + 3, true
	}
	if d, next, ok := w.weekday(i); ok {
		return d, next, true
	}
	if d, next, ok := w.isoDate(i); ok {
		return d, next, true
	}
	return w.monthDay(i)
}

// weekday is the last such day, today included unless "last" is said.
func (w when) weekday(i int) (date, int, bool) {
	last := is(w.t, i, "last")
	i = w.skip(i, "last", "this", "past")
	if i >= len(w.t) || w.t[i].kind != wordToken {
		return date{}, i, false
	}
	day, ok := weekdays[w.t[i].text]
	if !ok {
		return date{}, i, false
	}
	back := (int(w.now.Weekday()) - int(day) + 7) % 7
	if last && back == 0 {
		back = 7
	}
	d := w.daysBack(back)
	if !last {
		d.back[2] = 7
	}
	return d, i + 1, true
}

// number is the whole number of that token.
func (w when) number(i int) (int, bool) {
	if i >= len(w.t) || w.t[i].kind != numberToken || w.t[i].value != math.Trunc(w.t[i].value) || w.t[i].value > 9999 {
		return 0, false
	}
	return int(w.t[i].value), true
}

func (w when) isoDate(i int) (date, int, bool) {
	y, ok1 := w.number(i)
	m, ok2 := w.number(i + 2)
	d, ok3 := w.number(i + 4)
	if !ok1 || !ok2 || !ok3 || y < 1000 || !is(w.t, i+1, "-") || !is(w.t, i+3, "-") {
		return date{}, i, false
	}
	found := date{year: y, month: time.Month(m), day: d}
	return found, i + 5, found.exists()
}

// monthDay reads "20 Nov", "20th of November 2025" and "Nov 20".
func (w when) monthDay(i int) (date, int, bool) {
	var found date
	i = w.skip(i, "the")
	if d, ok := w.number(i); ok {
		next := w.skip(i+1, "st", "nd", "rd", "th", "of", "-")
		if next >= len(w.t) || w.t[next].kind != wordToken || months[w.t[next].text] == 0 {
			return date{}, i, false
		}
		found.day, found.month, i = d, months[w.t[next].text], next+1
	} else {
		if i >= len(w.t) || w.t[i].kind != wordToken || months[w.t[i].text] == 0 {
			return date{}, i, false
		}
		at := w.skip(i+1, "the", ".")
		d, ok := w.number(at)
		if !ok {
			return date{}, i, false
		}
		found.day, found.month = d, months[w.t[i].text]
		i = w.skip(at+1, "st", "nd", "rd", "th")
	}
	at := w.skip(i, ",", "-", ".")
	if y, ok := w.number(at); ok && y >= 1000 && !is(w.t, at+1, ":", "am", "pm") {
		found.year = y
		return found, at + 1, found.exists()
	}
	found.year, found.back[0] = w.now.Year(), 1
	for back := 0; back < 4 && !found.exists(); back++ { // 29 Feb
		found.year--
	}
	return found, i, found.exists()
}

func (d date) exists() bool {
	t := time.Date(d.year, d.month, d.day, 0, 0, 0, 0, time.UTC)
	return t.Year() == d.year && t.Month() == d.month && t.Day() == d.day
}

// clock reads a time of day at i: "18:30", "7pm", "7.15 pm", "morning", "noon".
func (w when) clock(i int) (clockTime, int, bool) {
	if is(w.t, i, "tonight") {
		return dayParts["night"], i + 1, true
	}
	i = w.skip(i, "this", "at", "in", "the")
	if part, next, ok := longest(w.t, i, key(dayParts)); ok {
		if exact, end, ok := w.clock(w.skip(next, "at", ",")); ok && exact.from < 0 { // last night at 11pm
			return exact, end, true
		}
		return dayParts[part], next, true
	}
	return w.digits(i)
}

// digits reads a clock time in numbers at i: it needs minutes, a half of the
// day or a part of it, because "5" alone may be anything.
func (w when) digits(i int) (clockTime, int, bool) {
	h, ok := w.number(i)
	if !ok {
		return clockTime{}, i, false
	}
	minute, next, exact := w.minutes(i + 1)
	c := clockTime{hour: h, minute: minute, from: -1}
	if half, end, ok := w.halfOfDay(next); ok {
		if h < 1 || h > 12 {
			return clockTime{}, i, false
		}
		c.hour, next, exact = h%12+half, end, true
	} else if is(w.t, next, "o'clock", "oclock") {
		next, exact = next+1, true
	}
	return c, next, exact && c.hour < 24 && c.minute < 60
}

// minutes reads ":30", "h30" or "h" behind an hour, and passes over seconds.
func (w when) minutes(i int) (minute, next int, ok bool) {
	if !is(w.t, i, ":", "h") {
		return 0, i, false
	}
	minute, given := w.number(i + 1)
	if !given {
		return 0, i + 1, is(w.t, i, "h")
	}
	next = i + 2
	if _, seconds := w.number(next + 1); seconds && is(w.t, next, ":") {
		next += 2
	}
	return minute, next, true
}

// halfOfDay reads "am", "p.m." and the like: 0 or 12 hours to add.
func (w when) halfOfDay(i int) (int, int, bool) {
	switch {
	case is(w.t, i, "am"):
		return 0, i + 1, true
	case is(w.t, i, "pm"):
		return 12, i + 1, true
	case is(w.t, i, "in") && is(w.t, i+1, "the") && is(w.t, i+2, "morning"):
		return 0, i + 3, true
	case is(w.t, i, "in") && is(w.t, i+1, "the") && is(w.t, i+2, "afternoon", "evening"):
		return 12, i + 3, true
	case is(w.t, i, "a", "p") && is(w.t, i+1, ".") && is(w.t, i+2, "m"):
		add := 0
		if is(w.t, i, "p") {
			add = 12
		}
		return add, w.skip(i+3, "."), true
	}
	return 0, i, false
}
