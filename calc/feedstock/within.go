package feedstock

import (
	"cmp"
	"slices"
)

// claim is the best that the words make of materials, or of refusals: the
// entries that name most of them with the fewest slips.
type claim struct {
	at     []int
	weight float64
	slips  int
}

func (c *claim) offer(at int, weight float64, slips int) {
	switch order := cmp.Or(cmp.Compare(weight, c.weight), cmp.Compare(c.slips, slips)); {
	case len(c.at) == 0 || order > 0:
		*c = claim{[]int{at}, weight, slips}
	case order == 0:
		c.at = append(c.at, at)
	}
}

// understood is every index word the typed words may stand for with the slips
// that takes, and the weight of the words that stand for none.
func (x *index) understood(words []word) (cost map[string]int, lost float64) {
	cost = map[string]int{}
	for _, w := range words {
		readings := x.readings(w)
		if len(readings) == 0 {
			lost += x.grammar.weightOf(w.folded)
		}
		for reading, n := range readings {
			if old, ok := cost[reading]; !ok || n < old {
				cost[reading] = n
			}
		}
	}
	return cost, lost
}

// within matches the most specific names that are wholly among the words.
func (s search) within(words []word) (Match, bool) {
	cost, lost := s.index.understood(words)
	var stock, refusal claim
	for i, e := range s.index.entries {
		n, ok := e.among(cost)
		switch {
		case !ok:
		case e.refusal >= 0:
			refusal.offer(i, e.weight, n)
		default:
			stock.offer(i, e.weight, n)
		}
	}
	if s.outranks(refusal, stock) {
		return mended(refusal.slips)(s.decide(refusal.at, Found))
	}
	if len(stock.at) == 0 {
		return Match{}, false
	}
	best := s.index.entries[stock.at[0]]
	passedOver := slices.ContainsFunc(folded(words), func(w string) bool {
		return !s.index.grammar.qualifiers[w] && !slices.Contains(best.words, w)
	})
	switch {
	case best.weight < 1 && passedOver:
		return Match{}, false // only a qualifier was recognised
	case stock.slips > 0 && lost >= best.weight:
		return Match{}, false // a slip mended among words that mean nothing here
	case stock.slips > 0, passedOver:
		return mended(stock.slips)(s.decide(stock.at, Guessed))
	}
	return s.decide(stock.at, Found)
}

// among is the number of slips it takes to read all words of e, if they are
// there.
func (e entry) among(cost map[string]int) (slips int, ok bool) {
	for _, w := range e.words {
		n, ok := cost[w]
		if !ok {
			return 0, false
		}
		slips += n
	}
	return slips, true
}

// outranks reports whether the words name what is refused rather than a
// material: "scraps with meat" does, "fish, blood and bone" does not.
func (s search) outranks(refusal, stock claim) bool {
	if len(refusal.at) == 0 {
		return false
	}
	if len(stock.at) == 0 {
		return true
	}
	if refusal.slips > 1 || refusal.slips == 1 && stock.slips > 0 {
		return refusal.weight > stock.weight || refusal.weight == stock.weight && refusal.slips < stock.slips
	}
	banned := s.index.entries[refusal.at[0]].words
	named := s.index.entries[stock.at[0]].words
	return slices.ContainsFunc(banned, func(w string) bool { return !slices.Contains(named, w) })
}
