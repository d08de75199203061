package advice

import (
	"heapside/calc/heap"
)

// Core temperatures in Celsius. 160 F (71.1 C) is rounded down, so that the rule
// speaks a little early; the others are exact.
const (
	turnAtC   = 60.0               // 140 F, Cornell fact sheet 1 (seen)
	shedHeatC = 65.0               // "keep below about 65 C", Cornell, compost physics (seen)
	wetAtC    = 71.0               // 160 F, NC DEQ (seen)
	watchC    = (165.0 - 32) / 1.8 // 165 F, NRCS job sheet 317 (seen)
	actC      = 85.0               // 185 F, NRCS job sheet 317 (seen)
	hygieneC  = 55.0               // 131 F, the line of the time and temperature rules (40 CFR 257 App. II, seen)
)

const (
	srcFire    = "NC Department of Environmental Quality, spontaneous combustion guidance"
	srcNRCS    = "USDA NRCS job sheet 317"
	srcCornell = "Cornell Waste Management Institute, fact sheet 1"
	srcNJ      = "NJ Department of Environmental Protection, section III.A"
	srcPhysics = "Cornell Waste Management Institute, compost physics"
	srcPFRP    = "40 CFR 257 App. II"
)

const fireCaution = "Very hot, dry heaps can catch fire (NC DEQ): keep water at hand. At smoke or flames keep away and call the fire service."

// dustCaution goes with every job that turns a heap known to be dry.
const dustCaution = "Damp it first, wear mask and gloves, wash your hands (NSW Health). With asthma or weak immunity let somebody else turn it (CalRecycle)."

var heatRules = []Rule{
	{
		Code:   "far-too-hot",
		Text:   "At 85 °C (185 °F) and more, act at once: open the heap, wet it, watch it.",
		Source: srcNRCS + "; " + srcFire,
		when:   func(l *look) bool { return l.fresh && l.last.C >= actC },
		job: func(l *look) Job {
			return coolJob(l, "Open it up and wet it at once",
				"Well past the heat at which a heap must be dealt with at once.")
		},
	},
	{
		Code:   "too-hot",
		Text:   "From 71 °C (160 °F), turn the heap and wet it while turning; above 74 °C (165 °F), watch it closely.",
		Source: srcFire + "; " + srcNRCS,
		when:   func(l *look) bool { return l.fresh && l.last.C >= wetAtC && l.last.C < actC },
		job: func(l *look) Job {
			why := l.say.Word("Too hot: turning lets the heat out.")
			if l.last.C >= watchC {
				why += " " + l.say.Say("Read it again every day until it is below %s.", l.say.SayTemperature(shedHeatC))
			}
			return coolJob(l, "Turn it now, wetting it as you go", why)
		},
	},
	{
		Code:   "hot",
		Text:   "Above 60 °C (140 °F), turn; where the aim is hygienic, from 65 °C.",
		Source: srcCornell + "; " + srcNJ + "; " + srcPhysics,
		when:   func(l *look) bool { return l.fresh && l.rested && l.last.C > l.pace.turnAbove && l.last.C < wetAtC },
		job: func(l *look) Job {
			return turnJob(l, Today, l.trust(), l.say.Say("%s: above %s the heat harms the life that does the work.",
				l.reads(), l.say.SayTemperature(l.pace.turnAbove)))
		},
	},
	{
		Code:   "keep-hot",
		Text:   "Where the aim is hygienic, leave a heap of 55 to 65 °C hot between turnings: time at heat is what the rules count.",
		Source: srcPFRP + "; " + srcPhysics,
		when: func(l *look) bool {
			return l.fresh && l.pace.keepHot && l.last.C >= hygieneC && l.last.C <= l.pace.turnAbove
		},
		job: func(l *look) Job {
			return Job{
				Kind: Leave, Title: "Leave it hot", Urgency: WhenYouCan, Confidence: l.trust(),
				Reason: l.say.Say("%s: the heat rules count days at %s. Turning now would work faster, but lets heat out. %s",
					l.reads(), l.say.SayTemperature(hygieneC), l.turnsSoFar()),
			}
		},
	},
}

func coolJob(l *look, title, why string) Job {
	if wet(l.squeeze) {
		title = "Turn it now" // it is wet enough: only the heat must go
	}
	return Job{
		Kind: Cool, Title: title, Urgency: Now, Confidence: l.trust(), Caution: fireCaution, Done: "log turn",
		Reason: l.reads() + ". " + l.say.Word(why),
	}
}

// dust is the caution for turning, when the heap is known to be dry.
func (l *look) dust() string {
	if l.squeeze == heap.Crumbles {
		return dustCaution
	}
	return ""
}
