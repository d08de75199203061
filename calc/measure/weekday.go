package measure

import (
	"time"

	"heapside/calc/fault"
)

// Weekly is which days of the week and what time of day were said. Days run
// from Monday and are nil when none was said; Minute is after midnight, -1 when
// no time was said.
type Weekly struct {
	Days   []time.Weekday
	Minute int
}

// week is all days in the order of Weekly.
var week = []time.Weekday{time.Monday, time.Tuesday, time.Wednesday, time.Thursday, time.Friday, time.Saturday, time.Sunday}

// daySets are the words for several days of the week.
var daySets = map[string][]time.Weekday{
	"daily": week, "every day": week, "each day": week, "all days": week, "everyday": week, "every single day": week, "all week": week,
	"weekdays": week[:5], "weekday": week[:5], "week days": week[:5], "every weekday": week[:5], "working days": week[:5], "work days": week[:5], "workdays": week[:5],
	"weekend": week[5:], "weekends": week[5:], "week ends": week[5:], "every weekend": week[5:],
}

// ParseWeekly reads days of the week and a time of day, either of which may be
// missing, in any order: "daily 18:00", "sat", "mon wed fri at 7", "weekdays at
// half past six", "every evening", "daily except sundays". The error is a
// *fault.Error.
func ParseWeekly(text string) (Weekly, error) {
	line, err := oneLine(text)
	if err != nil {
		return Weekly{}, err
	}
	r := weekReader{when: when{t: lex(spaceDates(trimEnds(line)))}}
	if !r.read() {
		return Weekly{}, fault.New(fault.NotUnderstood, "%s names no days and hour that can be read. Write them such as “daily 18:00”, “saturdays at 6 pm” or “mon wed fri at half past six”.", quote(line))
	}
	return r.weekly(), nil
}

// weekReader gathers what ParseWeekly reads.
type weekReader struct {
	when
	days        map[time.Weekday]bool // said to be in, or out
	every       bool                  // "every evening" is every day
	clock, part *hour                 // "at 6", "in the evening"
}

func (r *weekReader) read() bool {
	r.days = map[time.Weekday]bool{}
	in := true
	for i := 0; i < len(r.t); {
		days, next, ok := r.daysAt(i)
		switch {
		case ok:
			r.set(days, in)
		case is(r.t, i, "except", "but", "without", "not"):
			if len(r.days) == 0 {
				r.set(week, true)
			}
			in, next = false, i+1
		case is(r.t, i, "every", "each"):
			r.every, next = true, i+1
		case is(r.t, i, "on", "and", ",", "&", "/", "for", ".", ";", "+"):
			next = i + 1
		default:
			if next, ok = r.clockAt(i); !ok {
				return false
			}
		}
		i = next
	}
	return r.clock != nil || r.part != nil || len(r.chosen()) > 0
}

func (r *weekReader) set(days []time.Weekday, in bool) {
	for _, d := range days {
		r.days[d] = in
	}
}

// clockAt reads the one time of day, or the one part of the day.
func (r *weekReader) clockAt(i int) (int, bool) {
	h, next, ok := r.hour(i)
	into := &r.clock
	if h.part {
		into = &r.part
	}
	if !ok || *into != nil {
		return i, false
	}
	*into = &h
	return next, true
}

// daysAt reads a day, several or a run of them ("mon-fri") at i.
func (r *weekReader) daysAt(i int) ([]time.Weekday, int, bool) {
	i = r.skip(i, "at", "the", "in")
	if words, next, ok := longest(r.t, i, key(daySets)); ok {
		return daySets[words], next, true
	}
	first, ok := r.dayAt(i)
	if !ok {
		return nil, i, false
	}
	if !is(r.t, i+1, "-", "to", "through", "until", "till") {
		return []time.Weekday{first}, i + 1, true
	}
	last, ok := r.dayAt(i + 2)
	if !ok {
		return nil, i, false
	}
	days := []time.Weekday{first}
	for d := first; d != last; days = append(days, d) {
		d = (d + 1) % 7
	}
	return days, i + 3, true
}

// dayAt is the day of the week named at i, also in the plural and with a slip.
func (r *weekReader) dayAt(i int) (time.Weekday, bool) {
	if i >= len(r.t) || r.t[i].kind != wordToken {
		return 0, false
	}
	return weekdayNamed(r.t[i].text)
}

func weekdayNamed(word string) (time.Weekday, bool) {
	if len(word) > 3 && word[len(word)-1] == 's' {
		if d, ok := weekdays[word]; ok {
			return d, true // "tues"
		}
		word = word[:len(word)-1]
	}
	if d, ok := weekdays[word]; ok {
		return d, true
	}
	for name, d := range weekdays {
		if len(name) >= 6 && len(word) >= minTypo && word[0] == name[0] && oneSlip(word, name) {
			return d, true
		}
	}
	return 0, false
}

// chosen are the days that were said to be in, in order.
func (r *weekReader) chosen() []time.Weekday {
	var days []time.Weekday
	for _, d := range week {
		if r.days[d] || r.every && len(r.days) == 0 {
			days = append(days, d)
		}
	}
	return days
}

func (r *weekReader) weekly() Weekly {
	w := Weekly{Days: r.chosen(), Minute: -1}
	switch {
	case r.clock != nil && r.part != nil:
		w.Minute = r.clock.within(*r.part)
	case r.clock != nil:
		w.Minute = r.clock.likely()
	case r.part != nil:
		w.Minute = r.part.minute
	}
	return w
}

// ParseWeekday reads one day of the week: "sunday", "on Sundays". The error is a
// *fault.Error.
func ParseWeekday(text string) (time.Weekday, error) {
	w, err := ParseWeekly(text)
	if err != nil || len(w.Days) != 1 || w.Minute >= 0 {
		return 0, fault.New(fault.NotUnderstood, "%s is no day of the week. Write one such as “sunday”.", quote(text))
	}
	return w.Days[0], nil
}
