package feedstock

import (
	"math"
	"strings"

	"heapside/calc/fault"
	"heapside/calc/measure"
)

// Lab is what a group knows about a material of its own. A zero is "not
// given". One of CN and Nitrogen is needed; the rest is filled with wide
// ranges.
type Lab struct {
	CN         float64 // carbon to nitrogen by mass, 1 to 1500
	Nitrogen   float64 // % of dry mass, 0.02 to 30
	Carbon     float64 // % of dry mass, 1 to 65
	Ash        float64 // % of dry mass, below 98
	Organic    float64 // % of dry mass, 100 - Ash
	Moisture   float64 // % of wet mass, 1 to 98
	Density    float64 // loose, kg/m3, 5 to 1600
	KgPerLitre float64 // the same from a weighed bucket
}

// group is the source of what the group gave itself.
const (
	group     = "group"
	judgement = "judgement"
)

// Own choices for FromLab.
const (
	labSpread     = 0.10 // between two samples of one material
	greenBelow    = 30.0 // C:N up to which a material counts as green
	maxNameRunes  = 60
	agreementLoss = 0.20 // how far carbon / C:N may be from a nitrogen given too
)

// Organic matter over carbon: the fit to measured pairs of plant waste (SWOLF:
// 1.94 to 2.19), and the two rules for soil and manure that bound it
// (GRUD2017 1.725, GOLUEKE1972 1.8).
var organicPerCarbon = measure.Range{Low: 1.725, Typical: 2.05, High: 2.2}

// assumed stands in for what a lab sheet lacks, by kind (own choice, the middle
// and ends of the built-in table).
var assumed = map[Kind]struct{ moisture, density, degradable measure.Range }{
	Green: {measure.Range{Low: 50, Typical: 75, High: 90}, measure.Range{Low: 80, Typical: 300, High: 800}, measure.Range{Low: 0.45, Typical: 0.65, High: 0.8}},
	Brown: {measure.Range{Low: 8, Typical: 20, High: 50}, measure.Range{Low: 30, Typical: 120, High: 350}, measure.Range{Low: 0.15, Typical: 0.4, High: 0.6}},
}

// assumedCarbon is the carbon of a plant material nobody measured (own choice;
// GRUD2017 to SWOLF span it).
var assumedCarbon = measure.Range{Low: 38, Typical: 45, High: 51}

// FromLab makes a material of the group's own from what it knows. Errors are
// of type *fault.Error and name the value that cannot be. The kind is green up
// to a C:N of 30 and brown above (own choice).
func FromLab(name string, sheet Lab) (Feedstock, error) {
	clean, err := checkName(name)
	if err != nil {
		return Feedstock{}, err
	}
	if err := sheet.check(clean); err != nil {
		return Feedstock{}, err
	}
	f := Feedstock{ID: idOf(clean), Name: clean, Everyday: 1}
	f.Volatile, f.Carbon = sheet.organicAndCarbon()
	if f.CN, err = sheet.ratio(f.Carbon); err != nil {
		return Feedstock{}, err
	}
	f.Kind = Brown
	if f.CN.Typical <= greenBelow {
		f.Kind = Green
	}
	rest := assumed[f.Kind]
	f.Moisture = given(sheet.Moisture, moistureBounds, rest.moisture)
	f.Density = given(sheet.density(), densityBounds, rest.density)
	f.Degradable = Property{Range: rest.degradable, Source: judgement}
	return f, nil
}

// given is the group's own value with the spread between samples, or the
// assumed range.
func given(v float64, within bounds, otherwise measure.Range) Property {
	if v == 0 {
		return Property{Range: otherwise, Source: judgement}
	}
	return Property{Range: spread(v, labSpread, within), Source: group}
}

func (l Lab) density() float64 {
	if l.Density == 0 {
		return l.KgPerLitre * 1000
	}
	return l.Density
}

// organicAndCarbon fills each from the other.
func (l Lab) organicAndCarbon() (organic, carbon Property) {
	vs := l.Organic
	if vs == 0 && l.Ash > 0 {
		vs = 100 - l.Ash
	}
	switch {
	case l.Carbon > 0:
		carbon = given(l.Carbon, carbonBounds, assumedCarbon)
	case vs > 0:
		carbon = Property{Range: clamp(measure.Range{
			Low:     vs / organicPerCarbon.High,
			Typical: vs / organicPerCarbon.Typical,
			High:    vs / organicPerCarbon.Low,
		}, carbonBounds), Source: "group SWOLF GRUD2017"}
	default:
		carbon = Property{Range: assumedCarbon, Source: judgement}
	}
	if vs > 0 {
		return given(vs, bounds{1, 100}, measure.Range{}), carbon
	}
	c := carbon.Typical
	return Property{Range: clamp(measure.Range{
		Low:     c * organicPerCarbon.Low,
		Typical: c * organicPerCarbon.Typical,
		High:    c * organicPerCarbon.High,
	}, bounds{1, 99}), Source: "judgement SWOLF GRUD2017"}, carbon
}

// ratio is the C:N as given, or carbon over nitrogen; given both with the
// carbon, they must agree.
func (l Lab) ratio(carbon Property) (Property, error) {
	if l.CN > 0 {
		if l.Nitrogen > 0 && l.Carbon > 0 && math.Abs(l.Carbon/l.CN/l.Nitrogen-1) > agreementLoss {
			return Property{}, fault.New(fault.OutOfRange,
				"Carbon %g %% with a C:N of %g makes %.2g %% nitrogen, not %g %%; give the two that the sheet measured.",
				l.Carbon, l.CN, l.Carbon/l.CN, l.Nitrogen)
		}
		return given(l.CN, cnBounds, measure.Range{}), nil
	}
	cn := carbon.Typical / l.Nitrogen
	if !cnBounds.holds(cn) {
		return Property{}, fault.New(fault.OutOfRange,
			"Nitrogen %g %% makes a C:N of %.3g; a material has between 0.5 and 1500.", l.Nitrogen, cn)
	}
	return Property{Range: clamp(measure.Range{
		Low:     min(carbon.Low/l.Nitrogen, cn*(1-labSpread)),
		Typical: cn,
		High:    max(carbon.High/l.Nitrogen, cn*(1+labSpread)),
	}, cnBounds), Source: strings.TrimSpace(group + " " + strings.TrimPrefix(carbon.Source, group))}, nil
}

func clamp(r measure.Range, within bounds) measure.Range {
	in := func(v float64) float64 { return min(max(v, within.Low), within.High) }
	return measure.Range{Low: in(r.Low), Typical: in(r.Typical), High: in(r.High)}
}
