package measure

// leadIns are words people start with before they come to the amount.
var leadIns = wordSet("add added adding i i've ive i'm we we've weve have has had got there there's are is of mixed together put in throw threw just also then please today brought bring bringing use using take took mix plus and with like")

// joiners separate pieces only when the next piece begins like an amount.
var joiners = wordSet("and n with plus then & / |")

// describers are words that belong to the piece before them even behind a comma.
var describers = wordSet("wet dry damp moist soaked fresh old new green brown shredded chopped torn mixed raw cooked rotted rotten clean plain ground crushed")

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
		if i > from && r.restarts(from, i) {
			all, from = append(all, piece{from, i}), i
			continue
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

// restarts is true where a number begins the next amount without anything to
// part them: "2 buckets grass 1 bucket leaves", as phones write what is spoken.
func (r reader) restarts(from, i int) bool {
	if _, _, number := numeral(r.t, i); !number && !is(r.t, i, "half", "quarter", "several") || is(r.t, i-1, "-", "(", ":", "x", "of", "between", "and") {
		return false
	}
	first, ok := r.amountAt(from)
	if !ok || first.next >= i {
		return false
	}
	_, ok = r.amountAt(i)
	return ok
}

// cutAt tells whether the piece that began at from ends at i, and where the
// next begins.
func (r reader) cutAt(from, i int) (int, bool) {
	hard := r.hard(i)
	if !hard && !r.joins(i) {
		return i, false
	}
	next := i + 1
	for r.hard(next) || r.joins(next) {
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

// hard is true at a mark that always ends a piece.
func (r reader) hard(i int) bool { return is(r.t, i, ",", "+") }

// joins is true at a word or mark that may end a piece; the slash of "1/2" may not.
func (r reader) joins(i int) bool {
	if i >= len(r.t) || r.t[i].kind == numberToken || !joiners[r.t[i].text] {
		return false
	}
	return !is(r.t, i, "/") || i > 0 && r.t[i-1].end < r.t[i].start
}

// amountOf is true at the comma of "leaves, 2 buckets": no amount before it and
// nothing but an amount behind it.
func (r reader) amountOf(from, i, next int) bool {
	f, ok := r.amountAt(next)
	return ok && i > from && !anyCount(r.t[:i], from) && (f.next == len(r.t) || r.hard(f.next) || r.joins(f.next))
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
	return at > i && (at == len(r.t) || r.hard(at) || is(r.t, at-1, "and"))
}

// begins is true where an amount starts, or a number that lacks its unit.
func (r reader) begins(i int) bool {
	if f, ok := r.amountAt(i); ok {
		return !f.uncount || is(r.t, f.next, "of")
	}
	if r.negative(i) {
		return true // "and -1 bucket of leaves" is refused, not taken for a name
	}
	if at := r.skipA(i); is(r.t, i, "some") || at < len(r.t) && vagueMeasures[r.t[at].text] && is(r.t, at+1, "of") {
		return true // "and some straw", "and a bit of ash" lack an amount of their own
	}
	_, _, number := numeral(r.t, i)
	return number
}

func (r reader) skipA(i int) int {
	if is(r.t, i, "a") {
		return i + 1
	}
	return i
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
