package advice

import (
	"time"

	"heapside/calc/maturity"
)

const srcDaily = "14 CCR 17868.3 (daily, at composting works)"

// readDeepCm is where the middle is read: 30 to 61 cm below the surface (14 CCR
// 17868.3 for windrows, as a facility report restates it); within it own choice.
const readDeepCm = 40

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
		when: func(l *look) bool {
			return l.hasLast && l.last.C >= wetAtC && l.lastAge <= freshReading && l.LastTurn().After(l.last.At)
		},
		job: func(l *look) Job {
			return readJob(l, Today, l.say.Say("%s, and it has been turned since: has it cooled?", l.reads()))
		},
	},
	{
		Code:   "read-after-turning",
		Text:   "Read a cooled heap three days after turning: it shows whether it heats again.",
		Source: maturity.SourceCuring + "; three days: " + srcOwn,
		when: func(l *look) bool {
			turned := l.LastTurn()
			return l.stage == maturity.Cooling && turned.After(l.lastHot.At) && l.last.At.Sub(turned) < maturity.Settled && l.unturned >= maturity.Settled
		},
		job: func(l *look) Job {
			return readJob(l, Soon, l.say.Say("It was turned %s: a reading now shows whether it heats again or is curing.", l.ago(l.LastTurn())))
		},
	},
	{
		Code:   "read",
		Text:   "Take the temperature of a hot or newly filled heap every two days (fast), three (steady) or daily (hygienic), every two weeks otherwise.",
		Source: srcDaily + "; " + srcOwn,
		when: func(l *look) bool {
			due := l.lastAge >= l.readEvery()
			if !l.hasLast {
				due = len(l.Content) > 0
			}
			return due && l.stage != maturity.Ready
		},
		job: func(l *look) Job {
			if !l.hasLast {
				return readJob(l, Soon, "No temperature is on record. Without a thermometer: leave a metal rod in the middle and feel its end.")
			}
			u := Soon
			if l.lastAge > freshReading && l.stage == maturity.Hot {
				u = Today
			}
			return readJob(l, u, l.say.Say("%s is the last reading.", l.reads()))
		},
	},
	{
		Code:   "read-air",
		Text:   "When a heap has cured for two weeks, read the air beside it: it is done within about 5 °C (9 °F) of the air.",
		Source: maturity.SourceCuring,
		when: func(l *look) bool {
			_, known := maturity.AirBeside(l.State)
			return l.stage == maturity.Curing && l.curing && l.curedFor >= airFrom && !known
		},
		job: func(l *look) Job {
			return Job{
				Kind: Air, Title: "Read the heap and the air beside it", Urgency: WhenYouCan, Confidence: sure,
				Reason: l.say.Say("It has cured for %s; whether it is as cool as the air is not on record.", l.say.SayDays(l.curedFor)),
			}
		},
	},
}

func readJob(l *look, u Urgency, reason string) Job {
	deep := l.say.SayLength(readDeepCm)
	return Job{Kind: Reading, Title: l.say.Say("Take the temperature in the middle, %s deep", deep), Reason: reason, Urgency: u, Confidence: sure, Amount: l.say.Say("%s deep", deep)}
}

func (l *look) readEvery() time.Duration {
	filled := l.stage == maturity.Filling && l.sinceFresh <= freshReading
	if l.stage == maturity.Hot || filled {
		return l.pace.readHot
	}
	return readOther
}
