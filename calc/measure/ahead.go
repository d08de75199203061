package measure

import (
	"math"
	"time"

	"heapside/calc/fault"
)

// farAhead is how many days ahead a date may lie. Own choice: a year and a day.
const farAhead = 366

// ParseDay reads a day that is to come, or today, in the time zone loc:
// "tomorrow", "monday", "20 Aug", "the 17th", "in 2 weeks", "september" (its
// first day), "end of the month". The result is midnight UTC of that date. The
// past and more than a year ahead are refused; the error is a *fault.Error.
func ParseDay(text string, now time.Time, loc *time.Location) (time.Time, error) {
	a, line, err := readAhead(text, now, loc)
	if err != nil {
		return time.Time{}, err
	}
	day, next, ok := a.day(a.skip(0, "until", "till", "to", "on", "by", "up"))
	if !ok {
		day, next, ok = a.counted(a.skip(0, "for", "in", "the", "next"))
	}
	if !ok || next != len(a.t) {
		return time.Time{}, fault.New(fault.NotUnderstood, "%s is no day that can be read. Write it such as “monday”, “%s” or “in 2 weeks”.",
			quote(line), a.today.AddDate(0, 0, 10).Format("2 Jan"))
	}
	return day, a.check(line, day, day)
}

// ParseDays reads a run of days, in the time zone loc, with the last one: "3 to
// 17 August", "from monday for 2 weeks", "until friday", "next week",
// "tomorrow". "From monday" has no end, which is the zero time. The results are
// midnight UTC of the dates. A run that is over, or reaches more than a year
// ahead, is refused; the error is a *fault.Error.
func ParseDays(text string, now time.Time, loc *time.Location) (from, to time.Time, err error) {
	a, line, err := readAhead(text, now, loc)
	if err != nil {
		return from, to, err
	}
	from, to, ok := a.days()
	if !ok {
		return from, to, fault.New(fault.NotUnderstood, "%s are no days that can be read. Write them such as “3 to 17 August”, “until friday” or “from monday for 2 weeks”.", quote(line))
	}
	last := to
	if last.IsZero() {
		last = from
	}
	return from, to, a.check(line, from, last)
}

// ahead reads the tokens of days to come.
type ahead struct {
	when
	today time.Time // midnight UTC of the local date
}

func readAhead(text string, now time.Time, loc *time.Location) (ahead, string, error) {
	if loc == nil {
		loc = time.UTC
	}
	line, err := oneLine(text)
	line = trimEnds(line)
	now = now.In(loc)
	y, m, d := now.Date()
	return ahead{when{now: now, loc: loc, t: lex(line)}, time.Date(y, m, d, 0, 0, 0, 0, time.UTC)}, line, err
}

func (a ahead) check(line string, from, last time.Time) error {
	switch {
	case last.Before(from):
		return fault.New(fault.OutOfRange, "%s ends before it begins: %s to %s.", quote(line), from.Format("2 Jan 2006"), last.Format("2 Jan 2006"))
	case last.Before(a.today):
		return fault.New(fault.OutOfRange, "%s is over: it is %s today.", quote(line), a.today.Format("Mon 2 Jan 2006"))
	case last.After(a.plus(farAhead)):
		return fault.New(fault.OutOfRange, "%s is more than a year ahead; is the year right?", quote(line))
	}
	return nil
}

func (a ahead) plus(days int) time.Time { return a.today.AddDate(0, 0, days) }

