package mix

import (
	"math"

	"heapside/calc/feedstock"
)

// fixReach is how many of the candidates are tried two at a time beside the one
// further material.
const fixReach = 8

// fix looks for the one further material, the most everyday first, that makes the
// aim reachable when added to the candidates. It is nil when none does.
func (s *solver) fix(everything []feedstock.Feedstock, d *drawn) (*Recipe, error) {
	for _, size := range []int{2, 3} {
		for everyday := 3; everyday >= 1; everyday-- {
			wider, further, err := s.widen(everything, everyday)
			if err != nil {
				return nil, err
			}
			options := wider.roundAll(nil, wider.plansWith(further, size), enoughPairs, 1)
			for _, o := range wider.choose(options, d, 1) {
				r := wider.recipe(o, d)
				return &r, nil
			}
		}
	}
	return nil, nil
}

// widen adds the materials of one Everyday to the candidates, and says which
// candidates are the further ones. More of what the stock limits is one of them.
func (s *solver) widen(everything []feedstock.Feedstock, everyday int) (*solver, []bool, error) {
	known := make(map[string]bool, len(s.cands))
	var from []Candidate
	for i := range s.cands {
		known[s.cands[i].Feedstock.ID] = s.cands[i].MaxL == 0
		from = append(from, s.cands[i].Candidate)
	}
	for i := range everything {
		if f := everything[i]; f.Everyday == everyday && !known[f.ID] {
			from = append(from, Candidate{Feedstock: f})
		}
	}
	cands, err := candidates(from, s.base.VolumeL)
	if err != nil {
		return nil, nil, err
	}
	further := make([]bool, len(cands))
	for i := range cands {
		further[i] = cands[i].MaxL == 0 && !known[cands[i].Feedstock.ID]
	}
	return newSolver(s.base, cands, s.aim, s.measures), further, nil
}

// plansWith are the plans of one further material alone and with one of the
// candidates, or for size 3 with two of those of the shortlist.
func (s *solver) plansWith(further []bool, size int) []plan {
	var out []plan
	try := func(g set) {
		if p, ok := s.plan(g, math.Inf(1)); ok {
			out = append(out, p)
		}
	}
	var old []int
	for _, j := range sequence(len(s.cands)) {
		if !further[j] {
			old = append(old, j)
		}
	}
	for i := range s.cands {
		if !further[i] {
			continue
		}
		if size == 2 {
			try(set{of: [maxAdditions]int{i}, n: 1})
			for _, j := range old {
				try(set{of: [maxAdditions]int{i, j}, n: 2})
			}
			continue
		}
		few := s.shortlist(old, fixReach)
		for a, j := range few {
			for _, k := range few[a+1:] {
				try(set{of: [maxAdditions]int{i, j, k}, n: 3})
			}
		}
	}
	return byScore(out)
}
