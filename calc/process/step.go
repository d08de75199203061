package process

import (
	"math"

	"heapside/calc/water"
)

// Limits of one substep: no zone moves more than mostMove, nor further than
// mostRelax of the way to where its losses would take it (own choice; an hour's
// plain step was seen to blow up with a very open heap).
const (
	mostMove   = 1.5         // C
	still      = 0.05 / 3600 // K/s, below which a substep needs no look at its middle
	mostRelax  = 0.8
	shortest   = 15 // s, so that an hour is at most 240 substeps
	secondsDay = 86400.0
	// The soil follows the air as a 20-day mean (own choice).
	soilSeconds = 20 * secondsDay
)

// Step carries the heap one hour on. An empty heap only follows the soil.
func (s *State) Step(p *Params, set *Setup, h Hour) {
	air := h.Air()
	s.StepAir(p, set, &air, air.Seconds, nil)
}

// StepAir is Step with the weather worked out before. No substep is longer than
// mostS seconds, which is held at 15 or more; what crosses the border is added to books unless nil. Substeps
// take their flows from their middle (the midpoint rule) unless nothing moves.
func (s *State) StepAir(p *Params, set *Setup, air *Air, mostS float64, books *Balance) {
	s.SoilC += (air.C - s.SoilC) * min(1, air.Seconds/soilSeconds)
	if s.Empty() {
		return
	}
	mostS = within(mostS, shortest, air.Seconds)
	f := s.frame(p, set, air)
	for left := air.Seconds; left > 1e-6; {
		r := f.rates(s)
		dt := min(left, mostS, r.longest())
		if r.fastest() > still {
			half := *s
			f.apply(&half, &r, dt/2, nil)
			r = f.rates(&half)
			s.Core.O2, s.Mantle.O2 = half.Core.O2, half.Mantle.O2
		}
		f.apply(s, &r, dt, books)
		left -= dt
	}
}

// frame is what stays the same through the substeps of an hour.
type frame struct {
	p      *Params
	set    *Setup
	air    *Air
	rate   float64 // factor on every degradation: C:N, disturbance, per temperature unit
	growth float64 // activity growth per temperature unit, 1/s
	film   float64 // W/m2K to the air through film and cover
}

func (s *State) frame(p *Params, set *Setup, air *Air) frame {
	film := filmWm2K * (0.6 + (air.wind-0.6)*set.Shelter)
	f := frame{
		p: p, set: set, air: air,
		film:   1 / (1/film + set.CoverR),
		rate:   CarbonNitrogenFactor(s.CN()) / max(Cardinal(20, p.TMin, p.TOpt, p.TMax), leastRate),
		growth: p.Growth / secondsDay / max(Cardinal(35, p.TMin, p.TOpt, p.TMax), leastRate),
	}
	if s.Eps != 0 {
		f.rate *= math.Exp(s.Eps)
	}
	return f
}

// flows is what happens at a moment: per zone degradation in kg/s, heat in kW
// and water in kg/s; what crosses the border on the side.
type flows struct {
	core, mantle zoneFlow
	conducted    float64 // kW into the heap
	airHeat      float64 // kW carried in by air
	airWater     float64 // kg/s carried off by air, dried from the surface apart
	dried        float64 // kg/s off the surface
	rain         float64 // kg/s
}

type zoneFlow struct {
	loss       float64 // kg/s of degradable solids
	heat       float64 // kW from all causes
	water      float64 // kg/s from all causes but surface drying
	warming    float64 // K/s
	relaxation float64 // 1/s at which its losses pull it back
	growth     float64 // of activity, 1/s
}

func (r *flows) longest() float64 {
	return max(shortest, min(mostMove/max(r.fastest(), 1e-9), mostRelax/max(r.core.relaxation, r.mantle.relaxation, 1e-9)))
}

// fastest is how fast the faster zone warms or cools, K/s.
func (r *flows) fastest() float64 {
	return max(math.Abs(r.core.warming), math.Abs(r.mantle.warming))
}

