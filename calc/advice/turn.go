package advice

import (
	"heapside/calc/heap"
	"heapside/calc/hygiene"
	"heapside/calc/maturity"
)

const (
	srcFalling = "Miami University of Ohio, compost science"
	srcFS7     = "Cornell Waste Management Institute, fact sheet 7"
	srcOften   = "City of Plymouth MN and TCEQ on turning; fortnightly for a steady heap: own choice"
)

const (
	coolC = 32.0 // 90 F: turn below it (Cornell fact sheet 7, seen)
	fallC = 5.0  // a fall that is more than the error of two readings (own choice)
)

var turnRules = []Rule{
	{
		Code:   "falling",
		Text:   "Turn a hot heap when its temperature begins to fall.",
		Source: srcFalling,
		when: func(l *look) bool {
			top, wasHot := l.topSinceTurn()
			held := l.pace.keepHot && l.last.C >= hygieneC
			between := l.last.C > coolC && l.last.C <= turnAtC
			return wasHot && l.fresh && l.rested && l.lively() && between && !held && top.C-l.last.C >= fallC
		},
		job: func(l *look) Job {
			top, _ := l.topSinceTurn()
			return turnJob(l, l.pace.fall, l.trust(), l.say.Say("%s %s, %s: it is falling.", l.say.SayTemperature(top.C), l.ago(top.At), l.reads()))
		},
	},
	{
		Code:   "cooled",
		Text:   "Turn a heap that was hot and has fallen below 32 °C (90 °F) before it was turned.",
		Source: srcFS7,
		when:   func(l *look) bool { return l.unproved() && l.rested && l.last.C <= coolC },
		job: func(l *look) Job {
			return turnJob(l, Soon, l.trust(), l.say.Say("%s, after %s %s: turning brings fresh food to the middle.",
				l.reads(), l.say.SayTemperature(l.lastHot.C), l.ago(l.lastHot.At)))
		},
	},
	{
		Code:   "prove",
		Text:   "Turn a cooled heap once: curing begins when it stays below 45 °C even then.",
		Source: maturity.SourceCuring,
		when:   func(l *look) bool { return l.unproved() && l.rested },
		job: func(l *look) Job {
			return turnJob(l, Soon, likely, "It has not been turned since it was hot: if it stays cool after turning, it is curing.")
		},
	},
	{
		Code:   "turn-hygienic",
		Text:   "Where the aim is hygienic, turn every three days at 55 °C and more: five turnings in fifteen days.",
		Source: srcPFRP,
		when: func(l *look) bool {
			return l.pace.keepHot && l.fresh && l.last.C >= hygieneC && l.unturned >= turnHygienic && l.turnsAtHeat() < hotTurns
		},
		job: func(l *look) Job {
			return turnJob(l, Soon, l.trust(), l.say.Say("It has not been turned for %s while at %s: every part must pass through the hot middle. %s",
				l.say.SayDays(l.unturned), l.say.SayTemperature(l.last.C), l.turnsSoFar()))
		},
	},
	{
		Code:   "turn-due",
		Text:   "Without a reading that asks for it, turn weekly (fast, hygienic) or fortnightly (steady); monthly in frost.",
		Source: srcOften,
		when: func(l *look) bool {
			return (l.stage == maturity.Hot || l.unread()) && l.unturned >= l.pace.turn && l.rested
		},
		job: func(l *look) Job {
			c := likely
			if l.unread() {
				c = guess
			}
			return turnJob(l, WhenYouCan, c, l.notTurned())
		},
	},
	{
		Code:   "turn-curing",
		Text:   "Turn a curing heap about weekly until it is below 40 °C (104 °F).",
		Source: maturity.SourceCuring,
		when: func(l *look) bool {
			return l.stage == maturity.Curing && l.fresh && l.last.C >= maturity.RestC && l.unturned >= 7*day
		},
		job: func(l *look) Job {
			return turnJob(l, WhenYouCan, l.trust(), l.say.Say("%s: until it is below %s, a curing heap is turned about weekly.",
				l.reads(), l.say.SayTemperature(maturity.RestC)))
		},
	},
}

func turnJob(l *look, u Urgency, confidence, reason string) Job {
	return Job{Kind: Turn, Title: "Turn it", Reason: reason, Urgency: u, Confidence: confidence, Caution: l.dust(), Done: "log turn"}
}

// topSinceTurn is the highest reading before the last one since the heap was
// turned; false when it was never hot in that time.
func (l *look) topSinceTurn() (heap.Reading, bool) {
	var top heap.Reading
	turned := l.LastTurn()
	for i, r := range l.Readings {
		if i < len(l.Readings)-1 && r.At.After(turned) && r.C > top.C {
			top = r
		}
	}
	return top, top.C >= maturity.HotC
}

// lively says that the heap is hot or was so lately.
func (l *look) lively() bool { return l.stage == maturity.Hot || l.stage == maturity.Cooling }

// unread says that the heap was filled and nobody took its temperature.
func (l *look) unread() bool {
	return l.stage == maturity.Filling && !l.hasLast && len(l.Content) > 0
}

// turnsAtHeat counts the turnings at 55 °C and more since the heap was filled.
func (l *look) turnsAtHeat() int { return hygiene.TurnsWhileHot(l.State, hygieneC) }

func (l *look) turnsSoFar() string {
	n := l.turnsAtHeat()
	if n >= hotTurns {
		return l.say.Say("The %d turnings at heat are on record.", hotTurns)
	}
	return l.say.Say("%d of %d turnings at heat so far.", n, hotTurns)
}

// unproved says that the heap has cooled and was not turned since it was hot.
func (l *look) unproved() bool {
	return l.stage == maturity.Cooling && l.last.C < maturity.HotC && !l.LastTurn().After(l.lastHot.At)
}

func (l *look) notTurned() string {
	if len(l.Turns) == 0 {
		return l.say.Say("It has not been turned in the %s since it was started.", l.say.SayDays(l.unturned))
	}
	return l.say.Say("It was last turned %s.", l.ago(l.LastTurn()))
}
