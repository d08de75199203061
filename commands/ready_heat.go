package commands

import (
	"math"
	"slices"
	"strings"
	"time"

	"heapside/calc/heap"
	"heapside/calc/hygiene"
)

const (
	// nearHot is from what reading on a rule of heat is worth a word: five degrees
	// below the line of most (own choice).
	nearHot = hygieneC - 5.0
	// What one block says at most (own choice: it is read on a phone).
	mostRules, mostRemarks = 2, 2
)

// addHeat says how hot it got, where that matters, and gives scripts the count
// of each rule. In short it is one rule and one remark.
func (d *desk) addHeat(r *Reply, s heap.State, past hygiene.Curve, short bool) {
	report := hygiene.Evaluate(s, past)
	if report.Basis.Readings > 0 {
		d.heatValues(r, report)
	}
	if asked := heatAsked(s) && !short; len(s.Content) > 0 && asked || nearly(s) {
		d.heatBlock(r, s, report, asked)
	}
	if short {
		r.Cautions = r.Cautions[:1]
	}
}

// heatBlock is what addHeat says; in full it names the other rules too.
func (d *desk) heatBlock(r *Reply, s heap.State, report hygiene.Report, full bool) {
	rules, remarks := report.Headline(d.local), report.Basis.Remarks(d.local, d.call.Now)
	if !full {
		rules, remarks = rules[:1], remarks[:min(1, len(remarks))]
	}
	lines := append(rules[:min(mostRules, len(rules))], remarks[:min(mostRemarks, len(remarks))]...)
	if full {
		lines = appendNew(lines, d.othersReached(report))
	}
	if full && s.Heap.Aim == heap.Hygienic {
		lines = appendNew(lines, report.Severity.Say())
	}
	r.Body = append(r.Body, Block{Title: d.in.Word("How hot it got"), Lines: lines})
	if report.Basis.Readings > 0 {
		r.Cautions = append(r.Cautions, hygiene.Caution)
	}
}

// readyHeat answers whether a heap was hot enough by the rules for turned heaps.
func (d *desk) readyHeat(known reckoned) Reply {
	report := hygiene.Evaluate(known.State, known.past())
	best := report.Best()
	name, rule := known.Heap.Name, d.in.Word(best.Rule.Name)
	r := Reply{Values: map[string]Value{}, Basis: []string{best.Rule.Source + ", " + best.Rule.Locator}}
	switch best.Status {
	case hygiene.Reached:
		r.Headline = d.in.Say("Where it was read, %s was hot for as long as %s asks, and turned as often.", name, rule)
	case hygiene.Probably:
		r.Headline = d.in.Say("%s was probably hot for as long as %s asks, and turned as often; the readings alone do not show it.", name, rule)
	default:
		r.Headline = d.in.Say("No: %s is not shown to have been hot for as long as any rule for turned heaps asks, and turned as often.", name)
	}
	d.heatValues(&r, report)
	d.heatBlock(&r, known.State, report, true)
	return r
}

// heatAsked says that a heap's heat matters by what it is for or what went in.
func heatAsked(s heap.State) bool {
	return s.Heap.Aim == heap.Hygienic || slices.ContainsFunc(s.Content, func(a heap.Added) bool {
		return strings.HasPrefix(a.Material, "manure") || a.Material == "food-scraps" || a.Material == "bokashi"
	})
}

// nearly says that the middle read near the line of the rules since the heap was filled.
func nearly(s heap.State) bool {
	return slices.ContainsFunc(s.Readings, func(r heap.Reading) bool {
		return r.C >= nearHot && !r.Outer() && !r.At.Before(s.RefilledAt)
	})
}

// othersReached names the publishers whose other rules were reached, among them
// those who leave gardens out, which has to be said; empty where there are none.
func (d *desk) othersReached(report hygiene.Report) string {
	var sources []string
	best := report.Best()
	for _, f := range report.Findings {
		if f.Status != hygiene.Reached || f.Rule.Source == best.Rule.Source || f.Rule.Lesser || f.Rule.StrictOf != "" || f.Rule.Seen == hygiene.FromMemory || f.Rule.Systems&hygiene.Turned == 0 {
			continue
		}
		source := f.Rule.Source
		if f.Rule.NotGardens {
			source = d.in.Say("%s (which leaves home and allotment heaps out)", source)
		}
		sources = appendNew(sources, source)
	}
	if len(sources) == 0 {
		return ""
	}
	return d.in.Say("Also reached where it was read: the time and temperature of %s.", d.in.List(sources, "and"))
}

// heatValues are the counts that readings show for certain, by rule.
func (d *desk) heatValues(r *Reply, report hygiene.Report) {
	for _, f := range report.Findings {
		name := "hygiene." + f.Rule.Code
		r.Values[name+".status"] = Value{string(f.Status), ""}
		r.Values[name+".hot_days"] = Value{heldDays(f.Certain.Hot), "d"}
		r.Values[name+".turns"] = Value{float64(f.Certain.Turns), "1"}
	}
}

// heldDays is a time in days, to a tenth.
func heldDays(held time.Duration) float64 { return math.Round(held.Hours()/24*10) / 10 }
