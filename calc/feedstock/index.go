package feedstock

import (
	"maps"
	"slices"
	"strings"
)

// called is one name or alias as the index holds it.
type called struct {
	raws     []string
	words    []string // folded
	weight   float64
	anyOrder string   // the key in index.byWords
	unparted []string // the keys in index.byLetter
}

// entry is one name or alias of one material or refusal.
type entry struct {
	*called
	stock   int // position in Table.stocks, or -1
	refusal int // position in Table.refusals, or -1
}

// index finds entries by their words.
type index struct {
	grammar  *grammar
	ids      []string // of the materials by position; nil where those of the table count
	entries  []entry
	byWords  map[string][]int // sorted folded words -> entries
	byLetter map[string][]int // words run together, folded and as written -> entries
	meaning  map[string]string
	written  map[string]bool // the words of entries, not folded
	known    []spelled       // the keys of meaning, sorted
	joined   []spelled       // the keys of byLetter, sorted
}

// qualifierWeight makes a word that only tells kinds apart count for less than
// one that names something (own choice).
const qualifierWeight = 0.3

// callings reads a name and other words; those of noise alone are left out.
func (g *grammar) callings(name string, aliases []string) []*called {
	list := make([]*called, 0, 1+len(aliases))
	for _, text := range append([]string{name}, aliases...) {
		words := g.read(text)
		if len(words) == 0 {
			continue
		}
		c := &called{words: folded(words)}
		for _, w := range words {
			c.raws = append(c.raws, w.raw)
		}
		c.weight = g.weigh(c.words)
		c.anyOrder = sortedKey(c.words)
		c.unparted = slices.Compact([]string{strings.Join(c.words, ""), strings.Join(c.raws, "")})
		list = append(list, c)
	}
	return list
}

// newIndex indexes what materials and refusals are called, by their position.
func newIndex(g *grammar, stocks, refusals [][]*called) *index {
	x := &index{grammar: g, byWords: map[string][]int{}, byLetter: map[string][]int{}, meaning: map[string]string{}, written: map[string]bool{}}
	for i, list := range stocks {
		x.add(list, i, -1)
	}
	for i, list := range refusals {
		x.add(list, -1, i)
	}
	x.learnSpellings()
	x.known = spellAll(slices.Sorted(maps.Keys(x.meaning)))
	x.joined = spellAll(slices.Sorted(maps.Keys(x.byLetter)))
	return x
}

func spellAll(words []string) []spelled {
	list := make([]spelled, len(words))
	for i, w := range words {
		list[i] = spell(w)
	}
	return list
}

func (x *index) add(list []*called, stock, refusal int) {
	for _, c := range list {
		for i, raw := range c.raws {
			x.written[raw] = true
			x.meaning[raw] = c.words[i]
			x.meaning[c.words[i]] = c.words[i]
		}
		at := len(x.entries)
		x.entries = append(x.entries, entry{c, stock, refusal})
		x.byWords[c.anyOrder] = append(x.byWords[c.anyOrder], at)
		for _, key := range c.unparted {
			x.byLetter[key] = append(x.byLetter[key], at)
		}
	}
}

// learnSpellings makes every other spelling of a used word known, and the
// qualifiers, so that none of them is taken for a slip.
func (x *index) learnSpellings() {
	for from, to := range x.grammar.spellings {
		if _, used := x.meaning[to]; used {
			x.meaning[from] = to
		}
	}
	for w := range x.grammar.qualifiers {
		x.meaning[w] = x.grammar.fold(w)
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
	typed, near := spell(w.raw), map[string]int{}
	for _, k := range x.known {
		if !alike(w.raw, k.text) {
			continue
		}
		d := typed.distance(k, limit)
		if d == 0 || d > limit {
			continue
		}
		if d < limit {
			limit = d // only the closest are of interest
			clear(near)
		}
		near[x.meaning[k.text]] = d
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
