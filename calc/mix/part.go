package mix

import (
	"math"

	"heapside/calc/fault"
	"heapside/calc/feedstock"
	"heapside/calc/measure"
)

// Limits on one amount (own choice): more is a windrow on a farm.
const (
	maxVolumeL = 1e6
	maxMassKg  = 1e6
)

// Resolve turns parts into mass and volume at typical values. It refuses an
// empty list, amounts that are not positive and finite, and materials whose
// properties no material has.
func Resolve(parts []Part) ([]Input, error) {
	if len(parts) == 0 {
		return nil, fault.New(fault.Missing, "Nothing was given; say what arrived, for example 2 buckets of grass clippings.")
	}
	out := make([]Input, len(parts))
	for i := range parts {
		p := &parts[i]
		if err := p.check(); err != nil {
			return nil, err
		}
		one := loose(&p.Feedstock)
		litres := p.litres(p.typical(), one)
		out[i] = Input{Feedstock: p.Feedstock, VolumeL: litres, MassKg: litres * one.MassKg()}
	}
	return out, nil
}

// byMass reports whether the amount was weighed.
func (p *Part) byMass() bool { return p.Mass != (measure.Range{}) }

// amount is the range that was given, in litres or kilograms.
func (p *Part) amount() measure.Range {
	if p.byMass() {
		return p.Mass
	}
	return p.Volume
}

func (p *Part) typical() float64 { return p.amount().Typical }

// litres turns an amount as given into litres of a material of which one litre
// is one.
func (p *Part) litres(amount float64, one Blend) float64 {
	if p.byMass() {
		return ratio(amount, one.MassKg())
	}
	return amount
}

func (p *Part) check() error {
	if p.byMass() && p.Volume != (measure.Range{}) {
		return fault.New(fault.NotUnderstood, "The %s came with both a volume and a weight; give one.", p.Feedstock.Name)
	}
	most, unit := float64(maxVolumeL), "litres"
	if p.byMass() {
		most, unit = maxMassKg, "kg"
	}
	r := p.amount()
	if !ordered(r) || r.Low <= 0 || r.High > most {
		return fault.New(fault.OutOfRange, "%g %s of %s is not an amount; give more than 0 and at most %g %s.",
			r.Typical, unit, p.Feedstock.Name, most, unit)
	}
	return checkFeedstock(&p.Feedstock)
}

// propertyBounds are what any material can be; wider than any table row.
var propertyBounds = []struct {
	name      string
	of        func(*feedstock.Feedstock) measure.Range
	low, high float64
	organic   bool // minerals need not have it
}{
	{"density in kg/m³", func(f *feedstock.Feedstock) measure.Range { return f.Density.Range }, 1, 3000, false},
	{"moisture in %", func(f *feedstock.Feedstock) measure.Range { return f.Moisture.Range }, 0, 100, false},
	{"organic share in %", func(f *feedstock.Feedstock) measure.Range { return f.Volatile.Range }, 0, 100, false},
	{"carbon in %", func(f *feedstock.Feedstock) measure.Range { return f.Carbon.Range }, 0.1, 100, true},
	{"C:N", func(f *feedstock.Feedstock) measure.Range { return f.CN.Range }, 0.1, 5000, true},
}

func checkFeedstock(f *feedstock.Feedstock) error {
	for i := range propertyBounds {
		p := &propertyBounds[i]
		if p.organic && f.Mineral {
			continue
		}
		r := p.of(f)
		if !ordered(r) || r.Low < p.low || r.High > p.high {
			return fault.New(fault.OutOfRange, "The %s of %s is %g to %g; give it between %g and %g, low end first.",
				p.name, f.Name, r.Low, r.High, p.low, p.high)
		}
	}
	return nil
}

// ordered is false for NaN and infinities, and for ends out of order.
func ordered(r measure.Range) bool {
	return r.Low <= r.Typical && r.Typical <= r.High && !math.IsInf(r.Low, 0) && !math.IsInf(r.High, 0)
}
