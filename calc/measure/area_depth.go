package measure

import (
	"math"
	"slices"

	"heapside/calc/fault"
)

// A layer is refused below leastLayerCm, a dusting, and above mostLayerCm, more
// than a bed takes. Own choice.
const (
	leastLayerCm = 0.1
	mostLayerCm  = 50
)

// deepWords may follow a depth.
var deepWords = wordSet("deep thick depth layer high")

// afterInches are the words that may follow "2 in" when it means inches.
var afterInches = wordSet("deep thick depth layer high of on over for compost")

// depthAt reads "5 cm", "half an inch" or "2-3 cm" at i; the middle of a range
// counts. A bare number is in bareCm, or no depth when that is 0.
func depthAt(t []token, i int, bareCm float64) (cm float64, next int, ok bool) {
	c, i, ok := count(t, i)
	if !ok {
		return 0, i, false
	}
	if i < len(t) && lengths[t[i].text] > 0 {
		return c.Typical * lengths[t[i].text], i + 1, true
	}
	return c.Typical * bareCm, i, bareCm > 0
}

// ParseDepth reads how thick a layer of compost lies and returns centimetres,
// 0.1 to 50: "5 cm", "5 mm", "2-3 cm", "¼ in". A bare number is centimetres, or
// inches in a US or imperial group.
func (m Measures) ParseDepth(text string) (float64, error) {
	line, err := oneLine(text)
	if err != nil {
		return 0, err
	}
	bare, example := 1.0, "“3 cm” or “5 mm”"
	if m.System == US || m.System == Imperial {
		bare, example = inchCm, "“1 in” or “¼ in”"
	}
	t := lex(trimLength(line))
	cm, next, ok := depthAt(t, 0, bare)
	for next < len(t) && deepWords[t[next].text] {
		next++
	}
	if !ok || next < len(t) {
		return 0, fault.New(fault.NotUnderstood, "%s is not a depth. Write one such as %s.", quote(line), fault.Say(example))
	}
	if cm < leastLayerCm || cm > mostLayerCm {
		return 0, fault.New(fault.OutOfRange, "%s is no layer for a bed: it has to be between %s and %s, such as %s.", quote(line), m.SayDepth(leastLayerCm), m.SayDepth(mostLayerCm), fault.Say(example))
	}
	return cm, nil
}

// DepthIn finds a depth in a text, one that says "deep" or "thick" before
// others: the words that say it, as ParseDepth reads them, and the rest of the
// text without them. A number without a unit is none, nor is a length that no
// layer has, unless it says that it is deep.
func (m Measures) DepthIn(text string) (said, rest string, ok bool) {
	line, err := oneLine(text)
	if err != nil {
		return "", text, false
	}
	t := lex(line)
	from, to := -1, 0
	for i := range t {
		cm, next, ok := depthAt(t, i, 0)
		deep := next < len(t) && deepWords[t[next].text]
		if !ok || is(t, i-1, "-") || preposition(t, next) || cm > mostLayerCm && !deep {
			continue
		}
		if from < 0 || deep {
			from, to = i, next
		}
		if deep {
			to++
			break
		}
	}
	if from < 0 {
		return "", line, false
	}
	return cutOut(line, t[from].start, t[to-1].end)
}

// preposition tells the "in" of "2 in North Bay" from inches.
func preposition(t []token, next int) bool {
	return t[next-1].text == "in" && next < len(t) && t[next].kind == wordToken && !afterInches[t[next].text]
}

// SayDepth writes the thickness of a layer: "5 mm", "2½ cm"; US and imperial "¼
// in". Steps that would be more than a twentieth off are made finer.
func (m Measures) SayDepth(cm float64) string {
	if m.System == US || m.System == Imperial {
		return m.Style.sayNear(cm/inchCm, 0.25, 0.01, " in")
	}
	switch {
	case cm < 0.95:
		return m.Style.sayNear(cm*10, 1, 0.5, " mm")
	case cm < 10:
		return m.Style.sayNear(cm, 0.5, 0.1, " cm")
	}
	return m.Style.sayStep(cm, 1, " cm")
}

// offInDepth is how far off a depth may be said, as a share. Own choice.
const offInDepth = 0.05

// sayNear writes a number to the nearest step, or to a finer one where that is too far off.
func (s Style) sayNear(v, step, finer float64, unit string) string {
	if math.Abs(roundTo(v, step)-v) > offInDepth*v {
		return s.sayStep(v, finer, unit)
	}
	return s.sayStep(v, step, unit)
}

// sayStep writes a number to the nearest step, and never as nothing.
func (s Style) sayStep(v, step float64, unit string) string {
	if v < step/2 {
		return s.lessThan(s.say(step) + unit)
	}
	return s.say(roundTo(v, step)) + unit
}

// SayArea writes square metres: "3½ m²", "12 m²"; US and imperial "32 sq ft",
// from an acre on "1.2 acres".
func (m Measures) SayArea(m2 float64) string {
	if m.System != US && m.System != Imperial {
		return m.Style.sayArea(m2, " m²")
	}
	if m2 < acreM2*under {
		return m.Style.sayArea(m2/fields["sqft"], " sq ft")
	}
	acres := roundTo(m2/acreM2, 0.1)
	if math.Abs(acres-1) < 1e-6 {
		return "1 " + m.Style.word("acre")
	}
	return m.Style.say(acres) + " " + m.Style.word("acres")
}

func (s Style) sayArea(v float64, unit string) string {
	switch {
	case v < 1:
		return s.sayStep(v, 0.01, unit)
	case v < 10:
		return s.sayStep(v, 0.1, unit)
	}
	return s.sayStep(v, 1, unit)
}

// looseSteps are what a volume is rounded to for people who fetch it, own choice.
var looseSteps = []struct{ below, step float64 }{{10, 0.5}, {100, 1}, {math.Inf(1), 5}}

// SayLoose writes a volume of loose material in units of measure, to set
// beside what it is carried in: "150 litres", "1.2 m³"; US and imperial "5½
// cubic feet", "1.2 cubic yards".
func (m Measures) SayLoose(litres float64) string {
	small, big := trueByID["l"], trueByID["m3"]
	if m.System == US || m.System == Imperial {
		small, big = trueByID["ft3"], trueByID["yd3"]
	}
	if n := litres / big.size; n >= under {
		if said := sayCubes(n); said != "1" {
			return m.Style.number(said) + " " + m.Style.word(big.many)
		}
		return "1 " + m.Style.word(big.one)
	}
	n := litres / small.size
	at := slices.IndexFunc(looseSteps, func(s struct{ below, step float64 }) bool { return n < s.below*under })
	step := looseSteps[at].step
	if n < step/2 {
		return m.Style.lessThan(m.Style.counted(step, small.one, small.many))
	}
	return m.Style.counted(roundTo(n, step), small.one, small.many)
}