// rates works out the flows of the moment.
func (f *frame) rates(s *State) flows {
	p, c, m := f.p, &s.Core, &s.Mantle
	dryC, dryM := c.dry(), m.dry()
	g := s.shape(p, f.set)
	airC, airM := c.airSpace(dryC, g.density), m.airSpace(dryM, g.density)
	wetC, wetM := MoistureFactor(wetBasis(c.Water, dryC)), MoistureFactor(wetBasis(m.Water, dryM))
	satC, satM := water.VapourPressure(c.T), water.VapourPressure(m.T)

	var r flows
	f.live(&r.core, c, wetC, airC)
	f.live(&r.mantle, m, wetM, airM)

	draught := f.draught(&g, coreShare*airC+(1-coreShare)*airM, airDensity(c.T, satC))
	diffusion := diffusivity(c.T) * g.radius
	inner, outer := diffusion*airC*airC*shellCore, diffusion*airM*airM*shellMantle*f.set.Exchange
	oxygen(c, m, draught+outer, draught+inner, r.mantle.loss*o2PerLoss, r.core.loss*o2PerLoss)
	r.core.loss *= OxygenFactor(c.O2, o2Half)
	r.mantle.loss *= OxygenFactor(m.O2, o2Half)

	f.heatFlows(s, &r, &g, draught*f.air.density, exhaust(satC, wetC), exhaust(satM, wetM), dryC, dryM)
	if p.VapourDiffusion > 0 {
		f.diffuse(s, &r, inner, outer, pores{vapourDensity(c.T, satC), saturated(wetC)}, pores{vapourDensity(m.T, satM), saturated(wetM)})
	}
	r.rain = f.air.rain * g.top * f.set.RainIn
	r.dried = min(p.SurfaceDrying*f.air.et0*g.top*wetM*f.set.Open, m.Water/3600*0.2)
	r.mantle.water += r.rain
	r.mantle.heat += r.rain * waterHeat * f.air.C
	r.core.warm(c, dryC)
	r.mantle.warm(m, dryM)
	return r
}

// live works out what the microbes of a zone would do with air enough. Activity
// grows logistically with the same factors of temperature and moisture (own choice).
func (f *frame) live(r *zoneFlow, z *Zone, wet, fas float64) {
	p := f.p
	warm := Cardinal(z.T, p.TMin, p.TOpt, p.TMax)
	most := (p.KFast*z.Fast + p.KSlow*z.Slow) / secondsDay * f.rate * wet * AirSpaceFactor(fas) * z.Activity
	r.loss = most * warm
	if z.T > p.TOpt {
		// Above the optimum the rate falls about as 1 - 1.15 x^2.
		span := p.TMax - p.TOpt
		r.relaxation = most * heatPerLoss * 2.3 / span * min(1, (z.T-p.TOpt)/span)
	}
	r.growth = f.growth * warm * min(1, wet*1.05) * z.Activity * (1 - z.Activity)
}

// draught is the chimney flow in m3/s: buoyancy through a porous body (Darcy).
func (f *frame) draught(g *shape, fas, inside float64) float64 {
	const viscosity, gravity = 1.9e-5, 9.81
	k := permeability(f.p.Permeability, fas)
	if f.p.Closing != 0 {
		k *= math.Exp(f.p.Closing * (1 - g.density/referenceDensity))
	}
	return f.set.Draught * k * g.top / viscosity * gravity * max(0, f.air.density-inside)
}

// referenceDensity is the dry density in kg/m3 at which Permeability is stated.
const referenceDensity = 110

// exhaust is kg of water per kg of dry air that leaves a zone: saturated as far
// as the zone is moist (Haug 1993, formula seen in public code).
func exhaust(kPa, wet float64) float64 { return humidityRatio(kPa) * saturated(wet) }

