package measure

import (
	"math"
	"strings"
)

// SayAmount says an amount again in the language of the style: "2–3 buckets",
// "about 3 barrows". It is false where more was said of the container than its
// name, or the language has no word for it.
func (m Measures) SayAmount(a Amount) (string, bool) {
	usual, known := m.unitByID(a.Unit.ID)
	if !known || usual.Size != a.Unit.Size || !m.Style.says(usual.One) || !m.Style.says(usual.Many) {
		return "", false
	}
	switch c := a.Count; {
	case c.Low == c.High:
		return m.Style.counted(c.Typical, usual.One, usual.Many), true
	case math.Abs(c.Low-c.Typical*(1-roughSpread)) < nearQuarter:
		return m.Style.phrase("about %s", m.Style.counted(c.Typical, usual.One, usual.Many)), true
	default:
		return m.Style.say(c.Low) + "–" + m.Style.say(c.High) + " " + m.Style.word(usual.Many), true
	}
}

// says reports whether the style has a word of its own for an English one.
func (s Style) says(english string) bool {
	r := s.reading()
	if r == nil || s.Words[english] != "" || trueByID[english].one != "" {
		return true // "kg" is written so everywhere
	}
	return r.said[english] != ""
}

// Name is what n of a unit is called in the language of the style; "" when no
// unit has the id.
func (m Measures) Name(id string, n float64) string {
	u, ok := m.unitByID(id)
	switch {
	case !ok:
		return ""
	case n <= 1:
		return m.Style.word(u.One)
	}
	return m.Style.word(u.Many)
}

// Counted splits a text that begins with a count into that count and the rest,
// both as they are written.
func (m Measures) Counted(text string) (said, rest string, ok bool) {
	t := m.lex(text)
	_, next, ok := count(t, 0)
	if !ok {
		return "", "", false
	}
	end := t[next-1].end
	return text[:end], strings.TrimLeft(text[end:], " "), true
}
