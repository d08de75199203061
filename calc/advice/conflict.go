package advice

import (
	"cmp"
	"slices"
	"strings"
)

// The kinds of job. Turn, Cool and Browns all mean that the heap is turned.
const (
	Cool    = "cool"    // turn and wet a heap that is too hot
	Turn    = "turn"    // turn
	Water   = "water"   // add water
	Browns  = "browns"  // mix in dry browns and turn
	Greens  = "greens"  // mix in greens
	Cover   = "cover"   // keep rain off, or water in
	Reading = "reading" // take the temperature
	Air     = "air"     // take the temperature of the air
	Feel    = "feel"    // squeeze a handful
	Grow    = "grow"    // make it larger, or insulate it
	Close   = "close"   // stop adding
	Leave   = "leave"   // leave it alone
	Test    = "test"    // test it for maturity
	Use     = "use"     // use it
	Log     = "log"     // put on record what went in
)

// conflict is a pair of jobs that must not stand side by side: the one that
// wins is kept and the one that loses dropped. Where the winner takes the loser
// over, both are done in one go.
type conflict struct {
	wins, loses string
	over        bool
}

// conflicts are tried in order. All are own choice: the sources give single
// rules and do not say which comes first.
var conflicts = []conflict{
	{Cool, Browns, true},
	{Cool, Water, true},
	{Cool, Turn, false},
	{Cool, Leave, false},
	{Cool, Use, false},
	{Cool, Test, false},
	{Cool, Grow, false},
	{Browns, Water, false},
	{Browns, Turn, false},
	{Browns, Greens, false},
	{Browns, Leave, false},
	{Browns, Use, false},
	{Browns, Test, false},
	{Turn, Leave, false},
	{Turn, Use, false},
	{Turn, Test, false},
	{Water, Leave, false},
	{Greens, Leave, false},
	{Use, Leave, false},
	{Use, Water, false},
}

// join makes one job of those of the same kind: the most urgent, with the
// reason and source of the next one added unless that is the least urgent
// sort. jobs must be ranked.
func join(jobs []Job) []Job {
	var kept []Job
	joined := map[string]bool{}
	for _, j := range jobs {
		i := slices.IndexFunc(kept, func(k Job) bool { return k.Kind == j.Kind })
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
		k.Source = joinSources(k.Source, j.Source)
		k.Caution = cmp.Or(k.Caution, j.Caution)
	}
	return kept
}

// settle drops the losers of conflicts.
func settle(jobs []Job) []Job {
	find := func(kind string) int {
		return slices.IndexFunc(jobs, func(j Job) bool { return j.Kind == kind })
	}
	for _, c := range conflicts {
		w, l := find(c.wins), find(c.loses)
		if w < 0 || l < 0 {
			continue
		}
		win, lose := &jobs[w], jobs[l]
		if c.over {
			win.Reason += " " + lose.Reason + " As you turn: " + lowered(lose.Title) + "."
			win.WaterL = lose.WaterL
			win.Caution = cmp.Or(win.Caution, lose.Caution)
		}
		jobs = slices.Delete(jobs, l, l+1)
	}
	return jobs
}

// joinSources adds those of more that sources does not name yet.
func joinSources(sources, more string) string {
	list := strings.Split(sources, sourceSep)
	for _, m := range strings.Split(more, sourceSep) {
		if !slices.Contains(list, m) {
			list = append(list, m)
		}
	}
	return strings.Join(list, sourceSep)
}

func lowered(title string) string { return strings.ToLower(title[:1]) + title[1:] }
