package process

import "math"

// The heap is a body of the surface Setup gives, the zones shells of a sphere
// of the same volume. Conductances per W/mK and metre of radius, from spherical
// shells with nodes at the volume medians of a 40/60 split (own calculation).
const (
	shellCore   = 21.5  // core to mantle
	shellMantle = 99.7  // mantle to surface
	coreDepth   = 0.415 // depth of the core's node as a share of the radius
	mantleDepth = 0.112 // depth of the mantle's node
)

// shape is the geometry of a moment.
type shape struct {
	density float64 // dry, kg/m3
	radius  float64 // m, of a sphere of the same volume
	area    float64 // m2
	base    float64 // m2 on soil
	top     float64 // m2 seen from above
}

// density is the dry density now in kg/m3.
func (s *State) density(p *Params) float64 {
	return p.DryDensity * s.Packing * (1 + p.SettleMax*(1-s.Loose))
}

func (s *State) shape(p *Params, set *Setup) shape {
	g := shape{density: s.density(p)}
	g.radius = radius(s.DryKg() / g.density)
	g.area = 4 * math.Pi * g.radius * g.radius * set.Surface
	g.base = g.area * set.BaseOn
	const squared = 2.5985 // (4 pi/3)^(2/3): volume^(2/3) = squared radius^2
	g.top = squared * g.radius * g.radius * set.Top
	return g
}

// radius of a sphere of that many m3, in m.
func radius(m3 float64) float64 { return math.Cbrt(m3 * (3 / (4 * math.Pi))) }

// airSpace is the free air space of a zone as a share of volume:
// 1 - rho_dry/rho_s - rho_dry u/1000, u water per dry mass.
func (z *Zone) airSpace(dry, density float64) float64 {
	// 1/rho_s = (VS/1.0 + (1-VS)/2.5)/1000 (Haug 1993; formula seen in public code).
	solids := (dry - z.Ash*(1-1/2.5)) / 1000
	return max(0, 1-density*(solids+z.Water/1000)/dry)
}

// Permeability in m2 of a mixture of that free air space: Carman-Kozeny,
// relative to k at an air space of 0.5 (form seen in public code of a windrow model).
func permeability(k, fas float64) float64 {
	a := fas / 0.5
	b := 0.5 / max(0.05, 1-fas)
	return k * a * a * a * b * b
}

// diffusivity of oxygen in air in m2/s: 2e-5 ((T+273)/293)^1.75 (from memory).
func diffusivity(c float64) float64 {
	x := (c + kelvin) / 293.15
	return 2.0e-5 * x * x / math.Sqrt(math.Sqrt(x))
}
