package advice

import (
	"strings"

	"heapside/calc/heap"
	"heapside/calc/maturity"
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
		when: func(l *look) bool {
			return len(l.Content) == 0 && (l.stage == maturity.Filling || l.stage == maturity.Hot)
		},
		job: func(l *look) Job {
			return Job{
				Kind: Log, Title: "Log what went in", Urgency: WhenYouCan, Confidence: sure,
				Reason: "Nothing is on record as put in, so amounts and C:N cannot be worked out.",
			}
		},
	},
	{
		Code:   "not-heating",
		Text:   "A heap that does not heat within a week is too dry, too wet, too brown or too small: squeeze it first.",
		Source: srcTrouble + "; Langston University",
		when:   func(l *look) bool { return l.staysCold() && l.squeeze == "" },
		job: func(l *look) Job {
			return feelJob(Soon, l.coldWords()+" "+l.say.Word("A squeeze tells whether it is too dry or too wet."))
		},
	},
	{
		Code:   "short-of-greens",
		Text:   "When a heap that is damp enough does not heat within a week, mix in fresh greens.",
		Source: srcTrouble + "; Langston University",
		when: func(l *look) bool {
			damp := l.squeeze == heap.Holds || l.squeeze == heap.Drops
			return l.staysCold() && damp && !maturity.BadSmell(l.State) && l.rested
		},
		job: func(l *look) Job {
			return Job{
				Kind: Greens, Title: "Mix in fresh greens and turn it", Urgency: Soon, Confidence: likely, Done: "log turn",
				Reason: l.coldWords() + " " + l.say.Word("It is damp enough, so it is likely short of greens. Ask mix for the amount."),
			}
		},
	},
	{
		Code:   "small",
		Text:   "Below about one cubic yard (0.76 m³) a heap hardly holds heat: collect more, or insulate it.",
		Source: srcSize,
		when: func(l *look) bool {
			return l.neverHot() && l.Age >= slowAfter && l.VolumeL > 0 && l.VolumeL < mix.MinHeatL
		},
		job: func(l *look) Job {
			volume, _, _ := strings.Cut(l.say.SayBulk(l.VolumeL), " (") // without the buckets
			title := "Collect enough to make it larger, or insulate it"
			if l.Heap.SizeL > 0 && l.Heap.SizeL < mix.MinHeatL {
				title = "Insulate its sides and cover the top"
			}
			return Job{
				Kind: Grow, Title: title, Urgency: WhenYouCan, Confidence: likely,
				Reason: l.say.Say("It holds about %s and read %s: below a cubic yard (0.76 m³) a heap hardly holds heat.", volume, l.reads()),
			}
		},
	},
	{
		Code:   "no-batch",
		Text:   "A heap that is topped up for months without heating is no single batch: stop adding and let it compost cold.",
		Source: srcBatch,
		when:   func(l *look) bool { return l.neverHot() && l.Age >= batchAfter && l.sinceFresh <= freshSign },
		job: func(l *look) Job {
			return Job{
				Kind: Close, Title: "Stop adding to it and start the next heap", Urgency: WhenYouCan, Confidence: likely,
				Reason: l.say.Say("It has been topped up for %s without getting hot; left alone it composts cold.", l.say.SayDays(l.Age)),
			}
		},
	},
	{
		Code:   "keep-fresh-out",
		Text:   "Keep fresh material out of a heap that has cooled: mixed with it, finished compost counts as raw again.",
		Source: maturity.SourceRaw,
		when: func(l *look) bool {
			cooled := l.stage == maturity.Cooling || l.resting()
			return cooled && l.LastAdded.After(l.lastHot.At) && l.wasHot && l.last.C < maturity.HotC && l.sinceFresh <= freshReading
		},
		job: func(l *look) Job {
			return Job{
				Kind: Close, Title: "Put fresh material on another heap", Urgency: WhenYouCan, Confidence: likely,
				Reason: l.say.Say("Fresh material went in %s, after it had cooled: the wait begins again.", l.ago(l.LastAdded)),
			}
		},
	},
}

// neverHot says that there are readings and none was hot since the heap was filled.
func (l *look) neverHot() bool {
	return l.stage == maturity.Filling && l.hasLast && !l.wasHot && len(l.Content) > 0
}

// staysCold says that a heap of a week or more was read lately and is cold.
func (l *look) staysCold() bool {
	return l.neverHot() && l.fresh && l.last.C < maturity.RestC && l.Age >= coldAfter
}

func (l *look) coldWords() string {
	return l.say.Say("%s, %s after it was started: it does not heat.", l.reads(), l.say.SayDays(l.Age))
}
