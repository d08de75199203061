package measure

import (
	"strings"

	"heapside/calc/fault"
)

// An area is refused below leastM2, the size of a flower pot, and above mostM2,
// a hectare: more than a garden group spreads compost on. Own choice.
const (
	leastM2 = 0.01
	mostM2  = 10000
)

// acreM2 is 4,840 square yards (from memory).
const acreM2 = 4840 * 9 * footCm * footCm / 10000

// fields are the units of area that are no squared length, in square metres.
var fields = map[string]float64{
	"sqm": 1, "sqft": footCm * footCm / 10000, "sqyd": 9 * footCm * footCm / 10000,
	"acre": acreM2, "acres": acreM2, "ha": 10000, "hectare": 10000, "hectares": 10000,
}

// bedWords are what a number of equal areas is counted in.
var bedWords = wordSet("bed beds plot plots border borders row rows planter planters")

// bedKinds may stand before those.
var bedKinds = wordSet("raised long small big large new veg vegetable flower herb")

// squared marks a length word that was written with a 2 behind: "m2", "ft²".
const squared = "²"

// lexSquares is lex that also reads the squares of lengths as one word.
func lexSquares(s string) []token {
	var out []token
	for at := 0; ; {
		cut := false
		for _, t := range lex(s[at:]) {
			t.start, t.end = t.start+at, t.end+at
			if n := squareMark(s, t); n > 0 {
				t.text, t.end, cut = t.text+squared, t.end+n, true
			}
			out = append(out, t)
			if cut {
				at = t.end
				break
			}
		}
		if !cut {
			return out
		}
	}
}

// squareMark is how many bytes of a "2", "²" or "^2" follow a word of length, 0
// when none do: "3m2" is an area, "3m20" and "3 ft 2" are none.
func squareMark(s string, t token) int {
	if t.kind != wordToken || lengths[t.text] == 0 {
		return 0
	}
	for _, two := range []string{"2", squared, "^2"} {
		end := t.end + len(two)
		if strings.HasPrefix(s[t.end:], two) && !digitAt(s, end) && (end >= len(s) || !letterAt(s, end)) {
			return len(two)
		}
	}
	return 0
}

// areaUnit reads a unit of area at i: "m2", "square feet", "sq. yd", "acres".
func areaUnit(t []token, i int) (m2 float64, next int, ok bool) {
	if i >= len(t) {
		return 0, i, false
	}
	if size := fields[t[i].text]; size > 0 {
		return size, i + 1, true
	}
	if word, ok := strings.CutSuffix(t[i].text, squared); ok {
		cm := lengths[word]
		return cm * cm / 10000, i + 1, cm > 0
	}
	if !is(t, i, "square", "sq") {
		return 0, i, false
	}
	if i++; is(t, i, ".") {
		i++
	}
	if i >= len(t) {
		return 0, i, false
	}
	cm := lengths[t[i].text]
	return cm * cm / 10000, i + 1, cm > 0
}

// side is one side of a bed, in the unit it was said in, 0 when in none.
type side struct{ n, unitCm float64 }

// sideAt reads "1.2", "1.2 m" or, where inches may follow feet, "4 ft 6 in".
func sideAt(t []token, i int, inches bool) (side, int, bool) {
	c, i, ok := quantity(t, i)
	if !ok || i >= len(t) || lengths[t[i].text] == 0 {
		return side{n: c.Typical}, i, ok
	}
	s := side{c.Typical, lengths[t[i].text]}
	i++
	if !inches || s.unitCm != footCm {
		return s, i, true
	}
	if c, next, ok := quantity(t, i); ok && next < len(t) && lengths[t[next].text] == inchCm {
		return side{s.n + c.Typical/12, footCm}, next + 1, true
	}
	return s, i, true
}

// product reads "4 x 1.2 m" at i. Sides without a unit take that of the other,
// or else the group's. After the second side inches are taken as part of it only
// when whole says that nothing else can follow, such as a depth.
func (m Measures) product(t []token, i int, whole bool) (m2 float64, next int, ok bool) {
	a, i, ok := sideAt(t, i, true)
	if !ok || !is(t, i, "x", "*", "by") {
		return 0, i, false
	}
	b, i, ok := sideAt(t, i+1, whole)
	if !ok {
		return 0, i, false
	}
	if a.unitCm == 0 {
		a.unitCm = b.unitCm
	}
	if b.unitCm == 0 {
		if _, _, _, amount := m.unitName(t, i); amount {
			return 0, i, false // 2 x 40 l bags
		}
		b.unitCm = a.unitCm
	}
	if a.unitCm == 0 {
		a.unitCm = m.sideUnit()
		b.unitCm = a.unitCm
	}
	return a.n * a.unitCm * b.n * b.unitCm / 10000, i, true
}

