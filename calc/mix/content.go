package mix

import (
	"math"

	"heapside/calc/feedstock"
	"heapside/calc/measure"
)

// spread is how far the 10 % point of a symmetric triangular distribution lies
// from its peak, as a share of the way to its end: (1+x)²/2 = 0.1 gives
// x = sqrt(0.2) - 1. Own arithmetic.
var spread = 1 - math.Sqrt(0.2)

// Content folds what has gone into a heap into one material, so that the heap
// can be an input of a further mix. The name reads in a sentence. The ranges
// reproduce the 10 and 90 % points of the draws. A moisture from a squeeze test
// replaces the computed one; the water then changes and the volume stays.
// Nothing is taken off for what has rotted: give parts as they are now. It is
// neither coarse nor matting, since it lies already. Parts that Resolve refuses
// give the zero Part.
func Content(name string, parts []Part, moisture *measure.Range) Part {
	if _, err := Resolve(parts); err != nil {
		return Part{}
	}
	s := newSampler(0, defaultDraws)
	c := content{s, Blend{}.Add(canonical(parts)...), s.sum(parts)}
	f := feedstock.Feedstock{
		ID: "heap:" + name, Name: name, Kind: feedstock.Neutral,
		Mineral: c.typical.NitrogenKg <= 0,
	}
	const source = "computed"
	f.Carbon = feedstock.Property{Range: c.linear(carbonShare, 0.1, 100), Source: source}
	f.CN = feedstock.Property{Range: c.log(Blend.CN), Source: source}
	f.Volatile = feedstock.Property{Range: c.linear(volatileShare, 0, 100), Source: source}
	f.Moisture = feedstock.Property{Range: c.linear(Blend.Moisture, 0, 100), Source: source}
	f.Density = feedstock.Property{Range: c.log(Blend.Density), Source: source}
	if moisture != nil && ordered(*moisture) && moisture.Low >= 0 && moisture.High < 100 {
		f.Moisture = feedstock.Property{Range: *moisture, Source: "squeeze test"}
		// The dry mass stays: density follows the water in proportion.
		f.Density.Range = f.Density.Scale((1 - c.typical.Moisture()/100) / (1 - moisture.Typical/100))
	}
	f.Degradable = feedstock.Property{Range: degradable(parts), Source: source}
	return Part{Feedstock: f, Volume: c.linear(func(b Blend) float64 { return b.VolumeL }, 0, maxVolumeL)}
}

// content is the sum of a heap's parts, typical and drawn.
type content struct {
	s       *sampler
	typical Blend
	draws   []Blend
}

func carbonShare(b Blend) float64   { return 100 * ratio(b.CarbonKg, b.DryKg) }
func volatileShare(b Blend) float64 { return 100 * ratio(b.VolatileKg, b.DryKg) }

// linear is the triangular range whose 10 and 90 % points are those of the draws.
func (c content) linear(of func(Blend) float64, low, high float64) measure.Range {
	at, q10, q90 := c.points(of)
	return measure.Range{
		Low:     max(min(low, at), at-max(0, at-q10)/spread),
		Typical: at,
		High:    min(max(high, at), at+max(0, q90-at)/spread),
	}
}

// log is linear on the logarithms.
func (c content) log(of func(Blend) float64) measure.Range {
	at, q10, q90 := c.points(of)
	if at <= 0 {
		return measure.Range{}
	}
	return measure.Range{
		Low:     at * math.Pow(min(1, q10/at), 1/spread),
		Typical: at,
		High:    at * math.Pow(max(1, q90/at), 1/spread),
	}
}

func (c content) points(of func(Blend) float64) (typical, q10, q90 float64) {
	stat := c.s.stat(c.typical, c.draws, of)
	return stat.Typical, stat.Low, stat.High
}

// degradable is the degradable share of the volatile solids together.
func degradable(parts []Part) measure.Range {
	var sum measure.Range
	var volatile float64
	for i := range parts {
		v := Blend{}.Add(parts[i]).VolatileKg
		d := parts[i].Feedstock.Degradable.Scale(v)
		sum = measure.Range{Low: sum.Low + d.Low, Typical: sum.Typical + d.Typical, High: sum.High + d.High}
		volatile += v
	}
	return sum.Scale(ratio(1, volatile))
}

func isCoarse(f *feedstock.Feedstock) bool  { return f.Coarse }
func isMatting(f *feedstock.Feedstock) bool { return f.Matting }
