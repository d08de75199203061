package mix

const (
	// worth is how many steps nearer a further material must bring the blend
	// before the nearest miss asks for it (own choice).
	worth = 0.1
	// halvings bound how finely the least violation is found.
	halvings = 16
)

// closest is the rounded set that misses the aim by least. Each larger set is
// first asked whether it comes nearer than the best so far, which is one linear
// program; only then is its own least violation sought.
func (s *solver) closest() option {
	least := s.aim.violation(s.base)
	best := plan{}
	consider := func(g set, margin float64) {
		if _, ok := s.loose(g, least-margin); ok {
			least = s.leastViolation(g, least-margin)
			// A hair looser than least, the effort is much less.
			if p, ok := s.loose(g, least+worth/2); ok {
				best = p
			}
		}
	}
	consider(set{}, 0)
	for i := range s.cands {
		consider(set{of: [maxAdditions]int{i}, n: 1}, margin(best, 1))
	}
	for i := range s.cands {
		for j := i + 1; j < len(s.cands); j++ {
			consider(set{of: [maxAdditions]int{i, j}, n: 2}, margin(best, 2))
		}
	}
	s.eachTriple(missLength, func(g set) { consider(g, margin(best, 3)) })
	return s.nearest(best)
}

// margin is how much nearer a set of n must come than the best so far.
func margin(best plan, n int) float64 {
	if n > best.n {
		return worth
	}
	return 1e-6
}

// loose solves a set with the aim loosened by t steps.
func (s *solver) loose(g set, t float64) (plan, bool) {
	if t < 0 {
		return plan{}, false
	}
	l := s.aim.at(t)
	p := program{base: l.column(s.unit(), 0), n: g.n}
	var cols [maxAdditions]column
	for i, c := range g.members() {
		cols[i] = l.column(s.cands[c].one, s.cands[c].effort)
		p.cols[i], p.caps[i] = &cols[i], s.cands[c].capL/s.base.VolumeL
	}
	out, _, ok := s.solve(&p, g)
	return out, ok
}

// leastViolation halves [0, within], which the set can reach at its upper end.
func (s *solver) leastViolation(g set, within float64) float64 {
	low, high := 0.0, within
	for range halvings {
		mid := (low + high) / 2
		if _, ok := s.loose(g, mid); ok {
			high = mid
		} else {
			low = mid
		}
	}
	return high
}
