package process

// apply carries the flows through dt seconds.
func (f *frame) apply(s *State, r *flows, dt float64, books *Balance) {
	if books != nil {
		f.enter(books, s, r, dt)
	}
	f.advance(&s.Core, &r.core, 0, dt, books)
	f.advance(&s.Mantle, &r.mantle, r.dried*dt, dt, books)
	f.drain(s, books)
	s.Loose -= s.Loose * min(1, f.p.Settle*dt/secondsDay)
}

const (
	leastWater    = 0.02 // kg per kg dry that no drying takes (own choice)
	leastActivity = 0.02 // what always survives (own choice)
)

// advance moves one zone. It divides by the capacity after the step, which
// accounts exactly for the heat of what came and went. Surface drying, in kg,
// takes water at the zone's temperature: sun and wind pay for its evaporation.
func (f *frame) advance(z *Zone, r *zoneFlow, dried, dt float64, books *Balance) {
	loss := min(r.loss*dt, 0.5*(z.Fast+z.Slow))
	fast := f.p.KFast * z.Fast
	fast /= fast + f.p.KSlow*z.Slow + 1e-12
	z.Fast = max(0, z.Fast-loss*fast)
	z.Slow = max(0, z.Slow-loss*(1-fast))
	dry := z.dry()
	reached := z.Water + r.water*dt
	water := max(0, reached)
	moved := z.T + dt*(r.heat-waterHeat*z.T*r.water)/(solidsHeat*dry+waterHeat*water)
	before, after := z.T, within(moved, minC, maxC)
	z.T, z.Water = after, max(water-dried, leastWater*dry)
	if books != nil {
		books.EvaporatedKg -= z.Water - (reached - dried)
		books.CarriedKJ += waterHeat * (after*(z.Water-water) + before*(water-reached))
		books.HeldKJ += (after - moved) * (solidsHeat*dry + waterHeat*water)
	}
	z.Activity = within(z.Activity+r.growth*dt, leastActivity, 1)
}

// drain lets water above what the heap holds run down: half of the mantle's
// excess into the core while that has room, the rest away.
func (f *frame) drain(s *State, books *Balance) {
	c, m := &s.Core, &s.Mantle
	var away, heat float64
	if excess := m.Water - f.p.FreeWater*m.dry(); excess > 0 {
		into := min(max(0, f.p.FreeWater*c.dry()-c.Water), 0.5*excess)
		c.T = mixed(c.T, c.capacity(), m.T, into*waterHeat)
		c.Water += into
		m.Water -= excess
		away, heat = excess-into, (excess-into)*m.T
	}
	if excess := c.Water - f.p.FreeWater*c.dry(); excess > 0 {
		c.Water -= excess
		away, heat = away+excess, heat+excess*c.T
	}
	if books != nil {
		books.DrainedKg += away
		books.CarriedKJ -= waterHeat * heat
	}
}

// mixed is the temperature of two bodies brought together, by heat capacity.
func mixed(aC, a, bC, b float64) float64 {
	if a+b <= 0 {
		return aC
	}
	return (aC*a + bC*b) / (a + b)
}
