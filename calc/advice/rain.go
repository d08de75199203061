package advice

import (
	"time"
	"unicode"
	"unicode/utf8"

	"heapside/calc/heap"
	"heapside/calc/maturity"
	"heapside/calc/water"
)

const (
	srcCover   = "nwhorsesource.com (a cover keeps it from soaking and from drying)" // seen
	srcNoCover = "a county adviser in a dry area (leave it open)"                    // seen second-hand
	srcLeach   = "common practice, no source"
	srcRainIn  = "share of rain let in: own choice"
)

// rainRules weigh what the record says against the rain to come, or the lack of it.
var rainRules = []Rule{
	{
		Code:   "wait-for-rain",
		Text:   "When the rain of the next three days would bring an open, dry heap half of what it wants, let it rain first.",
		Source: srcOwn + "; " + srcRainIn,
		told:   true,
		when:   func(l *look) bool { return l.bare() && l.rainServes() },
		job: func(l *look) Job {
			return Job{
				Kind: Wait, Title: "Let the rain water it", Urgency: WhenYouCan, Confidence: likely,
				Reason: l.dryWords() + " " + l.say.Say("Wait: %s.", l.expected()) + l.rainBrings() + " " + l.say.Word("Squeeze a handful after it."),
			}
		},
	},
	{
		Code:   "uncover-for-rain",
		Text:   "Take the cover off a dry heap when the rain of the next three days would bring it half of what it wants.",
		Source: srcNoCover + "; " + srcRainIn,
		told:   true,
		when:   func(l *look) bool { return l.Covered && l.open() && l.rainServes() },
		job: func(l *look) Job {
			return Job{
				Kind: Uncover, Title: "Take the cover off for the rain", Urgency: l.beforeRain(), Confidence: likely, Done: "log cover off",
				Reason: l.dryWords() + " " + capital(l.expected()) + "." + l.rainBrings() + " " + l.say.Word("Squeeze a handful after it, then cover it again."),
			}
		},
	},
	{
		Code:   "cover-before-rain",
		Text:   "Cover an open heap that is wet enough before heavy rain.",
		Source: srcCover + "; 15 mm: " + srcOwn,
		told:   true,
		when:   func(l *look) bool { return l.bare() && l.heavyRain() && l.moist() && !l.resting() },
		job: func(l *look) Job {
			return coverJob(l.beforeRain(), l.say.Say("It is wet enough, and %s.", l.expected()))
		},
	},
	{
		Code:   "cover-finished",
		Text:   "Cover a heap that cures or is ready before heavy rain, which washes plant food out of it.",
		Source: srcLeach,
		told:   true,
		when:   func(l *look) bool { return l.bare() && l.heavyRain() && l.resting() && l.squeeze != heap.Crumbles },
		job: func(l *look) Job {
			return coverJob(l.beforeRain(), l.say.Say("%s: it would wash plant food out.", capital(l.expected())))
		},
	},
	{
		Code:   "cover-in-drought",
		Text:   "Cover an open heap that is damp enough in a dry, warm spell, to keep its water in.",
		Source: srcCover + "; " + srcNoCover,
		told:   true,
		when: func(l *look) bool {
			damp := l.squeeze == heap.Holds || l.squeeze == heap.Drops
			return l.bare() && damp && (l.working() || l.resting()) && l.sky.dryWarm(l.Now)
		},
		job: func(l *look) Job {
			return coverJob(WhenYouCan, "It is damp enough, and no rain is expected for days: a cover keeps the water in. Where rain is rare, some leave it open for the little that falls.")
		},
	},
}

func coverJob(u Urgency, reason string) Job {
	return Job{Kind: Cover, Title: "Cover it", Reason: reason, Urgency: u, Confidence: likely, Done: "log cover tarp"}
}

// thirst is the litres a heap wants, 0 when they are not known; false when it is
// not known to be dry.
func (l *look) thirst() (litres float64, dry bool) {
	if l.dry() {
		return litresToAdd(l), true
	}
	return l.probablyDry()
}

// rainServes says that the rain to come would give the dry heap half of what it
// wants, if open: the half that is given first by hand.
func (l *look) rainServes() bool {
	litres, dry := l.thirst()
	if !dry || !l.hasRain {
		return false
	}
	if litres > 0 && l.catchL() > 0 {
		return l.catchL() >= litres/2
	}
	return l.heavyRain()
}

// catchL is the litres of the rain to come that the heap would let in, if open;
// 0 when its size is not known.
func (l *look) catchL() float64 {
	share := water.RainIn(l.Heap.Container, false, "").Typical
	return l.rain.mm * share * water.CatchM2(l.Heap.Container, l.Heap.SizeL, l.VolumeL)
}

func (l *look) rainBrings() string {
	litres, _ := l.thirst()
	caught := l.catchL()
	if litres <= 0 || caught <= 0 {
		return ""
	}
	return " " + l.say.Say("That lets in about %s of the %s it wants.", l.say.SayWater(caught), l.say.SayWater(litres))
}

func (l *look) dryWords() string {
	if l.squeeze == heap.Crumbles {
		return l.say.Say("A handful crumbled %s.", l.ago(l.SqueezeAt))
	}
	return l.say.Word("The middle is probably too dry.")
}

// expected says how much rain is to come: "about 12 mm of rain is expected by Thursday".
func (l *look) expected() string {
	by, rain := dayName(l.rain.by, l.Now), l.say.SayRain(l.rain.mm)
	switch by {
	case "today":
		return l.say.Say("about %s of rain is expected today", rain)
	case "tomorrow":
		return l.say.Say("about %s of rain is expected by tomorrow", rain)
	}
	return l.say.Say("about %s of rain is expected by %s", rain, l.say.Word(by))
}

// on says on which day a moment lies: "tomorrow", "on Thursday".
func (l *look) on(d time.Time) string {
	if name := dayName(d, l.Now); name == "today" || name == "tomorrow" {
		return l.say.Word(name)
	}
	return l.say.Say("on %s", l.say.Word(d.Weekday().String()))
}

func (l *look) heavyRain() bool { return l.hasRain && l.rain.mm >= soakingMm }

// beforeRain is how soon something is to be done that must be done before it rains.
func (l *look) beforeRain() Urgency {
	if l.rain.from.Sub(l.Now) < day {
		return Today
	}
	return Soon
}

// moist says that the heap needs no more water: by a hand, or by the model.
func (l *look) moist() bool {
	if l.squeeze != "" {
		return l.squeeze == heap.Drops || wet(l.squeeze)
	}
	return l.model != nil && l.model.Moisture.Mid >= goalMoisture
}

func (l *look) resting() bool { return l.stage == maturity.Curing || l.stage == maturity.Ready }

func capital(s string) string {
	r, size := utf8.DecodeRuneInString(s)
	return string(unicode.ToUpper(r)) + s[size:]
}
