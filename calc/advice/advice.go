// Package advice finds the jobs a heap needs now: each rule is data with its
// reason, source, amount, urgency and confidence.
package advice

// Urgency orders jobs.
type Urgency uint8

// The urgencies, least first.
const (
	WhenYouCan Urgency = iota
	Soon               // within a few days
	Today
	Now // something may go wrong
)

// Job is one thing to do with a heap.
type Job struct {
	Kind       string // "turn", "water", "reading", ...
	Title      string // "Turn it"; a verb first
	Reason     string // what on record calls for it
	Source     string // who publishes the rule, or "common practice, no source"; several are parted by "; "
	Urgency    Urgency
	Confidence string  // "sure", "likely", "a guess"
	WaterL     float64 // litres to add, when the job is water
	Caution    string  // a warning that goes with it, or empty
	Done       string  // the typed line that logs it done, without the heap; or empty
}
