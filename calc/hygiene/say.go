package hygiene

import (
	"fmt"
	"math"
	"strings"
	"time"

	"heapside/calc/measure"
)

// Caution goes with every finding.
const Caution = "Reached means the rule's time and temperature where it was read. These rules are written for composting works; local rules come first."

// Best is what to say first: of the rules for turned heaps whose text was read
// or restated, the first in the table that was reached, else the first that was
// probably reached, else the first. A garden heap is hot in its middle only, so
// the rules for vessels and for aerated piles are no yardstick for it.
func (r Report) Best() Finding {
	for _, status := range []Status{Reached, Probably, NotYet} {
		for _, f := range r.Findings {
			if f.Status == status && f.Rule.yardstick() {
				return f
			}
		}
	}
	return Finding{}
}

func (r Rule) yardstick() bool {
	return r.Systems == Turned && r.Turns > 0 && r.Seen != FromMemory
}

// Headline says the best finding, then of the others what it leaves open: the
// rule named first in the table where that was not reached, the stricter reading
// where it has another outcome, the lesser rule where no more was reached.
func (r Report) Headline(m measure.Measures) []string {
	best := r.Best()
	lines := []string{best.Say(m)}
	for i, f := range r.Findings {
		first := i == 0 && f.Status != best.Status
		stricter := f.Rule.StrictOf == best.Rule.Code && f.Status != best.Status
		lesser := f.Rule.Lesser && f.Rule.StrictOf == "" && best.Status == NotYet && f.Status != NotYet
		if first || stricter || lesser {
			lines = append(lines, f.Say(m))
		}
	}
	return lines
}

// Say is the finding in one or two sentences.
func (f Finding) Say(m measure.Measures) string {
	line := capital(f.Rule.Name) + " asks " + f.Rule.Ask(m) + ": "
	switch f.Status {
	case Reached:
		line += "reached where it was read"
	case Probably:
		line += "probably reached; readings close enough together are missing for " + f.Missing.say(f.Rule, m, "")
	default:
		line += "it still needs " + f.SayMissing(m)
		if probably := f.MissingProbably.say(f.Rule, m, "more "); probably != f.SayMissing(m) && f.MissingProbably.within(f.Missing) {
			line += ", probably only " + probably
		}
	}
	line += " (" + f.Rule.cite() + ")."
	switch {
	case f.Status == NotYet:
	case f.Moisture == TooDry:
		line += fmt.Sprintf(" It also asks for %g %% moisture, and it felt drier.", f.Rule.MoistPct)
	case f.Moisture == MoistUnknown:
		line += fmt.Sprintf(" It also asks for %g %% moisture, which no squeeze test shows.", f.Rule.MoistPct)
	}
	return line
}

// SayMissing is what is missing for certain: "2 more days at 55 °C or above and
// 1 more turning while hot"; "nothing" when the rule was reached.
func (f Finding) SayMissing(m measure.Measures) string { return f.Missing.say(f.Rule, m, "more ") }

// say lists what is missing; more stands between each number and its unit.
func (l Lack) say(r Rule, m measure.Measures, more string) string {
	var parts []string
	add := func(counted, rest string) {
		number, unit, _ := strings.Cut(counted, " ")
		parts = append(parts, number+" "+more+unit+rest)
	}
	if l.Hot > 0 {
		add(sayTime(l.Hot), r.inARow()+" "+r.Hold.at(m))
	}
	if l.Peak > 0 {
		add(sayTime(l.Peak), " "+r.Peak.at(m))
	}
	if l.Turns > 0 {
		add(counted(l.Turns, "turning"), " while hot")
	}
	if len(parts) == 0 {
		return "nothing"
	}
	return list(parts)
}

