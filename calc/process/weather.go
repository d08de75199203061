package process

import (
	"math"

	"heapside/calc/water"
)

// Hour is the weather of one hour. RH is a share (0 to 1), RainMm what fell in
// the hour, ET0Mm the reference evapotranspiration of the hour.
type Hour struct {
	AirC, RH, RainMm, ET0Mm, WindMS float64
}

// Air is an hour of weather with everything that does not depend on the heap
// worked out once, so that many members can share it. Make one with Hour.Air.
type Air struct {
	C        float64 // temperature
	Seconds  float64 // how long it lasts; may be lengthened where nothing happens
	vapour   float64 // kg water per kg dry air
	moist    float64 // kg water per m3
	enthalpy float64 // kJ per kg dry air
	density  float64 // kg/m3
	wind     float64 // factor on the surface film
	rain     float64 // kg per m2 and second
	et0      float64 // kg per m2 and second
}

// usual stands in for values that are missing (NaN): a mild day (own choice).
var usual = Hour{AirC: 12, RH: 0.75, WindMS: 1.5}

// Air works out the terms of an hour. NaN counts as missing and takes a mild
// value; anything beyond what weather does is held at the bound (own choice).
func (h Hour) Air() Air {
	h = h.clean()
	vapour := HumidityRatio(h.AirC) * h.RH
	return Air{
		C: h.AirC, Seconds: 3600,
		vapour:   vapour,
		moist:    vapourDensity(h.AirC, h.RH*water.VapourPressure(h.AirC)),
		enthalpy: Enthalpy(h.AirC, vapour),
		density:  AirDensity(h.AirC, h.RH),
		wind:     0.6 + 0.27*h.WindMS, // 1 at 1.5 m/s; form from memory, within the 6 to 15 W/m2K of still to light wind
		rain:     h.RainMm / 3600,
		et0:      h.ET0Mm / 3600,
	}
}

func (h Hour) clean() Hour {
	return Hour{
		AirC:   within(known(h.AirC, usual.AirC), minC, 60),
		RH:     within(known(h.RH, usual.RH), 0.02, 1),
		RainMm: within(known(h.RainMm, 0), 0, 200),
		ET0Mm:  within(known(h.ET0Mm, 0), 0, 3),
		WindMS: within(known(h.WindMS, usual.WindMS), 0, 40),
	}
}

func known(v, otherwise float64) float64 {
	if math.IsNaN(v) {
		return otherwise
	}
	return v
}
