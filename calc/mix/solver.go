package mix

import (
	"cmp"
	"math"
	"slices"

	"heapside/calc/fault"
	"heapside/calc/measure"
)

// Effort is what has to be carried, in litres plus kilograms: a bucket is a
// trip whatever it weighs, and a heavy one is a slow trip. Water counts half
// its weight, as a tap or a butt usually stands by the heaps. Own choice.
const (
	waterEffort = 0.5
	// minShare is the least share of the added volume a material may have;
	// less is a trace that nobody would fetch. Own choice.
	minShare = 0.05
	// maxTimes is how many times its own volume a blend may be added to it; beyond,
	// the answer is another heap. Own choice.
	maxTimes = 20
)

// unhandy is by how much more effort a material counts, by feedstock.Everyday,
// unless the group says what it has of it. Own choice.
var unhandy = [4]float64{12, 6, 2, 1}

// Of a material less degradable than woody, carbon comes too slowly to count on
// within a season. It is still counted in full, as in the published balances,
// but such a material counts as slowCarbon times the effort. Own choice.
const (
	woody      = 0.3
	slowCarbon = 2
)

// moreKinds is by how much more effort each further addition counts. Own choice.
const moreKinds = 1.3

// candidate is a material that may be added.
type candidate struct {
	Candidate
	one    Blend   // of one litre
	effort float64 // of one litre
	unhand float64
	capL   float64
}

// tensions are how far the aim is tightened, wanted first: the middle half of
// the windows holds after rounding and over most loads. Own choice.
var tensions = [...]float64{-0.5, -0.25, 0}

// solver looks for what to add to one blend.
type solver struct {
	aim      Aim
	measures measure.Measures
	base     Blend
	cands    []candidate
	full     limits
	inner    limits
	// cols[i] are the columns of all candidates at tensions[i]; bases the blend's.
	cols  [len(tensions)][]column
	bases [len(tensions)]column
}

func newSolver(base Blend, cands []candidate, aim Aim, m measure.Measures) *solver {
	s := &solver{aim: aim, measures: m, base: base, cands: cands, full: aim.at(0), inner: aim.at(tensions[0])}
	all := make([]column, len(tensions)*len(cands))
	for k, t := range tensions {
		l := aim.at(t)
		s.cols[k] = all[k*len(cands) : (k+1)*len(cands)]
		s.bases[k] = l.column(s.unit(), 0)
		for i := range cands {
			s.cols[k][i] = l.column(cands[i].one, cands[i].effort)
		}
	}
	return s
}

// unit is the base scaled to one litre, so that the programs of a thimble and
// of a windrow have coefficients of one size.
func (s *solver) unit() Blend { return s.base.Times(1 / s.base.VolumeL) }

// candidates checks and orders what may be added to litres of a blend. A
// material named twice counts once, with the larger stock.
func candidates(from []Candidate, litres float64) ([]candidate, error) {
	out := make([]candidate, 0, len(from))
	for i := range from {
		c := &from[i]
		if err := checkFeedstock(&c.Feedstock); err != nil {
			return nil, err
		}
		if math.IsNaN(c.MaxL) || c.MaxL < 0 {
			return nil, fault.New(fault.OutOfRange, "%g litres of %s is not a stock; give 0 or more.", c.MaxL, c.Feedstock.Name)
		}
		out = append(out, newCandidate(*c, litres))
	}
	slices.SortStableFunc(out, func(a, b candidate) int {
		return cmp.Or(cmp.Compare(a.Feedstock.ID, b.Feedstock.ID), cmp.Compare(b.capL, a.capL))
	})
	return slices.CompactFunc(out, func(a, b candidate) bool { return a.Feedstock.ID == b.Feedstock.ID }), nil
}

func newCandidate(c Candidate, litres float64) candidate {
	out := candidate{Candidate: c, one: loose(&c.Feedstock), unhand: 1, capL: maxTimes * litres}
	out.effort = 1 + out.one.MassKg()
	if d := c.Feedstock.Degradable.Typical; d > 0 && d < woody {
		out.unhand = slowCarbon
	}
	if c.MaxL > 0 {
		out.capL = min(out.capL, c.MaxL)
	} else {
		out.unhand *= unhandy[min(max(c.Feedstock.Everyday, 0), len(unhandy)-1)]
	}
	return out
}

// set is up to three candidates by number.
type set struct {
	of [maxAdditions]int
	n  int
}

func (g set) members() []int { return g.of[:g.n] }

// plan is a set with amounts that meet the aim before rounding.
type plan struct {
	set
	litres [maxAdditions]float64
	score  float64
}

// planAt solves one set at one tension.
func (s *solver) planAt(g set, k int) (plan, bool) {
	if !s.mends(g, k) {
		return plan{}, false
	}
	p := program{base: s.bases[k], n: g.n}
	for i, c := range g.members() {
		p.cols[i], p.caps[i] = &s.cols[k][c], s.cands[c].capL/s.base.VolumeL
	}
	x, ok := p.solve()
	if !ok {
		return plan{}, false
	}
	out := plan{set: g}
	for i := range g.n {
		out.litres[i] = x[i] * s.base.VolumeL
	}
	out.score = s.score(g, out.litres, p.effort(x)*s.base.VolumeL)
	return out, true
}

