package chart

import "time"

// maxTicks is how many labels an axis of time carries at most. Own choice:
// eight dates fit a phone.
const maxTicks = 8

// tick is one labelled time.
type tick struct {
	at    time.Time
	label string
}

// cadence is one way to place ticks: every so many months, days or hours.
type cadence struct {
	months, days, hours int
	layout              string
}

// cadences from fine to coarse. Own choice: the steps people count in.
var cadences = []cadence{
	{hours: 3, layout: "15:04"}, {hours: 6, layout: "15:04"}, {hours: 12, layout: "15:04"},
	{days: 1, layout: "2 Jan"}, {days: 2, layout: "2 Jan"}, {days: 3, layout: "2 Jan"}, {days: 5, layout: "2 Jan"},
	{days: 7, layout: "2 Jan"}, {days: 14, layout: "2 Jan"}, {days: 21, layout: "2 Jan"},
	{months: 1, layout: "Jan 2006"}, {months: 2, layout: "Jan 2006"}, {months: 3, layout: "Jan 2006"},
	{months: 6, layout: "Jan 2006"}, {months: 12, layout: "2006"}, {months: 24, layout: "2006"}, {months: 36, layout: "2006"},
	{months: 120, layout: "2006"}, {months: 240, layout: "2006"},
}

// hourly is the window below which hours are labelled: from there on there are
// days enough. Own choice.
const hourly = 4 * 24 * time.Hour

// ticks are the labelled times within a window: at local midnights, or at
// local hours when it is short, as many as fit.
func ticks(from, to time.Time, zone *time.Location, most int) []tick {
	for _, c := range cadences {
		if c.hours > 0 && to.Sub(from) >= hourly {
			continue
		}
		if t, fits := c.place(from.In(zone), to.In(zone), most); fits {
			return t
		}
	}
	return nil
}

// place lists the ticks of one cadence, or gives up when they are too many.
func (c cadence) place(from, to time.Time, most int) ([]tick, bool) {
	var out []tick
	for i := range 3 * most { // the first may lie before the window
		at := c.tick(from, i)
		switch {
		case at.After(to):
			return out, true
		case at.Before(from), len(out) > 0 && !at.After(out[len(out)-1].at):
			continue
		case len(out) == most:
			return nil, false
		}
		label := at.Format(c.layout)
		if c.hours > 0 && at.Equal(midnight(at, 0)) {
			label = at.Format("2 Jan")
		}
		out = append(out, tick{at, label})
	}
	return nil, false
}

// tick is the i-th tick counted from the last one before a time. Days are
// counted from a Monday, months from a January, so that ticks stay where they
// are while the window moves on.
func (c cadence) tick(from time.Time, i int) time.Time {
	y, m, d := from.Date()
	switch {
	case c.hours > 0:
		h := from.Hour()/c.hours*c.hours + i*c.hours
		if h%24 == 0 {
			return midnight(from, h/24)
		}
		return time.Date(y, m, d, h, 0, 0, 0, from.Location())
	case c.days > 0:
		return midnight(from, i*c.days-sinceMonday(y, m, d)%c.days)
	default:
		months := y*12 + int(m) - 1
		months += i*c.months - months%c.months
		return midnight(time.Date(months/12, time.Month(months%12+1), 1, 12, 0, 0, 0, from.Location()), 0)
	}
}

// sinceMonday counts days from Monday 5 January 1970; the past before that has
// no heaps.
func sinceMonday(y int, m time.Month, d int) int {
	return max(0, int(time.Date(y, m, d, 0, 0, 0, 0, time.UTC).Unix()/86400)-4)
}

// midnight is the first instant of the local day some days after at's own.
// Where the clock skips midnight, that is the instant it goes forward.
func midnight(at time.Time, days int) time.Time {
	y, m, d := at.Date()
	start := time.Date(y, m, d+days, 0, 0, 0, 0, at.Location())
	if start.Hour() > 12 { // midnight was skipped, and read by the clock before the change
		_, start = start.ZoneBounds()
	}
	return start
}
