package maturity

import (
	"slices"

	"heapside/calc/heap"
	"heapside/calc/measure"
)

// Outcome is what a test says of compost, the worst last.
type Outcome string

// The outcomes.
const (
	Silent   Outcome = "silent"   // its numbers settle nothing
	Finished Outcome = "finished" // it speaks for compost that is done
	Fresh    Outcome = "fresh"    // part-finished: fit to lie, not to plant in
	Against  Outcome = "against"  // it failed
)

var outcomes = []Outcome{Silent, Finished, Fresh, Against}

// Finding is what one test says, by the limits that others published.
type Finding struct {
	Outcome   Outcome
	Plants    bool          // plants did well enough for beds
	Seedlings bool          // and by the strictest published line, as seed mixes ask
	Stable    bool          // within what Canada asks after 21 days of curing (CCME, from memory)
	Unfit     string        // why plants would suffer, however ripe it is; "" when nothing says so
	Short     string        // the figure that tells, "index 86 %"; "" when there is none
	Lines     []string      // the arithmetic and the limits, a sentence each
	Basis     []string      // the sources
	Values    []heap.Number // what was computed

	whole bool // numbers were read that are worth keeping, whatever they settle
}

// add joins what another number of the same test says; the worst outcome counts.
func (f *Finding) add(o Finding) {
	if slices.Index(outcomes, o.Outcome) > slices.Index(outcomes, f.Outcome) {
		f.Outcome = o.Outcome
	}
	f.Plants, f.Seedlings, f.Stable = f.Plants || o.Plants, f.Seedlings || o.Seedlings, f.Stable || o.Stable
	if f.Outcome == Fresh || f.Outcome == Against {
		f.Plants, f.Seedlings, f.Stable = false, false, false
	}
	if f.Unfit == "" {
		f.Unfit = o.Unfit
	}
	if f.Short == "" {
		f.Short = o.Short
	}
	f.Lines, f.Basis, f.Values = append(f.Lines, o.Lines...), append(f.Basis, o.Basis...), append(f.Values, o.Values...)
}

// Judge is what a test on record says: by its numbers where they settle it,
// else by its words. Temperatures are printed on the group's scale.
func Judge(t heap.Test, m measure.Measures) Finding {
	f := judgeNumbers(t, m)
	passed, said := inWords(t.Result)
	if len(t.Numbers) == 0 {
		passed, said = t.Passed, true // words decided when it was logged
	}
	if f.Outcome != Silent {
		if said && len(t.Numbers) > 0 && passed != (f.Outcome == Finished) {
			f.Lines = append(f.Lines, m.Word("The words and the numbers of this result contradict: the numbers count."))
		}
		return f
	}
	switch {
	case said && passed:
		f.Outcome = Finished
		f.Plants = slices.Contains(plantTests, kindOf(t.Test).Name)
		f.Seedlings = f.Plants
	case said && kindOf(t.Test).Name == "look":
		f.Outcome = Fresh // what can be told apart still is coarse, not bad
	case said:
		f.Outcome = Against
	}
	return f
}

// judgeNumbers is Judge by the numbers alone.
func judgeNumbers(t heap.Test, m measure.Measures) Finding {
	judge := kindOf(t.Test).judge
	if judge == nil || len(t.Numbers) == 0 {
		return Finding{Outcome: Silent}
	}
	return judge(t, m)
}

// fullDays are how long a bag and a jar stand in the published tests (Devon: a
// few days; Cornell: a week; both seen).
var fullDays = map[string]float64{"bag": 3, "jar": 7}

// judgeSealed says when a bag or a jar was opened early; how it smelled decides.
func judgeSealed(t heap.Test, m measure.Measures) Finding {
	f := Finding{Outcome: Silent}
	if n, ok := t.Number(sealedDays); ok && n.Value < fullDays[t.Test] {
		f.Lines = []string{m.Word("The published test stands for a few days; this one was opened early.")}
		if t.Test == "jar" {
			f.Lines = []string{m.Word("The published test stands for a week; this one was opened early.")}
		}
	}
	return f
}
