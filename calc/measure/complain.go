package measure

import (
	"heapside/calc/fault"
)

// Accepts is a clause for sentences about amounts that were not understood.
func (m Measures) Accepts() string {
	if m.System == US {
		return "an amount such as “2 buckets”, “half a barrow”, “3 gallons” or “5 lb”"
	}
	return "an amount such as “2 buckets”, “half a barrow”, “14 litres” or “3 kg”"
}

// complaint says why the piece from..to is no amount of anything, and what
// would be.
func (r reader) complaint(from, to int) error {
	p := reader{m: r.m, text: r.text, t: r.t[:to]}
	said := quote(p.slice(from, to))
	if is(p.t, from, "-") && from+1 < to && p.t[from+1].kind == numberToken {
		return fault.New(fault.OutOfRange, "%s is less than nothing. Say %s.", said, fault.Say(r.m.Accepts()))
	}
	_, next, counted := count(p.t, from)
	switch {
	case counted && next < to && p.t[next].kind == wordToken && vagueMeasures[p.t[next].text]:
		return fault.New(fault.Unknown, "%s leaves open how much it is. Say it in buckets, barrows, %s.", said, fault.Say(r.m.scales()))
	case counted && is(p.t, next+1, "of") && p.t[next].kind == wordToken:
		return fault.New(fault.Unknown, "%s in %s is not a measure known here. Say %s.", quote(p.t[next].text), said, fault.Say(r.m.Accepts()))
	case counted:
		return fault.New(fault.Missing, "%s has a number but no measure. Say it in buckets, %s.", said, fault.Say(r.m.scales()))
	case !anyCount(p.t, from):
		return fault.New(fault.Missing, "There is no amount in %s. Say %s, then what it is.", said, fault.Say(r.m.Accepts()))
	}
	return fault.New(fault.NotUnderstood, "%s was not understood. Say %s, then what it is.", said, fault.Say(r.m.Accepts()))
}

func (m Measures) scales() string {
	if m.System == US {
		return "gallons or pounds"
	}
	return "litres or kilograms"
}

func anyCount(t []token, from int) bool {
	for i := from; i < len(t); i++ {
		if _, _, ok := numeral(t, i); ok {
			return true
		}
	}
	return false
}
