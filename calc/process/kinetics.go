package process

import "math"

// Cardinal is the cardinal temperature model: 0 outside (low, high), 1 at opt
// (Rosso et al. 1995, Appl. Environ. Microbiol. 61, 610-616, abstract seen;
// formula seen in public code). It needs opt above the middle of low and high.
func Cardinal(c, low, opt, high float64) float64 {
	if c <= low || c >= high {
		return 0
	}
	above := c - low
	rise := opt - low
	f := (c - high) * above * above / (rise * (rise*(c-opt) - (opt-high)*(opt+low-2*c)))
	return within(f, 0, 1)
}

// MoistureFactor is the rate against wet-basis moisture, 0.5 at 40 %. It never
// falls at the wet end, where air space limits instead (Haug 1993, The Practical
// Handbook of Compost Engineering; formula seen in three public programs).
func MoistureFactor(wet float64) float64 { return 1 / (math.Exp(-17.684*wet+7.0622) + 1) }

// AirSpaceFactor is the rate against free air space as a share of volume
// (Haug 1993; formula seen in two public programs).
func AirSpaceFactor(fas float64) float64 { return 1 / (math.Exp(-23.675*fas+3.4945) + 1) }

// OxygenFactor is the rate against oxygen x with half of it at half: x/(x+half).
// Haug 1993 has half = 2 vol.-% (formula seen in public code).
func OxygenFactor(x, half float64) float64 { return x / (x + half) }

// CarbonNitrogenFactor is the rate against the C:N of the mixture, 1 up to 30
// and falling as its power of 0.8 above (own choice).
func CarbonNitrogenFactor(cn float64) float64 {
	if !(cn > 30) {
		return 1
	}
	return math.Pow(30/cn, 0.8)
}

// leastRate is the lowest cardinal factor that rates are stated relative to; at
// no plausible parameters is that at 20 or 35 C lower (own choice).
const leastRate = 1e-3
