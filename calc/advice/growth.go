package advice

import (
	"fmt"
	"strings"

	"heapside/calc/heap"
	"heapside/calc/maturity"
	"heapside/calc/measure"
	"heapside/calc/mix"
)

const (
	srcSize  = "Cornell Horticulture, compost basics; " + srcTrouble
	srcBatch = srcTrouble + "; eight weeks: own choice"
)

const (
	slowAfter  = 5 * day // own choice; the 63 small-scale runs of Khandakar, Kibria et al. peaked mostly on day 4 to 7
	coldAfter  = 7 * day // own choice, after the same runs
	batchAfter = 56 * day
)

var growthRules = []Rule{
	{
		Code:   "log-content",
		Text:   "Log what goes in: everything else is worked out from it.",
		Source: "common practice, no source",
		find: func(l look) (Job, bool) {
			return Job{
				Kind: Log, Title: "Log what went in", Urgency: WhenYouCan, Confidence: sure,
				Reason: "Nothing is on record as put in, so amounts and C:N cannot be worked out.",
			}, len(l.Content) == 0 && (l.stage == maturity.Filling || l.stage == maturity.Hot)
		},
	},
	{
		Code:   "not-heating",
		Text:   "A heap that does not heat within a week is too dry, too wet, too brown or too small: squeeze it, then mix in what it lacks.",
		Source: srcTrouble + "; Langston University",
		find:   findCold,
	},
	{
		Code:   "small",
		Text:   "Below about one cubic yard (0.76 m³) a heap hardly holds heat: collect more, or insulate it.",
		Source: srcSize,
		find: func(l look) (Job, bool) {
			volume, _, _ := strings.Cut(l.say.SayBulk(l.VolumeL), " (") // without the buckets
			title := "Collect enough to make it larger, or insulate it"
			if l.Heap.SizeL > 0 && l.Heap.SizeL < mix.MinHeatL {
				title = "Insulate its sides and cover the top"
			}
			return Job{
				Kind: Grow, Title: title, Urgency: WhenYouCan, Confidence: likely,
				Reason: fmt.Sprintf("It holds about %s and read %s: below a cubic yard (0.76 m³) a heap hardly holds heat.", volume, l.reads()),
			}, l.neverHot() && l.Age >= slowAfter && l.VolumeL > 0 && l.VolumeL < mix.MinHeatL
		},
	},
	{
		Code:   "no-batch",
		Text:   "A heap that is topped up for months without heating is no single batch: stop adding and let it compost cold.",
		Source: srcBatch,
		find: func(l look) (Job, bool) {
			return Job{
				Kind: Close, Title: "Stop adding to it and start the next heap", Urgency: WhenYouCan, Confidence: likely,
				Reason: fmt.Sprintf("It has been topped up for %s without getting hot; left alone it composts cold.", measure.SayDays(l.Age)),
			}, l.neverHot() && l.Age >= batchAfter && l.sinceFresh <= freshSign
		},
	},
	{
		Code:   "keep-fresh-out",
		Text:   "Keep fresh material out of a heap that has cooled: mixed with it, finished compost counts as raw again.",
		Source: maturity.SourceRaw,
		find: func(l look) (Job, bool) {
			cooled := l.stage == maturity.Cooling || l.stage == maturity.Curing || l.stage == maturity.Ready
			return Job{
				Kind: Close, Title: "Put fresh material on another heap", Urgency: WhenYouCan, Confidence: likely,
				Reason: "Fresh material went in " + l.ago(l.LastAdded) + ", after it had cooled: the wait begins again.",
			}, cooled && l.LastAdded.After(l.lastHot.At) && l.wasHot && l.last.C < maturity.HotC && l.sinceFresh <= freshReading
		},
	},
}

// neverHot says that there are readings and none was hot since the heap was filled.
func (l look) neverHot() bool {
	return l.stage == maturity.Filling && l.hasLast && !l.wasHot && len(l.Content) > 0
}

func findCold(l look) (Job, bool) {
	cold := l.neverHot() && l.fresh && l.last.C < maturity.RestC && l.Age >= coldAfter
	why := fmt.Sprintf("%s, %s after it was started: it does not heat.", l.reads(), measure.SayDays(l.Age))
	switch l.squeeze {
	case "":
		return feelJob(Soon, why+" A squeeze tells whether it is too dry or too wet."), cold
	case heap.Holds, heap.Drops:
		return Job{
			Kind: Greens, Title: "Mix in fresh greens and turn it", Urgency: Soon, Confidence: likely, Done: "log turn",
			Reason: why + " It is damp enough, so it is likely short of greens. Ask mix for the amount.",
		}, cold && !maturity.BadSmell(l.State) && l.rested
	}
	return Job{}, false
}