// Ask is what the rule asks, without its further conditions: "15 days at 55 °C
// or above and 5 turnings while hot".
func (r Rule) Ask(m measure.Measures) string {
	parts := []string{sayTime(r.Hold.For) + r.inARow() + " " + r.Hold.at(m)}
	if r.Peak.For > 0 {
		parts = append(parts, sayTime(r.Peak.For)+" "+r.Peak.at(m)+" among them")
	}
	if r.Turns > 0 {
		turns := fmt.Sprintf("%d turnings while hot", r.Turns)
		if r.Apart > 0 {
			turns += ", at least " + sayTime(r.Apart) + " apart"
		}
		parts = append(parts, turns)
	}
	return list(parts)
}

// Also are the further conditions that readings cannot show, in short pieces;
// none when there are none.
func (r Rule) Also(m measure.Measures) []string {
	var parts []string
	add := func(asked bool, format string, args ...any) {
		if asked {
			parts = append(parts, fmt.Sprintf(format, args...))
		}
	}
	add(r.MoistPct > 0, "at least %g %% moisture", r.MoistPct)
	add(r.StartCN[1] > 0, "C:N %g to %g at the start", r.StartCN[0], r.StartCN[1])
	add(r.PieceMm > 0, "pieces of at most %s", sayPiece(m, r.PieceMm))
	add(r.Store > 0, "%s of storage afterwards", sayTime(r.Store))
	add(r.SeedsPerLitre > 0, "at most %g germinable seeds in a litre", r.SeedsPerLitre)
	return parts
}

func sayPiece(m measure.Measures, mm float64) string {
	if mm < 20 && m.System != measure.US && m.System != measure.Imperial {
		return fmt.Sprintf("%g mm", mm)
	}
	if mm < 25 {
		return "half an inch" // 12 mm
	}
	return m.SayLength(mm / 10)
}

func (r Rule) inARow() string {
	if r.Unbroken && r.Hold.For >= 2*day {
		return " in a row"
	}
	return ""
}

// cite names the source, and how it was read when that was not on its own page.
func (r Rule) cite() string {
	if r.Seen == Read {
		return r.Source
	}
	return r.Source + ", " + string(r.Seen)
}

// at is the temperature of a hold: "at 55 °C or above", "at 55 to 77 °C".
func (h Hold) at(m measure.Measures) string {
	t := m.SayTemperature(h.C)
	switch {
	case h.MostC > 0:
		number, _, _ := strings.Cut(t, " ")
		return "at " + number + " to " + m.SayTemperature(h.MostC)
	case h.Above:
		return "above " + t
	}
	return "at " + t + " or above"
}

// SayTime writes a time that was held, rounded down: "4 hours", "15 days".
func SayTime(d time.Duration) string {
	switch {
	case d < time.Hour:
		return counted(int(d/time.Minute), "minute")
	case d < 36*time.Hour:
		return counted(int(d/time.Hour), "hour")
	}
	return counted(int(d/day), "day")
}

// sayTime writes a time a rule asks for, rounded up: "4 hours", "15 days".
func sayTime(d time.Duration) string {
	switch {
	case d < time.Hour:
		return counted(ceil(d, time.Minute), "minute")
	case d < 36*time.Hour:
		return counted(ceil(d, time.Hour), "hour")
	}
	return counted(ceil(d, day), "day")
}

func ceil(d, unit time.Duration) int { return int((d + unit - 1) / unit) }

func counted(n int, one string) string {
	if n == 1 {
		return "1 " + one
	}
	return fmt.Sprintf("%d %ss", n, one)
}

func list(parts []string) string {
	if n := len(parts); n > 1 {
		return strings.Join(parts[:n-1], ", ") + " and " + parts[n-1]
	}
	return strings.Join(parts, "")
}

func capital(s string) string {
	if s == "" {
		return s
	}
	return strings.ToUpper(s[:1]) + s[1:]
}

// sayDegrees prints a difference of temperatures, in Celsius, in the group's degrees.
func sayDegrees(m measure.Measures, c float64) string {
	if m.Fahrenheit {
		return fmt.Sprintf("%.0f °F", math.Round(c*9/5))
	}
	return fmt.Sprintf("%.0f °C", math.Round(c))
}
