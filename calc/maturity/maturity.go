// Package maturity says how far a heap is and what its compost is fit for,
// from the evidence on record.
package maturity

import (
	"heapside/calc/hygiene"
	"heapside/calc/measure"
)

// Stage is where a heap is on its way.
type Stage string

// The stages, in order.
const (
	Filling Stage = "filling"
	Hot     Stage = "hot"
	Cooling Stage = "cooling"
	Curing  Stage = "curing"
	Ready   Stage = "ready"
)

// Verdict answers whether compost is fit for a use.
type Verdict string

// The verdicts.
const (
	Yes     Verdict = "ready"
	NotYet  Verdict = "not yet"
	Unknown Verdict = "unknown"
)

// Use is one use of compost with its verdict, the reason, and the cheapest
// observation or test that would settle or change it.
type Use struct {
	Name    string
	Verdict Verdict
	Why     string
	Settle  string
}

// Model is what a model of the heap expects of it, as the points that 1, 5 and 9
// of 10 runs stay under: the share (0 to 1) of degradable solids that is gone, and
// the respiration at 37 C, g O2 per kg dry mass and hour; and how warm it probably
// was between readings. The zero Model is none.
type Model struct {
	Lost, Breathing measure.Range
	Past            hygiene.Curve
}

// Assessment is the whole answer. Because holds the strongest reasons in short
// sentences, Also the other evidence, Basis the sources all rest on, Cautions the
// warnings that apply.
type Assessment struct {
	Stage    Stage
	Because  []string
	Also     []string
	Guess    []string // what the model makes of it
	Uses     []Use
	Settle   string // the one observation that would help most
	Basis    []string
	Cautions []string
}
