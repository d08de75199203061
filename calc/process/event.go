package process

import "math"

// Add puts material on. The first addition founds the heap in both zones. Later
// ones lie on the outside: they mix into the mantle, and as much of that as
// belongs there becomes core, since the zones keep their shares of the mass.
// Activity, looseness, C:N and density mix by mass, temperatures by heat
// capacity. Masses that are negative or unreal count as nothing, and water
// alone does not make a heap.
func (s *State) Add(p *Params, m Material) {
	zone := p.fresh(m)
	dry := zone.dry()
	if dry <= 0 {
		if !s.Empty() {
			s.Wet(p, zone.Water, zone.T)
		}
		return
	}
	s.blend(&zone, m)
	if was := s.DryKg(); was > 0 {
		s.Loose = (s.Loose*was + dry) / (was + dry)
		s.Mantle.take(zone)
		s.Core.take(s.Mantle.split(coreShare * dry / s.Mantle.dry()))
		return
	}
	s.Loose, s.SoilC = 1, zone.T
	s.Core, s.Mantle = zone.times(coreShare), zone.times(1-coreShare)
}

// fresh is the material as this member believes it to be.
func (p *Params) fresh(m Material) Zone {
	dry, water := within(m.DryKg, 0, 1e6), within(m.WaterKg, 0, 1e6)
	if wet := wetBasis(water, dry); p.MoistureShift != 0 && dry > 0 {
		wet = within(wet+p.MoistureShift, min(wet, 0.15), max(wet, 0.84))
		water = dry * wet / (1 - wet)
	}
	organic := dry * within(m.VolatileShare, 0, 1)
	degradable := within(m.Degradable, 0, 1)
	if degradable > 0 {
		degradable = within(degradable+p.DegradableShift, 0.02, 0.95)
	}
	degradable *= organic
	fast := degradable * within(m.FastShare+p.FastShift, 0.02, 0.95)
	return Zone{
		T:    within(known(m.TempC, usualTempC), minC, maxC),
		Fast: fast, Slow: degradable - fast, Inert: organic - degradable, Ash: dry - organic,
		Water: water, Activity: p.Activity0, O2: ambientO2,
	}
}

// Reference for densities: a bucket of an average garden mixture, kg dry per m3,
// and how much of a difference in the bucket is left in the heap, where weight
// and forks pack loose things more (own choice).
const (
	bucketDensity = 60
	packedPower   = 0.5
)

// blend mixes the properties that belong to the whole heap. Carbon and nitrogen
// are kept per organic mass, as though they left together (own choice).
func (s *State) blend(added *Zone, m Material) {
	packing := 1.0
	if m.LooseDensity > 0 {
		packing = within(math.Pow(m.LooseDensity/bucketDensity, packedPower), 0.6, 1.6)
	}
	had, has := s.Core.organic()+s.Mantle.organic(), added.organic()
	if had+has > 0 {
		s.CarbonShare = (s.CarbonShare*had + within(m.CarbonKg, 0, 1e6)) / (had + has)
		s.NitrogenShare = (s.NitrogenShare*had + within(m.NitrogenKg, 0, 1e6)) / (had + has)
	}
	room := added.dry() / packing // volumes add
	if dry := s.DryKg(); dry > 0 {
		room += dry / s.Packing
	}
	s.Packing = (s.DryKg() + added.dry()) / room
	s.AddedDegradable += added.Fast + added.Slow
}

// CN is the carbon to nitrogen ratio of the mixture, 0 when it holds no nitrogen.
func (s *State) CN() float64 {
	if s.NitrogenShare <= 0 {
		return 0
	}
	return s.CarbonShare / s.NitrogenShare
}

// Turn mixes both zones, loosens the heap and lets a share of the heat above the
// air go, half of it as vapour. Turning an empty heap does nothing.
func (s *State) Turn(p *Params, airC float64) {
	if s.Empty() {
		return
	}
	whole := s.Core
	whole.take(s.Mantle)
	loss := p.TurnLoss * max(0, whole.T-within(known(airC, usual.AirC), minC, maxC))
	vapour := min(0.03*whole.Water, 0.5*loss*whole.capacity()/2400) // latent heat near 43 C, kJ/kg
	whole.T -= loss
	whole.Water -= vapour
	whole.Activity = max(turnedActivity, whole.Activity)
	whole.O2 = ambientO2
	s.Core, s.Mantle = whole.times(coreShare), whole.times(1-coreShare)
	s.Loose = 1
}

// turnedActivity is the least activity after mixing (own choice).
const turnedActivity = 0.3

// Wet pours kg of water of a temperature over the heap; it spreads by the shares
// of the zones. What the heap cannot hold drains in the next step.
func (s *State) Wet(p *Params, kg, tempC float64) {
	kg, tempC = within(kg, 0, 1e6), within(known(tempC, usualTempC), 0, maxC)
	if s.Empty() {
		return
	}
	s.Core.pour(kg*coreShare, tempC)
	s.Mantle.pour(kg*(1-coreShare), tempC)
}

// Keep takes away all but a share (0 to 1) of the heap, as when some of it is moved.
func (s *State) Keep(share float64) {
	share = within(share, 0, 1)
	s.Core, s.Mantle = s.Core.times(share), s.Mantle.times(share)
	s.AddedDegradable *= share
	if share == 0 {
		*s = State{SoilC: s.SoilC, Eps: s.Eps}
	}
}

func (z *Zone) pour(kg, tempC float64) {
	z.T = mixed(z.T, z.capacity(), tempC, kg*waterHeat)
	z.Water += kg
}

// take mixes another zone in.
func (z *Zone) take(o Zone) {
	a, b := z.dry(), o.dry()
	if a+b <= 0 {
		return
	}
	z.T = mixed(z.T, z.capacity(), o.T, o.capacity())
	z.Activity = (z.Activity*a + o.Activity*b) / (a + b)
	z.O2 = (z.O2*a + o.O2*b) / (a + b)
	z.Fast, z.Slow, z.Inert, z.Ash, z.Water = z.Fast+o.Fast, z.Slow+o.Slow, z.Inert+o.Inert, z.Ash+o.Ash, z.Water+o.Water
}

// split takes a share of the zone off.
func (z *Zone) split(share float64) Zone {
	share = within(share, 0, 1)
	off := z.times(share)
	*z = z.times(1 - share)
	return off
}

func (z Zone) times(k float64) Zone {
	z.Fast, z.Slow, z.Inert, z.Ash, z.Water = z.Fast*k, z.Slow*k, z.Inert*k, z.Ash*k, z.Water*k
	return z
}
