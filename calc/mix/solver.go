package mix

import (
	"cmp"
	"math"
	"slices"
	"strings"

	"heapside/calc/measure"
)

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
	out, effort, ok := s.solve(&p, g)
	if ok {
		out.score = s.score(g, out.litres, effort)
	}
	return out, ok
}

// solve is the plan of a set's program, not scored, and its effort.
func (s *solver) solve(p *program, g set) (out plan, effort float64, ok bool) {
	x, ok := p.solve()
	if !ok {
		return plan{}, 0, false
	}
	out = plan{set: g}
	for i := range g.n {
		out.litres[i] = x[i] * s.base.VolumeL
	}
	return out, p.effort(x) * s.base.VolumeL, true
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
	for i := range g.n {
		if i > 0 {
			effort *= moreKinds
		}
		for j := range i {
			if s.family(g.of[i]) == s.family(g.of[j]) {
				effort *= sameKind
			}
		}
	}
	return effort
}

// family is the first word of a material's id: leaves of oak and of beech are
// of one.
func (s *solver) family(candidate int) string {
	family, _, _ := strings.Cut(s.cands[candidate].Feedstock.ID, "-")
	return family
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
