package advice

import (
	"math"
	"slices"
	"strings"
	"time"

	"heapside/calc/feedstock"
	"heapside/calc/heap"
	"heapside/calc/measure"
)

// Yard is what the jobs of a garden as a whole are found from: what is on hand,
// what went into its heaps, and where it lies. Now is in the garden's zone.
type Yard struct {
	Now      time.Time
	Measures measure.Measures
	Located  bool
	Lat      float64 // degrees north of the equator
	Heaps    []heap.State
	Supply
}

// supplyRule is one thing that the season asks the garden to have.
type supplyRule struct {
	Code, Text, Source string
	find               func(Yard) (Job, bool)
}

const (
	// tropicLat is how far from the equator the year has a summer and an autumn
	// worth the name (own choice: the tropics are left out).
	tropicLat = 23.5
	// aMonth is the time over which greens are counted: as much browns again are
	// to be ready for the next (own choice).
	aMonth = 30 * day
	// leastBrownsL is a want too small to be worth a word (own choice: two buckets).
	leastBrownsL = 25.0
	// leavesL is enough leaves for a year (own choice: about six sacks).
	leavesL = 500.0
)

const srcEqual = "equal volumes of green and dry plant matter come near C:N 30 (Raabe, University of California); browns are scarce in high summer: common practice, no source"

// supplyRules speak by the month of a northern year; six months on in the south.
var supplyRules = []supplyRule{
	{
		Code:   "browns-for-summer",
		Text:   "Before and in high summer, when greens come by the barrow and browns are scarce, have as much dry browns on hand as greens went in over the last month.",
		Source: srcEqual,
		find: func(y Yard) (Job, bool) {
			if m := y.month(); m < time.May || m > time.July {
				return Job{}, false
			}
			greens, browns := y.greensL(), y.litres(func(f feedstock.Feedstock) bool { return f.Kind == feedstock.Brown })
			lack := greens - browns
			if lack < leastBrownsL {
				return Job{}, false
			}
			amount := carried(y.Measures, lack)
			return Job{
				Kind: Stock, Title: y.Measures.Say("Put dry browns by before high summer: about %s", amount), Urgency: WhenYouCan, Confidence: likely, Amount: amount,
				Reason: y.Measures.Say("About %s of greens went in within 30 days, and %s in stock. As much brown as green is a fair rule, and browns are scarce in high summer. Straw, cardboard and dry leaves keep.",
					carried(y.Measures, greens), stocked(y.Measures, browns, "about %s of browns are", "no browns are")),
			}, true
		},
	},
	{
		Code:   "leaves-in-autumn",
		Text:   "Collect leaves in autumn and keep them dry: they are the browns of the next summer.",
		Source: "common practice, no source",
		find: func(y Yard) (Job, bool) {
			if m := y.month(); m != time.October && m != time.November {
				return Job{}, false
			}
			leaves := y.litres(func(f feedstock.Feedstock) bool {
				return f.Kind == feedstock.Brown && strings.HasPrefix(f.ID, "leaves")
			})
			if leaves >= leavesL {
				return Job{}, false
			}
			amount := carried(y.Measures, leavesL-leaves)
			return Job{
				Kind: Gather, Title: y.Measures.Say("Collect fallen leaves while there are some: about %s", amount), Urgency: WhenYouCan, Confidence: likely, Amount: amount,
				Reason: y.Measures.Say("Kept dry they are next summer's browns; %s in stock.", stocked(y.Measures, leaves, "about %s of leaves are", "no leaves are")),
			}, true
		},
	},
}

// Supplies is what the season asks the garden to have on hand, beside what its
// heaps need. A garden without a known place, and one in the tropics, has no such
// season.
func Supplies(y Yard) []Job {
	if !y.Located || math.Abs(y.Lat) < tropicLat {
		return nil
	}
	var jobs []Job
	for _, r := range supplyRules {
		if job, ok := r.find(y); ok {
			job.Source = r.Source
			jobs = append(jobs, job)
		}
	}
	return rank(jobs)
}

// month is the month of a northern year that has the season of Now.
func (y Yard) month() time.Month {
	m := y.Now.Month()
	if y.Lat < 0 {
		m = (m+5)%12 + 1
	}
	return m
}

// greensL is the loose litres of greens and manure that went in within a month.
func (y Yard) greensL() float64 {
	var sum float64
	for _, s := range y.Heaps {
		for _, e := range s.Entries {
			a, ok := e.Payload.(heap.Added)
			if !ok || a.AgeDays > 0 || y.Now.Sub(e.At) > aMonth {
				continue
			}
			if f, ok := y.material(a.Material); ok && slices.Contains([]feedstock.Kind{feedstock.Green, feedstock.Manure}, f.Kind) {
				sum += a.VolumeL
			}
		}
	}
	return sum
}

func stocked(m measure.Measures, litres float64, some, none string) string {
	if litres <= 0 {
		return m.Word(none)
	}
	return m.Say(some, carried(m, litres))
}

// carried prints a volume as it is carried, once: "4 barrows".
func carried(m measure.Measures, litres float64) string {
	said, _, _ := strings.Cut(m.SayVolume(litres), " (")
	return said
}
