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
func StageOf(s heap.State) (Stage, string) { return weigh(s, measure.Measures{}).stage() }

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
		return Curing, fmt.Sprintf("Nothing fresh went in for %s; the time says curing, no readings prove it.", measure.SayDays(e.sinceFresh)) + e.but()
	case e.wasHot:
		return Cooling, e.coolingWhy()
	}
	return Filling, e.fillingWhy()
}

func (e evidence) hotWhy() string {
	if e.readingAge > StaleHot {
		return fmt.Sprintf("The last reading was hot, but it is %s old: it may have cooled since.", measure.SayDays(e.readingAge))
	}
	return fmt.Sprintf("The last reading, %s, was hot.", ago(e.State, e.last.At))
}

// readyWhy is the reason to call the heap ready, before any objection; "" when there is none.
func (e evidence) readyWhy() string {
	ripe := e.curing || e.provenByAgeAlone
	switch {
	case e.curing && e.curedFor >= CuredAfter && e.hasAir && !e.warm():
		return fmt.Sprintf("It has cured for %s and is about as cool as the air.", measure.SayDays(e.curedFor))
	case e.curing && e.curedFor >= CuredAfter && e.stable:
		return fmt.Sprintf("It has cured for %s and tested stable.", measure.SayDays(e.curedFor))
	case e.curing && e.curedFor >= FullyCured && len(e.passed) > 0:
		return fmt.Sprintf("It has cured for %s and passed the %s test.", measure.SayDays(e.curedFor), e.passed[0].Test.Test)
	case e.provenByAgeAlone && len(e.passed) > 0:
		return fmt.Sprintf("Nothing fresh went in for %s, and it passed the %s test.", measure.SayDays(e.sinceFresh), e.passed[0].Test.Test)
	case ripe && e.plantTest:
		return "Plants grew in it: it passed a test with seeds."
	case ripe && e.sinceFresh >= OldAge:
		return fmt.Sprintf("Nothing fresh went in for %s.", measure.SayDays(e.sinceFresh))
	}
	return ""
}

// but adds the objection to a sentence about a heap that would otherwise be ready.
func (e evidence) but() string {
	if o := e.objection(); o != "" && e.readyWhy() != "" {
		return " It would count as ready, but " + o + "."
	}
	return ""
}

func (e evidence) curingWhy() string {
	if e.fedSinceTurn {
		return fmt.Sprintf("It has stayed cool for %s, since fresh material last went in.", measure.SayDays(e.curedFor))
	}
	return fmt.Sprintf("It has stayed cool for %s, since it was turned.", measure.SayDays(e.curedFor))
}

func (e evidence) coolingWhy() string {
	turned := e.LastTurn().After(e.lastHot.At)
	switch {
	case e.last.C >= HotC:
		return fmt.Sprintf("It was hot %s and will have cooled by now; no newer reading says.", ago(e.State, e.lastHot.At))
	case !turned:
		return "It was hot and has cooled, but no turning since has shown whether it heats again."
	case e.LastAdded.After(e.LastTurn()) && e.sinceFresh < StaleHot:
		return "It was hot and has cooled; fresh material went in since it was turned."
	}
	return "It was hot and has cooled; it was turned, and a reading three days later is missing."
}

func (e evidence) fillingWhy() string {
	switch {
	case len(e.Content) == 0 && !e.hasLast:
		return "Nothing is on record as put in yet."
	case !e.hasLast:
		return fmt.Sprintf("Material went in %s and no reading says how warm it is.", ago(e.State, e.Now.Add(-e.sinceFresh)))
	case e.sinceFresh <= StaleHot:
		return fmt.Sprintf("Material went in %s and it is not hot yet.", ago(e.State, e.Now.Add(-e.sinceFresh)))
	}
	return "No reading has been hot since this material went in."
}

// sayGap prints a difference of temperatures, in Celsius, in the group's degrees.
func (e evidence) sayGap(c float64) string { return sayGap(c, e.say) }

func sayGap(c float64, m measure.Measures) string {
	if m.Fahrenheit {
		return fmt.Sprintf("%.0f °F", math.Round(c*9/5))
	}
	return fmt.Sprintf("%.0f °C", math.Round(c))
}

func ago(s heap.State, t time.Time) string { return measure.SayAgo(s.Now.Sub(t)) }
