// Package water turns weather into water: how much a day takes up (FAO-56
// reference evapotranspiration), how much rain a heap lets in, and how much to
// pour on. It is pure; equations are numbered as in Allen, Pereira, Raes and
// Smith 1998, Crop evapotranspiration, FAO Irrigation and Drainage Paper 56
// (seen second-hand, through programs and tests that cite it, and recomputed).
package water

import "math"

// VapourPressure is the saturation vapour pressure in kPa over water at c
// degrees Celsius, c > -237.3 (eq. 11). Of a dew point it is the actual vapour
// pressure (eq. 14).
func VapourPressure(c float64) float64 { return 0.6108 * math.Exp(17.27*c/(c+237.3)) }

// MeanVapourPressure is the saturation vapour pressure of a day in kPa (eq. 12).
func MeanVapourPressure(minC, maxC float64) float64 {
	return (VapourPressure(minC) + VapourPressure(maxC)) / 2
}

// Slope is the slope of the saturation vapour pressure curve in kPa/C (eq. 13).
func Slope(c float64) float64 { return 4098 * VapourPressure(c) / ((c + 237.3) * (c + 237.3)) }

// Pressure is the usual air pressure in kPa at a height in metres above the
// sea, below 45,000 m (eq. 7).
func Pressure(elevationM float64) float64 {
	return 101.3 * math.Pow((293-0.0065*elevationM)/293, 5.26)
}

// Psychrometric is the psychrometric constant in kPa/C at a pressure in kPa (eq. 8).
func Psychrometric(kPa float64) float64 { return 0.665e-3 * kPa }

// ActualFromRange is the actual vapour pressure in kPa from the day's lowest and
// highest relative humidity in percent (eq. 17).
func ActualFromRange(minC, maxC, rhMin, rhMax float64) float64 {
	return (VapourPressure(minC)*rhMax + VapourPressure(maxC)*rhMin) / 200
}

// ActualFromMean is the actual vapour pressure in kPa from the day's mean
// relative humidity in percent (eq. 19).
func ActualFromMean(minC, maxC, rhMean float64) float64 {
	return rhMean / 100 * MeanVapourPressure(minC, maxC)
}

// WindAt2m is the wind at 2 m, in the unit given, from the wind at heightM,
// 0.2 m or more (eq. 47).
func WindAt2m(wind, heightM float64) float64 { return wind * 4.87 / math.Log(67.8*heightM-5.42) }
