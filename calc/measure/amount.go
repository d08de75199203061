package measure

import (
	"strings"

	"heapside/calc/fault"
)

// One piece is refused above maxAmount litres or kilograms, more than a load a
// garden group moves, and below minAmount: both own choice.
const (
	maxAmount = 20000
	minAmount = 0.001
)

// fills are words between a count and its container, and how they change its
// size. Own choice throughout.
var fills = map[string]Range{
	"full": Exact(1), "level": Exact(1), "filled": Exact(1), "whole": Exact(1), "standard": Exact(1), "normal": Exact(1), "good": Exact(1), "garden": Exact(1), "packed": Exact(1), "loose": Exact(1),
	"heaped": Exact(1.25), "heaping": Exact(1.25), "rounded": Exact(1.25), "overflowing": Exact(1.25),
	"half": Exact(0.5), "half full": Exact(0.5), "half filled": Exact(0.5), "quarter full": Exact(0.25),
	"big": {1, 1.15, 1.3}, "large": {1, 1.15, 1.3}, "small": {0.7, 0.85, 1}, "little": {0.7, 0.85, 1}, "medium": Exact(1),
}

// reader reads amounts out of the tokens of one text.
type reader struct {
	m    Measures
	text string
	t    []token
}

// found is an amount at a place in the tokens.
type found struct {
	amount  Amount
	next    int
	uncount bool // a plural without a number: "buckets of leaves"
}

// unitName reads the longest spelling of a unit at i.
func (m Measures) unitName(t []token, i int) (u Unit, plural bool, next int, ok bool) {
	word, next, ok := longest(t, i, func(s string) bool { _, _, ok := m.resolveFilled(s); return ok })
	if ok {
		u, plural, _ = m.resolveFilled(word)
		return u, plural, next, true
	}
	return Unit{}, false, i, false
}

// unitAt reads a unit with the words that say how full or big it is.
func (r reader) unitAt(i int) (Unit, bool, int, bool) {
	scale, start := Exact(1), i
	for {
		phrase, next, ok := longest(r.t, i, key(fills))
		if !ok {
			break
		}
		scale, i = scale.Times(fills[phrase]), next
		if is(r.t, i, "-") {
			i++
		}
	}
	u, plural, next, ok := r.m.unitName(r.t, i)
	if !ok || i > start && !u.Container {
		return Unit{}, false, start, false
	}
	u.Size = u.Size.Times(scale)
	for is(r.t, next, "load", "loads", "full", "fulls", "worth") && u.Container {
		next++
	}
	return u, plural, next, true
}

// sizeAt reads a size such as "40 l" or "five-gallon" at i.
func (r reader) sizeAt(i int) (Amount, int, bool) {
	c, i, ok := count(r.t, i)
	if !ok {
		return Amount{}, i, false
	}
	if is(r.t, i, "-") {
		i++
	}
	u, _, next, ok := r.m.unitName(r.t, i)
	if !ok || u.Container {
		return Amount{}, i, false
	}
	return Amount{Count: c, Unit: u}, next, true
}

// sized is a container u that holds what was said rather than its usual size.
func sized(u Unit, size Amount) Unit {
	u.Dim, u.Size, u.Source = size.Unit.Dim, size.Count.Times(size.Unit.Size), asSaid
	prefix := Say(size.Count.Typical) + " " + size.Unit.One + " "
	u.One, u.Many = prefix+u.One, prefix+u.Many
	return u
}

// amountAt reads an amount that starts at i.
func (r reader) amountAt(i int) (found, bool) {
	c, next, ok := count(r.t, i)
	if !ok {
		return r.bare(i)
	}
	f, ok := r.counted(c, next)
	if !ok {
		return found{}, false
	}
	f = r.andHalf(f)
	f = r.gloss(f)
	f.amount.Said = r.slice(i, f.next)
	return f, true
}

// bare reads a container without a number: one bucket, or how many buckets?
func (r reader) bare(i int) (found, bool) {
	u, plural, next, ok := r.unitAt(i)
	if !ok || !u.Container {
		return found{}, false
	}
	f := r.gloss(r.andHalf(found{amount: Amount{Count: Exact(1), Unit: u}, next: next, uncount: plural}))
	f.amount.Said = r.slice(i, f.next)
	return f, true
}

// counted reads what c counts, at i.
func (r reader) counted(c Range, i int) (found, bool) {
	times := is(r.t, i, "x", "*", "times")
	if times {
		i++
	}
	if is(r.t, i, "full", "level", "standard", "whole") && i+1 < len(r.t) && r.t[i+1].kind == numberToken {
		i++ // a full 20 litre bucket
	}
	if size, next, ok := r.sizeAt(i); ok {
		if u, _, end, ok := r.containerAfter(next); ok {
			return found{amount: Amount{Count: c, Unit: sized(u, size)}, next: end}, true
		}
		if times {
			return found{amount: Amount{Count: c.Times(size.Count), Unit: size.Unit}, next: next}, true
		}
		return found{}, false
	}
	if is(r.t, i, "-") {
		i++
	}
	u, _, next, ok := r.unitAt(i)
	if !ok && i < len(r.t) && r.t[i].kind == wordToken {
		u, ok = r.m.misspelt(r.t[i].text)
		next = i + 1
	}
	if !ok {
		return found{}, false
	}
	if !u.Container && !times {
		if k, many, end, ok := r.containerAfter(next); ok {
			one := Amount{Count: Exact(1), Unit: sized(k, Amount{Count: c, Unit: u})}
			return found{amount: one, next: end, uncount: many}, true
		}
	}
	return found{amount: Amount{Count: c, Unit: u}, next: next}, true
}

