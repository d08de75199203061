package measure

import (
	"regexp"
	"strings"

	"heapside/calc/fault"
)

// maxItems is how many pieces one message may name: own choice.
const maxItems = 20

// bullet is the mark or number in front of a line of a list.
var bullet = regexp.MustCompile(`^\s*(?:[-*+]|\d{1,2}[.)])\s+`)

// leadIns are words people start with before they come to the amount.
var leadIns = wordSet("add added adding i i've ive i'm we we've weve have has had got there there's are is put in throw threw just also then please today brought bring bringing use using take took mix plus and with some like")

// joiners separate pieces only when the next piece begins like an amount.
var joiners = wordSet("and with plus &")

// describers are words that belong to the piece before them even behind a comma.
var describers = wordSet("wet dry damp moist soaked fresh old new green brown shredded chopped torn mixed raw cooked rotted rotten clean plain ground crushed")

// ParseItems reads a list of amounts of materials: "2 buckets of grass
// clippings and half a bucket coffee grounds". The error is a *fault.Error that
// quotes the first piece that was not understood.
func (m Measures) ParseItems(text string) ([]Item, error) {
	if len([]rune(text)) > maxText {
		return nil, tooLong()
	}
	var items []Item
	for line := range strings.FieldsFuncSeq(clean(text), func(r rune) bool { return r == '\n' || r == ';' }) {
		line = strings.TrimSpace(bullet.ReplaceAllString(line, ""))
		r := reader{m: m, text: line, t: lex(line)}
		for _, p := range r.pieces() {
			item, err := r.item(p.from, p.to)
			if err != nil {
				return nil, err
			}
			if items = append(items, item); len(items) > maxItems {
				return nil, fault.New(fault.TooLong, "That is more than %d materials at once; send the first %d, then the rest.", maxItems, maxItems)
			}
		}
	}
	if len(items) == 0 {
		return nil, fault.New(fault.Missing, "Nothing was named. Say how much of what: \"2 buckets of grass clippings and half a bucket of coffee grounds\".")
	}
	return items, nil
}

// piece is a run of tokens, from <= i < to.
type piece struct{ from, to int }

// pieces cuts the tokens of a line where one thing ends and the next begins.
func (r reader) pieces() []piece {
	var all []piece
	from := r.leadIn(0, len(r.t))
	for i := from; i < len(r.t); {
		if i == from {
			if f, ok := r.amountAt(i); ok {
				i = f.next // no separator inside an amount counts
				continue
			}
		}
		next, cut := r.cutAt(from, i)
		if !cut {
			i++
			continue
		}
		if i > from {
			all = append(all, piece{from, i})
		}
		from, i = next, next
	}
	if from < len(r.t) {
		all = append(all, piece{from, len(r.t)})
	}
	return all
}

// cutAt tells whether the piece that began at from ends at i, and where the
// next begins.
func (r reader) cutAt(from, i int) (int, bool) {
	hard := is(r.t, i, ",", "+")
	if !hard && !(r.t[i].kind != numberToken && joiners[r.t[i].text]) {
		return i, false
	}
	next := i + 1
	for next < len(r.t) && (is(r.t, next, ",", "+") || r.t[next].kind != numberToken && joiners[r.t[next].text]) {
		next++
	}
	next = r.leadIn(next, len(r.t))
	if r.describes(next) && i > from {
		return i, false
	}
	if hard && r.amountOf(from, i, next) {
		return i, false
	}
	if hard || r.begins(next) {
		return next, !r.insideCount(i)
	}
	_, _, reversed := r.trailing(from, i)
	return next, reversed && i > from && next < len(r.t)
}

// amountOf is true at the comma of "leaves, 2 buckets": no amount before it and
// nothing but an amount behind it.
func (r reader) amountOf(from, i, next int) bool {
	f, ok := r.amountAt(next)
	return ok && i > from && !anyCount(r.t[:i], from) && (f.next == len(r.t) || is(r.t, f.next, ",", "+", "and", "&", "plus"))
}

// insideCount is true at the "and" of "grass 2 and a half buckets" and of
// "leaves between 2 and 3 buckets".
func (r reader) insideCount(i int) bool {
	if !is(r.t, i, "and") || i == 0 {
		return false
	}
	for back := i - 1; back >= 0 && back >= i-4; back-- {
		if _, next, ok := count(r.t, back); ok && next > i {
			return true
		}
	}
	return false
}

// describes is true where only describing words stand up to the next comma.
func (r reader) describes(i int) bool {
	at := i
	for at < len(r.t) && r.t[at].kind == wordToken && (describers[r.t[at].text] || at > i && is(r.t, at, "and")) {
		at++
	}
	return at > i && (at == len(r.t) || is(r.t, at, ",", "+") || is(r.t, at-1, "and"))
}

