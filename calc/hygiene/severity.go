package hygiene

import (
	"fmt"
	"math"
	"time"

	"heapside/calc/measure"
)

// Solids is the regime of total solids of the time and temperature equations.
type Solids uint8

// The regimes.
const (
	Solids7    Solids = iota // 7 % total solids or more: what a heap is
	SolidsThin               // less: a liquid
)

// The equations of 40 CFR 503.32(a)(3), as 15A NCAC 02T .1106 carries them
// over (all rows seen there): D = scale / 10^(0.1400 t), D in days, t in
// Celsius from 50 up.
const (
	scaleSolid = 131_700_000.0
	scaleThin  = 50_070_000.0 // less than 7 % solids, held for 30 minutes or more
	perDegree  = 0.1400
	leastC     = 50.0

	floorSolid    = 20.0 / 60 / 24      // days: 20 minutes
	floorThin     = 30.0 / 60 / 24      // days: 30 minutes
	floorThinFast = 15.0 / 60 / 60 / 24 // days: 15 seconds, where scaleSolid gives less than 30 minutes
)

// D is the least time in days that the equations ask for at c Celsius; false
// below 50 °C and for what is no number, where they do not hold. The regime of
// small particles heated by gas or a liquid (floor of 15 seconds) is left out.
//
// It compares severities only: the rule is for sludge heated evenly in a vessel,
// and 327 IAC 6.1-4-13(b)(2)(A) offers it "except for composting" (seen).
func D(c float64, s Solids) (days float64, ok bool) {
	if !(c >= leastC) || math.IsInf(c, 1) {
		return 0, false
	}
	solid := scaleSolid / math.Pow(10, perDegree*c)
	if s == Solids7 {
		return max(solid, floorSolid), true
	}
	if solid < floorThin {
		return max(solid, floorThinFast), true
	}
	return max(scaleThin/math.Pow(10, perDegree*c), floorThin), true
}

// Severity is how many times over the heat of a heap adds up to the time that
// the equations ask for: dt / D(t) summed over time, which is our own way of
// taking changing heat (the rule has one temperature). Certain takes the colder
// of two readings close together, Probable the straight line between them. It
// is a comparison of severity and never a rule met.
type Severity struct{ Certain, Probable float64 }

// severityStep is the step of the sum along a straight line (own choice).
const severityStep = time.Hour

func (s series) severity() Severity {
	var sum Severity
	for i := 1; i < len(s.middle); i++ {
		p, q := s.middle[i-1], s.middle[i]
		gap := q.at - p.at
		if gap > lineGap {
			continue
		}
		if gap <= closeGap {
			sum.Certain += dose(min(p.low, q.low), gap)
		}
		if max(p.low, q.low) < leastC {
			continue
		}
		line := segment{vertex{p.at, p.low}, vertex{q.at, q.low}}
		for done := time.Duration(0); done < gap; done += severityStep {
			step := min(severityStep, gap-done)
			sum.Probable += dose(line.at(p.at+done+step/2), step)
		}
	}
	return sum
}

// dose is the share of D that a time at c Celsius is.
func dose(c float64, held time.Duration) float64 {
	days, ok := D(c, Solids7)
	if !ok {
		return 0
	}
	return held.Hours() / 24 / days
}

// Say is the sentence of the comparison; "" where nothing was hot enough for it.
func (s Severity) Say() string {
	if s.Probable < 0.1 {
		return ""
	}
	return fmt.Sprintf("For comparison only: the heat read adds up to %s times what 40 CFR 503.32(a)(3) asks of sludge heated in a vessel; that rule does not stand for composting (327 IAC 6.1-4-13).",
		measure.Say(s.Probable))
}
