package advice

import (
	"fmt"
	"time"

	"heapside/calc/heap"
	"heapside/calc/maturity"
	"heapside/calc/measure"
)

const (
	srcFalling = "Miami University of Ohio, compost science"
	srcFS7     = "Cornell Waste Management Institute, fact sheet 7"
	srcOften   = "City of Plymouth MN and TCEQ on turning; fortnightly for a steady heap: own choice"
)

const (
	coolC = 32.0 // 90 F: turn below it (Cornell fact sheet 7, seen)
	fallC = 5.0  // a fall that is more than the error of two readings (own choice)
)

// turnEvery is the interval between turnings by aim while no reading asks for
// one: weekly (Plymouth MN; TCEQ in summer), fortnightly (own choice between
// TCEQ's weekly in summer and monthly in winter).
var turnEvery = map[heap.Aim]time.Duration{
	heap.Fast:     7 * day,
	heap.Steady:   14 * day,
	heap.Hygienic: 7 * day,
}

// turnHygienic is the interval at 55 °C and more where the aim is hygienic:
// five turnings in fifteen days (40 CFR 257 App. II B, seen).
const turnHygienic = 3 * day

var turnRules = []Rule{
	{
		Code:   "falling",
		Text:   "Turn a hot heap when its temperature begins to fall.",
		Source: srcFalling,
		find: func(l look) (Job, bool) {
			top, ok := l.topSinceTurn()
			hold := l.Heap.Aim == heap.Hygienic && l.last.C >= hygieneC
			u := Soon
			if l.Heap.Aim == heap.Fast {
				u = Today
			}
			return turnJob(l, u, l.trust(), fmt.Sprintf("%s %s, %s: it is falling.", l.say.SayTemperature(top.C), l.ago(top.At), l.reads())),
				ok && l.fresh && l.rested && !hold && l.last.C > coolC && l.last.C <= turnAtC && top.C-l.last.C >= fallC && l.working()
		},
	},
	{
		Code:   "cooled",
		Text:   "Turn a heap that was hot and has fallen below 32 °C (90 °F) before it was turned.",
		Source: srcFS7,
		find: func(l look) (Job, bool) {
			return turnJob(l, Soon, l.trust(), fmt.Sprintf("%s, after %s %s: turning brings fresh food to the middle.",
				l.reads(), l.say.SayTemperature(l.lastHot.C), l.ago(l.lastHot.At))), l.unproved() && l.rested && l.last.C <= coolC
		},
	},
	{
		Code:   "prove",
		Text:   "Turn a cooled heap once: curing begins when it stays below 45 °C even then.",
		Source: maturity.SourceCuring,
		find: func(l look) (Job, bool) {
			return turnJob(l, Soon, likely, "It has not been turned since it was hot: if it stays cool after turning, it is curing."),
				l.unproved() && l.rested
		},
	},
	{
		Code:   "turn-hygienic",
		Text:   "Where the aim is hygienic, turn every three days at 55 °C and more: five turnings in fifteen days.",
		Source: srcPFRP,
		find: func(l look) (Job, bool) {
			return turnJob(l, Soon, l.trust(), fmt.Sprintf("It has not been turned for %s while at %s: every part must pass through the hot middle.", measure.SayDays(l.unturned), l.say.SayTemperature(l.last.C))),
				l.Heap.Aim == heap.Hygienic && l.fresh && l.last.C >= hygieneC && l.unturned >= turnHygienic
		},
	},
	{
		Code:   "turn-due",
		Text:   "Without a reading that asks for it, turn weekly (fast, hygienic) or fortnightly (steady); monthly is enough in frost.",
		Source: srcOften,
		find: func(l look) (Job, bool) {
			every, ok := turnEvery[l.Heap.Aim]
			if !ok {
				every = turnEvery[heap.Steady]
			}
			unread := l.stage == maturity.Filling && !l.hasLast && len(l.Content) > 0
			c := likely
			if unread {
				c = guess
			}
			return turnJob(l, WhenYouCan, c, l.notTurned()+" In frost once a month is enough."),
				(l.stage == maturity.Hot || unread) && l.unturned >= every && l.rested
		},
	},
	{
		Code:   "turn-curing",
		Text:   "Turn a curing heap about weekly until it is below 40 °C (104 °F).",
		Source: maturity.SourceCuring,
		find: func(l look) (Job, bool) {
			return turnJob(l, WhenYouCan, l.trust(), fmt.Sprintf("%s: until it is below %s, a curing heap is turned about weekly.",
				l.reads(), l.say.SayTemperature(maturity.RestC))), l.stage == maturity.Curing && l.fresh && l.last.C >= maturity.RestC && l.unturned >= 7*day
		},
	},
}

func turnJob(l look, u Urgency, confidence, reason string) Job {
	return Job{Kind: Turn, Title: "Turn it", Reason: reason, Urgency: u, Confidence: confidence, Caution: l.dust(), Done: "log turn"}
}

// topSinceTurn is the highest reading before the last one since the heap was
// turned; false when it was never hot in that time.
func (l look) topSinceTurn() (heap.Reading, bool) {
	var top heap.Reading
	turned := l.LastTurn()
	for i, r := range l.Readings {
		if i < len(l.Readings)-1 && r.At.After(turned) && r.C > top.C {
			top = r
		}
	}
	return top, top.C >= maturity.HotC
}

func (l look) working() bool { return l.stage == maturity.Hot || l.stage == maturity.Cooling }

// unproved says that the heap has cooled and was not turned since it was hot.
func (l look) unproved() bool {
	return l.stage == maturity.Cooling && l.last.C < maturity.HotC && !l.LastTurn().After(l.lastHot.At)
}

func (l look) notTurned() string {
	if len(l.Turns) == 0 {
		return "It has not been turned in the " + measure.SayDays(l.unturned) + " since it was started."
	}
	return "It was last turned " + l.ago(l.LastTurn()) + "."
}
