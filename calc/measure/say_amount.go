package measure

import "math"

// SayAmount says an amount again in the language of the style: "2–3 buckets",
// "about 3 barrows". Where more was said of the container than its name, or the
// language has no word for it, it is a.Said.
func (m Measures) SayAmount(a Amount) string {
	usual, known := m.unitByID(a.Unit.ID)
	if !known || usual.Size != a.Unit.Size || !m.Style.says(usual.One) || !m.Style.says(usual.Many) {
		return a.Said
	}
	many := m.Style.word(usual.Many)
	switch c := a.Count; {
	case c.Low == c.High:
		return m.Style.counted(c.Typical, usual.One, usual.Many)
	case math.Abs(c.Low-c.Typical*(1-roughSpread)) < nearQuarter:
		return m.Style.phrase("about %s", m.Style.counted(c.Typical, usual.One, usual.Many))
	default:
		return m.Style.say(c.Low) + "–" + m.Style.say(c.High) + " " + many
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
