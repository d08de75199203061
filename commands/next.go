package commands

import (
	"fmt"
	"strings"

	"heapside/calc/advice"
	"heapside/calc/heap"
	"heapside/commands/speech"
)

func (a *Assistant) nextCommand() Command {
	return Command{Name: "next", Summary: "What needs doing now, in order, with reasons",
		Options: []Option{{Name: "heap", Summary: "which heap; all if left out", Kind: HeapName, Words: true}},
		Run:     a.with((*desk).next)}
}

// maxJobs is how many jobs one answer names: more is a list nobody does. Own choice.
const maxJobs = 6

func (d *desk) next() (Reply, error) {
	heaps, err := d.heaps("heap")
	if err != nil {
		return Reply{}, err
	}
	if len(heaps) == 0 {
		return Reply{Headline: d.in.Word(noHeap), Actions: []Action{d.actionOn(startAction.Label, startAction.Line, heap.Heap{})}}, nil
	}
	one := d.arg("heap") != ""
	jobs, err := d.find(heaps, !one)
	if err != nil {
		return Reply{}, err
	}
	if len(jobs) == 0 {
		return d.leadOn(Reply{Headline: d.in.Say("Nothing needs doing at %s now.", speech.Joined{Words: namesOf(heaps), Last: "and"})}, heaps)
	}
	named := jobs
	if !one {
		named = fewOfEach(jobs)
	}
	return d.leadOn(d.jobsReply(named[:min(len(named), maxJobs)], len(jobs)), heaps)
}

// fewOfEach keeps advice.Most jobs of each heap, the most useful.
func fewOfEach(jobs []Found) []Found {
	seen := map[heap.ID]int{}
	var few []Found
	for _, f := range jobs {
		if seen[f.Heap.ID]++; seen[f.Heap.ID] <= advice.Most {
			few = append(few, f)
		}
	}
	return few
}

// Limits of buttons under an answer: Discord API docs, components reference (label 80, custom id
// 100 less the adapter's longest prefix); more than four is a wall on a phone (own choice).
const (
	maxActionLabel = 80
	maxActionLine  = 97
	maxActions     = 4
)

// urgencyWords say how soon.
var urgencyWords = map[advice.Urgency]string{
	advice.Now: "now", advice.Today: "today", advice.Soon: "in the next days", advice.WhenYouCan: "when you can",
}

// jobsReply names jobs, the first in the headline, and how many there are of which.
func (d *desk) jobsReply(jobs []Found, all int) Reply {
	said := func(f Found) string {
		return d.in.Say("%s, %s: %s", d.in.Word(f.where()), d.in.Word(urgencyWords[f.Urgency]), lower(titleIn(d.in, f.Title)))
	}
	r := Reply{
		Headline: said(jobs[0]) + ".",
		Values:   map[string]Value{"jobs": {float64(all), "1"}},
	}
	for i, job := range jobs {
		block := Block{Title: fmt.Sprintf("%d. %s", i+1, said(job)), Lines: []string{job.Reason + doubt(d.in, job.Confidence)}}
		if job.Note != "" {
			block.Lines = append(block.Lines, job.Note)
		}
		r.Body = append(r.Body, block)
		for _, source := range strings.Split(job.Source, "; ") {
			r.Basis = appendNew(r.Basis, source)
		}
		if job.Caution != "" && len(r.Cautions) == 0 {
			r.Cautions = []string{job.Caution}
		}
		r.Values[fmt.Sprintf("job.%d.kind", i+1)] = Value{job.Kind, ""}
		r.Values[fmt.Sprintf("job.%d.heap", i+1)] = Value{job.Heap.Name, ""}
		r.Actions = append(r.Actions, d.jobActions(job)...)
	}
	r.Actions = r.Actions[:min(len(r.Actions), maxActions)]
	if n := all - len(jobs); n > 0 {
		r.Body = append(r.Body, Block{Lines: []string{d.in.Say("And %d more that can wait; ask for one heap to see them.", n)}})
	}
	return r
}

// titleIn is the title of a job in a language; what follows its first clause,
// such as an amount, stays as it is where the whole has no words.
func titleIn(in *speech.Speech, title string) string {
	if end := strings.IndexAny(title, ":,"); end > 0 && !in.Knows(title) && in.Knows(title[:end]) {
		return in.Word(title[:end]) + title[end:]
	}
	return in.Word(title)
}

// where is the heap of a job, or the garden.
func (f Found) where() string {
	if f.Heap.ID == 0 {
		return "The garden"
	}
	return f.Heap.Name
}

// doubt says how far to trust a job; one that is sure needs no word.
func doubt(in *speech.Speech, confidence string) string {
	if confidence == "" || confidence == "sure" {
		return ""
	}
	return " (" + in.Word(confidence) + ")"
}

// jobActions are the buttons of a job: what tells the amounts, what logs it done.
func (d *desk) jobActions(job Found) []Action {
	var actions []Action
	add := func(label, line string) {
		line += " heap:\"" + job.Heap.Name + "\""
		if len(line) <= maxActionLine {
			actions = append(actions, Action{Label: clip(label+", "+job.Heap.Name, maxActionLabel), Line: line})
		}
	}
	if job.Kind == "browns" || job.Kind == "greens" {
		add(d.in.Word("How much of what"), "mix")
	}
	if job.Done != "" {
		add(d.in.Say("Done: %s", titleIn(d.in, job.Title)), job.Done)
	}
	return actions
}
