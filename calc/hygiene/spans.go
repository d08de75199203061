package hygiene

import (
	"cmp"
	"slices"
	"time"
)

const (
	// closeGap is how far two readings may lie apart to vouch for the time between
	// them: rules ask for a reading a day (14 CCR 17868.3, second-hand; BioAbfV s. 3(6):
	// once each working day, seen), and a morning's and the next evening's are
	// daily ones (own choice).
	closeGap = 36 * time.Hour
	// lineGap is how far they may lie apart for a straight line between them to
	// count as probable (own choice: a heap left alone seldom cools and heats
	// again within three days).
	lineGap = 72 * time.Hour
)

// span is a stretch of time, counted from now.
type span struct{ from, to time.Duration }

func (s span) length() time.Duration { return s.to - s.from }

func (s span) holds(at time.Duration) bool { return at >= s.from && at <= s.to }

// join appends a span that begins no earlier than those before it, into the
// last of them where they touch.
func join(spans []span, s span) []span {
	n := len(spans) - 1
	if n >= 0 && s.from <= spans[n].to {
		spans[n].to = max(spans[n].to, s.to)
		return spans
	}
	return append(spans, s)
}

func total(spans []span) time.Duration {
	var sum time.Duration
	for _, s := range spans {
		sum += s.length()
	}
	return sum
}

// inside is how much of the spans lies within one.
func inside(spans []span, one span) time.Duration {
	var sum time.Duration
	for _, s := range spans[find(spans, one.from):] {
		if s.from >= one.to {
			break
		}
		sum += min(s.to, one.to) - max(s.from, one.from)
	}
	return sum
}

// find is the place of the first span that ends at or after a moment.
func find(spans []span, at time.Duration) int {
	i, _ := slices.BinarySearchFunc(spans, at, func(s span, at time.Duration) int { return cmp.Compare(s.to, at) })
	return i
}

func covered(spans []span, at time.Duration) bool {
	i := find(spans, at)
	return i < len(spans) && spans[i].holds(at)
}

// certain are the stretches between neighbouring readings that both lie in the
// band and close enough together. A turning between them does not part them:
// the rules themselves read once a day and turn in between.
func (s series) certain(b band) []span {
	var spans []span
	for i := 1; i < len(s.middle); i++ {
		p, q := s.middle[i-1], s.middle[i]
		if q.at-p.at <= closeGap && p.in(b) && q.in(b) {
			spans = join(spans, span{p.at, q.at})
		}
	}
	return spans
}

// probable adds to the certain stretches those in which an estimate lies in the
// band and, where it says nothing, those of a straight line between readings.
// Close readings that are both outside the band overrule the estimate.
func (s series) probable(b band, estimate line) []span {
	if len(s.middle) == 0 {
		spans, _ := estimate.hot(nil, span{s.since, 0}, b)
		return spans
	}
	spans, _ := estimate.hot(nil, span{s.since, s.middle[0].at}, b)
	for i := 1; i < len(s.middle); i++ {
		p, q := s.middle[i-1], s.middle[i]
		gap := span{p.at, q.at}
		if gap.length() <= closeGap && p.in(b) == q.in(b) {
			if p.in(b) {
				spans = join(spans, gap)
			}
			continue
		}
		var told bool
		if spans, told = estimate.hot(spans, gap, b); !told && gap.length() <= lineGap {
			spans = segment{vertex{p.at, p.low}, vertex{q.at, q.low}}.hot(spans, b)
		}
	}
	spans, _ = estimate.hot(spans, span{s.middle[len(s.middle)-1].at, 0}, b)
	return spans
}
