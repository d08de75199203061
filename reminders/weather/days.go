package weather

import "time"

// Day is the weather of one day of a garden's own calendar.
type Day struct {
	Start      time.Time // local midnight, or the first moment after it that there is
	Hours      int       // whole hours that begin within the day: 23 or 25 where clocks change
	RainMm     *float64  // sum of the hours that are known; nil when none is
	RainHours  int       // how many of them are known
	MinC, MaxC *float64  // of the hours that are known; nil when none is
	ET0Mm      *float64
	ET0Hours   int
	Observed   bool // every hour that is there was over when it was said
}

// Days sums hours, in order, over the days of a zone.
func Days(hours []Hour, zone *time.Location) []Day {
	var days []Day
	for i := range hours {
		h := &hours[i]
		y, m, d := h.At.In(zone).Date()
		start := dayStart(y, m, d, zone)
		if n := len(days); n == 0 || !days[n-1].Start.Equal(start) {
			days = append(days, Day{Start: start, Hours: wholeHours(start, dayStart(y, m, d+1, zone)), Observed: true})
		}
		days[len(days)-1].add(h)
	}
	return days
}

// dayStart is the first moment of a date. Some zones' clocks skip midnight, and
// time.Date may then give the day before.
func dayStart(y int, m time.Month, d int, zone *time.Location) time.Time {
	t := time.Date(y, m, d, 0, 0, 0, 0, zone)
	if t.Hour() >= 12 {
		t = t.Add(24*time.Hour - time.Duration(t.Hour())*time.Hour - time.Duration(t.Minute())*time.Minute)
	}
	return t
}

// wholeHours counts the whole UTC hours that begin in [from, to).
func wholeHours(from, to time.Time) int {
	ceil := func(t time.Time) time.Time { return t.Add(time.Hour - 1).Truncate(time.Hour) }
	return int(ceil(to).Sub(ceil(from)) / time.Hour)
}

func (d *Day) add(h *Hour) {
	d.Observed = d.Observed && h.Observed
	d.RainMm, d.RainHours = sum(d.RainMm, d.RainHours, h.RainMm)
	d.ET0Mm, d.ET0Hours = sum(d.ET0Mm, d.ET0Hours, h.ET0Mm)
	if c := h.AirC; c != nil {
		if d.MinC == nil {
			d.MinC, d.MaxC = c, c
		}
		d.MinC, d.MaxC = new(min(*d.MinC, *c)), new(max(*d.MaxC, *c))
	}
}

func sum(total *float64, n int, v *float64) (*float64, int) {
	switch {
	case v == nil:
		return total, n
	case total == nil:
		return v, 1
	}
	return new(*total + *v), n + 1
}
