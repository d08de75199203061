package feedstock

import (
	"slices"
	"strings"
)

// entry is one name or alias of one material or refusal.
type entry struct {
	stock   int // position in Table.stocks, or -1
	refusal int // position in Table.refusals, or -1
	raws    []string
	words   []string // folded
	weight  float64
}

// index finds entries by their words.
type index struct {
	entries  []entry
	byWords  map[string][]int // sorted folded words -> entries
	byLetter map[string][]int // words run together, folded and as written -> entries
	meaning  map[string]string
	known    []string // the keys of meaning, sorted
}

// qualifierWeight makes a word that only tells kinds apart count for less than
// one that names something (own choice).
const qualifierWeight = 0.3

func weigh(words []string) float64 {
	sum := 0.0
	for _, w := range words {
		sum += weightOf(w)
	}
	return sum
}

func weightOf(word string) float64 {
	if qualifiers[word] {
		return qualifierWeight
	}
	return 1
}

func newIndex(stocks []Feedstock, refusals []Refusal) *index {
	x := &index{byWords: map[string][]int{}, byLetter: map[string][]int{}, meaning: map[string]string{}}
	for i, f := range stocks {
		x.add(entry{stock: i, refusal: -1}, f.Name, f.Aliases)
	}
	for i, r := range refusals {
		x.add(entry{stock: -1, refusal: i}, r.Name, r.Aliases)
	}
	x.learnSpellings()
	for w := range x.meaning {
		x.known = append(x.known, w)
	}
	slices.Sort(x.known)
	return x
}

func (x *index) add(of entry, name string, aliases []string) {
	for _, text := range append([]string{name}, aliases...) {
		words := read(text)
		if len(words) == 0 {
			continue
		}
		e := of
		e.words = folded(words)
		e.weight = weigh(e.words)
		for _, w := range words {
			e.raws = append(e.raws, w.raw)
			x.meaning[w.raw] = w.folded
			x.meaning[w.folded] = w.folded
		}
		at := len(x.entries)
		x.entries = append(x.entries, e)
		key := sortedKey(e.words)
		x.byWords[key] = append(x.byWords[key], at)
		for key := range set(strings.Join(e.words, "") + " " + strings.Join(e.raws, "")) {
			x.byLetter[key] = append(x.byLetter[key], at)
		}
	}
}

// learnSpellings makes every other spelling of a used word known, and the
// qualifiers, so that none of them is taken for a slip.
func (x *index) learnSpellings() {
	for from, to := range spellings {
		if _, used := x.meaning[to]; used {
			x.meaning[from] = to
		}
	}
	for w := range qualifiers {
		x.meaning[w] = fold(w)
	}
}

// readings are the words a typed word may stand for, with the slips that takes.
func (x *index) readings(w word) map[string]int {
	if m, ok := x.meaning[w.raw]; ok {
		return map[string]int{m: 0}
	}
	if m, ok := x.meaning[w.folded]; ok {
		return map[string]int{m: 0}
	}
	limit := slips(letters(w.raw))
	near := map[string]int{}
	for _, k := range x.known {
		if !alike(w.raw, k) {
			continue
		}
		d := distance(w.raw, k, limit)
		if d == 0 || d > limit {
			continue
		}
		if d < limit {
			limit = d // only the closest are of interest
			clear(near)
		}
		near[x.meaning[k]] = d
	}
	return near
}

// isKnown reports whether every word is in the index as typed.
func (x *index) isKnown(words []word) bool {
	return !slices.ContainsFunc(words, func(w word) bool {
		_, raw := x.meaning[w.raw]
		_, one := x.meaning[w.folded]
		return !raw && !one
	})
}
