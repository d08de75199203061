package process

import (
	"math"
	"time"

	"heapside/calc/water"
)

// Weather tells what an hour was like or is expected to be; false when it is
// not known. The hour is the one that begins at or holds t.
type Weather interface {
	Hour(t time.Time) (Hour, bool)
}

// Climate is what weather to expect when nobody has told: a yearly and a daily
// sinusoid by latitude, the same every year, with even rain. All of its numbers
// are our own choice, rough enough to be wrong by some degrees anywhere, which
// is why members that run on it differ in their air. The zero value is no place:
// the middle of the temperate north, and wider still.
type Climate struct {
	Located  bool
	Lat, Lon float64 // degrees, -90 to 90 and -180 to 180
}

// The shape of Climate (own choice).
const (
	noPlaceLat     = 45.0
	equatorC       = 27.0   // yearly mean at the equator
	poleLossC      = 0.0065 // per squared degree of latitude: 11 C at 50, 1 C at 63
	yearSwingC     = 0.17   // half the way from winter to summer, per degree of latitude
	daySwingC      = 4.5    // half the way from night to day
	coldestDay     = 20.0   // 20 January in the north
	rainMmPerDay   = 2.0
	usualRH        = 0.75
	rhSwing        = 0.15
	usualWindMS    = 1.5
	airSpreadC     = 3.5 // standard deviation of a day from the climate at a known place
	noPlaceSpreadC = 5.0
	airMemory      = 0.8 // from one day to the next
)

// Hour is the expected weather of the hour that holds t.
func (c Climate) Hour(t time.Time) Hour {
	lat, lon := c.place()
	solar := t.UTC().Add(time.Duration(lon / 15 * float64(time.Hour)))
	day := float64(solar.YearDay())
	mean := c.meanC(lat, day)
	spread := water.Hours(mean-daySwingC, mean+daySwingC, c.et0(lat, mean, int(day)), water.SunOn(lat, int(day)).DaylightH())
	h := spread[solar.Hour()]
	return Hour{
		AirC: h.AirC, RH: usualRH - rhSwing*(h.AirC-mean)/daySwingC,
		RainMm: rainMmPerDay / 24, ET0Mm: h.ET0Mm, WindMS: usualWindMS,
	}
}

// place is the coordinates, bounded; those that are no numbers count as no place.
func (c Climate) place() (lat, lon float64) {
	if !c.known() {
		return noPlaceLat, 0
	}
	return max(-90, min(90, c.Lat)), max(-180, min(180, c.Lon))
}

func (c Climate) known() bool {
	return c.Located && !math.IsNaN(c.Lat) && !math.IsNaN(c.Lon)
}

func (c Climate) meanC(lat, day float64) float64 {
	coldest := coldestDay
	if lat < 0 {
		coldest += 365.0 / 2
	}
	return equatorC - poleLossC*lat*lat - yearSwingC*math.Abs(lat)*math.Cos(2*math.Pi*(day-coldest)/365)
}

func (c Climate) et0(lat, mean float64, day int) float64 {
	return water.Hargreaves(mean-daySwingC, mean+daySwingC, water.SunOn(lat, day).TopMJ)
}

// spreadC is how far a day's air is likely to be from the climate.
func (c Climate) spreadC() float64 {
	if c.known() {
		return airSpreadC
	}
	return noPlaceSpreadC
}
