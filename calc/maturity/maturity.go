// Package maturity says how far a heap is and what its compost is fit for,
// from the evidence on record.
package maturity

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

// Assessment is the whole answer. Because holds the evidence in short
// sentences, Basis the sources it rests on, Cautions the warnings that apply.
type Assessment struct {
	Stage    Stage
	Because  []string
	Uses     []Use
	Settle   string // the one observation that would help most
	Basis    []string
	Cautions []string
}
