package advice

import (
	"slices"

	"heapside/calc/maturity"
)

const (
	srcCold   = "WSU Extension Whatcom County, compost fundamentals, climate" // seen
	srcStraw  = "City of Moberly MO; " + srcTrouble                           // seen
	srcWinter = "TCEQ (monthly in winter)"                                    // seen
)

var frostRules = []Rule{
	{
		Code:   "rest-in-frost",
		Text:   "Turn less in frost, for the heat comes back slowly (WSU); others turn monthly all winter (TCEQ).",
		Source: srcCold + "; " + srcWinter,
		told:   true,
		when:   func(l *look) bool { return l.frosty && l.unturned < turnFrost && l.routineTurn() && !l.airless() },
		job: func(l *look) Job {
			return Job{
				Kind: Rest, Title: "Leave it unturned in the frost", Urgency: WhenYouCan, Confidence: likely,
				Reason: l.say.Say("%s is expected %s: turning now lets out heat that comes back slowly (WSU). Some turn monthly all winter (TCEQ): the last was %s.",
					l.say.SayTemperature(l.cold.MinC), l.on(l.cold.Start), l.say.SayAgo(l.unturned)),
			}
		},
	},
	{
		Code:   "wrap-in-frost",
		Text:   "Before frost, put straw or leaves and a cover on a heap that works, to keep its heat.",
		Source: srcStraw + "; " + srcCold,
		told:   true,
		when:   func(l *look) bool { return l.frosty && !l.Covered && l.working() },
		job: func(l *look) Job {
			return Job{
				Kind: Cover, Title: "Wrap it against the frost: straw or dry leaves, a tarp on top", Urgency: Soon, Confidence: likely, Done: "log cover straw",
				Reason: l.say.Say("%s is expected %s, and nothing keeps its heat in.", l.say.SayTemperature(l.cold.MinC), l.on(l.cold.Start)),
			}
		},
	},
}

// routineTurns are the rules whose turning can wait for milder days. What a
// hygienic aim and too much heat ask for cannot.
var routineTurns = []string{"falling", "cooled", "prove", "turn-due", "turn-curing"}

// routineTurn says that the heap would be turned now, and that it can wait.
func (l *look) routineTurn() bool {
	if l.fresh && (l.last.C > l.pace.turnAbove || l.pace.keepHot && l.last.C >= hygieneC) || l.stage == maturity.Ready {
		return false
	}
	return slices.ContainsFunc(turnRules, func(r Rule) bool {
		return slices.Contains(routineTurns, r.Code) && r.when(l)
	})
}
