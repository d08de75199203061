package process

import (
	"math"

	"heapside/calc/feedstock"
	"heapside/calc/heap"
)

// Material is what an addition brings. Shares are 0 to 1: VolatileShare of dry
// mass, Degradable of the volatile (organic) part, FastShare of the degradable.
// LooseDensity is kg dry per m3 as it lies in a bucket, 0 when not known.
type Material struct {
	DryKg, WaterKg                       float64
	CarbonKg, NitrogenKg                 float64
	VolatileShare, Degradable, FastShare float64
	LooseDensity                         float64
	TempC                                float64
}

// usualTempC is how warm material and water are when nobody knows (own choice).
const usualTempC = 15

// Rates at which material rotted in the heap it came from, 1/d: what a 1 m3
// heap of this model loses over its first month, fast and slow (own choice).
const (
	agedFast = 0.18
	agedSlow = 0.015
)

// Of is what an addition on the record brings, at the typical values of its
// feedstock and 15 C; set TempC when the air is known. What had been rotting
// elsewhere comes with less to degrade. Negative or unreal masses bring nothing.
func Of(added heap.Added, f feedstock.Feedstock) Material {
	kg := within(added.MassKg, 0, 1e6)
	water := kg * within(f.Moisture.Typical/100, 0, 0.98)
	m := Material{
		DryKg: kg - water, WaterKg: water,
		VolatileShare: within(f.Volatile.Typical/100, 0, 1),
		Degradable:    within(f.Degradable.Typical, 0, 1),
		TempC:         usualTempC,
	}
	m.FastShare = fastShare(m.Degradable)
	if f.Kind == feedstock.Manure || f.Kind == feedstock.Activator {
		m.FastShare = max(m.FastShare, heatingShare)
	}
	m.NitrogenKg = m.DryKg * f.Nitrogen() / 100
	if m.NitrogenKg > 0 {
		m.CarbonKg = m.DryKg * f.Carbon.Typical / 100
	}
	if added.VolumeL > 0 {
		m.LooseDensity = 1000 * m.DryKg / added.VolumeL
	}
	return m.aged(added.AgeDays)
}

// aged is the material after days of rotting elsewhere.
func (m Material) aged(days float64) Material {
	if !(days > 0) {
		return m
	}
	organic := m.DryKg * m.VolatileShare
	fast := organic * m.Degradable * m.FastShare * math.Exp(-agedFast*days)
	slow := organic * m.Degradable * (1 - m.FastShare) * math.Exp(-agedSlow*days)
	inert := organic * (1 - m.Degradable)
	left := fast + slow + inert
	m.DryKg -= organic - left
	m.CarbonKg *= share(left, organic)
	m.VolatileShare = share(left, m.DryKg)
	m.Degradable = share(fast+slow, left)
	m.FastShare = share(fast, fast+slow)
	return m
}

// share is a part of a whole, 0 of nothing.
func share(part, whole float64) float64 {
	if whole <= 0 {
		return 0
	}
	return part / whole
}

// heatingShare is the least fast share of manures and activators, which heat
// whatever part of them rots in the end (own choice; manure windrows peaked at
// 65-70 C in their first weeks, Abbassi et al., abstract seen).
const heatingShare = 0.40

// fastShares gives the fast share of the degradable solids by the degradable
// share of the organic ones, straight lines between (own choice: wood chips,
// leaves, straw, an average mixture, grass, kitchen scraps).
var fastShares = []struct{ degradable, fast float64 }{
	{0, 0.03}, {0.20, 0.05}, {0.42, 0.12}, {0.45, 0.15}, {0.58, 0.40}, {0.70, 0.60}, {0.75, 0.60}, {1, 0.65},
}

func fastShare(degradable float64) float64 {
	for i := 1; i < len(fastShares); i++ {
		a, b := fastShares[i-1], fastShares[i]
		if degradable <= b.degradable {
			return a.fast + (b.fast-a.fast)*(degradable-a.degradable)/(b.degradable-a.degradable)
		}
	}
	return fastShares[len(fastShares)-1].fast
}