// begins is true where an amount starts, or a number that lacks its unit.
func (r reader) begins(i int) bool {
	if f, ok := r.amountAt(i); ok {
		return !f.uncount || is(r.t, f.next, "of")
	}
	_, _, number := numeral(r.t, i)
	return number
}

// leadIn passes over the words in front of a piece.
func (r reader) leadIn(i, end int) int {
	for i < end && r.t[i].kind != numberToken {
		if leadIns[r.t[i].text] || is(r.t, i, "another") && r.numberAt(i+1) || is(r.t, i, "*", "_", ":", "`", `"`, "'", ">") {
			i++
			continue
		}
		break
	}
	return i
}

func (r reader) numberAt(i int) bool {
	_, _, ok := quantity(r.t, i)
	return ok
}

// item reads one piece: amount first, or amount last.
func (r reader) item(from, to int) (Item, error) {
	p := reader{m: r.m, text: r.text, t: r.t[:to]}
	for to > from && is(p.t, to-1, ".", "!", "?", ":", "*", "_", "`", `"`, "'", "please", "thanks") {
		to--
		p.t = r.t[:to]
	}
	said := p.slice(from, to)
	if p.negative(from) {
		return Item{}, p.complaint(from, to)
	}
	if f, ok := p.amountAt(from); ok {
		a, err := p.checked(f, said)
		return Item{Amount: a, Material: p.material(f.next, to), Said: said}, err
	}
	if f, at, ok := p.trailing(from, to); ok {
		a, err := p.checked(f, said)
		return Item{Amount: a, Material: p.material(from, at), Said: said}, err
	}
	if f, at, ok := p.named(from, to); ok {
		a, err := p.checked(f, said)
		return Item{Amount: a, Material: p.material(at, to-1), Said: said}, err
	}
	return Item{}, p.complaint(from, to)
}

// trailing finds an amount with a number at the end of a piece: "grass
// clippings: 2 buckets". It returns where the amount begins.
func (r reader) trailing(from, to int) (found, int, bool) {
	p := reader{m: r.m, text: r.text, t: r.t[:to]}
	for at := from + 1; at < to; at++ {
		if _, _, ok := count(p.t, at); !ok || p.negative(at-1) {
			continue
		}
		f, ok := p.amountAt(at)
		if !ok {
			continue
		}
		if is(p.t, f.next, ")") && is(p.t, at-1, "(") {
			f.next++
		}
		if f.next == to {
			return f, at, true
		}
	}
	return found{}, 0, false
}

// negative is true at a minus sign: it touches its number and nothing before it.
func (r reader) negative(i int) bool {
	if !is(r.t, i, "-") || i+1 >= len(r.t) || r.t[i+1].kind != numberToken || r.t[i].end != r.t[i+1].start {
		return false
	}
	return i == 0 || r.t[i-1].end < r.t[i].start && r.t[i-1].kind != numberToken
}

// named reads "3 grass buckets" and "2 straw bales": the material stands
// between the number and the container. Containers whose words end other
// names ("tea bags", "cardboard boxes") are left to ask about.
func (r reader) named(from, to int) (found, int, bool) {
	c, at, ok := count(r.t, from)
	if !ok || to-1 <= at {
		return found{}, 0, false
	}
	u, _, ok := r.m.resolveFilled(r.t[to-1].text)
	if !ok || !u.Container || containers[containerPos[u.ID]].vague {
		return found{}, 0, false
	}
	return found{amount: Amount{Said: r.slice(from, to), Count: c, Unit: u}, next: to}, at, true
}

// material is the words from i to end without what joins them to the amount.
func (r reader) material(i, end int) string {
	for i < end && (is(r.t, i, "of", "full", "worth", "with", "x", "-", ":", "=", ",", "*", "(", "_") ||
		is(r.t, i, "the", "our", "my", "some", "your", "their", "a") && is(r.t, i-1, "of")) {
		i++
	}
	if end-1 > i && is(r.t, end-1, "x", "about") {
		end--
	}
	for end > i && (is(r.t, end-1, "-", ":", "=", ",", "(", "*", "_", ".", "`", "~")) {
		end--
	}
	if i >= end {
		return ""
	}
	head, tail, cut := strings.Cut(r.slice(i, end), ",")
	if cut { // "grass, wet" is wet grass
		return strings.Join(strings.Fields(strings.ReplaceAll(tail, ",", " ")+" "+head), " ")
	}
	return strings.TrimSpace(head)
}
