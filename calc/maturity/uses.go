package maturity

import (
	"unicode"
	"unicode/utf8"
)

// use is one use of compost and how it is judged.
type use struct {
	name  string
	judge func(e evidence, s Stage) answer
}

// answer is a verdict with its reason and what would settle or change it.
type answer struct {
	verdict     Verdict
	why, settle string
}

// uses are the uses in the order of how ripe they ask compost to be. Coarse and
// part-finished is fit for mulch, mature and screened for beds close to
// planting, the most mature for seed mixes (Cornell, seen).
var uses = []use{
	{"mulch", judgeMulch},
	{"digging into a bed ahead of planting", judgeAhead},
	{"planting and vegetable beds", judgePlanting},
	// Own choice: grass is treated like a bed that is planted at once; no source was found.
	{"lawn top dressing", judgeLawn},
	{"seed and potting mixes", judgeSeed},
}

const (
	settleFill    = "Log what goes in: log add 2 buckets of grass clippings"
	settleReading = "Take the temperature in the middle, 40 cm deep."
	settleAgain   = "Take the temperature in the middle again in three days."
	settleTwice   = "Take the temperature again, in two places."
	settleAir     = "Read the thermometer in the shade beside the heap and log it with the spot air."
	settleBag     = "Seal a handful in a plastic bag for a few days: it should smell of earth."
	settleRadish  = "Sow 20 radishes in a pot of it: 15 that sprout and grow on mean it is fit for any use."
	settleLook    = "Look inside: can you still tell what went in? Then: log test look"
)

func judgeMulch(e evidence, s Stage) answer {
	switch {
	case e.badSmell:
		return answer{NotYet, capital(e.foul()) + ".", "Turn it, then smell it again in a few days."}
	case s == Ready, s == Curing:
		return answer{Yes, "Part-finished, coarse compost is fit for mulch.", ""}
	case s == Cooling && e.sinceFresh >= FreshAfter:
		return answer{Yes, e.say.Say("It has been hot, and nothing fresh went in for %s.", e.say.SayDays(e.sinceFresh)), ""}
	case s == Cooling && e.looked:
		return answer{Yes, "It has been hot, and what went in can no longer be told.", ""}
	case s == Cooling:
		return answer{NotYet, e.say.Say("Fresh material went in %s; fresh compost takes about six weeks.", e.ago(e.Now.Add(-e.sinceFresh))), settleLook}
	case s == Hot:
		return answer{NotYet, e.unripeWhy(s), e.settleStage(s)}
	case !e.hasLast && e.sinceFresh >= FreshAfter && e.looked:
		return answer{Yes, "What went in can no longer be told; no reading says more.", ""}
	case !e.hasLast && e.sinceFresh >= FreshAfter && len(e.Content) > 0:
		return answer{Unknown, "There is no reading to tell how far it is.", settleLook}
	}
	return answer{NotYet, e.unripeWhy(s), e.settleStage(s)}
}

func judgeAhead(e evidence, s Stage) answer {
	switch {
	case s == Ready:
		return answer{Yes, "It counts as ready.", ""}
	case s == Curing && e.foul() != "":
		return answer{NotYet, capital(e.foul()) + ".", e.settleStage(s)}
	case s == Curing && e.curing:
		return answer{Yes, "It is curing: dig it in some weeks before you plant (common practice, no source for how many).", ""}
	case s == Curing:
		return answer{Unknown, "Only its age says that it is curing.", settleBag}
	}
	return e.unripe(s)
}

func judgePlanting(e evidence, s Stage) answer {
	switch {
	case s == Ready && e.unfit != "":
		return answer{NotYet, capital(e.unfit) + ".", settleRadish}
	case s == Ready:
		return answer{Yes, "It counts as ready; sieve it first.", ""}
	case s == Curing && e.objection() != "":
		return answer{NotYet, capital(e.objection()) + ".", e.settleStage(s)}
	case s == Curing && e.curing && e.curedFor < CuredAfter:
		left := CuredAfter - e.curedFor + day - 1
		return answer{NotYet, e.say.Say("It has cured for %s of the 21 to 42 that plants ask for: %s to go at least.", e.say.SayDays(e.curedFor), e.say.SayDays(left)), settleRadish}
	case s == Curing:
		return answer{Unknown, e.missing(), e.settleStage(s)}
	}
	return e.unripe(s)
}

