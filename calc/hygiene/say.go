package hygiene

import (
	"fmt"
	"math"
	"strings"
	"time"
	"unicode"
	"unicode/utf8"

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
	name, asks, cite := capital(m.Word(f.Rule.Name)), f.Rule.Ask(m), f.Rule.cite()
	var line string
	switch f.Status {
	case Reached:
		line = m.Say("%s asks %s: reached where it was read (%s).", name, asks, cite)
	case Probably:
		line = m.Say("%s asks %s: probably reached; readings close enough together are missing for %s (%s).", name, asks, f.Missing.say(f.Rule, m, false), cite)
	default:
		certain, probably := f.SayMissing(m), f.MissingProbably.say(f.Rule, m, true)
		line = m.Say("%s asks %s: it still needs %s (%s).", name, asks, certain, cite)
		if probably != certain && f.MissingProbably.within(f.Missing) {
			line = m.Say("%s asks %s: it still needs %s, probably only %s (%s).", name, asks, certain, probably, cite)
		}
	}
	switch {
	case f.Status == NotYet:
	case f.Moisture == TooDry:
		line += " " + m.Say("It also asks for %g %% moisture, and it felt drier.", f.Rule.MoistPct)
	case f.Moisture == MoistUnknown:
		line += " " + m.Say("It also asks for %g %% moisture, which no squeeze test shows.", f.Rule.MoistPct)
	}
	return line
}

// SayMissing is what is missing for certain: "2 more days at 55 °C or above and
// 1 more turning while hot"; "nothing" when the rule was reached.
func (f Finding) SayMissing(m measure.Measures) string { return f.Missing.say(f.Rule, m, true) }

// say lists what is missing; more says "2 more days" for "2 days".
func (l Lack) say(r Rule, m measure.Measures, more bool) string {
	var parts []string
	if l.Hot > 0 {
		parts = append(parts, r.Hold.held(m, r.inARow(m, spanOf(l.Hot).say(m, more))))
	}
	if l.Peak > 0 {
		parts = append(parts, r.Peak.held(m, spanOf(l.Peak).say(m, more)))
	}
	if l.Turns > 0 {
		parts = append(parts, count{l.Turns, turnings}.say(m, more))
	}
	if len(parts) == 0 {
		return m.Word("nothing")
	}
	return list(m, parts)
}

// Ask is what the rule asks, without its further conditions: "15 days at 55 °C
// or above and 5 turnings while hot".
func (r Rule) Ask(m measure.Measures) string {
	parts := []string{r.Hold.held(m, r.inARow(m, spanOf(r.Hold.For).say(m, false)))}
	if r.Peak.For > 0 {
		parts = append(parts, m.Say("%s among them", r.Peak.held(m, spanOf(r.Peak.For).say(m, false))))
	}
	if r.Turns > 0 {
		turns := count{r.Turns, turnings}.say(m, false)
		if r.Apart > 0 {
			turns = m.Say("%s, at least %s apart", turns, spanOf(r.Apart).say(m, false))
		}
		parts = append(parts, turns)
	}
	return list(m, parts)
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

// inARow adds to a time that it has to be in one piece, where the rule asks so.
func (r Rule) inARow(m measure.Measures, held string) string {
	if r.Unbroken && r.Hold.For >= 2*day {
		return m.Say("%s in a row", held)
	}
	return held
}

// cite names the source, and how it was read when that was not on its own page.
func (r Rule) cite() string {
	if r.Seen == Read {
		return r.Source
	}
	return r.Source + ", " + string(r.Seen)
}

// held is a time at the temperature of a hold: "15 days at 55 °C or above",
// "3 days at 55 to 77 °C".
func (h Hold) held(m measure.Measures, held string) string {
	t := m.SayTemperature(h.C)
	switch {
	case h.MostC > 0:
		number, _, _ := strings.Cut(t, " ")
		return m.Say("%s at %s to %s", held, number, m.SayTemperature(h.MostC))
	case h.Above:
		return m.Say("%s above %s", held, t)
	}
	return m.Say("%s at %s or above", held, t)
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

// count is a number of things of one sort.
type count struct {
	n  int
	of counting
}

// counting is how a sort of thing is counted, and how more of it is.
type counting struct{ one, many, oneMore, manyMore string }

var (
	minutes  = counting{"1 minute", "%d minutes", "1 more minute", "%d more minutes"}
	hours    = counting{"1 hour", "%d hours", "1 more hour", "%d more hours"}
	days     = counting{"1 day", "%d days", "1 more day", "%d more days"}
	turnings = counting{"1 turning while hot", "%d turnings while hot", "1 more turning while hot", "%d more turnings while hot"}
	readings = counting{one: "1 reading", many: "%d readings"}
)

func (c count) say(m measure.Measures, more bool) string {
	one, many := c.of.one, c.of.many
	if more {
		one, many = c.of.oneMore, c.of.manyMore
	}
	if c.n == 1 {
		return m.Word(one)
	}
	return m.Say(many, c.n)
}

// spanOf counts a time that a rule asks for, rounded up: 4 hours, 15 days.
func spanOf(d time.Duration) count {
	switch {
	case d < time.Hour:
		return count{ceil(d, time.Minute), minutes}
	case d < 36*time.Hour:
		return count{ceil(d, time.Hour), hours}
	}
	return count{ceil(d, day), days}
}

// sayTime writes a time a rule asks for in English.
func sayTime(d time.Duration) string { return spanOf(d).say(measure.Measures{}, false) }

func ceil(d, unit time.Duration) int { return int((d + unit - 1) / unit) }

func counted(n int, one string) string {
	if n == 1 {
		return "1 " + one
	}
	return fmt.Sprintf("%d %ss", n, one)
}

func list(m measure.Measures, parts []string) string {
	if n := len(parts); n > 1 {
		return strings.Join(parts[:n-1], ", ") + " " + m.Word("and") + " " + parts[n-1]
	}
	return strings.Join(parts, "")
}

func capital(s string) string {
	r, size := utf8.DecodeRuneInString(s)
	if size == 0 {
		return s
	}
	return string(unicode.ToUpper(r)) + s[size:]
}

// sayDegrees prints a difference of temperatures, in Celsius, in the group's degrees.
func sayDegrees(m measure.Measures, c float64) string {
	if m.Fahrenheit {
		return fmt.Sprintf("%.0f °F", math.Round(c*9/5))
	}
	return fmt.Sprintf("%.0f °C", math.Round(c))
}
