package maturity

import (
	"fmt"
	"strings"

	"heapside/calc/heap"
	"heapside/calc/measure"
)

// carbonInDioxide is the share of carbon in carbon dioxide by mass, 12.011/44.009
// (standard atomic weights).
const carbonInDioxide = 12.011 / 44.009

// CarbonOfDioxide turns mg CO2 into mg CO2-C.
func CarbonOfDioxide(mgCO2 float64) float64 { return mgCO2 * carbonInDioxide }

// The limits for respiration as carbon in carbon dioxide, mg CO2-C/g OM/day.
const (
	fineBreath   = 5.0 // fine compost, at most (CalRecycle after Caltrans, TMECC 05.08-B, seen)
	coarseBreath = 8.0 // medium and coarse, at most (same); Minnesota asks for less than 8 (seen)
	stableBreath = 4.0 // after 21 days of curing, at most (CCME 2005, from memory)
)

// breath is a unit that respiration is given in, with the limit in it.
type breath struct {
	most   float64 // the highest that is believed (own choice)
	carbon float64 // factor to mg CO2-C/g OM/day; 0: it has a limit of its own
	limit  float64 // up to which compost is stable
	who    string
}

// breaths are the units that a limit is published for.
var breaths = map[string]breath{
	"mg CO2-C/g OM/day": {most: 100, carbon: 1},
	"mg CO2/g OM/day":   {most: 400, carbon: carbonInDioxide},
	"mg O2/kg OM/h":     {most: 10000, limit: 400, who: "CCME 2005, from memory"},
	"mmol O2/kg OM/h":   {most: 300, limit: 25, who: "EU rules for compost, CMC 3, from memory"},
	"mg O2/g DM":        {most: 400, limit: 10, who: "an EU working paper, in 4 days, from memory"},
}

func knownBreaths() string {
	return "mg CO2-C/g OM/day, mg CO2/g OM/day, mg O2/kg OM/h, mmol O2/kg OM/h and, over 4 days, mg O2/g DM"
}

// breathUnit is the unit of breaths that a unit in words is, and the factor to it;
// "" when no limit is published for it.
func breathUnit(amount, gas, per, of, time string) (unit string, factor float64) {
	factor = 1
	hourly := strings.HasPrefix(time, "h")
	switch {
	case gas == "O2" && of == "DM" && time == "":
		unit = amount + " O2/g DM"
		if per == "kg" {
			factor /= 1000
		}
	case time == "":
		return "", 0
	case gas == "O2":
		unit = amount + " O2/kg " + of + "/h"
		if per == "g" {
			factor *= 1000
		}
		if !hourly {
			factor /= 24
		}
	default:
		unit = amount + " " + gas + "/g " + of + "/day"
		if per == "kg" {
			factor /= 1000
		}
		if hourly {
			factor *= 24
		}
	}
	if _, ok := breaths[unit]; !ok {
		return "", 0
	}
	return unit, factor
}

// Sources of what a laboratory sheet says.
const (
	srcBreath   = "respiration: at most 5 (fine) or 8 (coarse) mg CO2-C/g OM/day, CalRecycle; less than 8, Minnesota; 16 mg CO2 = 4.4 mg CO2-C, PAS 100:2005 (second-hand)"
	srcNitrogen = "ammonium to nitrate: a laboratory calls 71 immature; below 0.5 very mature, above 3 immature (CCQC, from memory); valid once stable, with many exceptions"
	srcCarbon   = "C:N: above 30 ties up nitrogen, below 20 gives it off, Clemson; end limits of 13, 15, 20 (a1organics.com, familiengarten-tipps.de, scribd.com/document/467023121) and 25 (from memory) disagree"
	srcFinish   = "finished compost: moisture 25 to 60 %, pH 6 to 8.5, organic matter 30 to 70 %, CalRecycle; pH 5.5 to 8.5, salts below 10 dS/m, organic matter 30 to 65 %, Minnesota"
)

// judgeSheet judges a laboratory sheet by each of its numbers; the worst counts.
func judgeSheet(t heap.Test, m measure.Measures) Finding {
	all := Finding{Outcome: Silent, whole: len(t.Numbers) > 0}
	for _, judge := range []func(heap.Test) Finding{judgeBreath, judgeNitrogen, judgeCarbon, judgeFinish} {
		all.add(judge(t))
	}
	all.add(judgeExtract(t, m))
	all.add(judgeFlask(t, m))
	return all
}

func judgeBreath(t heap.Test) Finding {
	n, ok := t.Number(respiration)
	b, known := breaths[n.Unit]
	if !ok || !known {
		return Finding{Outcome: Silent}
	}
	figure := short(n.Value) + " " + n.Unit
	said := "Respiration of " + figure
	if b.carbon == 0 {
		f := Finding{Outcome: Finished, Short: figure, Stable: n.Unit == "mg O2/kg OM/h" && n.Value <= b.limit, Basis: []string{"respiration: " + short(b.limit) + " " + n.Unit + ", " + b.who}}
		verdict := "within the limit"
		if n.Value > b.limit {
			f.Outcome, verdict = Fresh, "above the limit"
		}
		f.Lines = []string{fmt.Sprintf("%s is %s of %s (%s).", said, verdict, short(b.limit), b.who)}
		return f
	}
	carbon := n.Value * b.carbon
	if b.carbon != 1 {
		said += " is " + short(carbon) + " mg CO2-C/g OM/day,"
	}
	f := Finding{Outcome: Finished, Short: figure, Stable: carbon <= stableBreath, Basis: []string{srcBreath}, Values: []heap.Number{{Name: respiration, Value: carbon, Unit: "mg CO2-C/g OM/day"}}}
	switch {
	case carbon <= fineBreath:
		said += " is within 5, the limit for fine compost."
	case carbon < coarseBreath:
		said += " is within 8, the limit for coarse compost, but above the 5 for fine."
	case carbon == coarseBreath:
		f.Outcome = Fresh
		said += " is on the line: California takes 8 for coarse compost, Minnesota asks for less."
	default:
		f.Outcome = Fresh
		said += " is above 8: not stable yet, for selected uses."
	}
	f.Lines = []string{strings.Replace(said, ", is", ", which is", 1)}
	return f
}

