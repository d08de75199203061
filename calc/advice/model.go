package advice

import (
	"fmt"
	"math"

	"heapside/calc/heap"
	"heapside/calc/maturity"
	"heapside/calc/measure"
	"heapside/calc/process"
)

// srcModel names the model under what rests on it.
const srcModel = "own heap model, not yet tested on many garden heaps"

// modelRules speak from what the model makes of the record. What a hand found
// lately goes before them.
var modelRules = []struct {
	Code, Text, Source string
	find               func(look, process.Condition) (Job, bool)
}{
	{
		Code:   "model-dry",
		Text:   "When the model gives better than even odds that the middle is below 48 % moisture, water it.",
		Source: srcModel + "; " + srcMoisture,
		find: func(l look, c process.Condition) (Job, bool) {
			step := l.say.WaterStep(c.WaterL.Mid)
			litres := math.Round(c.WaterL.Mid/step) * step
			j := Job{
				Kind: Water, Title: "Squeeze a handful, and water it if it crumbles: about " + l.say.SayWater(litres), Urgency: Soon, Confidence: likely,
				Reason: fmt.Sprintf("From the weather and the heat it made, the middle is too dry with a chance of %s.", measure.SayOdds(c.Dry)),
				WaterL: litres,
			}
			if l.stage == maturity.Curing {
				j.Urgency = WhenYouCan
			}
			return j, c.WantsWater && litres > 0 && l.squeeze == "" && l.stage != maturity.Ready
		},
	},
	{
		Code:   "model-airless",
		Text:   "When the model gives better than even odds that the middle is short of oxygen, turn it.",
		Source: srcModel + "; common practice, no source for 5 % oxygen",
		find: func(l look, c process.Condition) (Job, bool) {
			return Job{
				Kind: Turn, Title: "Turn it", Urgency: Soon, Confidence: likely, Done: "log turn",
				Reason: fmt.Sprintf("By now the middle is short of air with a chance of %s.", measure.SayOdds(c.Airless)),
			}, c.Airless > 0.5 && l.rested && l.stage != maturity.Ready && l.stage != maturity.Curing
		},
	},
}

// JobsSeen is Jobs together with what the model makes of the heap now.
func JobsSeen(s heap.State, m measure.Measures, c process.Condition) []Job {
	if !s.Heap.Finished.IsZero() {
		return nil
	}
	l := inspect(s, m)
	jobs := l.called()
	for _, r := range modelRules {
		if job, ok := r.find(l, c); ok {
			job.Source = r.Source
			jobs = append(jobs, job)
		}
	}
	return best(jobs)
}
