package commands

import (
	"fmt"
	"slices"
	"strings"

	"heapside/calc/advice"
	"heapside/calc/fault"
	"heapside/calc/heap"
	"heapside/calc/process"
)

func (a *Assistant) nextCommand() Command {
	return Command{Name: "next", Summary: "What needs doing now, in order, with reasons",
		Options: []Option{{Name: "heap", Summary: "which heap; all if left out", Kind: HeapName, Words: true}},
		Run:     a.with((*desk).next)}
}

// heapJob is a job together with the heap it is for.
type heapJob struct {
	heap heap.Heap
	advice.Job
}

// maxJobs is how many jobs one answer names: more is a list nobody does. Own choice.
const maxJobs = 6

func (d *desk) next() (Reply, error) {
	heaps, err := d.heaps("heap")
	if err != nil {
		return Reply{}, err
	}
	if len(heaps) == 0 {
		return Reply{Headline: noHeap}, nil
	}
	sky := d.sky(slices.MinFunc(heaps, func(a, b heap.Heap) int { return a.Started.Compare(b.Started) }).Started)
	var jobs []heapJob
	for _, h := range heaps {
		found, err := d.jobs(h, sky)
		if err != nil {
			return Reply{}, err
		}
		for _, job := range found {
			jobs = append(jobs, heapJob{h, job})
		}
	}
	slices.SortStableFunc(jobs, func(a, b heapJob) int { return int(b.Urgency) - int(a.Urgency) })
	if len(jobs) == 0 {
		return Reply{Headline: "Nothing needs doing at " + list(namesOf(heaps), "and") + " now."}, nil
	}
	return d.jobsReply(jobs), nil
}

// Limits of buttons under an answer: Discord API docs, components reference (label 80, custom id
// 100 less the adapter's prefix); more than four is a wall on a phone (own choice).
const (
	maxActionLabel = 80
	maxActionLine  = 90
	maxActions     = 4
)

// jobs are what a heap needs by its record and, where it has one, its model.
func (d *desk) jobs(h heap.Heap, sky Sky) ([]advice.Job, error) {
	v, err := d.follow(h, sky)
	if _, forPeople := fault.As(err); forPeople {
		s, err := d.state(h)
		return advice.Jobs(s, d.m), err
	}
	if err != nil {
		return nil, err
	}
	return advice.JobsSeen(v.state, d.m, v.track.Now(process.Question{Zone: d.zone})), nil
}

// urgencyWords say how soon.
var urgencyWords = map[advice.Urgency]string{
	advice.Now: "now", advice.Today: "today", advice.Soon: "in the next days", advice.WhenYouCan: "when you can",
}

func (d *desk) jobsReply(jobs []heapJob) Reply {
	first := jobs[0]
	r := Reply{
		Headline: fmt.Sprintf("%s, %s: %s.", first.heap.Name, urgencyWords[first.Urgency], lower(first.Title)),
		Values:   map[string]Value{"jobs": {float64(len(jobs)), "1"}},
	}
	for i, job := range jobs[:min(len(jobs), maxJobs)] {
		r.Body = append(r.Body, Block{
			Title: fmt.Sprintf("%d. %s, %s: %s", i+1, job.heap.Name, urgencyWords[job.Urgency], lower(job.Title)),
			Lines: []string{job.Reason + doubt(job.Confidence)},
		})
		for _, source := range strings.Split(job.Source, "; ") {
			r.Basis = appendNew(r.Basis, source)
		}
		if job.Caution != "" && len(r.Cautions) == 0 {
			r.Cautions = []string{job.Caution}
		}
		r.Values[fmt.Sprintf("job.%d.kind", i+1)] = Value{job.Kind, ""}
		r.Values[fmt.Sprintf("job.%d.heap", i+1)] = Value{job.heap.Name, ""}
		r.Actions = append(r.Actions, jobActions(job)...)
	}
	r.Actions = r.Actions[:min(len(r.Actions), maxActions)]
	if n := len(jobs) - maxJobs; n > 0 {
		r.Body = append(r.Body, Block{Lines: []string{fmt.Sprintf("And %d more that can wait; ask for one heap to see them.", n)}})
	}
	return r
}

// doubt says how far to trust a job; one that is sure needs no word.
func doubt(confidence string) string {
	if confidence == "" || confidence == "sure" {
		return ""
	}
	return " (" + confidence + ")"
}

// jobActions are the buttons of a job: what tells the amounts, what logs it done.
func jobActions(job heapJob) []Action {
	var actions []Action
	add := func(label, line string) {
		line += " heap:\"" + job.heap.Name + "\""
		if len(line) <= maxActionLine {
			actions = append(actions, Action{Label: clip(label+", "+job.heap.Name, maxActionLabel), Line: line})
		}
	}
	if job.Kind == "browns" || job.Kind == "greens" {
		add("How much of what", "mix")
	}
	if job.Done != "" {
		add("Done: "+job.Title, job.Done)
	}
	return actions
}

// pressing is the most urgent job of a heap, if it should not wait.
func (d *desk) pressing(s heap.State) (advice.Job, bool) {
	jobs := advice.Jobs(s, d.m)
	if len(jobs) == 0 || jobs[0].Urgency < advice.Today {
		return advice.Job{}, false
	}
	return jobs[0], true
}
