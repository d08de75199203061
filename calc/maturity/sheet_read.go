package maturity

import (
	"regexp"
	"strings"

	"heapside/calc/fault"
	"heapside/calc/heap"
)

// sheetFields are what a laboratory sheet may say, in the order they are taken:
// a name that holds another comes first.
var sheetFields = []struct {
	name string
	said *regexp.Regexp
	unit map[string]float64 // factors to the unit that is kept; "" is the unit not said
}{
	{nitrogenRatio, regexp.MustCompile(`(?:\bnh₄(?:-?n)?|\bammonium)(?: ?[:/] ?| to )(?:no₃(?:-?n)?|nitrate)\b` + gap + number + `()`), nil},
	{carbonRatio, regexp.MustCompile(`\b(?:c ?[:/] ?n|cn|carbon[- ]to[- ]nitrogen)\b(?: ratio)?` + gap + number + `(?: ?: ?1\b)?()`), nil},
	{ammonium, regexp.MustCompile(`(?:\bnh₄[- ]?n|\bnh₃[- ]?n|\bammoni(?:um|a)[- ]n(?:itrogen)?)\b` + gap + number + massUnit), massUnits},
	{nitrate, regexp.MustCompile(`(?:\bno₃[- ]?n|\bnitrate[- ]n(?:itrogen)?)\b` + gap + number + massUnit), massUnits},
	{emergence, regexp.MustCompile(`\bemergence` + gap + number + `()`), nil},
	{vigour, regexp.MustCompile(`\bvigou?r` + gap + number + `()`), nil},
	{index, regexp.MustCompile(`\b(?:gi|germination index)\b` + gap + number + `()`), nil},
	{acidity, regexp.MustCompile(`\bph\b` + gap + number + `()`), nil},
	{salts, regexp.MustCompile(`\b(?:soluble salts|salts?|salinity|conductivity|ec)\b` + gap + number + ` ?(ds/?m|ms/?cm|mmhos/?cm|µs/?cm|us/?cm)?`),
		map[string]float64{"": 1, "dsm": 1, "mscm": 1, "mmhoscm": 1, "µscm": 0.001, "uscm": 0.001}},
	{moisture, regexp.MustCompile(`\b(?:moisture|water content)(?: content)?\b` + gap + number + `()|` + number + ` ?% (?:moisture|water)\b`), nil},
	{organic, regexp.MustCompile(`\b(?:organic matter|om|volatile solids|loss on ignition)\b` + gap + number + `()|` + number + ` ?% organic matter\b`), nil},
}

const massUnit = ` ?(ppm|mg/kg|mg/l|g/kg|%)?`

// massUnits are factors to parts per million by mass. Without a unit it is taken
// as that (own choice, as sheets print it).
var massUnits = map[string]float64{"": 1, "ppm": 1, "mg/kg": 1, "mg/l": 1, "g/kg": 1000, "%": 10000}

var (
	respirationSaid = regexp.MustCompile(`\b(?:respiration(?: rate| index)?|stability(?: index)?|co₂ (?:evolution|rate)|carbon dioxide(?: evolution)?|oxygen uptake(?: rate)?|our|sour|at₄)(?:[^\d,;(]|\(our\)|\(sour\)){0,20}?` + number + `([^,;]*)`)
	respirationUnit = regexp.MustCompile(`^ ?(mg|g|mmol)[ -]?(co₂[ -]?c|c|co₂|o₂)(?: ?/ ?| per | )(g|kg)(?:-1)?[ -]*(?:of )?(om|vs|organic matter|volatile solids|dm|ts|dry matter|dry solids|tm)\b(?:(?: ?/ ?| per | a | )(day|d|hour|hr|h)(?:-1)?\b)?`)
	// bareNitrogen is ammonium or nitrate that does not say whether it is counted as nitrogen.
	bareNitrogen = regexp.MustCompile(`(?:\bnh₄|\bno₃|\bammonium|\bammonia|\bnitrate)(?:\b|[^\w-])` + gap + number)
)

// readSheet reads the numbers of a laboratory sheet that speak of how ripe
// compost is.
func readSheet(r *reader) {
	if g := r.take(respirationSaid); g != nil {
		r.breathing(g)
	}
	for _, f := range sheetFields {
		g := r.take(f.said)
		if g == nil {
			continue
		}
		value, unit := firstOf(g[1], g[len(g)-1]), ""
		if len(g) > 2 {
			unit = g[2]
		}
		factor := 1.0
		if f.unit != nil {
			factor = f.unit[unitKey(unit)]
		}
		r.keep(f.name, decimal(value)*factor, g[0])
	}
	if g := r.take(classSaid); g != nil {
		r.keep(class, classNumber(g[1]), g[0])
	}
	if g := r.take(bareNitrogen); g != nil {
		r.err = fault.New(fault.NotUnderstood, "Is “%s” counted as nitrogen? Write NH4-N or NO3-N if the sheet says so; of plain NH4 1 ppm is 0.78 as nitrogen, of plain NO3 0.23.", r.typed(g[0]))
	}
}

func unitKey(unit string) string {
	if _, ok := massUnits[unit]; ok {
		return unit
	}
	return strings.ReplaceAll(unit, "/", "")
}

// breathing keeps a respiration with the unit of the sheet: carbon dioxide and
// the carbon in it, organic and dry matter, hour and day are all in use.
func (r *reader) breathing(g []string) {
	said := r.typed(g[0])
	u := respirationUnit.FindStringSubmatch(g[2])
	if u == nil {
		r.err = fault.New(fault.NotUnderstood, "In which unit is “%s”? CO2 and CO2-C differ by a factor of 3.7, so write it whole, like “respiration 4.2 mg CO2-C/g OM/day”.", said)
		return
	}
	r.text += " ; " + g[2][len(u[0]):] // what follows the unit is another number's
	per := map[string]string{"om": "OM", "vs": "OM", "organic matter": "OM", "volatile solids": "OM"}[u[4]]
	if per == "" {
		per = "DM"
	}
	gas := map[string]string{"c": "CO2-C", "co₂": "CO2", "o₂": "O2"}[u[2]]
	if gas == "" {
		gas = "CO2-C"
	}
	value := decimal(g[1])
	if u[1] == "g" {
		u[1], value = "mg", value*1000
	}
	unit, factor := breathUnit(u[1], gas, u[3], per, u[5])
	if unit == "" {
		r.err = fault.New(fault.NotUnderstood, "No limit is published that “%s” could be held against. Known are %s.", said, knownBreaths())
		return
	}
	q := quantities[respiration]
	limit := breaths[unit]
	q.high = limit.most
	r.hold(respiration, heap.Number{Name: respiration, Value: value * factor, Unit: unit}, said, q)
}
