// Package process is a model of how a garden heap heats, dries and shrinks: two
// zones (core and mantle), a fast and a slow pool of degradable solids, and
// balances of heat, water and oxygen driven by hourly weather. It follows the
// lumped first-order form that a review found to follow temperatures best
// (Mason 2006, Waste Management 26, 3-21, abstract seen).
//
// Inside the package masses are kg, temperatures Celsius, heat kJ, moisture wet
// basis as a share, and times seconds unless a name says days.
package process

import "math"

// Zone is one half of a heap. Fast and Slow are degradable solids, Inert the
// other organic solids, in kg; Activity (0 to 1) is how far the microbes have
// grown; O2 is the mole fraction of oxygen in its pores (0 to 0.2095).
type Zone struct {
	T                             float64
	Fast, Slow, Inert, Ash, Water float64
	Activity, O2                  float64
}

// State is a heap at a moment. It holds no pointers: assigning copies it. The
// zero value is an empty place, which the first Add fills.
type State struct {
	Core, Mantle Zone
	// Loose is 1 just after turning and falls to 0 as the heap settles.
	Loose float64
	// SoilC is the temperature of the ground below, a 20-day mean of the air.
	SoilC float64
	// Eps is a slow disturbance of the rates on a log scale, 0 in the plain model.
	Eps float64
	// CarbonShare and NitrogenShare are kg per kg of organic solids in the mixture.
	CarbonShare, NitrogenShare float64
	// Packing is the dry density of the mixture relative to Params.DryDensity.
	Packing float64
	// AddedDegradable is the degradable solids ever put in that were not moved away, kg.
	AddedDegradable float64
}

// Bounds that no state leaves (own choice): colder or hotter than any heap on record.
const (
	minC      = -30
	maxC      = 95
	ambientO2 = 0.2095 // mole fraction of oxygen in air
)

// Empty reports whether nothing is in the heap.
func (s *State) Empty() bool { return s.DryKg() <= 0 }

// DryKg is the dry mass.
func (s *State) DryKg() float64 { return s.Core.dry() + s.Mantle.dry() }

// WaterKg is the water held.
func (s *State) WaterKg() float64 { return s.Core.Water + s.Mantle.Water }

func (z *Zone) organic() float64 { return z.Fast + z.Slow + z.Inert }
func (z *Zone) dry() float64     { return z.organic() + z.Ash }

// capacity is the heat capacity in kJ/K.
func (z *Zone) capacity() float64 { return solidsHeat*z.dry() + waterHeat*z.Water }

// moisture is the wet-basis share, 0 for an empty zone.
func (z *Zone) moisture() float64 { return wetBasis(z.Water, z.dry()) }

func wetBasis(water, dry float64) float64 {
	if water+dry <= 0 {
		return 0
	}
	return water / (water + dry)
}

// within is v held between low and high, and low for NaN.
func within(v, low, high float64) float64 {
	if !(v > low) {
		return low
	}
	return math.Min(v, high)
}