// plan solves one set in the middle of the aim, or else where it can be. It is
// false also when no plan of the set scores below limit.
func (s *solver) plan(g set, limit float64) (plan, bool) {
	const full = len(tensions) - 1
	widest, ok := s.planAt(g, full)
	if !ok || widest.score >= limit {
		return plan{}, false
	}
	for k := range full {
		if tight, ok := s.planAt(g, k); ok {
			return tight, true
		}
	}
	return widest, true
}

// mends is false when some inequality fails even with all of the stock that
// helps it.
func (s *solver) mends(g set, k int) bool {
	for r, v := range s.bases[k].rows {
		for _, c := range g.members() {
			v += max(0, s.cols[k][c].rows[r]) * s.cands[c].capL / s.base.VolumeL
		}
		if v < -epsilon {
			return false
		}
	}
	return true
}

// score is effort, weighed by how easily the materials are had and how many
// kinds have to be fetched.
func (s *solver) score(g set, litres [maxAdditions]float64, effort float64) float64 {
	var all, weighed float64
	for i, c := range g.members() {
		all += litres[i]
		weighed += litres[i] * s.cands[c].unhand
	}
	if all > 0 {
		effort *= weighed / all
	}
	for range g.n - 1 {
		effort *= moreKinds
	}
	return effort
}

// singles are the plans of one material, by score.
func (s *solver) singles() []plan {
	var out []plan
	for i := range s.cands {
		if p, ok := s.plan(set{of: [maxAdditions]int{i}, n: 1}, math.Inf(1)); ok {
			out = append(out, p)
		}
	}
	return byScore(out)
}

// pairs are the plans of two materials, by score, without those that one of the
// two alone does as well: the other would contribute nothing.
func (s *solver) pairs(singles []plan) []plan {
	alone := make([]float64, len(s.cands))
	for i := range alone {
		alone[i] = math.Inf(1)
	}
	for _, p := range singles {
		alone[p.of[0]] = p.score
	}
	var out []plan
	for i := range s.cands {
		for j := i + 1; j < len(s.cands); j++ {
			if p, ok := s.plan(set{of: [maxAdditions]int{i, j}, n: 2}, min(alone[i], alone[j])); ok {
				out = append(out, p)
			}
		}
	}
	return byScore(out)
}

// triples are the plans of three materials, by score.
func (s *solver) triples() []plan {
	var out []plan
	s.eachTriple(tripleLength, func(g set) {
		if p, ok := s.plan(g, math.Inf(1)); ok {
			out = append(out, p)
		}
	})
	return byScore(out)
}

// eachTriple visits every three of the shortlist.
func (s *solver) eachTriple(length int, visit func(set)) {
	short := s.shortlist(sequence(len(s.cands)), length)
	for a, i := range short {
		for b, j := range short[a+1:] {
			for _, k := range short[a+b+2:] {
				visit(set{of: [maxAdditions]int{i, j, k}, n: 3})
			}
		}
	}
}

func byScore(plans []plan) []plan {
	slices.SortFunc(plans, func(a, b plan) int {
		return cmp.Or(cmp.Compare(a.score, b.score), slices.Compare(a.of[:], b.of[:]))
	})
	return plans
}

// How many candidates are tried three at a time: to meet the aim, and to find
// the nearest miss.
const (
	tripleLength = 64
	missLength   = 16
)

// shortlist is at most length of the candidates given by number: for each
// inequality, and then for each two at once, those that help most with all
// their stock and those that help most for their effort. A blend that three
// materials mend and no two is short of two or three things; the materials that
// mend them best are here.
func (s *solver) shortlist(from []int, length int) []int {
	if len(from) <= length {
		return from
	}
	cols := s.cols[len(tensions)-1]
	var largest [rowCount]float64
	for _, i := range from {
		for r, v := range cols[i].rows {
			largest[r] = max(largest[r], math.Abs(v))
		}
	}
	var short []int
	pick := func(r, q int, worth func(i int) float64) {
		top, most := -1, 0.0
		for _, i := range from {
			help := (cols[i].rows[r]/largest[r] + cols[i].rows[q]/largest[q]) * worth(i)
			if help > most && !slices.Contains(short, i) {
				top, most = i, help
			}
		}
		if top >= 0 && len(short) < length {
			short = append(short, top)
		}
	}
	stock := func(i int) float64 { return s.cands[i].capL }
	ease := func(i int) float64 { return 1 / (cols[i].effort * s.cands[i].unhand) }
	base := s.bases[len(tensions)-1].rows
	for apart := range rowCount {
		for r := range rowCount - apart {
			if q := r + apart; base[r] < 0 || base[q] < 0 {
				pick(r, q, stock)
				pick(r, q, ease)
			}
		}
	}
	slices.Sort(short)
	return short
}

func sequence(n int) []int {
	out := make([]int, n)
	for i := range out {
		out[i] = i
	}
	return out
}
