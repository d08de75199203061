package process

import (
	"math"
	"time"
)

// Ready is when a heap is likely ready: a tenth of the members are by Early,
// half by Likely, nine in ten by Late. A zero time is not within 300 days.
type Ready struct {
	Early, Likely, Late time.Time
	Within              float64 // share of members that are ready within 300 days
}

// readyMembers is how many members are followed until they are ready.
const readyMembers = 48

// never is no day.
const never = -1

// care is what is done to a heap on its way to ready.
type care struct {
	turnOn int  // day, or never
	water  bool // to 58 % whenever the core is dry
}

// fine is how many days the way to ready goes by the hour, and the strides
// after that (own choice).
var readyStrides = []struct{ untilDay, hours int64 }{{OutlookDays, 1}, {60, 6}, {ReadyDays, 24}}

// whenReady follows members until they are ready. Midnights are when it looks.
func (t *Track) whenReady(c care) Ready {
	a := t.ahead(t.now.some(readyMembers))
	days := make([]point, len(a.members))
	for i := range days {
		days[i] = point{math.Inf(1), 1}
	}
	start := a.hour
	waiting := len(days)
	look := func() {
		for i := range a.members {
			m := &a.members[i]
			if math.IsInf(days[i].value, 1) && m.ready() {
				days[i].value = float64(a.hour-start) / 24
				waiting--
			}
			if c.water && m.dry() {
				m.S.Wet(&m.P, m.S.WaterWanted(WaterTo), usualTempC)
			}
		}
	}
	look()
	for _, s := range readyStrides {
		for a.hour < start+24*s.untilDay && waiting > 0 {
			if c.turnOn != never && a.hour == start+24*int64(c.turnOn) {
				a.turn()
			}
			a.run(stepTo(a.hour, s.hours))
			if a.hour%24 == 0 {
				look()
			}
		}
	}
	return readyOf(days, moment(start))
}

// stepTo is how far it is to the next multiple of hours.
func stepTo(hour, hours int64) int64 { return hours - (hour%hours+hours)%hours }

func readyOf(days []point, from time.Time) Ready {
	r := Ready{}
	for _, d := range days {
		if !math.IsInf(d.value, 1) {
			r.Within += 1 / float64(len(days))
		}
	}
	b := band(days)
	date := func(days float64) time.Time {
		if !(days < ReadyDays+1) {
			return time.Time{}
		}
		return from.Add(time.Duration(days * 24 * float64(time.Hour)))
	}
	r.Early, r.Likely, r.Late = date(b.Low), date(b.Mid), date(b.High)
	return r
}
