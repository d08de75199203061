package weather

import (
	"math"
	"strconv"

	"heapside/calc/fault"
)

// Place is a spot on earth to two decimals, about a kilometre: near enough for
// weather, and no finer is told to anyone. Two gardens in one cell share it.
type Place struct {
	Lat float64 `json:"lat"` // -90 to 90
	Lon float64 `json:"lon"` // above -180, to 180
}

// At is the place of a coordinate. One that is not on earth is a *fault.Error.
func At(latitude, longitude float64) (Place, error) {
	if !(math.Abs(latitude) <= 90) {
		return Place{}, fault.New(fault.OutOfRange, "A latitude of %g cannot be: it lies between -90 and 90.", latitude)
	}
	if !(math.Abs(longitude) <= 180) {
		return Place{}, fault.New(fault.OutOfRange, "A longitude of %g cannot be: it lies between -180 and 180.", longitude)
	}
	p := Place{cents(latitude), cents(longitude)}
	if math.Abs(p.Lat) == 90 {
		p.Lon = 0 // every longitude meets at the pole
	}
	if p.Lon == -180 {
		p.Lon = 180
	}
	return p, nil
}

// cents rounds to two decimals; a zero has no sign.
func cents(v float64) float64 { return math.Round(v*100)/100 + 0 }

func (p Place) lat() string { return coordinate(p.Lat) }
func (p Place) lon() string { return coordinate(p.Lon) }

func coordinate(v float64) string { return strconv.FormatFloat(v, 'f', -1, 64) }

func (p Place) String() string { return p.lat() + "," + p.lon() }

// box is a part of the globe that does not cross the 180th meridian.
type box struct{ south, north, west, east float64 }

func (b box) holds(p Place) bool {
	return p.Lat >= b.south && p.Lat <= b.north && p.Lon >= b.west && p.Lon <= b.east
}
