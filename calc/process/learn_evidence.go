package process

import (
	"math"
	"strings"

	"heapside/calc/heap"
)

// How far readings may lie from what a member says.
const (
	readingScaleC = 3.0  // of a Student t with 4 degrees of freedom (own choice)
	lateHours     = 3.0  // people log late: as much of the present rate is added (own choice)
	outlierShare  = 0.01 // readings that say nothing: wrong place, unit or digit (own choice)
	outlierRangeC = 110  // over which those are spread, -10 to 100 C
	edgeDepthCm   = 5    // taken for a spot named as an edge
	edgeScaleC    = 6.0  // and how much less such a reading says (own choice)
)

// Spots people name that are not the middle of the heap.
var edgeWords = []string{"edge", "side", "outside", "outer", "corner", "surface"}

// readingLogLik is the log likelihood of a thermometer reading.
func readingLogLik(t heap.Temp) func(*member) float64 {
	depth, scale := t.DepthCm, readingScaleC
	if atEdge(t.Spot) {
		scale = edgeScaleC
		if depth == 0 {
			depth = edgeDepthCm
		}
	}
	return func(m *member) float64 {
		wide := math.Hypot(scale, lateHours*within(math.Abs(m.Probe), 0, 5))
		x := (t.C - m.reading(depth)) / wide
		// Student t, 4 df: 3/8 (1 + x2/4)^(-5/2).
		y := 1 + x*x/4
		return math.Log((1-outlierShare)*0.375/(wide*y*y*math.Sqrt(y)) + outlierShare/outlierRangeC)
	}
}

func atEdge(spot string) bool {
	spot = strings.ToLower(spot)
	for _, w := range edgeWords {
		if strings.Contains(spot, w) {
			return true
		}
	}
	return false
}

// squeezeEdges are the wet-basis shares between the classes, driest first, as
// heap.Squeeze has them.
var squeezeEdges = []float64{0, 0.40, 0.50, 0.60, 0.65, 1}

var squeezeAt = map[heap.Squeeze]int{heap.Crumbles: 0, heap.Holds: 1, heap.Drops: 2, heap.Drips: 3, heap.Runs: 4}

const (
	squeezeSpread = 0.035 // of a hand's judgement, wet basis (own choice)
	squeezeFloor  = 0.06  // share of squeezes that say nothing (own choice)
	squeezeLoose  = 0.30  // share of those from a spot that is unlike the rest (own choice)
	looseSpread   = 0.10  // wet basis, between such spots (own choice)
)

// squeezeLogLik is that of a squeeze class of a handful from anywhere.
func squeezeLogLik(q heap.Squeeze) func(*member) float64 {
	class := squeezeAt[q]
	low, high := squeezeEdges[class], squeezeEdges[class+1]
	if class == 0 {
		low = math.Inf(-1)
	}
	if class == len(squeezeAt)-1 {
		high = math.Inf(1)
	}
	return func(m *member) float64 {
		wet := m.S.Moisture()
		chance := func(sd float64) float64 { return normalBelow((high-wet)/sd) - normalBelow((low-wet)/sd) }
		p := (1-squeezeLoose)*chance(squeezeSpread) + squeezeLoose*chance(looseSpread)
		return math.Log((1-squeezeFloor)*max(p, 0) + squeezeFloor/float64(len(squeezeAt)))
	}
}

// squeezeRange is the moistures a class stands for, as far as heaps have them.
func squeezeRange(q heap.Squeeze) (low, high float64) {
	class := squeezeAt[q]
	return max(squeezeEdges[class], 0.25), min(squeezeEdges[class+1], 0.75)
}

func normalBelow(x float64) float64 { return 0.5 * math.Erfc(-x/math.Sqrt2) }

// volumeSpread is that of the logarithm of a volume found by height (own choice).
const volumeSpread = 0.12

// volumeLogLik is that of a volume in litres, as heavy-tailed as a reading.
func volumeLogLik(litres float64) func(*member) float64 {
	return func(m *member) float64 {
		v := m.S.VolumeL(&m.P)
		if !(v > 0) {
			return 0
		}
		x := math.Log(litres/v) / volumeSpread
		return -2.5 * math.Log(1+x*x/4)
	}
}

// smells are weak evidence (own choice): the odds that a nose says so where its
// cause is fully there, against where it is not at all.
var smells = map[string]struct {
	odds  float64
	cause func(*member) float64 // 0 to 1
}{
	"ammonia": {4, func(m *member) float64 { return below(m.S.CN(), 22, 3) }},
	"rotten":  {4, airless},
	"sour":    {3, airless},
	"earthy":  {0.5, airless},
	"none":    {0.7, airless},
}

// airless is how surely a member lacks air: little oxygen in its core, or wet.
func airless(m *member) float64 {
	return max(below(m.S.Core.O2, 0.05, 0.015), 1-below(m.S.Moisture(), 0.66, 0.03))
}

// below goes from 1 well under the edge to 0 well over it.
func below(v, edge, width float64) float64 { return 1 / (1 + math.Exp((v-edge)/width)) }

func smellLogLik(smell string) func(*member) float64 {
	s, ok := smells[smell]
	if !ok {
		return func(*member) float64 { return 0 }
	}
	return func(m *member) float64 { return math.Log(1 + (s.odds-1)*s.cause(m)) }
}
