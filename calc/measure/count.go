package measure

import (
	"math"
	"strings"
)

// maxPhrase is how many words are looked up at once ("three quarters of a").
const maxPhrase = 4

var (
	couple  = Exact(2)
	few     = Range{2, 3, 4} // own choice
	several = Range{3, 4, 6} // own choice
)

// countPhrases are counts said in words, without the number words.
var countPhrases = map[string]Range{
	"a": Exact(1), "an": Exact(1), "another": Exact(1), "a single": Exact(1), "single": Exact(1),
	"a couple of": couple, "a couple": couple, "couple of": couple, "couple": couple, "a pair of": couple, "pair of": couple, "both": couple,
	"a few": few, "few": few, "several": several,
	"a dozen": Exact(12), "dozen": Exact(12), "half a dozen": Exact(6), "a half dozen": Exact(6), "half dozen": Exact(6),
	"half a": Exact(0.5), "half an": Exact(0.5), "half of a": Exact(0.5), "half of an": Exact(0.5), "a half": Exact(0.5), "a half of a": Exact(0.5), "half": Exact(0.5), "one half": Exact(0.5), "one half of a": Exact(0.5),
	"quarter": Exact(0.25), "a quarter": Exact(0.25), "one quarter": Exact(0.25), "quarter of a": Exact(0.25), "a quarter of a": Exact(0.25), "one quarter of a": Exact(0.25), "quarter of an": Exact(0.25), "a quarter of an": Exact(0.25),
	"three quarter": Exact(0.75), "three quarters": Exact(0.75), "three quarters of a": Exact(0.75), "three quarters of an": Exact(0.75),
	"a third": Exact(1. / 3), "one third": Exact(1. / 3), "third of a": Exact(1. / 3), "a third of a": Exact(1. / 3), "one third of a": Exact(1. / 3), "a third of an": Exact(1. / 3),
	"two thirds": Exact(2. / 3), "two thirds of a": Exact(2. / 3), "two thirds of an": Exact(2. / 3),
}

// fractions may follow a number and "and".
var fractions = map[string]float64{
	"a half": 0.5, "half": 0.5, "one half": 0.5, "a quarter": 0.25, "quarter": 0.25, "one quarter": 0.25, "three quarters": 0.75,
	"a third": 1. / 3, "one third": 1. / 3, "two thirds": 2. / 3,
}

var onesWords = map[string]float64{
	"one": 1, "two": 2, "three": 3, "four": 4, "five": 5, "six": 6, "seven": 7, "eight": 8, "nine": 9, "ten": 10,
	"eleven": 11, "twelve": 12, "thirteen": 13, "fourteen": 14, "fifteen": 15, "sixteen": 16, "seventeen": 17, "eighteen": 18, "nineteen": 19, "zero": 0, "no": 0,
}

var tensWords = map[string]float64{
	"twenty": 20, "thirty": 30, "forty": 40, "fourty": 40, "fifty": 50, "sixty": 60, "seventy": 70, "eighty": 80, "ninety": 90,
}

var scaleWords = map[string]float64{"hundred": 100, "thousand": 1000, "dozen": 12}

// roughly are words that make a count less sure, by roughSpread: own choice.
var roughly = wordSet("about around roughly approximately approx approximate nearly almost maybe perhaps over under ca circa ~")

const roughSpread = 0.15

// longest finds the longest run of words at i, hyphens between them aside,
// that in accepts.
func longest(t []token, i int, in func(string) bool) (string, int, bool) {
	var words []string
	best, end := "", i
	for j := i; j < len(t) && len(words) < maxPhrase; j++ {
		if t[j].kind == markToken && t[j].text == "-" && len(words) > 0 {
			continue
		}
		if t[j].kind != wordToken {
			break
		}
		words = append(words, t[j].text)
		if phrase := strings.Join(words, " "); in(phrase) {
			best, end = phrase, j+1
		}
	}
	return best, end, end > i
}

