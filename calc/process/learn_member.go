package process

import (
	"math"
	"math/rand/v2"
)

// member is one of the heaps that the record allows: its own numbers, where
// they took it, and what it remembers of the way.
type member struct {
	P Params
	S State

	AirC    float64 // how far its air is from the climate on hours nobody knows
	Drift   float64 // by how much it gets wetter each day than the model has it, log
	Spot    float64 // by how much it is hotter where they measure than the core at large, per degree above the soil
	Probe   float64 // how fast its core moves now, C per hour
	PeakC   float64 // the hottest its core has been
	SinceH  float64 // hours since its core was last above curedBelowC
	OpenedH float64 // hours since it was last turned
}

// stateValues is how many numbers of a member are kept in a snapshot besides
// its parameters.
const stateValues = 30

// values are those numbers; a test holds the list complete.
func (m *member) values() [stateValues]*float64 {
	s, c, o := &m.S, &m.S.Core, &m.S.Mantle
	return [stateValues]*float64{
		&c.T, &c.Fast, &c.Slow, &c.Inert, &c.Ash, &c.Water, &c.Activity, &c.O2,
		&o.T, &o.Fast, &o.Slow, &o.Inert, &o.Ash, &o.Water, &o.Activity, &o.O2,
		&s.Loose, &s.SoilC, &s.Eps, &s.CarbonShare, &s.NitrogenShare, &s.Packing, &s.AddedDegradable,
		&m.AirC, &m.Drift, &m.Spot, &m.Probe, &m.PeakC, &m.SinceH, &m.OpenedH,
	}
}

// round brings the member to the precision of a snapshot, so that going on from
// one gives the very numbers that going on without it would have given.
func (m *member) round() {
	// Twice, since what is held at a bound settles only then.
	for range 2 {
		at := m.P.Coordinates()
		for i := range at {
			at[i] = float64(float32(at[i]))
		}
		m.P.SetCoordinates(at)
	}
	for _, v := range m.values() {
		*v = float64(float32(*v))
	}
}

// Slow disturbances, drawn once a day.
const (
	epsMemory   = 0.9  // own choice
	epsSpread   = 0.25 // of the log rate (own choice: 0.10 left the bands too narrow on every other published run)
	waterSpread = 0.01 // of the water, for rain and drying that differ from spot to spot (own choice)
	driftMemory = 0.95 // own choice
	spotMemory  = 0.9  // own choice
	spotSpread  = 0.08 // some 4 C in a hot heap, between its spots (own choice)
	fuelSpread  = 0.07 // of the slow solids, which are not one pool but many (own choice)
	driftSpread = 0.02 // of the water per day, for what lasts: draughts, leaks, rain let in (own choice)
)

// disturb moves what changes slowly and unseen by one day.
func (m *member) disturb(airSpreadC float64, r *rand.Rand) {
	m.S.Eps = epsMemory*m.S.Eps + epsSpread*r.NormFloat64()
	m.AirC = airMemory*m.AirC + math.Sqrt(1-airMemory*airMemory)*airSpreadC*r.NormFloat64()
	m.Drift = driftMemory*m.Drift + math.Sqrt(1-driftMemory*driftMemory)*driftSpread*r.NormFloat64()
	m.Spot = spotMemory*m.Spot + math.Sqrt(1-spotMemory*spotMemory)*spotSpread*r.NormFloat64()
	m.refuel(math.Exp(fuelSpread * r.NormFloat64()))
	wetter := math.Exp(m.Drift + waterSpread*r.NormFloat64())
	m.S.Core.Water *= wetter
	m.S.Mantle.Water *= wetter
}

// refuel multiplies the slow degradable solids, taking from the inert ones what
// turns out to rot after all, or giving back what does not.
func (m *member) refuel(by float64) {
	for _, z := range [...]*Zone{&m.S.Core, &m.S.Mantle} {
		more := min((by-1)*z.Slow, z.Inert/2)
		z.Slow += more
		z.Inert -= more
		m.S.AddedDegradable += more
	}
}

// reading is what a thermometer should show at a depth where they measure: a
// heap has hot spots, and those who read it keep to theirs.
func (m *member) reading(depthCm float64) float64 {
	c := m.S.Reading(&m.P, depthCm)
	return c + m.Spot*max(0, c-m.S.SoilC)
}

// curedBelowC is the core temperature that curing counts from (own choice of
// the rule in readyAt).
const curedBelowC = 40

// step carries the member through the weather of air.
func (m *member) step(set *Setup, air *Air) {
	before := m.S.Core.T
	m.S.StepAir(&m.P, set, air, max(leastLongestS, air.Seconds/4), nil)
	hours := air.Seconds / 3600
	m.Probe = (m.S.Core.T - before) / hours
	m.PeakC = max(m.PeakC, m.S.Core.T)
	m.OpenedH += hours
	if m.SinceH += hours; m.S.Core.T > curedBelowC {
		m.SinceH = 0
	}
}

// leastLongestS is the longest step in seconds that the model may take through
// an hour of weather; through longer pieces it may take a quarter of them (own
// choice: those are for heaps that lie still).
const leastLongestS = 3600

func (m *member) turn(airC float64) {
	m.S.Turn(&m.P, airC)
	m.Probe, m.OpenedH = 0, 0
}

// kindle makes the member as hot as a reading that it cannot explain, or nearly,
// and livelier, so that the reading finds something to hold on to.
func (m *member) kindle(readC, depthCm float64, r *rand.Rand) {
	const mantleShare, livelier, awake = 0.6, 0.4, 0.5 // own choice
	rise := (0.7 + 0.4*r.Float64()) * (readC - m.reading(depthCm))
	m.S.Core.T = min(m.S.Core.T+rise, kindleMostC)
	m.S.Mantle.T = min(m.S.Mantle.T+mantleShare*rise, kindleMostC)
	m.S.Core.Activity, m.S.Mantle.Activity = max(m.S.Core.Activity, awake), max(m.S.Mantle.Activity, awake)
	m.S.Eps += livelier * math.Abs(r.NormFloat64())
}

// kindleMostC is hotter than what works in a heap stands (own choice): readings
// above it are taken for slips.
const kindleMostC = 75

// wring sets the member to a moisture that a hand felt, and lets it go on getting
// that much drier or wetter than the model has it.
func (m *member) wring(wet float64) {
	const over, most = 20.0, 0.06 // days that it took, and log per day at most (own choice)
	had := m.S.WaterKg()
	if had <= 0 {
		return
	}
	ratio := wet / (1 - wet) * m.S.DryKg() / had
	m.S.Core.Water *= ratio
	m.S.Mantle.Water *= ratio
	m.Drift = within(m.Drift+math.Log(ratio)/over, -most, most)
}

// leave takes all but a share away, and the rest with it when it is no heap.
func (m *member) leave(share float64) {
	if m.S.Keep(share); m.S.DryKg() < leastDryKg {
		m.S.Keep(0)
	}
}

// pull and push give the shake of a cloud the parameters.
func pull(m *member, into []float64) {
	at := m.P.Coordinates()
	copy(into, at[:])
}

func push(m *member, from []float64) { m.P.SetCoordinates([Learned]float64(from)) }
