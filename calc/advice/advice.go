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

// Job is one thing to do with a heap, or with the garden as a whole.
type Job struct {
	Kind       string // Turn, Water, ...; what it means and what closes it: Kinds
	Title      string // "Turn it"; a verb first
	Reason     string // what on record calls for it
	Note       string // what was left out or put off for it, in one sentence; or empty
	Source     string // who publishes the rule, or "common practice, no source"; several are parted by "; "
	Urgency    Urgency
	Confidence string  // "sure", "likely", "a guess"
	Amount     string  // how much, in the group's measures: "20 litres (2 cans)"; or empty
	WaterL     float64 // litres to add, where water belongs to the job
	Caution    string  // a warning that goes with it, or empty
	Done       string  // the typed line that logs it done, without the heap; or empty
}
