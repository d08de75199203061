package measure

import (
	"math"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"
)

type tokenKind uint8

const (
	numberToken tokenKind = iota + 1
	wordToken
	markToken
)

// token is a number, a lower-case word or one other character of a text.
type token struct {
	kind       tokenKind
	text       string
	value      float64
	start, end int // bytes of the text it was read from
}

// maxNumber bounds what digits can say, so that no product overflows.
const maxNumber = 1e15

var vulgar = map[rune]float64{
	'½': 1. / 2, '⅓': 1. / 3, '⅔': 2. / 3, '¼': 1. / 4, '¾': 3. / 4, '⅕': 1. / 5, '⅖': 2. / 5, '⅗': 3. / 5, '⅘': 4. / 5,
	'⅙': 1. / 6, '⅚': 5. / 6, '⅛': 1. / 8, '⅜': 3. / 8, '⅝': 5. / 8, '⅞': 7. / 8,
}

// cubes are the lengths whose cube is written with a 3 behind.
var cubes = map[string]bool{"m": true, "cm": true, "in": true, "ft": true, "yd": true}

func lex(s string) []token {
	var toks []token
	for i := 0; i < len(s); {
		r, width := utf8.DecodeRuneInString(s[i:])
		t := token{start: i, end: i + width}
		switch {
		case unicode.IsSpace(r):
			i += width
			continue
		case isDigit(r) || vulgar[r] > 0 || r == '.' && digitAt(s, i+1):
			t.kind = numberToken
			t.value, t.end = lexNumber(s, i)
			if end := malformed(s, t.end); end > t.end {
				t = token{kind: wordToken, text: s[i:end], start: i, end: end}
			}
		case unicode.IsLetter(r):
			t.kind = wordToken
			t.text, t.end = lexWord(s, i)
		default:
			t.kind, t.text = markToken, string(r)
		}
		toks = append(toks, t)
		i = t.end
	}
	return toks
}

func isDigit(r rune) bool { return r >= '0' && r <= '9' }

func digitAt(s string, i int) bool { return i < len(s) && isDigit(rune(s[i])) }

func digitsFrom(s string, i int) int {
	for digitAt(s, i) {
		i++
	}
	return i
}

// lexNumber reads digits, with a point or a comma for decimals and a comma
// before each three digits for thousands, and a fraction behind: 1,000 or 1,5
// or 1½ or 1 1/2.
func lexNumber(s string, i int) (float64, int) {
	end := digitsFrom(s, i)
	digits := s[i:end]
	if n := thousands(s, i); n > end {
		digits, end = strings.ReplaceAll(s[i:n], ",", ""), n
	}
	whole := true
	if end < len(s) && (s[end] == '.' || s[end] == ',') && digitAt(s, end+1) {
		n := digitsFrom(s, end+1)
		digits, end, whole = digits+"."+s[end+1:n], n, false
	}
	v := 0.0
	if digits != "" {
		v, _ = strconv.ParseFloat(digits, 64) // only digits: the one error is overflow
	}
	if whole {
		v, end = lexFraction(s, v, i, end)
	}
	return math.Min(v, maxNumber), end
}

// malformed is the end of digits that go on behind a whole number ("2.5.6"),
// or i: nobody can tell what was meant.
func malformed(s string, i int) int {
	end := i
	for end < len(s) && (s[end] == '.' || s[end] == ',') && digitAt(s, end+1) {
		end = digitsFrom(s, end+1)
	}
	return end
}

// thousands is the end of a number grouped by commas, or i.
func thousands(s string, i int) int {
	end := digitsFrom(s, i)
	if end == i || end-i > 3 || s[i] == '0' {
		return i
	}
	for end < len(s) && s[end] == ',' && digitsFrom(s, end+1) == end+4 {
		end += 4
	}
	return end
}

// lexFraction reads what may follow a whole number v that ends at end: "½",
// "/4" or " 1/2".
func lexFraction(s string, v float64, start, end int) (float64, int) {
	if den, n, ok := slash(s, end); ok && end > start {
		return v / den, n
	}
	at := end
	if end > start && at < len(s) && s[at] == ' ' {
		at++
	}
	r, width := utf8.DecodeRuneInString(s[at:])
	if f := vulgar[r]; f > 0 {
		return v + f, at + width
	}
	if n := digitsFrom(s, at); at > end && n > at {
		num, _ := strconv.ParseFloat(s[at:n], 64)
		if den, e, ok := slash(s, n); ok && num < den {
			return v + num/den, e
		}
	}
	return v, end
}

func slash(s string, i int) (float64, int, bool) {
	if i >= len(s) || s[i] != '/' {
		return 0, i, false
	}
	n := digitsFrom(s, i+1)
	den, err := strconv.ParseFloat(s[i+1:n], 64)
	return den, n, err == nil && den > 0
}

// lexWord reads letters, with apostrophes inside, and the 3 of "m3" or "m³".
func lexWord(s string, i int) (string, int) {
	end := i
	for end < len(s) {
		r, width := utf8.DecodeRuneInString(s[end:])
		if !unicode.IsLetter(r) && !unicode.Is(unicode.M, r) && !(r == '\'' && letterAt(s, end+1)) {
			break
		}
		end += width
	}
	word := strings.ToLower(s[i:end])
	if cubes[word] {
		for _, three := range []string{"3", "³", "^3"} {
			if strings.HasPrefix(s[end:], three) && !digitAt(s, end+len(three)) {
				return word + "3", end + len(three)
			}
		}
	}
	return word, end
}

func letterAt(s string, i int) bool {
	r, _ := utf8.DecodeRuneInString(s[i:])
	return unicode.IsLetter(r)
}
