package feedstock

import (
	"cmp"
	"slices"
	"strings"
)

// maxNear and maxWeak bound the suggestions a person is asked to choose from
// (own choice).
const (
	maxNear = 4
	maxWeak = 3
)

// Find looks up a material by the words people use: names and aliases in any
// word order, singular or plural, British or American; then the most specific
// name among the words; then completions; then typing slips. A Refusal whose
// words are all there goes before every material that does not name it.
func (t *Table) Find(text string) Match {
	if f, ok := t.named(strings.ToLower(strings.TrimSpace(text))); ok {
		return Match{Outcome: Found, Feedstock: f}
	}
	words := read(text)
	if len(words) == 0 {
		return Match{}
	}
	for _, look := range []func([]word) (Match, bool){t.exact, t.completion, t.within, t.runTogether, t.beginning} {
		if m, ok := look(words); ok {
			return m
		}
	}
	return Match{Near: t.weak(words)}
}

// named is the material of exactly this ID or name.
func (t *Table) named(text string) (Feedstock, bool) {
	if f, ok := t.ByID(text); ok {
		return f, true
	}
	if i, ok := t.byName[text]; ok {
		return t.stocks[i], true
	}
	return Feedstock{}, false
}

// exact matches all words of a name or alias and no other.
func (t *Table) exact(words []word) (Match, bool) {
	at := t.index.byWords[sortedKey(folded(words))]
	if len(at) == 0 {
		at = t.index.byLetter[together(words, func(w word) string { return w.folded })]
	}
	if len(at) == 0 {
		at = t.index.byLetter[together(words, func(w word) string { return w.raw })]
	}
	return t.decide(at, Found)
}

func together(words []word, part func(word) string) string {
	var b strings.Builder
	for _, w := range words {
		b.WriteString(part(w))
	}
	return b.String()
}

// completion matches a word broken off, when only one material goes on so.
func (t *Table) completion(words []word) (Match, bool) {
	if t.index.isKnown(words) {
		return Match{}, false
	}
	m, ok := t.beginning(words)
	return m, ok && m.Outcome == Guessed
}

// beginning matches names whose words begin with all of the words, those of as
// many words before longer ones.
func (t *Table) beginning(words []word) (Match, bool) {
	if letters(words[len(words)-1].raw) < 3 {
		return Match{}, false
	}
	var whole, part []int
	for i, e := range t.index.entries {
		switch {
		case e.refusal >= 0 || !e.begins(words):
		case len(e.words) == len(words):
			whole = append(whole, i)
		default:
			part = append(part, i)
		}
	}
	if len(whole) > 0 {
		return t.decide(whole, Guessed)
	}
	return t.decide(part, Guessed)
}

func (e entry) begins(words []word) bool {
	for _, w := range words {
		starts := func(of string) bool { return strings.HasPrefix(of, w.raw) || strings.HasPrefix(of, w.folded) }
		if !slices.ContainsFunc(e.raws, starts) && !slices.ContainsFunc(e.words, starts) {
			return false
		}
	}
	return len(words) <= len(e.words)
}

// runTogether matches words that were joined, parted and mistyped at once.
func (t *Table) runTogether(words []word) (Match, bool) {
	typed := together(words, func(w word) string { return w.raw })
	limit := min(slips(letters(typed)), 2)
	if limit == 0 {
		return Match{}, false
	}
	var at []int
	whole := spell(typed)
	for _, key := range t.index.joined {
		if len(key.text) < 6 || !alike(typed, key.text) {
			continue
		}
		d := whole.distance(key, limit)
		if d > limit {
			continue
		}
		if d < limit {
			limit = d
			at = at[:0]
		}
		at = append(at, t.index.byLetter[key.text]...)
	}
	return t.decide(at, Guessed)
}

// decide turns entries that match equally well into an answer: a refusal before
// any material.
func (t *Table) decide(at []int, one Outcome) (Match, bool) {
	stocks := map[int]bool{}
	refused := -1
	for _, i := range at {
		e := t.index.entries[i]
		if e.refusal >= 0 {
			refused = max(refused, e.refusal)
			continue
		}
		stocks[e.stock] = true
	}
	switch {
	case refused >= 0:
		return Match{Outcome: Banned, Refusal: t.refusals[refused]}, true
	case len(stocks) == 0:
		return Match{}, false
	}
	near := make([]Feedstock, 0, len(stocks))
	for i := range stocks {
		near = append(near, t.stocks[i])
	}
	if len(near) == 1 {
		return Match{Outcome: one, Feedstock: near[0]}, true
	}
	slices.SortFunc(near, byUse)
	return Match{Outcome: Ambiguous, Near: near[:min(len(near), maxNear)]}, true
}

// weak suggests materials that share a word, the fullest match first.
func (t *Table) weak(words []word) []Feedstock {
	cost, _ := t.index.understood(words)
	share := map[int]float64{}
	for _, e := range t.index.entries {
		if e.stock < 0 {
			continue
		}
		sum := 0.0
		for _, w := range e.words {
			if _, ok := cost[w]; ok {
				sum += weightOf(w)
			}
		}
		if sum > 0 {
			share[e.stock] = max(share[e.stock], sum/e.weight)
		}
	}
	at := make([]int, 0, len(share))
	for i := range share {
		at = append(at, i)
	}
	slices.SortFunc(at, func(a, b int) int {
		return cmp.Or(cmp.Compare(share[b], share[a]), byUse(t.stocks[a], t.stocks[b]))
	})
	var near []Feedstock
	for _, i := range at[:min(len(at), maxWeak)] {
		near = append(near, t.stocks[i])
	}
	return near
}
