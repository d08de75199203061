package advice

import (
	"cmp"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"heapside/calc/measure"
)

// way is what becomes of the loser of a conflict.
type way uint8

const (
	drop  way = iota // it is left out
	over             // the winner takes it over: both are done in one go
	after            // both stand, and the loser says that the winner comes first
)

// conflict is a pair of jobs that must not stand side by side as they are. Note
// tells people what became of the loser, where they might miss it.
type conflict struct {
	wins, loses string
	way
	note string
}

// conflicts are tried in order. All are own choice: the sources give single
// rules and do not say which comes first.
var conflicts = []conflict{
	{Cool, Browns, over, ""},
	{Cool, Water, over, ""},
	{Cool, Wait, drop, ""},
	{Cool, Turn, drop, ""},
	{Cool, Rest, drop, "Frost is no reason to wait with this."},
	{Cool, Leave, drop, ""},
	{Cool, Use, drop, "Using it waits until it has cooled."},
	{Cool, Test, drop, "The test waits until it has cooled."},
	{Cool, Grow, drop, ""},
	{Cool, Cover, drop, "A cover waits until it has cooled."},
	{Browns, Water, drop, "Damp it, no more: watering waits until it is turned and squeezed again."},
	{Browns, Wait, drop, ""},
	{Browns, Uncover, drop, ""},
	{Browns, Rest, drop, "Frost is no reason to wait with this."},
	{Browns, Turn, drop, ""},
	{Browns, Greens, drop, "Greens wait until it smells right."},
	{Browns, Leave, drop, ""},
	{Browns, Use, drop, "Using it waits until that is put right."},
	{Browns, Test, drop, "The test waits until that is put right."},
	{Rest, Turn, drop, ""},
	{Rest, Leave, drop, ""},
	{Turn, Cure, drop, ""},
	{Cure, Leave, drop, ""},
	{Turn, Leave, drop, ""},
	{Turn, Use, drop, "Using it waits until it has been turned."},
	{Turn, Test, drop, "The test waits until it has been turned."},
	{Uncover, Water, drop, ""},
	{Uncover, Wait, drop, ""},
	{Wait, Water, drop, ""},
	{Water, Feel, drop, ""},
	{Water, Turn, after, "Water it first: turning dry stuff raises dust."},
	{Water, Leave, drop, ""},
	{Greens, Leave, drop, ""},
	{Use, Leave, drop, ""},
	{Use, Water, drop, ""},
}

// join makes one job of those of the same kind: the most urgent, with the
// reason and source of the next one added unless that is the least urgent
// sort. jobs must be ranked.
func join(jobs []Job) []Job {
	var kept []Job
	joined := map[string]bool{}
	for _, j := range jobs {
		i := find(kept, j.Kind)
		if i < 0 {
			kept = append(kept, j)
			continue
		}
		if joined[j.Kind] || j.Urgency == WhenYouCan {
			continue
		}
		joined[j.Kind] = true
		k := &kept[i]
		k.Reason += " " + j.Reason
		k.Source = joinSources(k.Source, strings.Split(j.Source, sourceSep)...)
		k.Caution = cmp.Or(k.Caution, j.Caution)
	}
	return kept
}

func find(jobs []Job, kind string) int {
	return slices.IndexFunc(jobs, func(j Job) bool { return j.Kind == kind })
}

// settle leaves no conflict.
func settle(jobs []Job, m measure.Measures) []Job {
	for _, c := range conflicts {
		w, l := find(jobs, c.wins), find(jobs, c.loses)
		if w < 0 || l < 0 {
			continue
		}
		win, lose := &jobs[w], jobs[l]
		if c.way == after {
			jobs[l].Note = cmp.Or(lose.Note, m.Word(c.note))
			continue
		}
		if c.way == over {
			win.Reason += " " + lose.Reason + " " + m.Say("As you turn: %s.", lowered(m.Word(lose.Title)))
			win.WaterL, win.Amount = lose.WaterL, lose.Amount
			win.Caution = cmp.Or(win.Caution, lose.Caution)
		}
		win.Note = cmp.Or(win.Note, m.Word(c.note))
		jobs = slices.Delete(jobs, l, l+1)
	}
	return jobs
}

// joinSources adds those of more that sources does not name yet.
func joinSources(sources string, more ...string) string {
	list := strings.Split(sources, sourceSep)
	for _, m := range more {
		if !slices.Contains(list, m) {
			list = append(list, m)
		}
	}
	return strings.Join(list, sourceSep)
}

func lowered(title string) string {
	r, size := utf8.DecodeRuneInString(title)
	return string(unicode.ToLower(r)) + title[size:]
}
