package hygiene

import (
	"math/rand/v2"
	"time"

	"heapside/calc/heap"
)

// now is the moment at which every test is told.
var now = time.Date(2026, time.June, 15, 9, 0, 0, 0, time.UTC)

// ago is a time so many days before now.
func ago(days float64) time.Time { return now.Add(-time.Duration(days * float64(day))) }

// log is one thing in a garden's record, so many days ago.
type log struct {
	daysAgo float64
	what    heap.Payload
}

func temp(c float64) heap.Temp { return heap.Temp{C: c, DepthCm: 40} }

func added(litres float64) heap.Added {
	return heap.Added{Material: "grass-clippings", Name: "grass clippings", VolumeL: litres, MassKg: litres / 4}
}

// story is the state that a record makes.
func story(logs ...log) heap.State {
	h := heap.Heap{Name: "North Bay", Container: heap.PalletBay, SizeL: 1000, Aim: heap.Hygienic, Started: ago(60)}
	entries := make([]heap.Entry, len(logs))
	for i, l := range logs {
		at := ago(l.daysAgo)
		entries[i] = heap.Entry{ID: heap.EntryID(i + 1), At: at, Logged: at, Payload: l.what}
	}
	return heap.Read(h, entries, now)
}

// daily is a reading of c each day from so many days ago to so many.
func daily(c, from, to float64) []log {
	var logs []log
	for d := from; d >= to; d-- {
		logs = append(logs, log{d, temp(c)})
	}
	return logs
}

// turned is a turning an hour after the reading of each of those days.
func turned(daysAgo ...float64) []log {
	var logs []log
	for _, d := range daysAgo {
		logs = append(logs, log{d - 1.0/24, heap.Turned{}})
	}
	return logs
}

// kept is a heap that read c Celsius at least daily for so long, up to now, and
// was turned so often at even distances while it did.
func kept(c float64, held time.Duration, turns int) heap.State {
	s := heap.State{Now: now, RefilledAt: now.Add(-held)}
	for t := s.RefilledAt; t.Before(now); t = t.Add(day) {
		s.Readings = append(s.Readings, heap.Reading{At: t, C: c, DepthCm: 40})
	}
	s.Readings = append(s.Readings, heap.Reading{At: now, C: c, DepthCm: 40})
	for i := range turns {
		s.Turns = append(s.Turns, s.RefilledAt.Add(held*time.Duration(i+1)/time.Duration(turns+1)))
	}
	return s
}

// randomState is a heap with up to 60 readings over up to 40 days; each third
// is a tended one, hot and often turned.
func randomState(r *rand.Rand) heap.State {
	span := time.Duration(1+r.IntN(40)) * day
	s := heap.State{Now: now, RefilledAt: now.Add(-span)}
	at := func() time.Time { return now.Add(-time.Duration(r.Int64N(int64(span + 3*day)))).Truncate(time.Minute) }
	base, spread, turns := 35+30*r.Float64(), 10.0, r.IntN(9)
	if r.IntN(3) == 0 {
		base, spread, turns = 62, 3, 8+r.IntN(8)
	}
	for range r.IntN(60) {
		spot := ""
		if r.IntN(8) == 0 {
			spot = "edge"
		}
		s.Readings = append(s.Readings, heap.Reading{At: at(), C: base + spread*r.NormFloat64(), DepthCm: 40 * float64(r.IntN(2)), Spot: spot})
	}
	for range turns {
		s.Turns = append(s.Turns, at())
	}
	return s
}

// randomCurve is an estimate every six hours with a hole in it, or none.
func randomCurve(r *rand.Rand, s heap.State) Curve {
	if r.IntN(2) == 0 {
		return nil
	}
	var c Curve
	mid := 40 + 20*r.Float64()
	hole := s.RefilledAt.Add(time.Duration(r.Int64N(int64(20 * day))))
	for t := s.RefilledAt; t.Before(s.Now.Add(day)); t = t.Add(6 * time.Hour) {
		mid += 4 * r.NormFloat64()
		if t.Before(hole) || t.After(hole.Add(2*day)) {
			c = append(c, Point{At: t, Low: mid - 8*r.Float64(), Mid: mid})
		}
	}
	return c
}

func finding(r Report, code string) Finding {
	for _, f := range r.Findings {
		if f.Rule.Code == code {
			return f
		}
	}
	panic("no rule " + code)
}
