package measure

import (
	"regexp"
	"slices"
	"strconv"
	"strings"
)

// lex reads the tokens of a line in English and in the language of the style.
func (m Measures) lex(line string) []token {
	t := lex(line)
	if r := m.Style.reading(); r != nil {
		return r.gloss(t, line)
	}
	return t
}

// gloss puts the English words of this package in the place of those of the
// language. The tokens keep their places in the text, so that what is quoted and
// what is named stay as they were written.
func (r *reading) gloss(t []token, text string) []token {
	if r.elided {
		t = part(t)
	}
	out := make([]token, 0, len(t))
	for i := 0; i < len(t); {
		if t[i].kind != wordToken {
			var n token
			n, i = r.number(t, i, text)
			out = append(out, n)
			continue
		}
		if english, ok := r.between[r.fold(t[i].text)]; ok && ends(out) && r.starts(t, i+1) {
			out = append(out, with(t[i], english))
			i++
			continue
		}
		english, next := r.phrase(t, i)
		if next == i {
			if english = r.mended(t[i].text, out); english == nil {
				out = append(out, t[i])
				i++
				continue
			}
			next = i + 1
		}
		out = append(out, spread(english, t[i:next])...)
		i = next
	}
	if r.after {
		turn(out)
	}
	return out
}

func with(t token, text string) token {
	t.kind, t.text = wordToken, text
	return t
}

// spread gives English words the places of the tokens they stand for: each the
// place of one, the last the rest, and those too many the place of the last.
func spread(english []string, from []token) []token {
	out := make([]token, len(english))
	for i, w := range english {
		at := from[min(i, len(from)-1)]
		if i == len(english)-1 {
			at.end = from[len(from)-1].end
		}
		out[i] = with(at, w)
	}
	return out
}

// phrase finds the longest run of words at i that the language has, and what it
// is in English.
func (r *reading) phrase(t []token, i int) ([]string, int) {
	said, next, ok := "", i, false
	for words, j := "", i; j < len(t) && j < i+2*maxPhrase; j++ {
		if t[j].kind == markToken && t[j].text == "-" && j > i {
			continue
		}
		if t[j].kind != wordToken {
			break
		}
		words = strings.TrimPrefix(words+" "+r.fold(t[j].text), " ")
		if _, known := r.phrases[words]; known {
			said, next, ok = words, j+1, true
		}
	}
	if !ok {
		return nil, i
	}
	return r.phrases[said], next
}

// ends is true where the tokens so far end with a number.
func ends(t []token) bool {
	return len(t) > 0 && isNumber(t[len(t)-1])
}

// starts is true where a number stands at i.
func (r *reading) starts(t []token, i int) bool {
	if i >= len(t) {
		return false
	}
	if english, next := r.phrase(t, i); next > i {
		return isNumber(with(t[i], english[0]))
	}
	return isNumber(t[i])
}

func isNumber(t token) bool {
	_, one := onesWords[t.text]
	_, ten := tensWords[t.text]
	return t.kind == numberToken || t.kind == wordToken && (one || ten || t.text == "half")
}

// mended is the container that a word behind a number is one slip away from.
func (r *reading) mended(word string, before []token) []string {
	word = r.fold(word)
	if len(word) < minTypo || len(before) == 0 || !isNumber(before[len(before)-1]) && !is(before, len(before)-1, "a") {
		return nil
	}
	if _, english := names[word]; english {
		return nil
	}
	var hit []string
	for _, c := range r.long {
		if c[0] != word[0] || !oneSlip(word, c) {
			continue
		}
		if hit != nil && !slices.Equal(hit, r.phrases[c]) {
			return nil // two containers are equally close
		}
		hit = r.phrases[c]
	}
	return hit
}

// turn puts "big" before its bucket where the language says "bucket big".
func turn(t []token) {
	for i := 0; i+1 < len(t); i++ {
		_, unit := names[t[i].text]
		_, fill := fills[t[i+1].text]
		if t[i].kind != wordToken || t[i+1].kind != wordToken || !unit || !fill {
			continue
		}
		t[i].text, t[i+1].text = t[i+1].text, t[i].text
		t[i].end, t[i+1].start = t[i+1].end, t[i].start
	}
}

// part makes words of their own of "d'" and "l'".
func part(t []token) []token {
	var out []token
	for _, w := range t {
		if w.kind == wordToken && len(w.text) > 2 && w.text[1] == '\'' && (w.text[0] == 'd' || w.text[0] == 'l') && w.end-w.start == len(w.text) {
			little := token{kind: wordToken, text: "d", start: w.start, end: w.start + 2}
			if w.text[0] == 'l' {
				little.text = "the"
			}
			out = append(out, little)
			w.text, w.start = w.text[2:], w.start+2
		}
		out = append(out, w)
	}
	return out
}

var (
	pointed  = regexp.MustCompile(`^[1-9]\d{0,2}(?:\.\d{3})+(?:,\d+)?$`) // 1.500 or 1.500,5
	commaed  = regexp.MustCompile(`^\d{1,3},\d{3}$`)                     // 1,250: a scale's kilograms
	hundreds = regexp.MustCompile(`^\d{3}(?:,\d+)?$`)
)

// number reads the number at i as the language writes it, and says where the
// next token is; any other token stays.
func (r *reading) number(t []token, i int, text string) (token, int) {
	n, said := t[i], text[t[i].start:t[i].end]
	switch {
	case r.points && pointed.MatchString(said):
		return valued(n, strings.ReplaceAll(said, ".", "")), i + 1
	case commaed.MatchString(said):
		return valued(n, said), i + 1
	case !r.points && n.kind == numberToken && n.value >= 1 && n.value < 1000 && i+1 < len(t) && t[i+1].kind == numberToken && t[i+1].start == n.end+1:
		more := text[t[i+1].start:t[i+1].end]
		if _, err := strconv.Atoi(said); err == nil && hundreds.MatchString(more) { // 1 200
			n.end = t[i+1].end
			return valued(n, said+more), i + 2
		}
	}
	return n, i + 1
}

// valued is a number token of digits with a decimal comma.
func valued(n token, digits string) token {
	n.kind, n.text = numberToken, ""
	n.value, _ = strconv.ParseFloat(strings.Replace(digits, ",", ".", 1), 64) // only digits and a point
	return n
}
