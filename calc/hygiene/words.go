package hygiene

import (
	"slices"
	"strings"
	"unicode"
)

// Bounds on what is looked at, so that any text is answered at once (own choice).
const (
	maxRunes  = 200
	longAlias = 5 // words of the longest alias, as typed with its parts apart
)

// index finds the things that words name: by each alias, its words folded and
// run together, so that "barnyard grass" is "barnyardgrass".
type index map[string][]string

// wordsFor reads names with their aliases, parted by "|".
func wordsFor(aliases map[string]string) index {
	ix := index{}
	for name, list := range aliases {
		for _, alias := range strings.Split(list, "|") {
			key := strings.Join(fold(alias), "")
			ix[key] = append(ix[key], name)
		}
	}
	for _, names := range ix {
		slices.Sort(names)
	}
	return ix
}

// names are the things that the text names, in its order, each once. Of aliases
// that lie in each other the longest counts.
func (ix index) names(text string) []string {
	var names []string
	words := fold(text)
	for i := 0; i < len(words); {
		n := min(longAlias, len(words)-i)
		for n > 0 && ix[strings.Join(words[i:i+n], "")] == nil {
			n--
		}
		for _, name := range ix[strings.Join(words[i:i+n], "")] {
			if !slices.Contains(names, name) {
				names = append(names, name)
			}
		}
		i += max(1, n)
	}
	return names
}

// pick keeps the trials of what the text names, in the order of the trials.
func (ix index) pick(trials []Trial, text string) []Trial {
	names := ix.names(text)
	var out []Trial
	for _, t := range trials {
		if slices.Contains(names, t.Of) {
			out = append(out, t)
		}
	}
	return out
}

// fold cuts text into words: lower case, without plural endings and punctuation.
func fold(text string) []string {
	var b strings.Builder
	n := 0
	for _, r := range text {
		if n++; n > maxRunes {
			break
		}
		switch {
		case unicode.IsLetter(r) || unicode.IsDigit(r):
			b.WriteRune(unicode.ToLower(r))
		case r == '\'' || r == '’':
		default:
			b.WriteByte(' ')
		}
	}
	words := strings.Fields(b.String())
	for i, w := range words {
		words[i] = singular(w)
	}
	return words
}

// singular takes an English plural ending off a word: both sides of a look-up
// pass through it, so that it need not be right, only the same.
func singular(w string) string {
	switch {
	case len(w) < 4 || strings.HasSuffix(w, "ss") || strings.HasSuffix(w, "us") || strings.HasSuffix(w, "is"):
		return w
	case strings.HasSuffix(w, "ies"):
		return strings.TrimSuffix(w, "ies") + "y"
	}
	return strings.TrimSuffix(w, "s")
}
