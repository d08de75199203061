package process

import "heapside/calc/water"

// VolumeL is the volume in litres, 0 for an empty heap.
func (s *State) VolumeL(p *Params) float64 {
	if s.Empty() {
		return 0
	}
	return 1000 * s.DryKg() / s.density(p)
}

// Moisture is the wet-basis moisture of the whole heap as a share.
func (s *State) Moisture() float64 { return wetBasis(s.WaterKg(), s.DryKg()) }

// CoreMoisture and MantleMoisture are those of the zones, where a hand takes
// its sample from inside or from the outer layer.
func (s *State) CoreMoisture() float64   { return s.Core.moisture() }
func (s *State) MantleMoisture() float64 { return s.Mantle.moisture() }

// AirSpace is the free air space of the whole heap as a share of volume.
func (s *State) AirSpace(p *Params) float64 {
	if s.Empty() {
		return 0
	}
	d := s.density(p)
	return coreShare*s.Core.airSpace(s.Core.dry(), d) + (1-coreShare)*s.Mantle.airSpace(s.Mantle.dry(), d)
}

// Reading is what a thermometer should show that was pushed in depthCm; 0 or
// less when the depth was not said. Between the zones' nodes temperature is
// taken to rise evenly with depth (own choice).
func (s *State) Reading(p *Params, depthCm float64) float64 {
	share := p.ProbeShare
	if depthCm > 0 && !s.Empty() {
		r := radius(s.VolumeL(p) / 1000)
		at := (depthCm/100/r - mantleDepth) / (coreDepth - mantleDepth)
		share = within(1-at+p.ProbeShare-usualProbeShare, 0, 1)
	}
	return s.Core.T - share*(s.Core.T-s.Mantle.T)
}

// usualProbeShare is the median of Params.ProbeShare.
const usualProbeShare = 0.18

// RespirationIndex is the oxygen the whole heap would use at 37 C, moist and
// with air, in g per kg dry mass and hour. Stable material stays below 1
// (literature limit in Barrena Gomez et al. 2005, Bioresource Technology 96,
// 1153-1159, abstract seen).
func (s *State) RespirationIndex(p *Params) float64 {
	if s.Empty() {
		return 0
	}
	perDay := p.KFast*(s.Core.Fast+s.Mantle.Fast) + p.KSlow*(s.Core.Slow+s.Mantle.Slow)
	warm := Cardinal(37, p.TMin, p.TOpt, p.TMax) / max(Cardinal(20, p.TMin, p.TOpt, p.TMax), leastRate)
	return 1000 * o2PerLoss * perDay * warm / 24 / s.DryKg()
}

// Loss is the share of the degradable solids ever added that is gone, 0 to 1.
func (s *State) Loss() float64 {
	if s.AddedDegradable <= 0 {
		return 0
	}
	left := s.Core.Fast + s.Core.Slow + s.Mantle.Fast + s.Mantle.Slow
	return within(1-left/s.AddedDegradable, 0, 1)
}

// WaterWanted is the litres of water that bring the heap to a wet-basis moisture,
// 0 when it is wet enough and for one that cannot be.
func (s *State) WaterWanted(wet float64) float64 {
	return water.Wanted(s.DryKg(), s.WaterKg(), wet)
}
