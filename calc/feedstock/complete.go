package feedstock

import (
	"cmp"
	"slices"
	"strings"
)

// Complete is at most n materials that the typed text may become, by their names
// in the table's own language or in English, the best first. Nothing typed gives
// the most everyday ones.
func (t *Table) Complete(typed string, n int) []Feedstock {
	if n <= 0 {
		return nil
	}
	text := strings.Join(split(typed), " ")
	ranks := map[int]int{}
	if text != "" {
		ranks = t.completions(text)
		if len(ranks) == 0 {
			return t.mended(typed, n)
		}
	}
	list := make([]int, 0, len(t.stocks))
	for i := range t.stocks {
		if _, ok := ranks[i]; ok || text == "" {
			list = append(list, i)
		}
	}
	slices.SortFunc(list, func(a, b int) int {
		return cmp.Or(
			cmp.Compare(ranks[a]/inside, ranks[b]/inside),
			cmp.Compare(t.stocks[b].Everyday, t.stocks[a].Everyday),
			cmp.Compare(ranks[a], ranks[b]),
			byUse(t.stocks[a], t.stocks[b]))
	})
	out := make([]Feedstock, 0, min(n, len(list)))
	for _, i := range list[:min(n, len(list))] {
		out = append(out, t.stocks[i])
	}
	return out
}

// completions ranks the materials text may become: 0 the name begins with it,
// 1 an alias does, 2 a later word of either does.
func (t *Table) completions(text string) map[int]int {
	ranks := map[int]int{}
	for i, f := range t.stocks {
		best := rank(f.Name, text, 0)
		for _, alias := range f.Aliases {
			best = min(best, rank(alias, text, 1))
		}
		if n, ok := t.own.naming(f); ok {
			best = min(best, n.rank(text))
		}
		if best < unranked {
			ranks[i] = best
		}
	}
	return ranks
}

const (
	inside   = 2
	unranked = 3
)

func (n naming) rank(text string) int {
	best := rank(n.plain[0], text, 0)
	for _, w := range n.plain[1:] {
		best = min(best, rank(w, text, 1))
	}
	return best
}

func rank(name, text string, whole int) int {
	switch name = strings.ToLower(name); {
	case strings.HasPrefix(name, text):
		return whole
	case strings.Contains(name, " "+text):
		return inside
	}
	return unranked
}

// mended is what Find makes of a text that nothing begins with.
func (t *Table) mended(typed string, n int) []Feedstock {
	m := t.Find(typed)
	if m.Outcome == Found || m.Outcome == Guessed {
		return []Feedstock{m.Feedstock}
	}
	return m.Near[:min(n, len(m.Near))]
}
