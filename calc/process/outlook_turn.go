package process

import "slices"

// TurnDays is a range of days from now, both included, on which turning does
// about the same.
type TurnDays struct {
	From, To  int
	GainDays  Band // by how many days the heap is further after three weeks than unturned
	GainC     Band // how much hotter the core gets after the turn than it would
	CalledFor bool // the heap asks for it then: see guards
}

// Turning compares turning on each of the next 14 days with not turning.
type Turning struct {
	Ranges    []TurnDays // at most three, the best first
	Worth     bool       // the best gains at least a day, and the heap is not ready
	Flat      bool       // any of the next 14 days is about as good
	CalledFor int        // the earliest day of the best range on which the guards ask for it; never (-1)
	Why       string     // what the guards say of that day, without degrees
}

// How turn days are judged (own choice).
const (
	turnMembers  = 50
	aboutAsGood  = 0.02 // of the solids lost by the horizon
	leastGain    = 1.0  // days that make turning worth its work, if
	leastShare   = 0.01 // of what can still rot is gained by it
	mostGainDays = 60
	tooHotC      = 65.0
	tooCoolC     = 40.0
	restH        = 3 * 24 // after a turn
)

// guards are why a heap asks to be turned; the first that holds for at least
// half of the members counts. 65 and 40 C are own choice, near the 60 and 32 C
// of Cornell Fact Sheet 7 (seen).
var guards = []struct {
	why   string
	holds func(*member) bool
}{
	{"the core is too hot for most of what works in it", func(m *member) bool { return m.S.Core.T > tooHotC }},
	{"the core is short of air", func(m *member) bool { return m.S.Core.O2 < airlessO2 }},
	{"the core has cooled after being hot", func(m *member) bool { return m.S.Core.T < tooCoolC && m.PeakC >= heatedC }},
}

// day is the day to turn: the earliest called for of the best range, else its
// first; never when turning is not worth it.
func (t Turning) day() int {
	switch {
	case !t.Worth || len(t.Ranges) == 0:
		return never
	case t.CalledFor != never:
		return t.CalledFor
	}
	return t.Ranges[0].From
}

// trial is what turning on one day does to each member by the horizon.
type trial struct {
	lost float64 // kg of degradable solids, mean over members
	days []point // gained
	c    []point // gained
	why  string  // the guard that asks for it
}

// alone is what members do that nobody turns, up to the horizon.
type alone struct {
	until              int64
	started, late, end []float64   // degradable solids of each: now, a week before the horizon, then
	hottest            [][]float64 // by day, the hottest core of each from that day on
	mornings           []ahead     // the members as they begin each day that is tried
	whys               []string    // the guard that asks for a turn then
}

func (t *Track) leaveAlone() alone {
	a := t.ahead(t.now.some(turnMembers))
	out := alone{started: totals(a.members)}
	for d := range TurnHorizonDays {
		if d <= OutlookDays {
			morning := a
			morning.members = slices.Clone(a.members)
			out.mornings = append(out.mornings, morning)
			out.whys = append(out.whys, asks(a.members))
		}
		if d == TurnHorizonDays-7 {
			out.late = totals(a.members)
		}
		hot := make([]float64, len(a.members))
		for range 24 {
			a.run(1)
			for i := range a.members {
				hot[i] = max(hot[i], a.members[i].S.Core.T)
			}
		}
		out.hottest = append(out.hottest, hot)
	}
	suffixMax(out.hottest)
	out.until, out.end = a.hour, totals(a.members)
	return out
}

// compareTurns tries every day with the same chances.
func (t *Track) compareTurns() Turning {
	left := t.leaveAlone()
	trials := make([]trial, len(left.mornings))
	for d := range trials {
		m := &left.mornings[d]
		m.turn()
		for i := range m.members {
			m.members[i].PeakC = m.members[i].S.Core.T
		}
		m.to(left.until)
		trials[d] = left.compare(m.members, left.hottest[d])
		trials[d].why = left.whys[d]
	}
	return judge(trials, mean(left.started), mean(left.started)-mean(left.end))
}

// compare sets members that were turned against the same ones left alone, whose
// hottest cores from the day of the turn on are given.
func (a *alone) compare(turned []member, hottest []float64) trial {
	var r trial
	have := totals(turned)
	for i := range turned {
		r.lost += (a.started[i] - have[i]) / float64(len(turned))
		perDay := max((a.late[i]-a.end[i])/7, 1e-6)
		r.days = append(r.days, point{within((a.end[i]-have[i])/perDay, -mostGainDays, mostGainDays), 1})
		r.c = append(r.c, point{turned[i].PeakC - hottest[i], 1})
	}
	return r
}

// totals are the degradable solids of each member in kg.
func totals(members []member) []float64 {
	out := make([]float64, len(members))
	for i := range members {
		c, m := &members[i].S.Core, &members[i].S.Mantle
		out[i] = c.Fast + c.Slow + m.Fast + m.Slow
	}
	return out
}

// suffixMax makes each row the highest of itself and those after it.
func suffixMax(rows [][]float64) {
	for d := len(rows) - 2; d >= 0; d-- {
		for i := range rows[d] {
			rows[d][i] = max(rows[d][i], rows[d+1][i])
		}
	}
}

// asks is the guard that holds for at least half of the members, "" for none.
func asks(members []member) string {
	for _, g := range guards {
		n := 0
		for i := range members {
			if m := &members[i]; m.OpenedH >= restH && g.holds(m) {
				n++
			}
		}
		if 2*n >= len(members) {
			return g.why
		}
	}
	return ""
}

func mean(v []float64) float64 {
	sum := 0.0
	for _, x := range v {
		sum += x
	}
	return sum / float64(len(v))
}

// judge turns trials, one per day from now, into ranges. Have is the degradable
// solids there are, without what is lost of them by the horizon when nobody turns.
func judge(trials []trial, have, without float64) Turning {
	best := 0
	for d := range trials {
		if trials[d].lost > trials[best].lost {
			best = d
		}
	}
	good := func(d int) bool { return trials[d].lost >= (1-aboutAsGood)*trials[best].lost }
	from, to := best, best
	for from > 0 && good(from-1) {
		from--
	}
	for to < len(trials)-1 && good(to+1) {
		to++
	}
	out := Turning{CalledFor: never, Flat: from == 0 && to == len(trials)-1}
	for _, r := range [][2]int{{from, to}, {0, from - 1}, {to + 1, len(trials) - 1}} {
		if r[0] <= r[1] {
			out.Ranges = append(out.Ranges, daysOf(trials, r[0], r[1]))
		}
	}
	for d := from; d <= to && out.CalledFor == never; d++ {
		if trials[d].why != "" {
			out.CalledFor, out.Why = d, trials[d].why
		}
	}
	out.Worth = trials[best].lost-without >= leastShare*have && out.Ranges[0].GainDays.Mid >= leastGain
	return out
}

func daysOf(trials []trial, from, to int) TurnDays {
	r := TurnDays{From: from, To: to}
	var days, c []point
	for d := from; d <= to; d++ {
		days = append(days, trials[d].days...)
		c = append(c, trials[d].c...)
		r.CalledFor = r.CalledFor || trials[d].why != ""
	}
	r.GainDays, r.GainC = band(days), band(c)
	return r
}