// saturated is how close to saturation the pores of a zone of that moisture
// factor are (Haug 1993, formula seen in public code).
func saturated(wet float64) float64 { return min(1, wet+0.02) }

// heatFlows adds conduction and moist air, dryAir in kg/s.
func (f *frame) heatFlows(s *State, r *flows, g *shape, dryAir, vc, vm, dryC, dryM float64) {
	p, c, m := f.p, &s.Core, &s.Mantle
	thetaC, thetaM := c.Water*g.density/(1000*dryC), m.Water*g.density/(1000*dryM)
	between := shellCore * (conduct0 + p.ConductSlope*0.5*(thetaC+thetaM)) * g.radius / 1000
	out := shellMantle * (conduct0 + p.ConductSlope*thetaM) * g.radius * f.set.Surface
	toAir := (g.area - g.base) / (g.area/out + 1/f.film) / 1000
	toSoil := g.base / (g.area/out + 1.0/groundWm2K) / 1000
	inner := between * (c.T - m.T)
	r.conducted = -toAir*(m.T-f.air.C) - toSoil*(m.T-s.SoilC)

	hc, hm := Enthalpy(c.T, vc), Enthalpy(m.T, vm)
	back, backWater := p.Reflux*max(0, hc-hm), p.Reflux*max(0, vc-vm)
	r.core.heat = r.core.loss*heatPerLoss - inner + dryAir*(hm-hc)
	r.core.water = r.core.loss*waterPerLoss + dryAir*(vm-vc)
	r.mantle.heat = r.mantle.loss*heatPerLoss + inner + r.conducted + dryAir*(f.air.enthalpy-hm+back)
	r.mantle.water = r.mantle.loss*waterPerLoss + dryAir*(f.air.vapour-vm+backWater)
	r.airHeat = dryAir * (f.air.enthalpy - hc + back)
	r.airWater = dryAir * (vc - f.air.vapour - backWater)
	r.core.relaxation += between + dryAir*slope(vc)
	r.mantle.relaxation += between + toAir + toSoil + dryAir*slope(vm)
}

// pores is the air in a zone: the vapour in kg/m3 that would saturate it, and how
// close it is to that.
type pores struct{ most, share float64 }

// diffuse adds the vapour that diffuses from core to mantle and from there to
// the air along the ways of the oxygen, which inner and outer are in m3/s, with
// the heat it carries. A warm heap dries from inside by it even where no draught
// gets through. Towards the air it is Haug's form again, share (most - outside),
// by which a dry heap does not drink from humid air.
func (f *frame) diffuse(s *State, r *flows, inner, outer float64, c, m pores) {
	inner *= f.p.VapourDiffusion
	outer *= f.p.VapourDiffusion * m.share
	inC, inM := c.most*c.share, m.most*m.share
	between, away := inner*(inC-inM), outer*(m.most-f.air.moist)
	betweenHeat, awayHeat := between*vapourEnthalpy(s.Core.T), away*vapourEnthalpy(s.Mantle.T)
	r.core.water -= between
	r.mantle.water += between - away
	r.core.heat -= betweenHeat
	r.mantle.heat += betweenHeat - awayHeat
	r.airWater += away
	r.airHeat -= awayHeat
	// Saturated vapour grows by about 5 % per kelvin, and takes 2500 kJ/kg.
	const steep = 0.05 * latentHeat
	r.core.relaxation += steep * inner * inC
	r.mantle.relaxation += steep * (inner*inM + outer*m.most)
}

// slope is about how fast the enthalpy of moist air rises, kJ/kgK, where it
// carries v kg of vapour (own fit, within a quarter from 10 to 75 C).
func slope(v float64) float64 { return 1 + 140*v*(1+1.6*v) }

func (r *zoneFlow) warm(z *Zone, dry float64) {
	capacity := solidsHeat*dry + waterHeat*z.Water
	r.warming = (r.heat - waterHeat*z.T*r.water) / capacity
	r.relaxation /= capacity
}
