// Package trouble finds what is likely wrong with a heap, from a symptom and
// what is on record. Symptoms, facts, causes and remedies are data: a cause is
// weighed by the facts that speak for and against it, and says what would tell it
// from the next one.
package trouble

import (
	"heapside/calc/feedstock"
	"heapside/calc/heap"
	"heapside/calc/measure"
	"heapside/calc/process"
)

// Case is one heap that somebody finds something wrong with.
type Case struct {
	State     heap.State
	Measures  measure.Measures
	Table     *feedstock.Table
	Condition *process.Condition // what the model makes of the heap; nil without one
	AirC      *float64           // the air these days, Celsius; nil when not known
}

// Need is what a remedy takes an amount of.
type Need string

// The needs.
const (
	Nothing Need = ""
	Browns  Need = "browns"
	Greens  Need = "greens"
	Water   Need = "water"
)

// Cause is one thing that can be wrong, and what puts it right.
type Cause struct {
	Code    string
	Name    string // reads after "most likely": "it is too wet, and air cannot get in"
	Remedy  []string
	Need    Need
	Done    string // the typed line that logs the remedy, without the heap; or empty
	Caution string // with its publisher, or empty
	Source  string // several are parted by "; "

	prior map[string]float64 // by symptom; a symptom that is not there does not come from it
	given map[string]weight  // by fact
}

// weight is by how much a fact makes a cause likelier when it holds and when it
// is known not to hold. All weights are own choice: the sources list causes, not
// how often each is the one.
type weight struct{ yes, no float64 }

// Likely is how likely a cause is among those that were weighed.
type Likely string

// The likelihoods, by share of the whole (own choice).
const (
	Most     Likely = "most likely" // more than half
	Possible Likely = "possibly"    // more than a fifth
	Less     Likely = "less likely" // more than a twelfth; less is left out
)

// Finding is a cause with what speaks for and against it.
type Finding struct {
	Cause
	Likely  Likely
	Share   float64 // of the weight of all causes, 0 to 1
	For     []string
	Against []string
}

// Diagnosis is what is likely wrong, the likeliest first; at most three causes.
type Diagnosis struct {
	Symptoms []Symptom
	Findings []Finding
	Tell     string // what would tell the first two apart, or empty
	Doubt    string // what is on record that the symptom does not agree with, or empty
}
