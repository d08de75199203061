package process

import "math"

// o2PerVolume is kg of oxygen per m3 of air and unit mole fraction, from
// 0.279 kg/m3 at 0.2095.
const o2PerVolume = 0.279 / ambientO2

// oxygen finds the mole fractions at which supply and use balance, since pores
// refill within minutes:
//
//	am (0.2095 - xm) = um xm/(xm+h) + uc xc/(xc+h)
//	ac (xm - xc)     = uc xc/(xc+h)
//
// Supplies are m3/s of air into mantle and core, uses kg O2/s without a limit.
// With xm put in from the second line, the first less its right side is convex
// and falls with xc, so Newton's method reaches the one root from anywhere, and
// after its first step from below. It starts where the pores were last.
func oxygen(core, mantle *Zone, toMantle, toCore, useMantle, useCore float64) {
	const h = o2Half
	am, ac := toMantle*o2PerVolume+1e-12, toCore*o2PerVolume+1e-12
	ratio := useCore / ac
	xc := within(core.O2, 0, ambientO2)
	var xm float64
	for range 12 {
		inv := 1 / (xc + h)
		f := xc * inv
		xm = xc + ratio*f
		df := h * inv * inv // slope of f
		dm := 1 + ratio*df
		invM := 1 / (xm + h)
		left := am*(ambientO2-xm) - useMantle*xm*invM - useCore*f
		step := left / (am*dm + useMantle*h*invM*invM*dm + useCore*df)
		xc = max(0, xc+step)
		if math.Abs(step)*dm < 1e-7 { // in either zone
			break
		}
	}
	xm = xc + ratio*OxygenFactor(xc, h)
	core.O2, mantle.O2 = within(xc, 0, ambientO2), within(xm, 0, ambientO2)
}
