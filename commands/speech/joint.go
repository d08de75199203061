package speech

import (
	"regexp"
	"strings"
)

// joint is a short word that is said otherwise before some beginnings of the
// next, such as the French "de" before a vowel.
type joint struct {
	word, said string // with the blanks that part them from their neighbours
	before     *regexp.Regexp
}

// joints are those of each language. Of the French words with an h those are
// listed that materials begin with and whose h is mute; the Spanish digits are
// the numbers that begin with an o, ocho and once.
var joints = map[string][]joint{
	"fr": {{" de ", " d'", frenchVowel}, {" que ", " qu'", frenchVowel}},
	"es": {
		{" y ", " e ", regexp.MustCompile(`(?i)^h?i[^aeo]`)},
		{" o ", " u ", regexp.MustCompile(`(?i)^(h?[oó]|8|11\b)`)},
	},
}

var frenchVowel = regexp.MustCompile(`(?i)^([aeiouâàéèêëîïôöûüœ]|herbe|huile|humus)`)

// seam marks where an argument begins in a sentence, and stop where one ends in
// a full stop: characters without width, which nobody types.
const seam, stop = "\u2060", "\u2061"

// seamed is an argument with its marks.
func seamed(text string) string {
	if strings.HasSuffix(text, ".") {
		return seam + text + stop
	}
	return seam + text
}

// joined says the words before the seams of a sentence as what follows wants
// them, ends "until 3 Aug." in one full stop, and takes the marks out.
func (s *Speech) joined(sentence string) string {
	sentence = strings.NewReplacer(stop+".", "", stop, "").Replace(sentence)
	parts := strings.Split(sentence, seam)
	for i, next := range parts[1:] {
		for _, j := range joints[s.Code()] {
			if head, found := strings.CutSuffix(parts[i], j.word); found && j.before.MatchString(next) {
				parts[i] = head + j.said
			}
		}
	}
	return strings.Join(parts, "")
}