func judgeLawn(e evidence, s Stage) answer {
	a := judgePlanting(e, s)
	if a.verdict == Yes {
		a.why = "It counts as ready; sieve it fine."
	}
	return a
}

func judgeSeed(e evidence, s Stage) answer {
	switch {
	case s == Ready && e.unfit != "":
		return answer{NotYet, capital(e.unfit) + ".", settleRadish}
	case s == Ready && e.seedlings:
		return answer{Yes, "It is ready and plants grew in it; sieve it to 3 mm.", ""}
	case s == Ready && e.sinceFresh >= VeryOld:
		return answer{Yes, "It is ready and more than two years old; sieve it to 3 mm.", ""}
	case s == Ready && e.plantTest:
		return answer{Unknown, "Plants grew in it, but not past every published line for seedlings.", settleRadish}
	case s == Ready:
		return answer{Unknown, "Seedlings ask for the ripest compost, and no test with plants is on record.", settleRadish}
	case s == Curing:
		return answer{NotYet, "Seedlings ask for the ripest compost; this is still curing.", settleRadish}
	}
	return e.unripe(s)
}

// unripe is the answer for every use of ripe compost before curing. Against heat
// no test counts.
func (e evidence) unripe(s Stage) answer {
	why := e.say.Word(e.unripeWhy(s))
	if e.plantTest && s != Hot {
		return answer{Unknown, why + " " + e.say.Word("Yet a test with seeds passed: these contradict."), e.settleStage(s)}
	}
	return answer{NotYet, why, e.settleStage(s)}
}

func (e evidence) unripeWhy(s Stage) string {
	switch {
	case s == Hot && e.readingAge > StaleHot:
		return "It was hot when it was last read."
	case s == Hot:
		return "It is still hot."
	case s == Cooling:
		return "It has cooled but is not shown to be curing."
	case len(e.Content) == 0 && !e.hasLast:
		return "Nothing is known to be in it."
	case !e.hasLast:
		return "No reading shows that it has been hot."
	}
	return "It has not been hot yet."
}

// missing says what keeps a curing heap from being called ready.
func (e evidence) missing() string {
	switch {
	case !e.curing:
		return "Only its age says that it is curing; no test is on record."
	case !e.hasAir:
		return "It has cured long enough, but the comparison with the air is missing."
	}
	return "No test on record shows that it is done."
}

// settleStage is the one observation that would tell most at a stage.
func (e evidence) settleStage(s Stage) string {
	switch {
	case len(e.Content) == 0 && !e.hasLast:
		return settleFill
	case s == Ready && (!e.seedlings || e.unfit != "") && e.sinceFresh < VeryOld:
		return settleRadish
	case s == Ready:
		return ""
	case s == Curing && e.objected():
		return e.settleAgainst()
	case s == Curing && e.badSmell, s == Curing && !e.curing:
		return settleBag
	case s == Curing && e.readingAge > StaleSign:
		return settleReading
	case s == Curing && !e.hasAir:
		return settleAir
	case s == Curing && e.warm():
		return "Read the heap and the air again in a week."
	case s == Curing:
		return settleRadish
	case s == Cooling && e.hasLast && e.last.C < HotC && !e.LastTurn().After(e.lastHot.At):
		return e.say.Say("Turn it once and read it three days later: below %s means that it is curing.", e.say.SayTemperature(HotC))
	case e.againstHeat(s) != "":
		return settleTwice
	case e.hasLast && e.readingAge > lately:
		return settleReading
	case s == Hot:
		return e.say.Say("Read it every three days: once it is below %s, turn it and see whether it stays there.", e.say.SayTemperature(HotC))
	case e.hasLast:
		return settleAgain
	}
	return settleReading
}

// objected says that a test speaks against the compost.
func (e evidence) objected() bool { _, ok := e.objecting(); return ok }

// settleAgainst is what would lift a test that speaks against the compost: only
// the same test, done again (own choice, when: as long as curing takes at least).
func (e evidence) settleAgainst() string {
	t, _ := e.objecting()
	if wait := CuredAfter - e.Now.Sub(t.At); wait >= day {
		return e.say.Say("Let it cure and do the %s again in %s.", e.name(t), e.say.SayDays(wait+day-1))
	}
	return e.say.Say("Do the %s again.", e.name(t))
}

func capital(s string) string {
	r, size := utf8.DecodeRuneInString(s)
	return string(unicode.ToUpper(r)) + s[size:]
}
