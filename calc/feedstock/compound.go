package feedstock

import "slices"

// minHead is the least letters of a word that another may end with and still
// mean a kind of it (own choice).
const minHead = 4

// compound refuses a word that ends with one that is refused, where a language
// writes kinds of a thing as one word: "Rinderknochen" are Knochen, bones.
// Materials are only suggested so (weak): the kinds differ.
func (s search) compound(words []word) (Match, bool) {
	for _, w := range words {
		for _, i := range s.heads(w) {
			if e := s.index.entries[i]; e.refusal >= 0 {
				return Match{Outcome: Banned, Refusal: s.refusals[e.refusal], slips: 1}, true
			}
		}
	}
	return Match{}, false
}

// heads are the entries of one word with which a word that is not known ends,
// those of the longest such word.
func (s search) heads(w word) []int {
	if !s.index.grammar.compounds || s.index.isKnown([]word{w}) {
		return nil
	}
	for from := 1; from+minHead <= len(w.raw); from++ {
		if at := s.index.byWords[s.index.grammar.fold(w.raw[from:])]; len(at) > 0 {
			return at
		}
	}
	return nil
}

// kinds are the materials that a word may be a kind of.
func (s search) kinds(words []word) []Feedstock {
	var found []Feedstock
	for _, w := range words {
		for _, i := range s.heads(w) {
			at := s.index.entries[i].stock
			if at < 0 || slices.ContainsFunc(found, func(f Feedstock) bool { return f.ID == s.stock(at).ID }) {
				continue // "Blatt" and "Blätter" are one
			}
			found = append(found, s.stock(at))
		}
	}
	return found[:min(len(found), maxWeak)]
}
