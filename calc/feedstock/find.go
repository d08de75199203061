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
//
// A table that reads other languages (In) takes its own language before
// English, words that are all there before any that need mending, and the words
// of a third language only as they are written.
func (t *Table) Find(text string) Match {
	said := strings.ToLower(strings.TrimSpace(text))
	f, named := t.named(said)
	switch {
	case named && (t.own == nil || f.ID == said || !builtInName(f)):
		return Match{Outcome: Found, Feedstock: f}
	case t.own == nil && t.others == nil:
		return search{t, t.index}.find(text)
	}
	return t.among(text)
}

// builtInName reports whether a material has its name from the built-in table
// rather than from a group: then it is one word of English among others.
func builtInName(f Feedstock) bool {
	known, ok := builtIn().ByID(f.ID)
	return ok && known.Name == f.Name
}

// search is one reading of a text: by the words of one index.
type search struct {
	*Table
	index *index
}

func (s search) find(text string) Match {
	words := s.index.grammar.read(text)
	if len(words) == 0 {
		return Match{}
	}
	if m, ok := s.exact(words); ok {
		return m
	}
	return s.loosely(words)
}

// loosely is what the words mean when they are not a name as they stand.
func (s search) loosely(words []word) Match {
	for _, look := range []func([]word) (Match, bool){s.completion, s.compound, s.within, s.runTogether, s.beginning} {
		if m, ok := look(words); ok {
			return m
		}
	}
	return Match{Near: s.weak(words)}
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
func (s search) exact(words []word) (Match, bool) {
	at := s.index.byWords[sortedKey(folded(words))]
	if len(at) == 0 {
		at = s.index.byLetter[together(words, func(w word) string { return w.folded })]
	}
	if len(at) == 0 {
		at = s.index.byLetter[together(words, func(w word) string { return w.raw })]
	}
	return s.decide(at, Found)
}

func together(words []word, part func(word) string) string {
	var b strings.Builder
	for _, w := range words {
		b.WriteString(part(w))
	}
	return b.String()
}

// completion matches a word broken off, when only one material goes on so.
func (s search) completion(words []word) (Match, bool) {
	if s.index.isKnown(words) {
		return Match{}, false
	}
	m, ok := s.beginning(words)
	return m, ok && m.Outcome == Guessed
}

// mended marks a match with the slips that were mended for it.
func mended(slips int) func(Match, bool) (Match, bool) {
	return func(m Match, ok bool) (Match, bool) {
		m.slips = slips
		return m, ok
	}
}

// beginning matches names whose words begin with all of the words, those of as
// many words before longer ones.
func (s search) beginning(words []word) (Match, bool) {
	if letters(words[len(words)-1].raw) < 3 {
		return Match{}, false
	}
	var whole, part []int
	for i, e := range s.index.entries {
		switch {
		case e.refusal >= 0 || !e.begins(words):
		case len(e.words) == len(words):
			whole = append(whole, i)
		default:
			part = append(part, i)
		}
	}
	if len(whole) > 0 {
		return mended(1)(s.decide(whole, Guessed))
	}
	return mended(1)(s.decide(part, Guessed))
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
func (s search) runTogether(words []word) (Match, bool) {
	typed := together(words, func(w word) string { return w.raw })
	limit := min(slips(letters(typed)), 2)
	if limit == 0 {
		return Match{}, false
	}
	var at []int
	whole := spell(typed)
	for _, key := range s.index.joined {
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
		at = append(at, s.index.byLetter[key.text]...)
	}
	return mended(max(limit, 1))(s.decide(at, Guessed))
}

// decide turns entries that match equally well into an answer: a refusal before
// any material.
func (s search) decide(at []int, one Outcome) (Match, bool) {
	var found []Feedstock
	refused := -1
	for _, i := range at {
		e := s.index.entries[i]
		if e.refusal >= 0 {
			refused = max(refused, e.refusal)
			continue
		}
		found = append(found, s.stock(e.stock))
	}
	if refused >= 0 {
		return Match{Outcome: Banned, Refusal: s.refusals[refused]}, true
	}
	return several(found, one)
}

// several is one material, or the question which of a few.
func several(found []Feedstock, one Outcome) (Match, bool) {
	slices.SortFunc(found, byUse)
	found = slices.CompactFunc(found, func(a, b Feedstock) bool { return a.ID == b.ID })
	switch len(found) {
	case 0:
		return Match{}, false
	case 1:
		return Match{Outcome: one, Feedstock: found[0]}, true
	}
	return Match{Outcome: Ambiguous, Near: found[:min(len(found), maxNear)]}, true
}

// stock is a material by its position in the index.
func (s search) stock(at int) Feedstock {
	if s.index.ids == nil {
		return s.stocks[at]
	}
	f, _ := s.ByID(s.index.ids[at])
	return f
}

// weak suggests materials that share a word, the fullest match first, or that a
// word may be a kind of.
func (s search) weak(words []word) []Feedstock {
	cost, _ := s.index.understood(words)
	share := map[int]float64{}
	for _, e := range s.index.entries {
		if e.stock < 0 {
			continue
		}
		sum := 0.0
		for _, w := range e.words {
			if _, ok := cost[w]; ok {
				sum += s.index.grammar.weightOf(w)
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
		return cmp.Or(cmp.Compare(share[b], share[a]), byUse(s.stock(a), s.stock(b)))
	})
	var near []Feedstock
	for _, i := range at[:min(len(at), maxWeak)] {
		near = append(near, s.stock(i))
	}
	if len(near) == 0 {
		return s.kinds(words)
	}
	return near
}
