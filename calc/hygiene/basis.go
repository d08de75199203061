package hygiene

import (
	"slices"
	"time"

	"heapside/calc/heap"
	"heapside/calc/measure"
)

const (
	// The depth at which windrows are read (14 CCR 17868.3, as a facility report
	// restates it: 12 to 24 in; second-hand).
	ruleDepthCm, ruleDepthMostCm = 30, 61
	// fewReadings is how many readings say little of a heap's heat (own choice).
	fewReadings = 3
	// clash is by how much two readings within an hour of each other differ when
	// they cannot both speak for the middle (own choice).
	clash       = 10.0
	clashWithin = time.Hour
	// hotC is the temperature from which fresh material misses some of the heat:
	// the line of most rules (40 CFR 257 App. II, seen).
	hotC = 55.0
)

// Basis is what the findings rest on, and what weakens them.
type Basis struct {
	Since     time.Time     // the heap was last filled
	Readings  int           // of the middle, since then
	NoDepth   int           // of these, without a depth
	Outer     int           // readings of the outer zone
	OuterC    float64       // the coldest of them, Celsius; 0 without one
	WidestGap time.Duration // between two readings of which one was hot
	Unread    time.Duration // since the last reading, if that was hot
	Clash     float64       // the most by which two readings within an hour differ, Celsius; 0: they agree
	ClashAt   time.Time
	FedAt     time.Time // when fresh material last went in, if the heap had been hot by then
}

func (s series) basis(h heap.State) Basis {
	b := Basis{Since: h.RefilledAt, Outer: len(s.outer)}
	for i, r := range s.middle {
		hot := r.high >= hotC
		b.Readings += r.count
		b.NoDepth += r.count - r.noted
		b.Unread = 0
		if hot {
			b.Unread = -r.at
		}
		if hot && h.LastAdded.After(s.now.Add(r.at)) {
			b.FedAt = h.LastAdded
		}
		if i > 0 && (hot || s.middle[i-1].high >= hotC) {
			b.WidestGap = max(b.WidestGap, r.at-s.middle[i-1].at)
		}
		if c := s.differ(i); c >= clash && c > b.Clash {
			b.Clash, b.ClashAt = c, s.now.Add(r.at)
		}
	}
	for i, r := range s.outer {
		if i == 0 || r.C < b.OuterC {
			b.OuterC = r.C
		}
	}
	return b
}

// differ is by how much the readings of one moment differ among themselves and
// from those of the moment before, if that is near and the heap was not turned
// in between.
func (s series) differ(i int) float64 {
	r := s.middle[i]
	alone := r.high - r.low
	if i == 0 || r.at-s.middle[i-1].at > clashWithin {
		return alone
	}
	p := s.middle[i-1]
	c := max(alone, r.high-p.low, p.high-r.low)
	if c > alone && slices.ContainsFunc(s.turns, func(t turning) bool { return t.at >= p.at && t.at <= r.at }) {
		return alone
	}
	return c
}

// Remarks are the sentences on what the findings rest on, the weightiest first.
func (b Basis) Remarks(m measure.Measures, now time.Time) []string {
	if b.Readings == 0 {
		return []string{m.Word("No temperature of the middle is on record since the heap was last filled.")}
	}
	var lines []string
	add := func(line string) { lines = append(lines, line) }
	counted := count{b.Readings, readings}.say(m, false)
	if b.Readings < fewReadings {
		add(m.Say("Only %s since the heap was last filled: read it every day while it is hot.", counted))
	} else if b.WidestGap > closeGap {
		add(m.Say("Up to %s lie between two readings: rules ask for one a day.", spanOf(b.WidestGap).say(m, false)))
	}
	if b.Unread > closeGap {
		add(m.Say("The middle was last read %s: what it did since is not certain.", m.SayAgo(b.Unread)))
	}
	if !b.FedAt.IsZero() {
		add(m.Say("Fresh material went in %s and has had only the heat since; mixed with it, treated compost counts as untreated (Louisiana Administrative Code 7 V.1211).", m.SayAgo(now.Sub(b.FedAt))))
	}
	if b.Clash > 0 {
		add(m.Say("Two readings %s, within an hour, differ by %s: the colder one counts.", m.SayAgo(now.Sub(b.ClashAt)), sayDegrees(m, b.Clash)))
	}
	switch {
	case b.Outer == 0:
		add(m.Word("The cool outer zone was never read; readings should include it (USDA APHIS)."))
	case b.OuterC < hotC:
		add(m.Say("The outer zone read %s at its coldest: only turning brings what lies there into the heat.", m.SayTemperature(b.OuterC)))
	}
	if b.NoDepth > 0 {
		add(m.Say("No depth was noted with %d of %s: rules for windrows read %s to %s deep (14 CCR 17868.3, as a facility report has it).",
			b.NoDepth, counted, m.SayLength(ruleDepthCm), m.SayLength(ruleDepthMostCm)))
	}
	return lines
}
