package measure

import "heapside/calc/fault"

// lastEvening is the last bare hour that is taken as afternoon or evening: "at
// 6" is 18:00 and "at 8" is 8:00, because few tend a heap before eight. Own choice.
const lastEvening = 7

// halfDay and wholeDay are in minutes.
const halfDay, wholeDay = 12 * 60, 24 * 60

// ParseClock reads a time of day as minutes after midnight, 0 to 1439: "18:00",
// "6 pm", "1800", "half past six", "noon". A bare hour from one to seven is in
// the afternoon. The error is a *fault.Error.
func ParseClock(text string) (int, error) {
	line, err := oneLine(text)
	if err != nil {
		return 0, err
	}
	w := when{t: lex(spaceDates(trimEnds(line)))}
	if h, next, ok := w.hour(0); ok && next == len(w.t) {
		return h.likely(), nil
	}
	return 0, fault.New(fault.NotUnderstood, "%s is not a time of day that can be read. Write it such as “18:00”, “6 pm” or “half past six”.", quote(line))
}

// ParseHours reads a stretch of the day as minutes after midnight: "21:00-8:00",
// "from 9 pm to 8 am". Bare hours are a night: "9 to 8" is 21:00 to 8:00. The
// error is a *fault.Error.
func ParseHours(text string) (from, to int, err error) {
	line, err := oneLine(text)
	if err != nil {
		return 0, 0, err
	}
	w := when{t: lex(spaceDates(trimEnds(line)))}
	a, next, ok := w.hour(w.skip(0, "from", "between", "after"))
	if ok && is(w.t, next, "-", "to", "until", "till", "and", "before") {
		b, end, read := w.hour(next + 1)
		from, to = a.atNight(), b.minute
		if read && end == len(w.t) && from != to {
			return from, to, nil
		}
	}
	return 0, 0, fault.New(fault.NotUnderstood, "%s is no stretch of the day that can be read. Write it such as “21:00-8:00” or “9 pm to 8 am”.", quote(line))
}

// hour is a time of day as it was said: exact, or bare ("six"), which may be
// either half of the day, or a part of the day ("evening").
type hour struct {
	minute     int // after midnight; the earlier half when bare
	said       int // the number that was said
	bare, part bool
}

// likely is the time that is meant when nothing else tells.
func (h hour) likely() int {
	if h.bare && h.said <= lastEvening {
		return h.minute + halfDay
	}
	return h.minute
}

// atNight is the time that is meant when it begins a night.
func (h hour) atNight() int {
	if h.bare {
		return (h.minute + halfDay) % wholeDay
	}
	return h.minute
}

// within is the time that is meant when it lies in a part of the day.
func (h hour) within(part hour) int {
	if h.bare && h.minute < halfDay && part.minute >= halfDay {
		return h.minute + halfDay
	}
	return h.minute
}

// hour reads a time of day at i.
func (w when) hour(i int) (hour, int, bool) {
	i = w.skip(i, "at", "around", "about", "by", "@", "in", "the")
	if words, next, ok := longest(w.t, i, isDayPart); ok {
		part := dayParts[singular(words)]
		return hour{minute: 60*part.hour + part.minute, part: part.from >= 0}, next, true
	}
	shift, at := w.shift(i)
	h, minute, next, bare, ok := w.hourDigits(at)
	if !ok || shift != 0 && !bare {
		return hour{}, i, false
	}
	next = w.skip(next, "o'clock", "oclock")
	if half, end, said := w.half(next); said {
		if h < 1 || h > 12 {
			return hour{}, i, false
		}
		h, next, bare = h%12+half, end, false
	}
	total := 60*(h%24) + minute + shift
	return hour{minute: (total + wholeDay) % wholeDay, said: h, bare: bare}, next, h <= 24 && minute < 60
}

// hourDigits reads the hour at i, in digits or in words, and the minutes
// behind. It is bare without minutes, unless it can only be one half of the
// day: "18", "06".
func (w when) hourDigits(i int) (h, minute, next int, bare, ok bool) {
	h, ok = w.number(i)
	if !ok {
		v, end, read := belowHundred(w.t, i)
		return int(v), 0, end, true, read && v >= 1 && v <= 12
	}
	long := w.t[i].end - w.t[i].start
	if long == 4 { // 1800
		return h / 100, h % 100, i + 1, false, true
	}
	if minute, end, said := w.minutes(i + 1); said {
		return h, minute, end, false, true
	}
	return h, 0, i + 1, h >= 1 && h <= 12 && !(h < 10 && long > 1), h <= 24
}

// shift reads "half past", "quarter to", "ten past" or "ten minutes to" at i:
// the minutes to add to the hour behind; 0 when there is none. "Ten to" alone
// may as well begin a stretch of the day.
func (w when) shift(i int) (minutes, next int) {
	start := w.skip(i, "a")
	unit, n := start+1, 0
	switch {
	case is(w.t, start, "half"):
		n = 30
		if _, _, _, bare, ok := w.hourDigits(unit); ok && bare { // "half six"
			return n, unit
		}
	case is(w.t, start, "quarter"):
		n = 15
	default:
		v, end, ok := numeral(w.t, start)
		if !ok || v < 1 || v > 59 || v != float64(int(v)) {
			return 0, i
		}
		n, unit = int(v), end
	}
	next = w.skip(unit, "min", "mins", "minute", "minutes")
	switch {
	case is(w.t, next, "past", "after"):
		return n, next + 1
	case is(w.t, next, "to", "before") && n != 30 && (n == 15 || next > unit):
		return -n, next + 1
	}
	return 0, i
}

// half is halfOfDay, and "at night".
func (w when) half(i int) (int, int, bool) {
	if is(w.t, i, "at") && is(w.t, i+1, "night") {
		return 12, i + 2, true
	}
	return w.halfOfDay(i)
}

// isDayPart reports a part of the day, also of many days: "evenings".
func isDayPart(words string) bool {
	_, ok := dayParts[singular(words)]
	return ok
}

func singular(words string) string {
	if _, ok := dayParts[words]; ok || words == "" || words[len(words)-1] != 's' {
		return words
	}
	return words[:len(words)-1]
}
