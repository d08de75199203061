package process

import (
	"math"
	"math/rand/v2"
)

// prior is what is believed of one parameter before any reading. Log ones are
// spread on their logarithm. Values outside low to high are held there.
type prior struct {
	of         func(*Params) *float64
	median, sd float64
	log        bool
	low, high  float64
}

// Learned is how many parameters differ between members.
const Learned = 15

// priors are the learned parameters. Medians and spreads are own choices,
// calibrated by eye on two garden heaps (so agreeing with those is no test)
// unless a source is named.
var priors = [Learned]prior{
	{of: func(p *Params) *float64 { return &p.KFast }, median: 0.060, sd: 0.45, log: true, low: 0.005, high: 0.6},
	{of: func(p *Params) *float64 { return &p.KSlow }, median: 0.011, sd: 0.65, log: true, low: 0.0005, high: 0.1},
	{of: func(p *Params) *float64 { return &p.TMin }, median: 0, sd: 2, low: -6, high: 8},
	{of: func(p *Params) *float64 { return &p.TMax }, median: 73, sd: 2.5, low: 66, high: 80}, // sources differ by 10 C and more (public code after Rosso)
	// 100-200 in a permeability study (Richard et al. 2004, abstract seen).
	{of: func(p *Params) *float64 { return &p.DryDensity }, median: 110, sd: 0.20, log: true, low: 30, high: 400},
	// With 9e-10 and no closing the core kept 14 % oxygen and more at 1 m3, which
	// denser piles do not; far above 1e-9 a garden mix would be blown cold. From
	// 6e-10 up it dried too much once vapour diffused as well.
	{of: func(p *Params) *float64 { return &p.Permeability }, median: 5e-10, sd: 0.90, log: true, low: 1e-12, high: 1e-7},
	// 2.5e-5 against 2.0e-5 m2/s near 20 C (from memory); the spread is of what
	// covers, clods and condensation make of it (own choice).
	{of: func(p *Params) *float64 { return &p.VapourDiffusion }, median: 1.25, sd: 0.60, log: true, low: 0.1, high: 12},
	// About 0.28 W/mK at 62 % moisture; 0.03-0.81 by material (Ahn et al. 2009, abstract seen).
	{of: func(p *Params) *float64 { return &p.ConductSlope }, median: 1.3, sd: 0.25, log: true, low: 0.2, high: 5},
	// 3-5 kW from some 10 m2 of hot faces laid open for half an hour (own
	// estimate). With 0.25 every turn cost what the lore of quick compost by
	// frequent turning says it does not (Raabe, second-hand; of windrows, where
	// turning changed temperatures little, Michel et al. 1996, abstract seen).
	{of: func(p *Params) *float64 { return &p.TurnLoss }, median: 0.12, sd: 0.06, low: 0.02, high: 0.6},
	{of: func(p *Params) *float64 { return &p.Settle }, median: 0.06, sd: 0.40, log: true, low: 0.005, high: 0.6},
	{of: func(p *Params) *float64 { return &p.Activity0 }, median: 0.25, sd: 0.50, log: true, low: 0.02, high: 1},
	{of: func(p *Params) *float64 { return &p.ProbeShare }, median: 0.18, sd: 0.10, low: 0, high: 0.5},
	{of: func(p *Params) *float64 { return &p.FastShift }, median: 0, sd: 0.10, low: -0.4, high: 0.4},
	{of: func(p *Params) *float64 { return &p.DegradableShift }, median: 0, sd: 0.10, low: -0.3, high: 0.3},
	{of: func(p *Params) *float64 { return &p.MoistureShift }, median: 0, sd: 0.04, low: -0.2, high: 0.2},
}

// Draw draws a member from the priors.
func Draw(r *rand.Rand) Params { return draw(r, 1) }

// draw spreads the priors by the factor wide.
func draw(r *rand.Rand, wide float64) Params {
	p := DefaultParams()
	at := p.Coordinates()
	for i := range at {
		at[i] += wide * priors[i].sd * r.NormFloat64()
	}
	p.SetCoordinates(at)
	return p
}

// Coordinates are the learned parameters on the scale on which they are spread
// evenly (logarithms where positive), for a filter to shrink and jitter.
func (p *Params) Coordinates() [Learned]float64 {
	var at [Learned]float64
	for i := range priors {
		at[i] = *priors[i].of(p)
		if priors[i].log {
			at[i] = math.Log(at[i])
		}
	}
	return at
}

// SetCoordinates takes the learned parameters from coordinates, each held
// within its bounds; NaN becomes the median.
func (p *Params) SetCoordinates(at [Learned]float64) {
	for i, v := range at {
		if priors[i].log {
			v = math.Exp(v)
		}
		*priors[i].of(p) = within(known(v, priors[i].median), priors[i].low, priors[i].high)
	}
	p.TOpt = p.TMax - optBelowMax
}