// sideUnit is what the sides of a bed are said in where no unit is, in cm.
func (m Measures) sideUnit() float64 {
	if m.System == US || m.System == Imperial {
		return footCm
	}
	return 100
}

// area reads an area at i: "3 m2", "4 x 8 ft", "4 beds of 1.2 x 3 m".
func (m Measures) area(t []token, i int, whole bool) (m2 float64, next int, ok bool) {
	for i < len(t) && t[i].kind != numberToken && roughly[t[i].text] {
		i++
	}
	if m2, next, ok := m.one(t, i, whole); ok {
		return m2, next, true
	}
	c, i, ok := quantity(t, i)
	for ; ok && i < len(t) && bedKinds[t[i].text]; i++ {
	}
	if !ok || i >= len(t) || !bedWords[t[i].text] {
		return 0, i, false
	}
	for i++; is(t, i, "of", "at", "each", "about", "measuring", ":", ","); i++ {
	}
	one, next, ok := m.one(t, i, whole)
	return c.Typical * one, next, ok
}

// one reads an area that is not counted in beds; the middle of a range counts.
func (m Measures) one(t []token, i int, whole bool) (m2 float64, next int, ok bool) {
	if m2, next, ok := m.product(t, i, whole); ok {
		return m2, next, true
	}
	c, i, ok := count(t, i)
	if !ok {
		return 0, i, false
	}
	unit, next, ok := areaUnit(t, i)
	return c.Typical * unit, next, ok
}

// ParseArea reads an area and returns square metres, 0.01 to 10,000: "3 m2",
// "4 x 1.2 m", "32 sq ft", "4 beds of 1.2 x 3 m", "half an acre". Sides without a
// unit are metres, or feet in a US or imperial group.
func (m Measures) ParseArea(text string) (float64, error) {
	line, err := oneLine(text)
	if err != nil {
		return 0, err
	}
	t := lexSquares(trimLength(line))
	m2, next, ok := m.area(t, 0, true)
	for is(t, next, "each", "in", "all", "bed", "beds", "of") {
		next++
	}
	if !ok || next < len(t) {
		return 0, m.noArea(line, t)
	}
	if m2 < leastM2 || m2 > mostM2 {
		return 0, fault.New(fault.OutOfRange, "%s is not what a garden spreads compost on: between %s and %s, such as %s.", quote(line), m.SayArea(leastM2), m.SayArea(mostM2), fault.Say(m.areaExample()))
	}
	return m2, nil
}

// noArea says why a text is no area: a length alone, a number alone, or neither.
func (m Measures) noArea(line string, t []token) error {
	s, next, ok := sideAt(t, 0, true)
	switch {
	case ok && next == len(t) && s.unitCm > 0:
		return fault.New(fault.Missing, "%s is one side. Say the other too, such as %s.", quote(line), fault.Say(m.areaExample()))
	case ok && next == len(t):
		return fault.New(fault.Missing, "%s has a number but no unit. Write an area such as %s.", quote(line), fault.Say(m.areaExample()))
	}
	return fault.New(fault.NotUnderstood, "%s is not an area. Write one such as %s.", quote(line), fault.Say(m.areaExample()))
}

func (m Measures) areaExample() string {
	if m.System == US || m.System == Imperial {
		return "“32 sq ft” or “4 x 8 ft”"
	}
	return "“3 m2” or “4 x 1.2 m”"
}

// AreaIn finds the first area in a text: the words that say it, as ParseArea
// reads them, and the rest of the text without them.
func (m Measures) AreaIn(text string) (said, rest string, ok bool) {
	line, err := oneLine(text)
	if err != nil {
		return "", text, false
	}
	t := lexSquares(line)
	for i := range t {
		if is(t, i-1, "-") {
			continue // less than nothing
		}
		if _, next, ok := m.area(t, i, false); ok {
			return cutOut(line, t[i].start, t[next-1].end)
		}
	}
	return "", line, false
}

// cutOut is a stretch of a line and the line without it.
func cutOut(line string, from, to int) (said, rest string, ok bool) {
	return line[from:to], strings.Join(strings.Fields(line[:from]+" "+line[to:]), " "), true
}
