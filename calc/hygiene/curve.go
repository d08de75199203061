package hygiene

import (
	"cmp"
	"math"
	"slices"
	"time"
)

// Point is an estimate of what a thermometer in the middle would have shown at
// a moment: its middle in Celsius, and the low end of its band.
type Point struct {
	At       time.Time
	Low, Mid float64
}

// Curve is an estimate of the past, in any order. Between two points at most a
// day apart it runs straight; elsewhere it says nothing.
type Curve []Point

// curveStep is how far apart points may lie (own choice).
const curveStep = 24 * time.Hour

// line is one value of a curve over time, oldest first.
type line []vertex

type vertex struct {
	at time.Duration // from now
	c  float64
}

// line takes one value of each point; points that are no numbers are left out.
func (c Curve) line(now time.Time, value func(Point) float64) line {
	out := make(line, 0, len(c))
	for _, p := range c {
		if v := value(p); !math.IsNaN(v) && !math.IsInf(v, 0) {
			out = append(out, vertex{p.At.Sub(now), v})
		}
	}
	slices.SortStableFunc(out, func(a, b vertex) int { return cmp.Compare(a.at, b.at) })
	return out
}

func low(p Point) float64 { return p.Low }
func mid(p Point) float64 { return p.Mid }

// hot appends to spans the parts of gap in which the line lies in the band. It
// is false where the line says nothing about any part of gap.
func (l line) hot(spans []span, gap span, b band) ([]span, bool) {
	if len(l) == 0 {
		return spans, false
	}
	i, _ := slices.BinarySearchFunc(l, gap.from, func(v vertex, at time.Duration) int { return cmp.Compare(v.at, at) })
	told := false
	for i = max(1, i); i < len(l) && l[i-1].at < gap.to; i++ {
		s := segment{l[i-1], l[i]}
		if s.to.at-s.from.at > curveStep {
			continue
		}
		if s = s.within(gap); s.to.at > s.from.at {
			told = true
			spans = s.hot(spans, b)
		}
	}
	return spans, told
}

// segment is a straight run of temperature.
type segment struct{ from, to vertex }

// within is the part of the segment that lies in gap.
func (s segment) within(gap span) segment {
	whole := s
	if gap.from > s.from.at {
		s.from = vertex{gap.from, whole.at(gap.from)}
	}
	if gap.to < s.to.at {
		s.to = vertex{gap.to, whole.at(gap.to)}
	}
	return s
}

func (s segment) at(t time.Duration) float64 {
	return s.from.c + (s.to.c-s.from.c)*float64(t-s.from.at)/float64(s.to.at-s.from.at)
}

// hot appends the part of the segment that lies in the band.
func (s segment) hot(spans []span, b band) []span {
	length := float64(s.to.at - s.from.at)
	begin, end := 0.0, 1.0
	switch rise := s.to.c - s.from.c; {
	case rise == 0 && !b.holds(s.from.c):
		return spans
	case rise != 0:
		in, out := (b.low-s.from.c)/rise, (b.high-s.from.c)/rise
		begin, end = max(0, min(in, out)), min(1, max(in, out))
	}
	if begin >= end {
		return spans
	}
	return join(spans, span{s.from.at + time.Duration(begin*length), s.from.at + time.Duration(end*length)})
}
