package maturity

import (
	"fmt"
	"math"
	"time"

	"heapside/calc/heap"
	"heapside/calc/measure"
)

// StageOf is the stage of a heap and why, in one sentence without degrees.
//
//   - ready: cured for 21 days and within 5 C of the air or tested stable, or
//     cured for 42 days or 180 days old with a passed test, or curing with a
//     passed plant test, or a year without fresh material; and nothing speaks
//     against it.
//   - curing: stayed below 45 C after a turning that followed the last hot
//     reading, or 180 days without fresh material.
//   - hot: the last reading is 45 C or more and at most 16 days old.
//   - cooling: it has been hot and is neither hot nor proved by a turning.
//   - filling: it has not been hot yet.
func StageOf(s heap.State) (Stage, string) { return StageIn(s, measure.Style{}) }

// StageIn is StageOf in the language of a style.
func StageIn(s heap.State, style measure.Style) (Stage, string) {
	return weigh(s, measure.Measures{Style: style}).stage()
}

func (e evidence) stage() (Stage, string) {
	if e.hasLast && e.last.C >= HotC && e.readingAge <= SpentHot {
		return Hot, e.hotWhy()
	}
	if why := e.readyWhy(); why != "" && e.objection() == "" {
		return Ready, why
	}
	switch {
	case e.curing:
		return Curing, e.curingWhy() + e.but()
	case e.provenByAgeAlone:
		return Curing, e.say.Say("Nothing fresh went in for %s; the time says curing, no readings prove it.", e.say.SayDays(e.sinceFresh)) + e.but()
	case e.wasHot:
		return Cooling, e.coolingWhy()
	}
	return Filling, e.fillingWhy()
}

func (e evidence) hotWhy() string {
	if e.readingAge > StaleHot {
		return e.say.Say("The last reading was hot, but it is %s old: it may have cooled since.", e.say.SayDays(e.readingAge))
	}
	return e.say.Say("The last reading, %s, was hot.", e.ago(e.last.At))
}

// readyWhy is the reason to call the heap ready, before any objection; "" when there is none.
func (e evidence) readyWhy() string {
	ripe := e.curing || e.provenByAgeAlone
	switch {
	case e.curing && e.curedFor >= CuredAfter && e.hasAir && !e.warm():
		return e.say.Say("It has cured for %s and is about as cool as the air.", e.say.SayDays(e.curedFor))
	case e.curing && e.curedFor >= CuredAfter && e.stable:
		return e.say.Say("It has cured for %s and tested stable.", e.say.SayDays(e.curedFor))
	case e.curing && e.curedFor >= FullyCured && len(e.passed) > 0:
		return e.say.Say("It has cured for %s and passed the %s.", e.say.SayDays(e.curedFor), e.name(e.passed[0]))
	case e.provenByAgeAlone && len(e.passed) > 0:
		return e.say.Say("Nothing fresh went in for %s, and it passed the %s.", e.say.SayDays(e.sinceFresh), e.name(e.passed[0]))
	case ripe && e.plantTest:
		return e.say.Word("Plants grew in it: it passed a test with seeds.")
	case ripe && e.sinceFresh >= OldAge:
		return e.say.Say("Nothing fresh went in for %s.", e.say.SayDays(e.sinceFresh))
	}
	return ""
}

// but adds the objection to a sentence about a heap that would otherwise be ready.
func (e evidence) but() string {
	if o := e.objection(); o != "" && e.readyWhy() != "" {
		return " " + e.say.Say("It would count as ready, but %s.", o)
	}
	return ""
}

func (e evidence) curingWhy() string {
	if e.fedSinceTurn {
		return e.say.Say("It has stayed cool for %s, since fresh material last went in.", e.say.SayDays(e.curedFor))
	}
	return e.say.Say("It has stayed cool for %s, since it was turned.", e.say.SayDays(e.curedFor))
}

func (e evidence) coolingWhy() string {
	turned := e.LastTurn().After(e.lastHot.At)
	switch {
	case e.last.C >= HotC:
		return e.say.Say("It was hot %s and will have cooled by now; no newer reading says.", e.ago(e.lastHot.At))
	case !turned:
		return e.say.Word("It was hot and has cooled, but no turning since has shown whether it heats again.")
	case e.LastAdded.After(e.LastTurn()) && e.sinceFresh < StaleHot:
		return e.say.Word("It was hot and has cooled; fresh material went in since it was turned.")
	}
	return e.say.Word("It was hot and has cooled; it was turned, and a reading three days later is missing.")
}

func (e evidence) fillingWhy() string {
	switch {
	case len(e.Content) == 0 && !e.hasLast:
		return e.say.Word("Nothing is on record as put in yet.")
	case !e.hasLast:
		return e.say.Say("Material went in %s and no reading says how warm it is.", e.ago(e.Now.Add(-e.sinceFresh)))
	case e.sinceFresh <= StaleHot:
		return e.say.Say("Material went in %s and it is not hot yet.", e.ago(e.Now.Add(-e.sinceFresh)))
	}
	return e.say.Word("No reading has been hot since this material went in.")
}

// sayGap prints a difference of temperatures, in Celsius, in the group's degrees.
func (e evidence) sayGap(c float64) string { return sayGap(c, e.say) }

func sayGap(c float64, m measure.Measures) string {
	if m.Fahrenheit {
		return fmt.Sprintf("%.0f °F", math.Round(c*9/5))
	}
	return fmt.Sprintf("%.0f °C", math.Round(c))
}

func (e evidence) ago(t time.Time) string { return e.say.SayAgo(e.Now.Sub(t)) }
