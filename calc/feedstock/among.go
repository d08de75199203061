package feedstock

import (
	"cmp"
	"slices"
	"strings"
)

// tongue is a text as one language reads it.
type tongue struct {
	search
	words []word
}

// among reads a text in every language of the table: a name as it is written, in
// its own language before English before the others; then whatever its own
// language or English makes of it, the surer one first.
func (t *Table) among(text string) Match {
	own, here := tongue{}, tongue{search{t, t.index}, english.read(text)}
	if t.own != nil {
		own = tongue{search{t, t.own.index}, t.own.index.grammar.read(text)}
	}
	for _, look := range []func() (Match, bool){
		func() (Match, bool) { return own.try(search.written) },
		func() (Match, bool) { return here.try(search.exact) },
		func() (Match, bool) { return own.try(search.exact) },
		func() (Match, bool) { return here.elsewhere(text, search.written) },
	} {
		if m, ok := look(); ok {
			return m
		}
	}
	best := own.surer(here, text)
	if best.sureness() < sure {
		if m, ok := here.elsewhere(text, search.wholly); ok {
			return m
		}
	}
	return best
}

func (t tongue) try(look func(search, []word) (Match, bool)) (Match, bool) {
	if len(t.words) == 0 {
		return Match{}, false
	}
	return look(t.search, t.words)
}

// surer is what a text means in the language that is surer of it; of two that
// guess, the one that knows more of its words and mends fewer slips.
func (t tongue) surer(o tongue, text string) Match {
	if len(t.words) == 0 {
		t = o
	}
	if len(t.words) == 0 {
		return Match{}
	}
	m := t.loosely(t.words)
	switch {
	case t.index == o.index:
		return m
	case len(o.words) == 0 && m.slips > 0:
		return Match{} // "the" is no slip for "thee"
	case len(o.words) == 0:
		return m
	}
	n := o.loosely(o.words)
	if cmp.Or(cmp.Compare(m.sureness(), n.sureness()), cmp.Compare(t.index.knows(text), o.index.knows(text)),
		cmp.Compare(t.reads(), o.reads()), cmp.Compare(n.slips, m.slips)) < 0 {
		return n
	}
	return m
}

// reads counts the words that mean something once their slips are mended.
func (t tongue) reads() int {
	n := 0
	for _, w := range t.words {
		if len(t.index.readings(w)) > 0 {
			n++
		}
	}
	return n
}

// knows counts the words of a text that the language has as they are written.
func (x *index) knows(text string) int {
	n := 0
	for _, raw := range split(text) {
		if x.written[raw] || x.grammar.noise[raw] || x.grammar.qualifiers[x.grammar.fold(raw)] {
			n++
		}
	}
	return n
}

// elsewhere is what the other languages make of a text that says something in
// English ears: a refusal before any material, and several materials as a
// question.
func (t tongue) elsewhere(text string, look func(search, []word) (Match, bool)) (Match, bool) {
	if len(t.words) == 0 {
		return Match{}, false
	}
	var found []Feedstock
	for _, l := range t.others {
		s := search{t.Table, l.index}
		words := l.index.grammar.read(text)
		if len(words) == 0 {
			continue
		}
		m, ok := look(s, words)
		switch {
		case !ok:
		case m.Outcome == Banned:
			return m, true
		case m.Outcome == Ambiguous:
			found = append(found, m.Near...)
		default:
			found = append(found, m.Feedstock)
		}
	}
	return several(found, Found)
}

// written matches a name letter by letter: endings that are taken off would
// make the words of one language those of another ("Gras", "grasa").
func (s search) written(words []word) (Match, bool) {
	text := together(words, func(w word) string { return w.raw })
	at := slices.DeleteFunc(slices.Clone(s.index.byLetter[text]), func(i int) bool {
		return strings.Join(s.index.entries[i].raws, "") != text
	})
	return s.decide(at, Found)
}

// wholly matches words that all stand in names as they are written.
func (s search) wholly(words []word) (Match, bool) {
	if slices.ContainsFunc(words, func(w word) bool { return !s.index.written[w.raw] }) {
		return Match{}, false
	}
	m, ok := s.within(words)
	return m, ok && m.sureness() == sure
}

// sure is the sureness of a match that nothing was passed over or mended for.
const sure = 4

// sureness orders what different languages make of the same words (own choice).
func (m Match) sureness() int {
	switch {
	case m.Outcome == None:
		return 0
	case m.slips > 0:
		return 1
	case m.Outcome == Guessed:
		return 2
	case m.Outcome == Ambiguous:
		return 3
	}
	return sure
}
