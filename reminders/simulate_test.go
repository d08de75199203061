package reminders

import (
	"flag"
	"fmt"
	"maps"
	"runtime"
	"runtime/debug"
	"slices"
	"strings"
	"sync"
	"testing"

	_ "time/tzdata" // the zones of the simulation, on any machine
)

var (
	seedsFlag = flag.Int("seeds", usualSeeds, "how many years TestSimulate plays")
	seedFlag  = flag.Uint64("seed", 0, "the one year TestSimulate plays")
)

// enough is how many years show all that can happen.
const enough = 200

// TestSimulate plays invented years: a garden with people and a platform that
// fail as real ones do, engines that end at every step, clocks that are set
// wrong. An oracle beside it works out what should have been said.
//
//	go test ./reminders -run Simulate -v            # a summary
//	go test ./reminders -run Simulate -seed 17 -v   # one year, with its story
func TestSimulate(t *testing.T) {
	defer debug.SetGCPercent(debug.SetGCPercent(400)) // a year is short and its garbage small
	first, last := uint64(1), uint64(*seedsFlag)
	if *seedFlag != 0 {
		first, last = *seedFlag, *seedFlag
	}
	seeds := make(chan uint64)
	var total totals
	var mu sync.Mutex
	var running sync.WaitGroup
	for range runtime.GOMAXPROCS(0) {
		running.Go(func() {
			for seed := range seeds {
				s := newYear(t, seed)
				s.told = *seedFlag != 0
				s.play()
				mu.Lock()
				total.add(s)
				mu.Unlock()
				for _, f := range s.faults {
					t.Errorf("seed %d, %s: %s\n\treplay: go test ./reminders -run TestSimulate -seed %d -v", seed, s.zone, f, seed)
				}
			}
		})
	}
	for seed := first; seed <= last; seed++ {
		seeds <- seed
	}
	close(seeds)
	running.Wait()
	t.Log(total.String())
	if *seedFlag == 0 && last >= enough {
		total.check(t)
	}
}

// totals are what all years together came to.
type totals struct {
	years, occurrences, posts, late, folded, twice, excused, presses, edits, passes int
	crashes                                                                         map[string]int
	platform                                                                        map[string]int
}

func (n *totals) add(s *year) {
	if n.crashes == nil {
		n.crashes, n.platform = map[string]int{}, map[string]int{}
	}
	n.years++
	n.occurrences += s.oracle.wanted
	n.posts += s.oracle.posts
	n.late += s.oracle.late
	n.folded += s.oracle.folded
	n.twice += s.oracle.twice
	n.excused += s.oracle.excused
	n.presses += s.presses
	n.passes += s.passes
	n.edits += s.platform.edits
	for step, times := range s.crashes {
		n.crashes[step] += times
	}
	for what, times := range s.platform.did {
		n.platform[what] += times
	}
}

func (n *totals) String() string {
	list := func(counts map[string]int) string {
		var parts []string
		for _, name := range slices.Sorted(maps.Keys(counts)) {
			parts = append(parts, fmt.Sprintf("%s %d", name, counts[name]))
		}
		return strings.Join(parts, ", ")
	}
	return fmt.Sprintf("%d years: %d reminders were due: %d posted (%d of them late), %d done meanwhile, %d too late and named, 0 missed; "+
		"%d said twice for want of an answer; %d presses, %d edits, %d passes\n\tcrashes: %s\n\tplatform: %s",
		n.years, n.occurrences, n.posts, n.late, n.excused, n.folded, n.twice, n.presses, n.edits, n.passes, list(n.crashes), list(n.platform))
}

// check makes sure that the years held what they are about.
func (n *totals) check(t *testing.T) {
	for _, step := range []string{"armed", "composed", "prepared", "skipped", "claimed", "before-post", "after-post", "sent", "retried", "dropped", "before-edit", "after-edit"} {
		if n.crashes[step] == 0 {
			t.Errorf("no engine ended at %q", step)
		}
	}
	for _, what := range []string{"taken", "known", "down", "swallowed", "rate limited", "busy", "no access", "channel gone"} {
		if n.platform[what] == 0 {
			t.Errorf("the platform never did %q", what)
		}
	}
	for what, times := range map[string]int{"posts": n.posts, "late": n.late, "folded": n.folded, "twice": n.twice, "presses": n.presses, "edits": n.edits} {
		if times == 0 {
			t.Errorf("%s: none", what)
		}
	}
}
