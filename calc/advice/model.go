package advice

import (
	"math"

	"heapside/calc/maturity"
)

// srcModel names the model under what rests on it.
const srcModel = "own heap model, not yet tested on many garden heaps"

// modelRules speak from what the model makes of the record. What a hand found
// lately goes before them.
var modelRules = []Rule{
	{
		Code:   "model-dry",
		Text:   "When the model gives better than even odds that the middle is below 48 % moisture, water it.",
		Source: srcModel + "; " + srcMoisture,
		told:   true,
		when: func(l *look) bool {
			_, dry := l.probablyDry()
			return dry
		},
		job: func(l *look) Job {
			litres, _ := l.probablyDry()
			j := Job{
				Kind: Water, Title: l.say.Say("Squeeze a handful, and water it if it crumbles: about %s", l.say.SayWater(litres)), Urgency: Soon, Confidence: likely,
				Reason: l.say.Say("From the weather and the heat it made, the middle is too dry with a chance of %s.", l.say.SayOdds(l.model.Dry)),
				WaterL: litres, Amount: l.say.SayWater(litres),
			}
			if l.stage == maturity.Curing {
				j.Urgency = WhenYouCan
			}
			return j
		},
	},
	{
		Code:   "model-airless",
		Text:   "When the model gives better than even odds that the middle is short of oxygen, turn it.",
		Source: srcModel + "; common practice, no source for 5 % oxygen",
		told:   true,
		when:   func(l *look) bool { return l.airless() && l.rested && !l.resting() },
		job: func(l *look) Job {
			return Job{
				Kind: Turn, Title: "Turn it", Urgency: Soon, Confidence: likely, Done: "log turn",
				Reason: l.say.Say("By now the middle is short of air with a chance of %s.", l.say.SayOdds(l.model.Airless)),
			}
		},
	},
}

// probablyDry is the litres that the model would add where it finds the heap
// too dry and no hand tells; false otherwise.
func (l *look) probablyDry() (litres float64, dry bool) {
	if l.model == nil || !l.model.WantsWater || l.squeeze != "" || l.stage == maturity.Ready {
		return 0, false
	}
	step := l.say.WaterStep(l.model.WaterL.Mid)
	litres = math.Round(l.model.WaterL.Mid/step) * step
	return litres, litres > 0
}

func (l *look) airless() bool { return l.model != nil && l.model.Airless > 0.5 }
