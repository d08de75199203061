package hygiene

import (
	"cmp"
	"time"

	"heapside/calc/heap"
)

// Status is how far a rule's time and temperature was reached.
type Status string

// The statuses, best first.
const (
	Reached  Status = "reached"          // as the readings alone show
	Probably Status = "probably reached" // as the estimate between readings shows
	NotYet   Status = "not reached"
)

// Count is what was kept of a rule: time at its temperature, time at its peak,
// turnings while hot. Of a rule that asks for unbroken time it is the best run.
type Count struct {
	Hot, Peak time.Duration
	Turns     int
}

// Lack is what is missing of a rule; the zero value is nothing.
type Lack Count

// Moisture says whether a rule's least moisture was felt.
type Moisture string

// The answers on moisture.
const (
	MoistUnasked Moisture = ""        // the rule does not say
	MoistUnknown Moisture = "unknown" // no squeeze test since the heap was filled, or too near the limit
	MoistEnough  Moisture = "enough"
	TooDry       Moisture = "too dry"
)

// Finding is one rule held against one heap. Certain is what readings close
// together show, Probable what lies between readings by the estimate or a
// straight line, Cautious the same by the low end of the estimate's band.
type Finding struct {
	Rule                        Rule
	Status                      Status
	Certain, Cautious, Probable Count
	Missing                     Lack // to be reached for certain
	MissingProbably             Lack // by the estimate
	Moisture                    Moisture
}

// Report is every rule held against one heap, in the order of Rules, with what
// the answer rests on.
type Report struct {
	Findings []Finding
	Basis    Basis
	Severity Severity
}

// Evaluate holds what was read since the heap was last filled against each
// rule. Without a curve it takes a straight line between readings at most three
// days apart as probable.
func Evaluate(s heap.State, c Curve) Report {
	e := evaluation{series: gather(s), mid: c.line(s.Now, mid), low: c.line(s.Now, low), hot: map[band]heat{}}
	report := Report{Basis: e.basis(s), Severity: e.severity()}
	for _, r := range Rules() {
		f := e.find(r)
		f.Moisture = moisture(r.MoistPct, felt(s))
		report.Findings = append(report.Findings, f)
	}
	return report
}

// Held is how long the middle stood at c Celsius or above since the heap was
// last filled: as readings close together show, and probably.
func Held(s heap.State, curve Curve, c float64) (certain, probable time.Duration) {
	from := gather(s)
	b := Hold{C: c}.band()
	return total(from.certain(b)), total(from.probable(b, curve.line(s.Now, mid)))
}

// evaluation works each band of temperature out once.
type evaluation struct {
	series
	mid, low line // of the estimate
	hot      map[band]heat
}

// The levels of knowledge.
const (
	certainly = iota
	cautiously
	probably
	levels
)

// heat is when the heap was in a band, and turned meanwhile, at each level.
type heat struct {
	spans [levels][]span
	turns [levels][]turn
}

func (e evaluation) heat(b band) heat {
	if h, ok := e.hot[b]; ok {
		return h
	}
	var h heat
	h.spans[certainly], h.spans[probably] = e.certain(b), e.probable(b, e.mid)
	h.turns[certainly], h.turns[probably] = e.hotTurns(b, nil), e.hotTurns(b, h.spans[probably])
	if len(e.low) > 0 {
		h.spans[cautiously] = e.probable(b, e.low)
		h.turns[cautiously] = e.hotTurns(b, h.spans[cautiously])
	}
	e.hot[b] = h
	return h
}

func (e evaluation) find(r Rule) Finding {
	f := Finding{Rule: r, Status: NotYet}
	f.Certain, f.Probable = e.count(r, certainly), e.count(r, probably)
	f.Cautious = f.Probable
	if len(e.low) > 0 { // with an upper limit its low end may lie in the band and its middle above
		f.Cautious = e.count(r, cautiously).most(f.Probable)
	}
	f.Missing, f.MissingProbably = r.lack(f.Certain), r.lack(f.Probable)
	switch {
	case f.Missing == Lack{}:
		f.Status = Reached
	case f.MissingProbably == Lack{}:
		f.Status = Probably
	}
	return f
}

// count is what a level of knowledge shows of a rule: all of it, or of a rule
// that asks for unbroken time the first run that meets it, else the one that
// comes nearest.
func (e evaluation) count(r Rule, level int) Count {
	hold := e.heat(r.Hold.band())
	var peak []span
	if r.Peak.For > 0 {
		peak = e.heat(r.Peak.band()).spans[level]
	}
	spacing := max(oneTurning, r.Apart)
	if !r.Unbroken {
		return Count{total(hold.spans[level]), total(peak), apart(hold.turns[level], spacing)}
	}
	var best Count
	missing := r.lack(best)
	for _, run := range hold.spans[level] {
		if days := ceil(r.Hold.For-run.length(), day); days > ceil(missing.Hot, day) {
			continue // short of the best, whatever else it has
		}
		c := Count{Hot: run.length(), Peak: inside(peak, run), Turns: apart(shown(hold.turns[level], run), spacing)}
		if l := r.lack(c); l == (Lack{}) {
			return c
		} else if l.less(missing) {
			best, missing = c, l
		}
	}
	return best
}

// less orders what is missing: by whole days, then by turnings, then by time.
func (l Lack) less(o Lack) bool {
	return cmp.Or(cmp.Compare(ceil(l.Hot, day), ceil(o.Hot, day)), cmp.Compare(l.Turns, o.Turns),
		cmp.Compare(l.Hot, o.Hot), cmp.Compare(l.Peak, o.Peak)) < 0
}

// within says that nothing more is missing than in o.
func (l Lack) within(o Lack) bool { return l.Hot <= o.Hot && l.Peak <= o.Peak && l.Turns <= o.Turns }

func (c Count) most(o Count) Count {
	return Count{min(c.Hot, o.Hot), min(c.Peak, o.Peak), min(c.Turns, o.Turns)}
}

// lack is what a count leaves to be done.
func (r Rule) lack(c Count) Lack {
	return Lack{
		Hot:   max(0, r.Hold.For-c.Hot),
		Peak:  max(0, r.Peak.For-c.Peak),
		Turns: max(0, r.Turns-c.Turns),
	}
}

// squeezes are the bands of moisture, % by weight, of the squeeze classes (see
// package heap).
var squeezes = map[heap.Squeeze][2]float64{
	heap.Crumbles: {0, 40}, heap.Holds: {40, 50}, heap.Drops: {50, 60}, heap.Drips: {60, 65}, heap.Runs: {65, 100},
}

// felt is the band of the last squeeze test since the heap was filled; 0 to 100
// when there is none.
func felt(s heap.State) [2]float64 {
	b, ok := squeezes[s.Squeeze]
	if !ok || s.SqueezeAt.Before(s.RefilledAt) {
		return [2]float64{0, 100}
	}
	return b
}

// moisture holds a band of moisture against the least a rule asks for.
func moisture(least float64, band [2]float64) Moisture {
	switch {
	case least == 0:
		return MoistUnasked
	case band[0] >= least:
		return MoistEnough
	case band[1] <= least:
		return TooDry
	}
	return MoistUnknown
}
