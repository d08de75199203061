package feedstock

import "heapside/calc/measure"

// The bounds that every material keeps, in the units of Feedstock. They are wider
// than anything in the table and catch slips (own choice).
var (
	carbonBounds   = bounds{1, 65}
	cnBounds       = bounds{0.5, 1500}
	moistureBounds = bounds{0, 98}
	densityBounds  = bounds{5, 1600}
)

// bounds is a closed interval.
type bounds struct{ Low, High float64 }

// holds reports whether v lies inside; NaN never does.
func (b bounds) holds(v float64) bool { return v >= b.Low && v <= b.High }

// Nitrogen is the typical nitrogen in % of dry mass, Carbon / CN. Minerals
// count as having none: what they hold does not feed the heap.
func (f Feedstock) Nitrogen() float64 {
	if f.Mineral || f.CN.Typical <= 0 {
		return 0
	}
	return f.Carbon.Typical / f.CN.Typical
}

// weighingSpread is how far one bucket differs from the next once a group has
// weighed one (own choice).
const weighingSpread = 0.10

// WithDensity is f with the loose density a group found by weighing, in kg/m3.
// A density outside 5 to 1600 leaves f as it is.
func (f Feedstock) WithDensity(kgPerM3 float64, source string) Feedstock {
	if !densityBounds.holds(kgPerM3) {
		return f
	}
	f.Density = Property{Range: spread(kgPerM3, weighingSpread, densityBounds), Source: source}
	return f
}

// spread is v give or take a share of it, kept inside the bounds.
func spread(v, share float64, within bounds) measure.Range {
	return measure.Range{
		Low:     max(v*(1-share), within.Low),
		Typical: v,
		High:    min(v*(1+share), within.High),
	}
}
