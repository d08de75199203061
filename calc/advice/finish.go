package advice

import (
	"heapside/calc/maturity"
)

// testAgain is how long a test result is left to stand while curing (own choice).
const testAgain = 21 * day

// cureNews is how long the start of curing is news (own choice).
const cureNews = 10 * day

var finishRules = []Rule{
	{
		Code:   "use",
		Text:   "When a heap counts as ready, sieve it and use it.",
		Source: maturity.SourceSigns,
		when:   func(l *look) bool { return l.stage == maturity.Ready },
		job: func(l *look) Job {
			_, why := maturity.StageIn(l.State, l.say.Style)
			return Job{
				Kind: Use, Title: "Sieve it and use it", Urgency: WhenYouCan, Confidence: likely, Done: "heap finish",
				Reason: why,
			}
		},
	},
	{
		Code:   "cure",
		Text:   "When a heap stays below 45 °C (113 °F) after turning, curing starts: move it to the curing bay or leave it where it is.",
		Source: maturity.SourceCuring,
		when:   func(l *look) bool { return l.stage == maturity.Curing && l.curing && l.curedFor <= cureNews },
		job: func(l *look) Job {
			_, why := maturity.StageIn(l.State, l.say.Style)
			return Job{
				Kind: Cure, Title: "Let it cure: move it to the curing bay, or leave it where it is", Urgency: WhenYouCan, Confidence: l.trust(),
				Reason: l.say.Say("%s. %s Three to six weeks of rest are usual; put nothing fresh on it.", l.reads(), why),
			}
		},
	},
	{
		Code:   "test",
		Text:   "After three weeks of curing, do the bag test.",
		Source: maturity.SourceBag,
		when: func(l *look) bool {
			return l.stage == maturity.Curing && (l.curedFor >= maturity.CuredAfter || !l.curing) && !l.testedLately()
		},
		job: func(l *look) Job {
			return Job{
				Kind: Test, Title: "Do the bag test", Urgency: WhenYouCan, Confidence: likely,
				Reason: "It may be done: seal a damp handful in a bag for a few days; it should smell of earth.",
			}
		},
	},
	{
		Code:   "test-plants",
		Text:   "Before compost goes into seed mixes, grow radishes in a pot of it.",
		Source: maturity.SourceRadish,
		when:   func(l *look) bool { return l.stage == maturity.Ready && l.Age < maturity.VeryOld && !l.testedLately() },
		job: func(l *look) Job {
			return Job{
				Kind: Test, Title: "Sow 20 radishes in a pot of it", Urgency: WhenYouCan, Confidence: likely,
				Reason: "Only if it is meant for seeds or pots: 15 that sprout and grow on mean it is fit for any use.",
			}
		},
	},
	{
		Code:   "leave",
		Text:   "Leave a curing heap alone once it is below 40 °C (104 °F), for three to six weeks.",
		Source: maturity.SourceCuring,
		when:   func(l *look) bool { return l.stage == maturity.Curing && (!l.hasLast || l.last.C < maturity.RestC) },
		job: func(l *look) Job {
			reason := l.say.Say("It has cured for %s; three to six weeks are usual.", l.say.SayDays(l.curedFor))
			air, known := maturity.AirBeside(l.State)
			switch warmer := l.last.C - air.C; {
			case !l.curing:
				reason = l.say.Say("Nothing fresh went in for %s: it needs nothing but time.", l.say.SayDays(l.sinceFresh))
			case known && warmer > maturity.AirGapC:
				reason += " " + l.say.Say("%s in it, %s in the air %s: not done yet.", l.say.SayTemperature(l.last.C), l.say.SayTemperature(air.C), l.ago(air.At))
			}
			return Job{Kind: Leave, Title: "Leave it alone", Reason: reason, Urgency: WhenYouCan, Confidence: likely}
		},
	},
}

func (l *look) testedLately() bool {
	if len(l.Tests) == 0 {
		return false
	}
	newest := l.Tests[len(l.Tests)-1].At
	return !newest.Before(l.LastAdded) && l.Now.Sub(newest) < testAgain
}
