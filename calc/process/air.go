package process

import "heapside/calc/water"

// Properties of air, water and solids.
const (
	pressureKPa = 101.325
	waterHeat   = 4.186  // kJ/kgK; 4.18-4.20 (seen in public code after Haug 1993)
	solidsHeat  = 1.3    // kJ/kgK; 1.0-1.4 (from memory)
	airHeat     = 1.006  // kJ/kgK (seen, Cotera thesis code)
	vapourHeat  = 1.86   // kJ/kgK (seen, Cotera thesis code)
	latentHeat  = 2501.0 // kJ/kg at 0 C (seen, Cotera thesis code)
	kelvin      = 273.15
)

// HumidityRatio is kg of water per kg of dry air at saturation: 0.622 e/(P-e),
// with e at most 0.9 P so that it stays finite near boiling (own choice).
func HumidityRatio(c float64) float64 { return humidityRatio(water.VapourPressure(c)) }

func humidityRatio(kPa float64) float64 {
	e := min(kPa, 0.9*pressureKPa)
	return 0.622 * e / (pressureKPa - e)
}

// Enthalpy is kJ per kg of dry air that carries w kg of vapour:
// 1.006 T + w (2501 + 1.86 T).
func Enthalpy(c, w float64) float64 { return airHeat*c + w*vapourEnthalpy(c) }

// vapourEnthalpy is kJ per kg of vapour above water at 0 C.
func vapourEnthalpy(c float64) float64 { return latentHeat + vapourHeat*c }

// vapourDensity is kg of vapour per m3 at a partial pressure.
func vapourDensity(c, kPa float64) float64 { return kPa * (1000 / 461.5) / (c + kelvin) }

// AirDensity is kg/m3 of moist air from the partial pressures, rh a share.
func AirDensity(c, rh float64) float64 { return airDensity(c, water.VapourPressure(c)*rh) }

func airDensity(c, kPa float64) float64 {
	return ((pressureKPa-kPa)*(1000/287.05) + kPa*(1000/461.5)) / (c + kelvin)
}
