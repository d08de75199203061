package mix

import "heapside/calc/feedstock"

// Particle densities in kg per litre for the air space of a blend: water,
// organic solids, ash. From memory (Richard et al. 2004; form of Ahn et al. 2008).
const (
	waterDensity    = 1.0
	volatileDensity = 1.6
	ashDensity      = 2.5
)

// Blend is a sum of materials at single values, kept as masses so that blends
// add. Mass includes water; volumes add loosely, and poured water fills pores
// without adding volume (own choice). The zero value is nothing.
//
// Woody pieces count with all their carbon, as in every published rule checked
// here: no source read gives a correction for carbon that is slow to rot.
type Blend struct {
	VolumeL    float64
	WaterKg    float64
	DryKg      float64
	CarbonKg   float64
	NitrogenKg float64
	VolatileKg float64
}

// loose is one litre of f at typical values.
func loose(f *feedstock.Feedstock) Blend {
	return litre(f.Density.Typical, f.Moisture.Typical, f.Carbon.Typical, f.CN.Typical, f.Volatile.Typical, f.Mineral)
}

// litre is one litre of a material of the given density in kg/m3, moisture in
// % of wet mass, carbon and volatile solids in % of dry mass and C:N. Minerals
// bring dry mass and volume but neither carbon nor nitrogen.
func litre(density, moisture, carbon, cn, volatile float64, mineral bool) Blend {
	mass := density / 1000
	dry := mass * (1 - moisture/100)
	b := Blend{VolumeL: 1, WaterKg: mass - dry, DryKg: dry, VolatileKg: dry * volatile / 100}
	if !mineral && cn > 0 {
		b.CarbonKg = dry * carbon / 100
		b.NitrogenKg = b.CarbonKg / cn
	}
	return b
}

// Plus is both blends together.
func (b Blend) Plus(o Blend) Blend {
	return Blend{
		VolumeL: b.VolumeL + o.VolumeL, WaterKg: b.WaterKg + o.WaterKg, DryKg: b.DryKg + o.DryKg,
		CarbonKg: b.CarbonKg + o.CarbonKg, NitrogenKg: b.NitrogenKg + o.NitrogenKg, VolatileKg: b.VolatileKg + o.VolatileKg,
	}
}

// Times is the blend k times over, k >= 0.
func (b Blend) Times(k float64) Blend {
	return Blend{
		VolumeL: b.VolumeL * k, WaterKg: b.WaterKg * k, DryKg: b.DryKg * k,
		CarbonKg: b.CarbonKg * k, NitrogenKg: b.NitrogenKg * k, VolatileKg: b.VolatileKg * k,
	}
}

// Add is the blend with the parts added at their typical values.
func (b Blend) Add(parts ...Part) Blend {
	for i := range parts {
		one := loose(&parts[i].Feedstock)
		b = b.Plus(one.Times(parts[i].litres(parts[i].typical(), one)))
	}
	return b
}

// AddWater is the blend with kg of water poured over it.
func (b Blend) AddWater(kg float64) Blend {
	b.WaterKg += kg
	return b
}

// MassKg is the mass as it is, water included.
func (b Blend) MassKg() float64 { return b.WaterKg + b.DryKg }

// CN is the ratio of carbon to nitrogen by mass; 0 when there is no nitrogen
// to divide by, as in egg shells alone.
func (b Blend) CN() float64 { return ratio(b.CarbonKg, b.NitrogenKg) }

// Moisture is water in % of the mass as it is; 0 for nothing.
func (b Blend) Moisture() float64 { return 100 * ratio(b.WaterKg, b.MassKg()) }

// Density is the loose bulk density in kg/m3; 0 for nothing.
func (b Blend) Density() float64 { return 1000 * ratio(b.MassKg(), b.VolumeL) }

// Air is the free air space in % of volume, 0 to 100. It is bulk volume less
// the volume of water, organic solids and ash at their particle densities.
func (b Blend) Air() float64 {
	if b.VolumeL <= 0 {
		return 0
	}
	return max(0, 100*(1-b.filledL()/b.VolumeL))
}

// filledL is the litres that water and solids fill.
func (b Blend) filledL() float64 {
	return b.WaterKg/waterDensity + b.VolatileKg/volatileDensity + (b.DryKg-b.VolatileKg)/ashDensity
}

func ratio(a, b float64) float64 {
	if b <= 0 {
		return 0
	}
	return a / b
}
