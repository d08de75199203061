package process

import (
	"strings"

	"heapside/calc/heap"
	"heapside/calc/water"
)

// Setup is how a heap stands in the weather; events may change it. Start from
// OpenGround or SetupOf: the zero value is no place a heap can stand.
type Setup struct {
	Surface  float64 // surface relative to a sphere of the same volume
	BaseOn   float64 // share of the surface that lies on soil
	Top      float64 // top area relative to volume^(2/3)
	CoverR   float64 // m2K/W added by cover and walls
	Shelter  float64 // factor on the wind's effect on the surface film, 0 to 1
	RainIn   float64 // share of the rain that enters, 0 to 1
	Open     float64 // share of the surface drying that happens, 0 to 1
	Draught  float64 // factor on the chimney flow
	Exchange float64 // factor on oxygen diffusing in
}

// OpenGround is an open heap that takes all the rain (own choice of shape).
func OpenGround() Setup {
	return Setup{Surface: 1.25, BaseOn: 0.2, Top: 0.9, RainIn: 1, Open: 1, Shelter: 1, Draught: 1, Exchange: 1}
}

// containers are the ways a container differs from an open heap (own choice).
// Only an order is published: of 300-400 L units with the same feed the plastic
// bin and the ground pile were warmest, then the wooden bin (Adhikari et al.,
// Home composting of organic waste part 1, abstract seen).
var containers = map[heap.Container]Setup{
	heap.OpenHeap:   OpenGround(),
	heap.PalletBay:  {Surface: 1.24, BaseOn: 0.18, Top: 0.9, CoverR: 0.02, Shelter: 0.7, Draught: 1, Exchange: 1},
	heap.PlasticBin: {Surface: 1.2, BaseOn: 0.18, Top: 0.8, CoverR: 0.05, Shelter: 0.5, Draught: 0.7, Exchange: 0.6},
	heap.Tumbler:    {Surface: 1.15, BaseOn: 0, Top: 0.8, CoverR: 0.03, Shelter: 0.7, Draught: 0.7, Exchange: 0.5},
}

// blankets are covers that keep heat in, by words in their names, in m2K/W: 15
// to 30 cm of loose stuff, or a thick cloth (own choice). Any other is a sheet.
var blankets = []struct {
	word string
	r    float64
}{
	{"straw", 0.6}, {"hay", 0.6}, {"leaves", 0.6}, {"leaf", 0.6}, {"chips", 0.5}, {"carpet", 0.5}, {"blanket", 0.5}, {"sack", 0.2}, {"hessian", 0.2}, {"burlap", 0.2},
}

const sheetR = 0.1 // m2K/W (own choice)

// SetupOf is how a container stands in the weather, under a cover of that name
// in anyone's words when covered. An unknown container counts as an open heap.
// Rain comes in as calc/water has it, and what keeps rain out keeps sun off.
func SetupOf(c heap.Container, covered bool, with string) Setup {
	set, ok := containers[c]
	if !ok {
		c, set = heap.OpenHeap, OpenGround()
	}
	set.RainIn = water.RainIn(c, covered, with).Typical
	set.Open = 1
	if covered || c == heap.Tumbler {
		set.Open = set.RainIn
	}
	if covered {
		set.CoverR += resistance(with)
	}
	return set
}

func resistance(with string) float64 {
	with = strings.ToLower(with)
	for _, b := range blankets {
		if strings.Contains(with, b.word) {
			return b.r
		}
	}
	return sheetR
}
