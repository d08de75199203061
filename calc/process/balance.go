package process

// Balance adds up what crossed the border of a heap during steps, for checks
// and diagnosis. Pass nil where nobody reads it.
type Balance struct {
	RainKg, MadeKg, EvaporatedKg, DrainedKg float64
	// LostKg is degradable solids gone.
	LostKg float64
	// Heat in kJ, positive inwards: made by the microbes, conducted through
	// surface and base, carried by air, carried by water and solids that came or
	// went, and given where a zone was held at the bounds of temperature.
	MadeKJ, ConductedKJ, AirKJ, CarriedKJ, HeldKJ float64
}

// HeatKJ is the sensible heat of the heap above 0 C.
func (s *State) HeatKJ() float64 {
	return s.Core.capacity()*s.Core.T + s.Mantle.capacity()*s.Mantle.T
}

// enter books the flows of dt seconds at the state before them. Solids that turn
// to gas leave with their warmth; rain comes with that of the air.
func (f *frame) enter(b *Balance, s *State, r *flows, dt float64) {
	loss := r.core.loss + r.mantle.loss
	b.RainKg += r.rain * dt
	b.MadeKg += loss * waterPerLoss * dt
	b.EvaporatedKg += (r.airWater + r.dried) * dt
	b.LostKg += loss * dt
	b.MadeKJ += loss * heatPerLoss * dt
	b.ConductedKJ += r.conducted * dt
	b.AirKJ += r.airHeat * dt
	b.CarriedKJ += dt * (r.rain*waterHeat*f.air.C - solidsHeat*(r.core.loss*s.Core.T+r.mantle.loss*s.Mantle.T))
}
