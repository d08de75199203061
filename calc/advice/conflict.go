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

// conflict is a pair of jobs that must not stand side by side: wins is kept,
// loses is dropped, and note is what the winner then adds to its reason.
type conflict struct{ wins, loses, note string }

// conflicts are tried in order. All are own choice: the sources give single
// rules and do not say which comes first.
var conflicts = []conflict{
	{Cool, Browns, "Mix in coarse dry browns as you turn."},
	{Cool, Water, "Wet it as you turn."},
	{Cool, Turn, ""},
	{Cool, Leave, ""},
	{Cool, Use, ""},
	{Cool, Test, ""},
	{Cool, Grow, ""},
	{Browns, Water, ""},
	{Browns, Turn, ""},
	{Browns, Greens, ""},
	{Browns, Leave, ""},
	{Browns, Use, ""},
	{Browns, Test, ""},
	{Turn, Leave, ""},
	{Turn, Use, ""},
	{Turn, Test, ""},
	{Water, Leave, ""},
	{Greens, Leave, ""},
	{Use, Leave, ""},
	{Use, Water, ""},
}

// join makes one job of those of the same kind: the most urgent, with the
// reason and source of the next one added. jobs must be ranked.
func join(jobs []Job) []Job {
	var kept []Job
	more := map[string]int{}
	for _, j := range jobs {
		i := slices.IndexFunc(kept, func(k Job) bool { return k.Kind == j.Kind })
		if i < 0 {
			kept = append(kept, j)
			continue
		}
		if more[j.Kind]++; more[j.Kind] > 1 {
			continue
		}
		k := &kept[i]
		k.Reason += " " + j.Reason
		if !strings.Contains(k.Source, j.Source) {
			k.Source += "; " + j.Source
		}
		k.Caution = cmp.Or(k.Caution, j.Caution)
	}
	return kept
}

// settle drops the losers of conflicts. What a loser knew that the winner
// needs, litres of water and a caution, passes to the winner.
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
		if c.note != "" {
			win.Reason += " " + lose.Reason + " " + c.note
			win.WaterL = max(win.WaterL, lose.WaterL)
			win.Caution = cmp.Or(win.Caution, lose.Caution)
		}
		jobs = slices.Delete(jobs, l, l+1)
	}
	return jobs
}
