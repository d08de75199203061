package advice

import (
	"slices"

	"heapside/calc/heap"
	"heapside/calc/measure"
)

// Rule is one thing the record can call for: what it says in general, who
// publishes it, and how it is found in one heap's state.
type Rule struct {
	Code   string // stable, for tests and for the guide
	Text   string // the rule in one sentence
	Source string // who publishes it, or "common practice, no source", or "own choice"; several are parted by "; "
	find   func(look) (Job, bool)
}

// sourceSep stands between the sources of one rule or job.
const sourceSep = "; "

// Most is the largest number of jobs that Jobs returns: more is not read on a phone.
const Most = 5

// Rules are all rules, in the order in which equally urgent jobs are listed.
func Rules() []Rule {
	return slices.Concat(heatRules, waterRules, smellRules, turnRules, readingRules, growthRules, finishRules)
}

// Jobs is what the heap needs now, the most urgent first, at most Most. Jobs of
// one kind are joined, and of two that contradict each other one is kept. A
// finished heap needs nothing.
func Jobs(s heap.State, m measure.Measures) []Job {
	if !s.Heap.Finished.IsZero() {
		return nil
	}
	l := inspect(s, m)
	return best(l.called())
}

// called are the jobs that the rules of the record call for.
func (l look) called() []Job {
	var jobs []Job
	for _, r := range Rules() {
		if job, ok := r.find(l); ok {
			job.Source = r.Source
			jobs = append(jobs, job)
		}
	}
	return jobs
}

// best are the jobs to name, joined, without contradictions, most urgent first.
func best(jobs []Job) []Job {
	jobs = settle(join(rank(jobs)))
	return jobs[:min(len(jobs), Most)]
}

func rank(jobs []Job) []Job {
	slices.SortStableFunc(jobs, func(a, b Job) int { return int(b.Urgency) - int(a.Urgency) })
	return jobs
}
