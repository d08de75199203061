package process

import "math"

// o2PerVolume is kg of oxygen per m3 of air and unit mole fraction, from
// 0.279 kg/m3 at 0.2095.
const o2PerVolume = 0.279 / ambientO2

// oxygen finds the mole fractions at which supply and use balance, since pores
// refill within minutes. Supplies are m3/s of air into mantle and core, uses kg
// O2/s without a limit. Three passes from the last values suffice.
func oxygen(core, mantle *Zone, toMantle, toCore, useMantle, useCore float64) {
	am := toMantle*o2PerVolume + 1e-12
	ac := toCore*o2PerVolume + 1e-12
	xc, xm := core.O2, mantle.O2
	for range 3 {
		reach := max(ambientO2-useCore*OxygenFactor(xc, o2Half)/am, 0)
		xm = balance(am, reach, useMantle)
		xc = balance(ac, xm, useCore)
	}
	core.O2, mantle.O2 = within(xc, 0, ambientO2), within(xm, 0, ambientO2)
}

// balance solves a (from - x) = use x/(x + half) for x >= 0.
func balance(a, from, use float64) float64 {
	b := a*(from-o2Half) - use
	return (b + math.Sqrt(b*b+4*a*a*from*o2Half)) / (2 * a)
}
