package advice

import (
	"slices"

	"heapside/calc/heap"
	"heapside/calc/measure"
	"heapside/calc/process"
)

// Rule is one thing the record can call for: what it says in general, who
// publishes it, when it calls for a job in one heap, and for which.
type Rule struct {
	Code   string // stable, for tests and for the guide
	Text   string // the rule in one sentence
	Source string // who publishes it, or "common practice, no source", or "own choice"; several are parted by "; "
	told   bool   // rests on what a weather service told, which is then to be named too
	when   func(*look) bool
	job    func(*look) Job // asked only when the rule calls
}

// sourceSep stands between the sources of one rule or job.
const sourceSep = "; "

// Most is how many jobs of one heap are named where the reader did not ask for
// all: more is not done (own choice).
const Most = 3

// heapRules are all rules about a heap, in the order in which equally urgent
// jobs are listed.
var heapRules = slices.Concat(heatRules, waterRules, rainRules, smellRules, turnRules, modelRules, frostRules,
	readingRules, growthRules, finishRules)

// Rules are all rules, those about a heap in the order in which equally urgent
// jobs are listed, then those about the garden.
func Rules() []Rule {
	all := slices.Clone(heapRules)
	for _, r := range supplyRules {
		all = append(all, Rule{Code: r.Code, Text: r.Text, Source: r.Source})
	}
	return all
}

// Case is what the jobs of one heap are found from: what its record says, how
// the group measures, what the model makes of it now (nil: no model), the
// weather of the garden (zero: not known), and what is on hand there.
type Case struct {
	State     heap.State
	Measures  measure.Measures
	Condition *process.Condition
	Sky       Sky
	Supply    Supply
}

// Find is what the heap needs now, the most useful first: by urgency, then work
// before advice to wait. Jobs of one kind are joined, and of two that contradict
// each other one is kept, with a note where that needs a word. A finished heap
// needs nothing.
func Find(c Case) []Job {
	if !c.State.Heap.Finished.IsZero() {
		return nil
	}
	l := inspect(c)
	return l.fetch(settle(join(rank(l.called())), l.say))
}

// called are the jobs that the rules call for, in the order of the rules.
func (l *look) called() []Job {
	var jobs []Job
	for _, r := range heapRules {
		if r.when(l) {
			job := r.job(l)
			job.Reason, job.Source = l.say.Word(job.Reason), r.Source
			if r.told {
				job.Source = joinSources(r.Source, l.sky.Credits...)
			}
			jobs = append(jobs, job)
		}
	}
	return jobs
}

func rank(jobs []Job) []Job {
	Rank(jobs, func(j Job) Job { return j })
	return jobs
}

// Rank sorts what stands for jobs, the most useful first, and leaves equally
// useful ones in their order.
func Rank[T any](items []T, job func(T) Job) {
	weight := func(j Job) int {
		w := 2 * int(j.Urgency)
		if !Idle(j.Kind) {
			w++
		}
		return w
	}
	slices.SortStableFunc(items, func(a, b T) int { return weight(job(b)) - weight(job(a)) })
}