func key[V any](m map[string]V) func(string) bool {
	return func(s string) bool { _, ok := m[s]; return ok }
}

func is(t []token, i int, texts ...string) bool {
	if i < 0 || i >= len(t) || t[i].kind == numberToken {
		return false
	}
	for _, text := range texts {
		if t[i].text == text {
			return true
		}
	}
	return false
}

// count reads how many at i: one number, a range, or a guess.
func count(t []token, i int) (Range, int, bool) {
	rough := false
	for i < len(t) && t[i].kind != numberToken && roughly[t[i].text] {
		rough, i = true, i+1
		if is(t, i, ".") {
			i++
		}
	}
	if is(t, i, "up") && is(t, i+1, "to") || is(t, i, "at") && is(t, i+1, "least", "most") {
		rough, i = true, i+2
	}
	between := is(t, i, "between", "from")
	if between {
		i++
	}
	c, next, ok := quantity(t, i)
	if !ok {
		return Range{}, i, false
	}
	if is(t, next, "-", "to", "or") || between && is(t, next, "and") {
		if high, end, ok := quantity(t, next+1); ok && high.Typical > 0 {
			c, next = span(c, high), end
		}
	}
	if rough {
		c.Low, c.High = c.Low*(1-roughSpread), c.High*(1+roughSpread)
	}
	return c, next, true
}

func span(a, b Range) Range {
	low, high := math.Min(a.Low, b.Low), math.Max(a.High, b.High)
	return Range{low, (low + high) / 2, high}
}

// quantity reads one count at i: digits, number words or a phrase, and the
// "and a half" or "dozen" behind.
func quantity(t []token, i int) (Range, int, bool) {
	v, next, ok := numeral(t, i)
	if phrase, end, found := longest(t, i, key(countPhrases)); found && end > next {
		return countPhrases[phrase], end, true
	}
	if !ok {
		return Range{}, i, false
	}
	if is(t, next, "and") {
		if f, end, ok := fraction(t, next+1); ok {
			return Exact(v + f), end, true
		}
	}
	return Exact(v), next, true
}

// numeral reads digits or number words below a million at i.
func numeral(t []token, i int) (float64, int, bool) {
	if i >= len(t) {
		return 0, i, false
	}
	v, next := 0.0, i
	if t[i].kind == numberToken {
		v, next = t[i].value, i+1
	} else if w, end, ok := belowHundred(t, i); ok {
		v, next = w, end
	} else if is(t, i, "a") && is(t, i+1, "hundred", "thousand") {
		v, next = 1, i+1
	} else {
		return 0, i, false
	}
	for next < len(t) && t[next].kind == wordToken && scaleWords[t[next].text] > 0 {
		v, next = v*scaleWords[t[next].text], next+1
		at := next
		if is(t, at, "and") {
			at++
		}
		if w, end, ok := belowHundred(t, at); ok && v >= 100 {
			v, next = v+w, end
		}
	}
	return math.Min(v, maxNumber), next, true
}

func belowHundred(t []token, i int) (float64, int, bool) {
	if i >= len(t) || t[i].kind != wordToken {
		return 0, i, false
	}
	if one, ok := onesWords[t[i].text]; ok {
		return one, i + 1, true
	}
	tens, ok := tensWords[t[i].text]
	if !ok {
		return 0, i, false
	}
	at := i + 1
	if is(t, at, "-") {
		at++
	}
	if at < len(t) && t[at].kind == wordToken {
		if one := onesWords[t[at].text]; one > 0 && one < 10 {
			return tens + one, at + 1, true
		}
	}
	return tens, i + 1, true
}

// fraction reads "a half" or "1/2" at i.
func fraction(t []token, i int) (float64, int, bool) {
	if i < len(t) && t[i].kind == numberToken && t[i].value > 0 && t[i].value < 1 {
		return t[i].value, i + 1, true
	}
	phrase, end, ok := longest(t, i, key(fractions))
	return fractions[phrase], end, ok
}
