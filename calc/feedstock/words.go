package feedstock

import (
	"slices"
	"strings"
	"unicode"

	"heapside/calc/measure"
)

// Bounds on what is looked at, so that any text is answered at once (own
// choice): nobody names a material in more.
const (
	maxRunes = 200
	maxWords = 12
)

// word is one word as typed and as the index knows it: singular, in one
// spelling.
type word struct{ raw, folded string }

// split cuts text into words: lower case, without accents, marks of writing
// direction, pictures and punctuation. An apostrophe joins, anything else parts.
func split(text string) []string {
	var b strings.Builder
	for _, r := range measure.Plain(head(text)) {
		switch {
		case unicode.IsLetter(r) || unicode.IsDigit(r):
			b.WriteRune(r)
		case r == '\'' || r == '’' || unicode.In(r, unicode.Mn, unicode.Cf):
		default:
			b.WriteByte(' ')
		}
	}
	return strings.Fields(b.String())
}

// head is at most the first maxRunes characters of text.
func head(text string) string {
	n := 0
	for i := range text {
		if n++; n > maxRunes {
			return text[:i]
		}
	}
	return text
}

// sortedKey is the same for the same words in any order.
func sortedKey(words []string) string {
	sorted := slices.Clone(words)
	slices.Sort(sorted)
	return strings.Join(slices.Compact(sorted), " ")
}

func folded(words []word) []string {
	list := make([]string, len(words))
	for i, w := range words {
		list[i] = w.folded
	}
	return list
}
