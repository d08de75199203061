package reminders

import "time"

// Stats count what an engine did since it was made.
type Stats struct {
	Armed    int // places whose next reminder was worked out
	Prepared int // posts written down to be sent
	Quiet    int // reminders that came due with nothing to say
	Sent     int
	Late     int // of those, more than lateAfter after they were due
	Missed   int // reminders that were too late to be said
	Dropped  int // posts that nothing called for any more
	Retried  int
	Fenced   int // posts that another process had taken over
	Edited   int
	Failed   int // places that were left for a minute after an error
}

// lateAfter is when a reminder counts as late (own choice).
const lateAfter = time.Minute

// Stats are the counts so far.
func (e *Engine) Stats() Stats {
	e.mu.Lock()
	defer e.mu.Unlock()
	return e.stats
}

// count changes the counts.
func (e *Engine) count(change func(*Stats)) {
	e.mu.Lock()
	defer e.mu.Unlock()
	change(&e.stats)
}

// Passed is when a pass last came to its end without an error; zero before the
// first.
func (e *Engine) Passed() time.Time {
	e.mu.Lock()
	defer e.mu.Unlock()
	return e.passed
}
