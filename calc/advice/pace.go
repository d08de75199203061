package advice

import (
	"time"

	"heapside/calc/heap"
)

// pace is what an aim asks of the people: how often, and how soon.
type pace struct {
	turn      time.Duration // between turnings while no reading asks for one
	turnAbove float64       // Celsius above which heat is shed
	fall      Urgency       // of turning when it cools
	readHot   time.Duration // between readings while it is hot or newly filled
	squeeze   time.Duration // between squeeze tests while it works
	keepHot   bool          // from hygieneC to turnAbove it is left hot between turnings
}

// paces are the aims. Turning weekly: Plymouth MN, TCEQ in summer; every seven
// days was the best of 5, 7, 10 and 15 (Zhang et al. 2019, PLoS ONE 14(9), seen
// in an abstract). Fortnightly: own choice between TCEQ's weekly in summer and
// monthly in winter. Reading daily: 14 CCR 17868.3 as a facility report restates
// it. All else is own choice.
var paces = map[heap.Aim]pace{
	heap.Fast:     {turn: 7 * day, turnAbove: turnAtC, fall: Today, readHot: 2 * day, squeeze: 10 * day},
	heap.Steady:   {turn: 14 * day, turnAbove: turnAtC, fall: Soon, readHot: 3 * day, squeeze: 14 * day},
	heap.Hygienic: {turn: 7 * day, turnAbove: shedHeatC, fall: Soon, readHot: 1 * day, squeeze: 10 * day, keepHot: true},
}

// paceOf is the pace of an aim; steady where none was said.
func paceOf(a heap.Aim) pace {
	if p, ok := paces[a]; ok {
		return p
	}
	return paces[heap.Steady]
}

// turnFrost is the interval between turnings in frost: monthly in winter (TCEQ, seen).
const turnFrost = 30 * day

// turnHygienic is the interval at 55 °C and more where the aim is hygienic, and
// hotTurns how many turnings there are to be: five in fifteen days (40 CFR 257
// App. II B, seen).
const (
	turnHygienic = 3 * day
	hotTurns     = 5
)
