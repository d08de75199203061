package mix

import "math"

// The closed forms that handbooks print for one or two materials. Moistures
// are % of wet mass, C and N % of dry mass. A result that no amount reaches is
// NaN-free: the functions return false instead.

// SecondForMoisture is the mass of a second material of moisture m2 that brings
// q1 of moisture m1 to goal: Q2 = Q1 (G - M1) / (M2 - G). It is false when goal
// does not lie between the two (Cornell Waste Management Institute, moisture
// page of Getting the Right Mix, 1996).
func SecondForMoisture(q1, m1, m2, goal float64) (float64, bool) {
	return reached(q1*(goal-m1), m2-goal)
}

// WaterFor is the kilograms of water that bring q of moisture m to goal:
// W = Q (G - M) / (100 - G). It is false when the material is wetter already.
func WaterFor(q, m, goal float64) (float64, bool) {
	return SecondForMoisture(q, m, 100, goal)
}

// Sample is a material as a laboratory reports it: moisture in % of wet mass,
// carbon and nitrogen in % of dry mass.
type Sample struct{ Moisture, Carbon, Nitrogen float64 }

// SecondForCN is the mass of second that brings q1 of first to the C:N goal:
// Q2 = Q1 (100-M1)(R N1 - C1) / ((100-M2)(C2 - R N2)). It is false when no
// amount does (own algebra from the mass balance that agrimaroc.net writes out).
func SecondForCN(q1 float64, first, second Sample, goal float64) (float64, bool) {
	return reached(q1*(100-first.Moisture)*(goal*first.Nitrogen-first.Carbon),
		(100-second.Moisture)*(second.Carbon-goal*second.Nitrogen))
}

// WetBasis turns moisture in % of dry mass into % of wet mass: 100 d / (100 + d).
func WetBasis(dryBasis float64) float64 { return 100 * dryBasis / (100 + dryBasis) }

// MoistureFromDrying is the moisture in % of wet mass of a sample that weighed
// wet before and dry after drying: 100 (Ww - Wd) / Ww.
func MoistureFromDrying(wet, dry float64) float64 { return 100 * ratio(wet-dry, wet) }

// BulkDensity is the kg/m3 of what fills a vessel of the given litres, weighed
// full and empty in kg: (Wfull - Wempty) / V.
func BulkDensity(fullKg, emptyKg, litres float64) float64 {
	return 1000 * ratio(fullKg-emptyKg, litres)
}

func reached(above, below float64) (float64, bool) {
	q := above / below
	if math.IsNaN(q) || math.IsInf(q, 0) || q < 0 {
		return 0, false
	}
	return q, true
}
