package heap

import (
	"slices"
	"strings"

	"heapside/calc/fault"
)

// MaxLitres is the most that a heap, an addition or a stock can be: 1000 m3
// (own choice).
const MaxLitres = 1e6

// Bounds of what is kept, wide enough for any heap of a garden and narrow
// enough to keep a slip of a factor of a thousand out (own choice).
const (
	maxKg      = 1e6  // 1000 t
	minC       = -90  // colder than any air
	maxC       = 200  // hotter than any heap that is not on fire
	maxDepthCm = 1000 // deeper than any probe
	maxHeight  = 2000 // cm
	maxRainMm  = 5000 // one reading
	maxAgeDays = 36500
)

// bound is one number of a payload with the interval it must lie in.
type bound struct {
	what      string
	value     float64
	low, high float64
	unit      string
}

func (p Added) bounds() []bound {
	return []bound{
		{"a volume", p.VolumeL, 0, MaxLitres, "litres"},
		{"a mass", p.MassKg, 0, maxKg, "kg"},
		{"an age", p.AgeDays, 0, maxAgeDays, "days"},
	}
}

func (p Temp) bounds() []bound {
	return []bound{
		{"a temperature", p.C, minC, maxC, "degrees Celsius"},
		{"a depth", p.DepthCm, 0, maxDepthCm, "cm"},
	}
}

func (p Watered) bounds() []bound {
	return []bound{{"an amount of water", p.Litres, 0, MaxLitres, "litres"}}
}

func (p Height) bounds() []bound {
	return []bound{{"a height", p.Cm, 0, maxHeight, "cm"}}
}

func (p Rain) bounds() []bound {
	return []bound{{"a rain reading", p.Mm, 0, maxRainMm, "mm"}}
}

func (p Moved) bounds() []bound {
	return []bound{{"a share", p.Share, 0, 1, "of the heap"}}
}

func (p Finished) bounds() []bound {
	return []bound{{"a yield", p.YieldL, 0, MaxLitres, "litres"}}
}

// maxNumber is the most that a number of a test can be, either way (own choice:
// parts per million do not go further).
const maxNumber = 1e6

func (p Test) bounds() []bound {
	bounds := make([]bound, len(p.Numbers))
	for i, n := range p.Numbers {
		bounds[i] = bound{"a number of a test", n.Value, -maxNumber, maxNumber, n.Unit}
	}
	return bounds
}

// word is a text of a payload that must be one of a list.
type word struct {
	what, value string
	allowed     []string
}

var squeezes = []string{string(Crumbles), string(Holds), string(Drops), string(Drips), string(Runs)}

func (p Feel) word() word    { return word{"a squeeze", string(p.Squeeze), squeezes} }
func (p Smell) word() word   { return word{"a smell", p.Smell, Smells} }
func (p Changed) word() word { return word{"an attribute", p.Field, Attributes} }

// check refuses what no heap can have; NaN and the infinities fail every bound.
func check(p Payload) error {
	if b, ok := p.(interface{ bounds() []bound }); ok {
		for _, b := range b.bounds() {
			if !(b.value >= b.low && b.value <= b.high) {
				return fault.New(fault.OutOfRange, "%g is not %s that a heap can have: give %g to %g %s.",
					b.value, b.what, b.low, b.high, b.unit)
			}
		}
	}
	if w, ok := p.(interface{ word() word }); ok {
		if w := w.word(); !slices.Contains(w.allowed, w.value) {
			return fault.New(fault.NotUnderstood, "“%s” is not %s that the log knows: give one of %s.",
				w.value, w.what, strings.Join(w.allowed, ", "))
		}
	}
	return nil
}
