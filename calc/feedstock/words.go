package feedstock

import (
	"slices"
	"strings"
	"unicode"
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
	for _, r := range plain.Replace(strings.ToLower(head(text))) {
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

// plain writes the accented letters of the languages round a garden without
// their accents. Accents that stand as marks of their own are dropped in split.
var plain = strings.NewReplacer(
	"à", "a", "á", "a", "â", "a", "ã", "a", "ä", "a", "å", "a", "ç", "c", "è", "e", "é", "e", "ê", "e", "ë", "e",
	"ì", "i", "í", "i", "î", "i", "ï", "i", "ñ", "n", "ò", "o", "ó", "o", "ô", "o", "õ", "o", "ö", "o", "ø", "o",
	"ù", "u", "ú", "u", "û", "u", "ü", "u", "ý", "y", "ÿ", "y", "ß", "ss", "æ", "ae", "œ", "oe",
	"\ufb01", "fi", "\ufb02", "fl",
)

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