// containerAfter reads the container of "5-gallon bucket" behind the size.
func (r reader) containerAfter(i int) (Unit, bool, int, bool) {
	if is(r.t, i, "-") {
		i++
	}
	u, plural, next, ok := r.unitAt(i)
	return u, plural, next, ok && u.Container
}

// andHalf reads the rest of "a barrow and a half". "A barrow and a half bucket"
// is two amounts.
func (r reader) andHalf(f found) found {
	if !is(r.t, f.next, "and") {
		return f
	}
	part, next, ok := fraction(r.t, f.next+1)
	if !ok {
		return f
	}
	if _, _, another := r.inner(f.next + 1); another || is(r.t, next, "a", "an") {
		return f
	}
	c := f.amount.Count
	f.amount.Count, f.next = Range{c.Low + part, c.Typical + part, c.High + part}, next
	return f
}

// gloss reads "of 40 l" or "(40 l each)" behind a container, and passes over
// "(about 20 buckets)".
func (r reader) gloss(f found) found {
	at, open := f.next, is(r.t, f.next, "(")
	if !open && !is(r.t, at, "of", "at", "@") {
		return f
	}
	at++
	a, inner, ok := r.inner(at)
	if !ok {
		return f
	}
	each := is(r.t, inner, "each")
	if each {
		inner++
	}
	exact := a.Unit.ID != "" && !a.Unit.Container && f.amount.Unit.Container && !roughly[textAt(r.t, at)]
	switch {
	case open && !is(r.t, inner, ")"), !open && !exact:
		return f
	case exact:
		f.amount.Unit = sized(f.amount.Unit, a)
	}
	f.next = inner
	if open {
		f.next++
	}
	return f
}

// inner reads an amount without looking behind it for more.
func (r reader) inner(i int) (Amount, int, bool) {
	c, next, ok := count(r.t, i)
	if !ok {
		return Amount{}, i, false
	}
	u, _, next, ok := r.unitAt(next)
	return Amount{Count: c, Unit: u}, next, ok
}

func textAt(t []token, i int) string {
	if i < len(t) {
		return t[i].text
	}
	return ""
}

func (r reader) slice(from, to int) string {
	if from >= to {
		return ""
	}
	return r.text[r.t[from].start:r.t[to-1].end]
}

// checked refuses amounts that no garden group carries.
func (r reader) checked(f found, said string) (Amount, error) {
	a := f.amount
	if f.uncount {
		return Amount{}, fault.New(fault.Missing, "How many are the %s in %s? Say a number in front, such as “2 x %s”.", a.Unit.Many, quote(said), a.Unit.Many)
	}
	total := a.Count.Times(a.Unit.Size)
	limit := r.m.limit(a.Unit.Dim)
	switch {
	case total.Typical <= 0:
		return Amount{}, fault.New(fault.OutOfRange, "%s is no amount: it has to be more than zero. Say %s.", quote(said), fault.Say(r.m.Accepts()))
	case total.Typical < minAmount:
		return Amount{}, fault.New(fault.OutOfRange, "%s is too little to matter in a heap. Say %s.", quote(said), fault.Say(r.m.Accepts()))
	case total.Typical > maxAmount:
		return Amount{}, fault.New(fault.OutOfRange, "%s is more than one load can be: at most %s at a time. Is there a digit too many?", quote(said), limit)
	}
	return a, nil
}

func (m Measures) limit(d Dimension) string {
	if d == Mass {
		return m.SayMass(maxAmount)
	}
	return m.SayBulk(maxAmount)
}

// ParseAmount reads a text that is one amount and nothing else: "14 l", "half
// a barrow", "2-3 buckets". The error is a *fault.Error.
func (m Measures) ParseAmount(text string) (Amount, error) {
	line, err := oneLine(text)
	if err != nil {
		return Amount{}, err
	}
	line = trimEnds(line)
	r := reader{m: m, text: line, t: m.lex(line)}
	start := r.leadIn(0, len(r.t))
	if start == len(r.t) {
		return Amount{}, fault.New(fault.Missing, "An amount is missing. Say %s.", fault.Say(m.Accepts()))
	}
	f, ok := r.amountAt(start)
	if !ok {
		return Amount{}, r.complaint(start, len(r.t))
	}
	for is(r.t, f.next, "of", "please") {
		f.next++
	}
	if f.next < len(r.t) {
		return Amount{}, fault.New(fault.NotUnderstood, "Only an amount was asked for, and %s says more than that. Say %s.", quote(line), fault.Say(m.Accepts()))
	}
	return r.checked(f, line)
}

// trimEnds drops the punctuation around a text, but not a sign or a bracket.
func trimEnds(s string) string {
	return strings.Trim(strings.TrimRight(s, " .,;:!?*_`\"'>"), " \t`\"'_>")
}