// The classes of ammonium to nitrate nitrogen (CCQC, from memory; a laboratory
// printed 71 as immature, seen).
const (
	veryMatureRatio = 0.5
	immatureRatio   = 3.0
)

func judgeNitrogen(t heap.Test) Finding {
	ratio, ok := t.Number(nitrogenRatio)
	nh4, hasNH4 := t.Number(ammonium)
	no3, hasNO3 := t.Number(nitrate)
	said := "Ammonium to nitrate of " + short(ratio.Value)
	switch {
	case hasNH4 && hasNO3 && no3.Value > 0:
		ratio.Value = nh4.Value / no3.Value
		said = fmt.Sprintf("Ammonium to nitrate is %s to %s ppm, %s", short(nh4.Value), short(no3.Value), short(ratio.Value))
	case hasNH4 && hasNO3:
		said, ratio.Value = "There is ammonium and no nitrate", 2*immatureRatio
		if nh4.Value == 0 {
			return Finding{Outcome: Silent}
		}
	case !ok:
		return Finding{Outcome: Silent}
	}
	f := Finding{Outcome: Silent, Short: "ammonium to nitrate " + short(ratio.Value), Basis: []string{srcNitrogen}, Values: []heap.Number{{Name: nitrogenRatio, Value: ratio.Value, Unit: "1"}}}
	switch {
	case ratio.Value > immatureRatio:
		f.Outcome = Fresh
		f.Lines = []string{said + ": above 3 is immature."}
	case ratio.Value < veryMatureRatio:
		f.Lines = []string{said + ": below 0.5 is very mature, if it is stable as well."}
	default:
		f.Lines = []string{said + ": 0.5 to 3 is mature, if it is stable as well."}
	}
	return f
}

// The band of end limits for C:N. Below the lowest nobody objects; between them
// the sources disagree; above tiesUp compost takes nitrogen from the soil.
const (
	lowestEnd  = 13.0 // mature below (a1organics.com, seen)
	highestEnd = 25.0 // gate of the CCQC index (from memory); 20 for use on soil (seen)
	tiesUp     = 30.0 // Clemson (seen)
	givesOff   = 20.0 // Clemson (seen)
)

// SoilNitrogen says what compost of a C:N does to the nitrogen of soil:
// "immobilises" above 30, "releases" below 20, "" between (Clemson, seen).
func SoilNitrogen(cn float64) string {
	switch {
	case cn > tiesUp:
		return "immobilises"
	case cn < givesOff:
		return "releases"
	}
	return ""
}

// judgeCarbon never speaks for compost: fresh grass has the C:N of ripe compost.
func judgeCarbon(t heap.Test) Finding {
	n, ok := t.Number(carbonRatio)
	if !ok {
		return Finding{Outcome: Silent}
	}
	f := Finding{Outcome: Silent, Short: "C:N " + short(n.Value), Basis: []string{srcCarbon}}
	said := "A C:N of " + short(n.Value)
	switch {
	case SoilNitrogen(n.Value) == "immobilises":
		f.Unfit = "its C:N of " + short(n.Value) + " ties up nitrogen in the soil"
		said += " is above 30: it ties up nitrogen in the soil."
	case n.Value > highestEnd:
		said += " is above every published end (13 to 25)."
	case n.Value >= lowestEnd:
		said += " is where published ends disagree (13, 15, 20, 25): it neither proves nor rules out that it is done."
	default:
		said += " is below every published end (13 to 25); alone it proves nothing, fresh grass is as low."
	}
	f.Lines = []string{said}
	return f
}

// finishLimits are what finished compost keeps to by the wider of the published
// limits. Those that are Unfit harm plants; the others only say how it is to handle.
var finishLimits = []struct {
	name      string
	low, high float64
	unfit     bool
}{
	{acidity, 5.5, 8.5, true}, // Minnesota; 6 to 8.5 CalRecycle (both seen)
	{salts, 0, 9.999, true},   // below 10 dS/m, Minnesota (seen)
	{moisture, 25, 60, false}, // CalRecycle (seen)
	{organic, 30, 70, false},  // CalRecycle, fine; 30 to 65 Minnesota (both seen)
}

func judgeFinish(t heap.Test) Finding {
	f := Finding{Outcome: Silent}
	for _, l := range finishLimits {
		n, ok := t.Number(l.name)
		if !ok {
			continue
		}
		f.Basis = []string{srcFinish}
		if n.Value >= l.low && n.Value <= l.high {
			continue
		}
		unit := sayUnit(n.Unit)
		said := fmt.Sprintf("%s of %s%s is outside the %s to %.0f%s of finished compost", n.Name, short(n.Value), unit, short(l.low), l.high, unit)
		if l.unfit {
			f.Unfit = "its " + n.Name + " of " + short(n.Value) + unit + " is hard on plants"
		}
		f.Lines = append(f.Lines, strings.ToUpper(said[:1])+said[1:]+".")
	}
	return f
}
