package weather

import (
	"slices"
	"time"
)

// grid is hours by their time while they are put together.
type grid map[int64]*Hour

func (g grid) at(t time.Time) *Hour {
	unix := t.Unix()
	if g[unix] == nil {
		g[unix] = &Hour{At: time.Unix(unix, 0).UTC()}
	}
	return g[unix]
}

// list is all hours in order.
func (g grid) list() []Hour {
	list := make([]Hour, 0, len(g))
	for _, h := range g {
		list = append(list, *h)
	}
	slices.SortFunc(list, func(a, b Hour) int { return a.At.Compare(b.At) })
	return list
}

// hours are the hours of a span in order, without values that cannot be.
func (g grid) hours(since, until time.Time) []Hour {
	list := slices.DeleteFunc(g.list(), func(h Hour) bool { return h.At.Before(since) || !h.At.Before(until) })
	for i := range list {
		list[i] = list[i].plausible()
	}
	return list
}

// clip is the part of hours, in order, that lies in a span.
func clip(hours []Hour, since, until time.Time) []Hour {
	byTime := func(h Hour, t time.Time) int { return h.At.Compare(t) }
	from, _ := slices.BinarySearchFunc(hours, since, byTime)
	to, _ := slices.BinarySearchFunc(hours, until, byTime)
	return hours[from:max(from, to)]
}
