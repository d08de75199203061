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
		r := reader{m: m, text: line, t: m.lex(line)}
		for _, p := range r.pieces() {
			item, err := r.item(p.from, p.to)
			if n := len(items); n > 0 {
				if r.each(p, &items[n-1]) {
					continue
				}
				if same, ok := r.likewise(p, items[n-1].Amount.Unit); ok {
					item, err = same, nil
				}
			}
			if err != nil {
				return nil, err
			}
			if items = append(items, shared(item)...); len(items) > maxItems {
				return nil, fault.New(fault.TooLong, "That is more than %d materials at once; send the first %d, then the rest.", maxItems, maxItems)
			}
		}
	}
	if len(items) == 0 {
		return nil, fault.New(fault.Missing, "Nothing was named. Say how much of what: “2 buckets of grass clippings and half a bucket of coffee grounds”.")
	}
	return items, nil
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

// longestAmount bounds how many tokens one amount can have, so that a long
// text does not take long.
const longestAmount = 24

// shared splits "2 buckets each of grass and leaves".
func shared(it Item) []Item {
	rest, ok := strings.CutPrefix(it.Material, "each ")
	if !ok {
		return []Item{it}
	}
	var all []Item
	for name := range strings.SplitSeq(strings.TrimPrefix(rest, "of "), " and ") {
		all = append(all, Item{Amount: it.Amount, Material: strings.TrimSpace(name), Said: it.Said})
	}
	return all
}

// each reads the size of what went before: "3 bags of leaves, 40 l each".
func (r reader) each(p piece, before *Item) bool {
	size, next, ok := r.sizeAt(p.from)
	if !ok || next+1 != p.to || !is(r.t, next, "each") || !before.Amount.Unit.Container {
		return false
	}
	f := found{amount: before.Amount}
	f.amount.Unit = sized(f.amount.Unit, size)
	said := before.Said + ", " + r.slice(p.from, p.to)
	a, err := r.checked(f, said)
	if err != nil {
		return false
	}
	before.Amount, before.Said = a, said
	return true
}

// likewise reads "3 of leaves" behind "2 buckets of grass": the same unit again.
func (r reader) likewise(p piece, u Unit) (Item, bool) {
	_, _, number := numeral(r.t, p.from)
	c, next, ok := count(r.t[:p.to], p.from)
	if !number || !ok || !is(r.t, next, "of") || next+1 >= p.to {
		return Item{}, false
	}
	a, err := r.checked(found{amount: Amount{Said: r.slice(p.from, next) + " " + u.Many, Count: c, Unit: u}}, r.slice(p.from, p.to))
	return Item{Amount: a, Material: r.material(next, p.to), Said: r.slice(p.from, p.to)}, err == nil
}

// trailing finds an amount with a number at the end of a piece: "grass
// clippings: 2 buckets". It returns where the amount begins.
func (r reader) trailing(from, to int) (found, int, bool) {
	p := reader{m: r.m, text: r.text, t: r.t[:to]}
	for at := max(from+1, to-longestAmount); at < to; at++ {
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
	for i < end && (is(r.t, i, "of", "full", "worth", "with", "x", "-", ":", "=", ",", ".", "*", "(", "_") ||
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
	if is(r.t, end-1, ")") && !strings.Contains(r.slice(i, end), "(") {
		end--
	}
	head, tail, cut := strings.Cut(r.slice(i, end), ",")
	if cut { // "grass, wet" is wet grass
		return strings.Join(strings.Fields(strings.ReplaceAll(tail, ",", " ")+" "+head), " ")
	}
	return strings.TrimSpace(head)
}
