package measure

import (
	"slices"
	"strings"
	"sync"
)

// tongue is how a language says amounts: for English words of this package what
// stands for them, separated by commas, the usual one first. Common knowledge,
// from memory. Where a word is English as well, the language decides: the Dutch
// "kan" is a jug.
type tongue struct {
	glosses [][2]string // English, foreign; of one foreign phrase twice, the later counts
	between [][2]string // as glosses, where a number stands on either side: the Spanish "a" is "to" there
	numbers map[string]string
	elided  bool // "d'" and "l'" stand for words of their own
	after   bool // "big" follows its bucket
	points  bool // 1.500 is fifteen hundred
	fold    func(string) string
}

// reading is a tongue made ready for looking up.
type reading struct {
	tongue
	phrases map[string][]string // folded foreign phrase: English words
	between map[string]string
	said    map[string]string // English: the usual foreign word, as it is written
	long    []string          // folded words of containers that a slip may be mended to, sorted
}

var readings = map[string]func() *reading{
	"de": sync.OnceValue(func() *reading { return ready(german) }),
	"fr": sync.OnceValue(func() *reading { return ready(french) }),
	"es": sync.OnceValue(func() *reading { return ready(spanish) }),
	"nl": sync.OnceValue(func() *reading { return ready(dutch) }),
}

// reading is how amounts are read in the language of the style besides English;
// nil where that is all.
func (s Style) reading() *reading {
	if of, ok := readings[s.Language]; ok {
		return of()
	}
	return nil
}

func ready(t tongue) *reading {
	r := &reading{tongue: t, phrases: map[string][]string{}, between: map[string]string{}, said: map[string]string{}}
	if r.fold == nil {
		r.fold = Plain
	}
	for said, english := range t.numbers {
		r.phrases[r.fold(said)] = strings.Fields(english)
	}
	for _, g := range t.glosses {
		for i, said := range strings.Split(g[1], ", ") {
			if i == 0 {
				r.said[g[0]] = said
			}
			r.phrases[r.fold(said)] = strings.Fields(g[0])
			if n, known := names[g[0]]; known && !strings.Contains(said, " ") && len(said) >= minTypo {
				if _, container := containerPos[n.id]; container {
					r.long = append(r.long, r.fold(said))
				}
			}
		}
	}
	for _, g := range t.between {
		for said := range strings.SplitSeq(g[1], ", ") {
			r.between[r.fold(said)] = g[0]
		}
	}
	slices.Sort(r.long)
	return r
}

// accents writes accented letters plainly.
var accents = strings.NewReplacer(
	"à", "a", "á", "a", "â", "a", "ã", "a", "ä", "a", "å", "a", "ç", "c", "è", "e", "é", "e", "ê", "e", "ë", "e",
	"ì", "i", "í", "i", "î", "i", "ï", "i", "ñ", "n", "ò", "o", "ó", "o", "ô", "o", "õ", "o", "ö", "o", "ø", "o",
	"ù", "u", "ú", "u", "û", "u", "ü", "u", "ý", "y", "ÿ", "y", "ß", "ss", "æ", "ae", "œ", "oe",
	"\u0300", "", "\u0301", "", "\u0302", "", "\u0303", "", "\u0308", "", "\u0327", "",
	"\ufb01", "fi", "\ufb02", "fl",
)

// Plain is a text in lower case without the accents of the languages round a
// garden: "Äpfel" is "apfel".
func Plain(text string) string { return accents.Replace(strings.ToLower(text)) }

// digraphs writes ä, ö and ü without their dots where they were typed as two
// letters.
var digraphs = strings.NewReplacer("ae", "a", "oe", "o", "ue", "u")

// counts writes the words for 21 to 99 of a language: ones by the number, tens
// by the number of tens, joined as join does.
func counts(into map[string]string, ones, tens []string, join func(ten, one string) string) map[string]string {
	for i, ten := range tens {
		english := tensByNumber[i]
		into[ten] = english
		for j, one := range ones[1:9] {
			into[join(ten, one)] = english + " " + onesByNumber[j+1]
		}
		into[join(ten, ones[0])] = english + " one"
	}
	for i, one := range ones {
		if _, taken := into[one]; !taken {
			into[one] = onesByNumber[i]
		}
	}
	return into
}

// onesByNumber begins with one, tensByNumber with twenty.
var (
	onesByNumber = strings.Fields("one two three four five six seven eight nine ten eleven twelve thirteen fourteen fifteen sixteen seventeen eighteen nineteen")
	tensByNumber = strings.Fields("twenty thirty forty fifty sixty seventy eighty ninety")
)