// days reads a run of days.
func (a ahead) days() (from, to time.Time, ok bool) {
	i := a.skip(0, "i", "am", "i'm", "away", "off", "on", "between", "for", "it", "is")
	if is(a.t, i, "until", "till", "to", "up") {
		to, next, ok := a.day(a.skip(i, "until", "till", "to", "up"))
		return a.today, to, ok && next == len(a.t)
	}
	if to, next, ok := a.counted(i); ok { // "a week": with today
		return a.today, to.AddDate(0, 0, -1), next == len(a.t)
	}
	if from, to, next, ok := a.period(i); ok {
		return from, to, next == len(a.t)
	}
	begins := is(a.t, i, "from", "since", "starting", "as")
	i = a.skip(i, "from", "since", "starting", "as", "of")
	from, next, ok := a.day(i)
	if !ok {
		return a.sharedMonth(i)
	}
	if next == len(a.t) {
		if begins {
			return from, time.Time{}, true
		}
		return from, from, true
	}
	to, next, ok = a.lastDay(from, next)
	if back := from.AddDate(-1, 0, 0); to.Before(from) && back.AddDate(0, halfYear, 0).After(to) {
		from = back // "20 Dec to 5 Jan" said between the two
	}
	return from, to, ok && next == len(a.t)
}

const halfYear = 6 // months

// lastDay reads the end of a run that began on a day: "to friday", "-17" or
// "for a week".
func (a ahead) lastDay(from time.Time, i int) (time.Time, int, bool) {
	if is(a.t, i, "for") {
		then := ahead{when: a.when, today: from}
		to, next, ok := then.counted(i + 1)
		return to.AddDate(0, 0, -1), next, ok
	}
	if !is(a.t, i, "-", "to", "until", "till", "and", "through") {
		return time.Time{}, i, false
	}
	i++
	if to, next, ok := a.comingWeekday(i); ok {
		for to.Before(from) {
			to = to.AddDate(0, 0, 7)
		}
		return to, next, true
	}
	if to, next, ok := a.day(i); ok {
		return to, next, true
	}
	n, ok := a.number(i)
	last := date{year: from.Year(), month: from.Month(), day: n}
	return last.midnight(), i + 1, ok && last.exists()
}

// sharedMonth reads "3 to 17 August" from i.
func (a ahead) sharedMonth(i int) (from, to time.Time, ok bool) {
	n, ok := a.number(a.skip(i, "the"))
	next := a.skip(a.skip(i, "the")+1, "st", "nd", "rd", "th")
	if !ok || !is(a.t, next, "-", "to", "until", "till", "and", "through") {
		return from, to, false
	}
	to, next, ok = a.day(next + 1)
	if !ok || next != len(a.t) {
		return from, to, false
	}
	first := date{year: to.Year(), month: to.Month(), day: n}
	if n > to.Day() {
		first.month-- // 28 to 3 August; the year before when it is January
		if first.month == 0 {
			first.year, first.month = first.year-1, time.December
		}
	}
	return first.midnight(), to, first.exists()
}

func (d date) midnight() time.Time { return time.Date(d.year, d.month, d.day, 0, 0, 0, 0, time.UTC) }

// day reads one day at i, today or later where no year is said.
func (a ahead) day(i int) (time.Time, int, bool) {
	switch {
	case is(a.t, i, "today", "now"):
		return a.today, i + 1, true
	case is(a.t, i, "tomorrow"):
		return a.plus(1), i + 1, true
	case is(a.t, a.skip(i, "the"), "day") && is(a.t, a.skip(i, "the")+1, "after") && is(a.t, a.skip(i, "the")+2, "tomorrow"):
		return a.plus(2), a.skip(i, "the") + 3, true
	case is(a.t, a.skip(i, "the"), "end"):
		_, last, next, ok := a.period(a.skip(a.skip(i, "the")+1, "of", "the"))
		return last, next, ok
	}
	if day, next, ok := a.comingWeekday(i); ok {
		return day, next, true
	}
	if from, _, next, ok := a.period(i); ok {
		return from, next, true
	}
	if d, next, ok := a.isoDate(i); ok {
		return d.midnight(), next, true
	}
	if d, next, ok := a.monthDay(i); ok {
		return a.coming(d), next, true
	}
	return a.dayOfMonth(i)
}

// coming is a date in the first year, from this one on, in which it is not over.
func (a ahead) coming(d date) time.Time {
	if d.back[0] == 0 {
		return d.midnight()
	}
	for d.year = a.today.Year(); !d.exists() || d.midnight().Before(a.today); {
		d.year++
	}
	return d.midnight()
}

