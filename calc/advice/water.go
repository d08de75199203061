package advice

import (
	"strings"

	"heapside/calc/heap"
	"heapside/calc/maturity"
	"heapside/calc/measure"
)

const (
	srcMoisture = "Cornell, Richard and Trautmann, moisture" // seen: slow below 35-40 %, nearly stops below 30 %
	srcTrouble  = "extension sheet on troubleshooting compost piles (publisher not shown)"
	srcSqueeze  = "AgriFutures Australia, Water; scale of the squeeze test: own choice"
	srcOwn      = "own choice"
)

// soakingMm is the rain on an open heap after which an older squeeze test is
// out of date (own choice: 15 litres on each square metre).
const soakingMm = 15.0

var waterRules = []Rule{
	{
		Code:   "soggy",
		Text:   "When a handful drips or runs, mix in coarse dry browns and turn; do not water.",
		Source: srcTrouble + "; " + srcSqueeze,
		when:   func(l *look) bool { return wet(l.squeeze) },
		job: func(l *look) Job {
			j := Job{
				Kind: Browns, Title: "Mix in coarse dry browns and turn it", Urgency: Soon, Confidence: sure, Done: "log turn",
				Reason: l.say.Say("A handful %s when squeezed %s: too wet for air to get in. Ask mix for the amount.", l.say.Word(squeezed[l.squeeze]), l.ago(l.SqueezeAt)),
			}
			if l.squeeze == heap.Runs {
				j.Urgency = Today
			}
			return j
		},
	},
	{
		Code:   "dry",
		Text:   "When a handful crumbles, water it to about 55 %, half first, and squeeze again.",
		Source: srcMoisture + "; " + srcTrouble,
		when:   (*look).dry,
		job:    waterJob,
	},
	{
		Code:   "cover",
		Text:   "Cover an open heap that is too wet, to keep rain off.",
		Source: srcTrouble,
		when:   func(l *look) bool { return wet(l.squeeze) && l.bare() },
		job: func(l *look) Job {
			return Job{
				Kind: Cover, Title: "Cover it", Urgency: Soon, Confidence: likely, Done: "log cover tarp",
				Reason: "It is too wet and nothing keeps the rain off.",
			}
		},
	},
	{
		Code:   "squeeze-again",
		Text:   "After watering a dry heap, turning a wet one or heavy rain, squeeze again.",
		Source: srcTrouble + "; " + srcOwn,
		told:   true,
		when: func(l *look) bool {
			off := l.Squeeze == heap.Crumbles || wet(l.Squeeze)
			return l.stage != maturity.Ready && l.squeezeOutdated() && (off || l.soaked())
		},
		job: func(l *look) Job {
			why := l.say.Word("it has been watered since.")
			switch {
			case wet(l.Squeeze):
				why = l.say.Word("it has been turned since.")
			case l.soaked():
				why = l.say.Say("%s of rain fell on it since.", l.say.SayRain(l.rainSince()))
			}
			return feelJob(Soon, l.say.Say("A handful %s %s; %s", l.say.Word(squeezed[l.Squeeze]), l.ago(l.SqueezeAt), why))
		},
	},
	{
		Code:   "squeeze-due",
		Text:   "Squeeze a handful every two weeks while the heap is hot or cooling; every ten days where the aim is fast or hygienic.",
		Source: srcOwn,
		when:   func(l *look) bool { return l.lively() && l.Now.Sub(l.SqueezeAt) >= l.pace.squeeze },
		job: func(l *look) Job {
			why := l.say.Word("No squeeze test is on record")
			if !l.SqueezeAt.IsZero() {
				why = l.say.Say("The last squeeze test was %s", l.ago(l.SqueezeAt))
			}
			if w := l.lastWatering(); !w.IsZero() {
				why = l.say.Say("%s, the last watering %s", why, l.ago(w))
			}
			return feelJob(WhenYouCan, l.say.Say("%s. Heat dries a heap from inside.", why))
		},
	},
}

// squeezed puts a class of the squeeze test into a sentence: "a handful ...".
var squeezed = map[heap.Squeeze]string{
	heap.Crumbles: "crumbled",
	heap.Holds:    "held together",
	heap.Drops:    "gave a drop or two",
	heap.Drips:    "dripped",
	heap.Runs:     "ran with water",
}

func feelJob(u Urgency, reason string) Job {
	return Job{Kind: Feel, Title: "Squeeze a handful from the middle", Reason: reason, Urgency: u, Confidence: sure}
}

// dry says that a hand found the heap dry, and that it matters.
func (l *look) dry() bool { return l.squeeze == heap.Crumbles && l.stage != maturity.Ready }

func waterJob(l *look) Job {
	j := Job{
		Kind: Water, Title: "Water it until a handful holds together", Urgency: Today, Confidence: likely, Done: "log water",
		Reason: l.say.Say("A handful crumbled %s: this dry, it works slowly or not at all.", l.ago(l.SqueezeAt)),
	}
	if l.stage == maturity.Curing {
		j.Urgency = WhenYouCan
	}
	if litres := litresToAdd(l); litres > 0 {
		said, typed := l.say.SayWater(litres), l.say
		typed.Style = measure.Style{}                             // as it is read
		amount, _, _ := strings.Cut(typed.SayWater(litres), " (") // without the cans
		j.WaterL = litres
		j.Title, j.Amount = l.say.Say("Water it: about %s", said), said
		j.Done = "log water " + amount
		j.Reason += " " + l.say.Word("Give half, turn or poke it in, and squeeze again before the rest.")
	}
	return j
}
