package process

import "heapside/calc/heap"

// Setup is how a heap stands in the weather; events may change it.
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

// OpenGround is an open heap without a cover.
func OpenGround() Setup {
	return Setup{Surface: 1.25, BaseOn: 0.2, Top: 0.9, RainIn: 1, Open: 1, Shelter: 1, Draught: 1, Exchange: 1}
}

// Ways a container differs from an open heap (own choice; only the order is
// published: of 300-400 L units with the same feed the plastic bin and the
// ground pile were warmest, then the wooden bin, and the drum driest, Adhikari
// et al., Home composting of organic waste part 1, abstract seen).
var containers = map[heap.Container]Setup{
	heap.OpenHeap:   OpenGround(),
	heap.PalletBay:  {Surface: 1.24, BaseOn: 0.18, Top: 0.9, CoverR: 0.02, RainIn: 1, Open: 1, Shelter: 0.7, Draught: 1, Exchange: 1},
	heap.PlasticBin: {Surface: 1.2, BaseOn: 0.18, Top: 0.8, CoverR: 0.05, RainIn: 0.1, Open: 0.1, Shelter: 0.5, Draught: 0.7, Exchange: 0.6},
	heap.Tumbler:    {Surface: 1.15, BaseOn: 0.0, Top: 0.8, CoverR: 0.03, RainIn: 0, Open: 0.05, Shelter: 0.7, Draught: 0.7, Exchange: 0.5},
}

// coverings are what people lay on heaps: thermal resistance in m2K/W and the
// share of rain let in (own choice, after 15-30 cm of straw or leaves).
var coverings = map[string]struct{ r, rainIn float64 }{
	"":       {0.1, 0.1},
	"tarp":   {0.1, 0.05},
	"lid":    {0.1, 0.05},
	"sheet":  {0.1, 0.05},
	"straw":  {0.6, 0.2},
	"leaves": {0.6, 0.2},
	"carpet": {0.5, 0.2},
}

// SetupOf is how a container stands in the weather, under the cover with that
// name when covered. An unknown container counts as an open heap, an unknown
// cover as a sheet.
func SetupOf(c heap.Container, covered bool, with string) Setup {
	set, ok := containers[c]
	if !ok {
		set = OpenGround()
	}
	if !covered {
		return set
	}
	cover, ok := coverings[with]
	if !ok {
		cover = coverings[""]
	}
	set.CoverR += cover.r
	set.RainIn *= cover.rainIn
	set.Open *= cover.rainIn
	return set
}