// comingWeekday is the next such day after today; "monday week" is one later.
func (a ahead) comingWeekday(i int) (time.Time, int, bool) {
	i = a.skip(i, "next", "this", "coming", "the", "on")
	if i >= len(a.t) || a.t[i].kind != wordToken {
		return time.Time{}, i, false
	}
	want, ok := weekdayNamed(a.t[i].text)
	if !ok {
		return time.Time{}, i, false
	}
	days := (int(want)-int(a.today.Weekday())+6)%7 + 1
	if is(a.t, i+1, "week") {
		days, i = days+7, i+1
	}
	return a.plus(days), i + 1, true
}

// dayOfMonth reads "the 17th": the next one, today included.
func (a ahead) dayOfMonth(i int) (time.Time, int, bool) {
	start := a.skip(i, "the")
	n, ok := a.number(start)
	next := a.skip(start+1, "st", "nd", "rd", "th")
	if !ok || start == i && next == start+1 || n < 1 || n > 31 {
		return time.Time{}, i, false
	}
	d := date{year: a.today.Year(), month: a.today.Month(), day: n}
	for !d.exists() || d.midnight().Before(a.today) {
		if d.month++; d.month > time.December {
			d.year, d.month = d.year+1, time.January
		}
	}
	return d.midnight(), next, true
}

// counted reads "2 weeks" and "a month" at i: the day that is that many days on.
func (a ahead) counted(i int) (time.Time, int, bool) {
	n, next, ok := quantity(a.t, i)
	if !ok || next >= len(a.t) {
		return time.Time{}, i, false
	}
	unit := a.t[next].text
	days := math.Round(n.Typical * float64(spans[unit].days))
	if days < 1 || days > 10*farAhead || unit == "d" || unit == "w" {
		return time.Time{}, i, false
	}
	next++
	if is(a.t, next, "from") && is(a.t, next+1, "now", "today") {
		next += 2
	}
	if (unit == "month" || unit == "months") && n.Typical == math.Trunc(n.Typical) {
		return a.today.AddDate(0, int(n.Typical), 0), next, true
	}
	return a.plus(int(days)), next, true
}

// period reads a week, a weekend or a month at i: its days from today on.
func (a ahead) period(i int) (from, to time.Time, next int, ok bool) {
	coming := is(a.t, i, "next")
	i = a.skip(i, "next", "this", "coming", "the", "all", "of", "in", "at", "over")
	if i >= len(a.t) || a.t[i].kind != wordToken {
		return from, to, i, false
	}
	untilMonday := 7 - (int(a.today.Weekday())+6)%7
	first := date{year: a.today.Year(), month: a.today.Month(), day: 1}
	switch word := a.t[i].text; {
	case word == "week" && coming:
		from, to = a.plus(untilMonday), a.plus(untilMonday+6)
	case word == "week":
		from, to = a.today, a.plus(untilMonday-1)
	case word == "weekend":
		from, to = a.plus(max(0, untilMonday-2)), a.plus(max(0, untilMonday-1))
		if coming && untilMonday <= 2 {
			from, to = from.AddDate(0, 0, 7), to.AddDate(0, 0, 7)
		}
	case word == "month" && coming:
		from = first.midnight().AddDate(0, 1, 0)
		to = from.AddDate(0, 1, -1)
	case word == "month":
		from, to = a.today, first.midnight().AddDate(0, 1, -1)
	case word == "year" && !coming:
		from, to = a.today, time.Date(a.today.Year(), time.December, 31, 0, 0, 0, 0, time.UTC)
	case months[word] != 0:
		if _, day := a.number(i + 1); day {
			return from, to, i, false
		}
		first.month = months[word]
		from = first.midnight()
		if !from.AddDate(0, 1, 0).After(a.today) {
			from = from.AddDate(1, 0, 0)
		}
		to = from.AddDate(0, 1, -1)
	default:
		return from, to, i, false
	}
	return from, to, i + 1, true
}
