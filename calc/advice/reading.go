package advice

import (
	"time"

	"heapside/calc/maturity"
	"heapside/calc/measure"
)

const srcDaily = "14 CCR 17868.3 (daily, at composting works)"

// How often readings are asked for where the aim does not say (own choice).
const (
	readOther = 14 * day
	airFrom   = 14 * day // of curing, when the comparison with the air comes into reach
)

var readingRules = []Rule{
	{
		Code:   "read-after-cooling",
		Text:   "After turning a heap that was too hot, read it again the next day.",
		Source: srcNRCS + "; " + srcOwn,
		find: func(l look) (Job, bool) {
			return readJob(Today, l.reads()+", and it has been turned since: has it cooled?"),
				l.hasLast && l.last.C >= wetAtC && l.lastAge <= freshReading && l.LastTurn().After(l.last.At)
		},
	},
	{
		Code:   "read-after-turning",
		Text:   "Read a cooled heap three days after turning: it shows whether it heats again.",
		Source: maturity.SourceCuring + "; three days: " + srcOwn,
		find: func(l look) (Job, bool) {
			turned := l.LastTurn()
			return readJob(Soon, "It was turned "+l.ago(turned)+": a reading now shows whether it heats again or is curing."),
				l.stage == maturity.Cooling && turned.After(l.lastHot.At) && l.last.At.Sub(turned) < maturity.Settled && l.unturned >= maturity.Settled
		},
	},
	{
		Code:   "read",
		Text:   "Take the temperature of a hot or newly filled heap every two days (fast), three (steady) or daily (hygienic), every two weeks otherwise.",
		Source: srcDaily + "; " + srcOwn,
		find: func(l look) (Job, bool) {
			if !l.hasLast {
				return readJob(Soon, "No temperature is on record. Without a thermometer: leave a metal rod in the middle and feel its end."),
					len(l.Content) > 0 && l.stage != maturity.Ready
			}
			u := Soon
			if l.lastAge > freshReading && l.stage == maturity.Hot {
				u = Today
			}
			return readJob(u, l.reads()+" is the last reading."), l.stage != maturity.Ready && l.lastAge >= l.readEvery()
		},
	},
	{
		Code:   "read-air",
		Text:   "When a heap has cured for two weeks, read the air beside it: it is done within about 5 °C (9 °F) of the air.",
		Source: maturity.SourceCuring,
		find: func(l look) (Job, bool) {
			_, known := maturity.AirBeside(l.State)
			return Job{
				Kind: Air, Title: "Read the heap and the air beside it", Urgency: WhenYouCan, Confidence: sure,
				Reason: "It has cured for " + measure.SayDays(l.curedFor) + "; whether it is as cool as the air is not on record.",
			}, l.stage == maturity.Curing && l.curing && l.curedFor >= airFrom && !known
		},
	},
}

func readJob(u Urgency, reason string) Job {
	return Job{Kind: Reading, Title: "Take the temperature in the middle", Reason: reason, Urgency: u, Confidence: sure}
}

func (l look) readEvery() time.Duration {
	filled := l.stage == maturity.Filling && l.sinceFresh <= freshReading
	if l.stage == maturity.Hot || filled {
		return l.pace.readHot
	}
	return readOther
}
