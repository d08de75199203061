package process

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
	Why       string     // what the guards say of that day
}

// How turn days are judged (own choice).
const (
	turnMembers  = 50
	aboutAsGood  = 0.02 // of the solids lost by the horizon
	leastGain    = 1.0  // days that make turning worth its work
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
	{"the core is above 65 °C", func(m *member) bool { return m.S.Core.T > tooHotC }},
	{"the core is short of air", func(m *member) bool { return m.S.Core.O2 < airlessO2 }},
	{"the core has cooled below 40 °C after being hot", func(m *member) bool { return m.S.Core.T < tooCoolC && m.PeakC >= heatedC }},
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

// compareTurns tries every day with the same chances.
func (t *Track) compareTurns() Turning {
	plain := t.ahead(t.now.some(turnMembers))
	n := len(plain.members)
	// peaks[d][i] is the hottest core of member i, left alone, on day d.
	peaks := make([][]float64, turnHorizon)
	branches := make([]ahead, 0, outlookDays+1)
	whys := make([]string, 0, outlookDays+1)
	started := totals(plain.members)
	late := started
	for d := range peaks {
		if d <= outlookDays {
			branch := plain
			branch.members = append([]member(nil), plain.members...)
			branches = append(branches, branch)
			whys = append(whys, asks(plain.members))
		}
		if d == turnHorizon-7 {
			late = totals(plain.members)
		}
		peaks[d] = make([]float64, n)
		for range 24 {
			plain.run(1)
			for i := range plain.members {
				peaks[d][i] = max(peaks[d][i], plain.members[i].S.Core.T)
			}
		}
	}
	suffixMax(peaks)
	end := totals(plain.members)
	trials := make([]trial, len(branches))
	for d := range branches {
		b := &branches[d]
		b.turn()
		for i := range b.members {
			b.members[i].PeakC = b.members[i].S.Core.T
		}
		b.to(plain.hour)
		trials[d] = compare(b.members, started, late, end, peaks[d])
		trials[d].why = whys[d]
	}
	without := 0.0
	for i := range end {
		without += (started[i] - end[i]) / float64(n)
	}
	out := judge(trials, without)
	out.Worth = out.Worth && t.now.share((*member).ready) <= 0.5
	return out
}

// compare sets members that were turned against the same ones left alone: their
// degradable solids at the start, a week before the end and at the end, and the
// hottest core from the day of the turn on.
func compare(turned []member, started, late, end, peak []float64) trial {
	var r trial
	left := totals(turned)
	for i := range turned {
		r.lost += (started[i] - left[i]) / float64(len(turned))
		perDay := max((late[i]-end[i])/7, 1e-6)
		r.days = append(r.days, point{within((end[i]-left[i])/perDay, -mostGainDays, mostGainDays), 1})
		r.c = append(r.c, point{turned[i].PeakC - peak[i], 1})
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

// judge turns trials, one per day from now, into ranges. Without is the solids
// lost by the horizon when nobody turns.
func judge(trials []trial, without float64) Turning {
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
	out.Worth = trials[best].lost > without && out.Ranges[0].GainDays.Mid >= leastGain
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
