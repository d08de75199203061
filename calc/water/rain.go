package water

import (
	"math"
	"strings"

	"heapside/calc/heap"
	"heapside/calc/measure"
)

// What a heap does with rain and sun. Published shares of runoff run from 7 to
// 90 % (Paul, quoting Cabrera et al. 1998 and Seymour and Bourdon 2003: excerpt
// seen), so no single coefficient holds.
const (
	DrainsAbove  = 3.2 // kg of water per kg dry that drains freely above it: 76 % wet basis (own choice)
	SurfaceShare = 0.5 // of ET0 that leaves a wet, open top (own choice)
)

// Shares of the rain that gets in. A flat or dished top takes more than a peak
// (AgriFutures text, seen); the numbers are our own choice.
var (
	flatTop = measure.Range{Low: 0.65, Typical: 0.8, High: 0.95}
	// openTop is a heap of unknown shape: from a peak (0.5) to a dished top.
	openTop    = measure.Range{Low: 0.5, Typical: 0.8, High: 0.95}
	underSheet = measure.Range{Low: 0, Typical: 0.1, High: 0.2}
	underLid   = measure.Range{Low: 0, Typical: 0.05, High: 0.1}
	underStraw = measure.Range{Low: 0.2, Typical: 0.5, High: 0.8}
)

// porousCovers are words for covers that rain seeps through.
var porousCovers = []string{"straw", "hay", "leaves", "leaf", "burlap", "hessian", "sack", "carpet", "chips"}

// RainIn is the share of rain, 0 to 1, that a heap lets in. With is what covers
// it, in anyone's words; a cover of unknown kind is taken as a sheet.
func RainIn(container heap.Container, covered bool, with string) measure.Range {
	switch {
	case container == heap.Tumbler:
		return measure.Range{}
	case covered && porous(with):
		return underStraw
	case covered && container == heap.PlasticBin, covered && strings.Contains(strings.ToLower(with), "lid"):
		return underLid
	case covered:
		return underSheet
	case container == heap.OpenHeap:
		return openTop
	}
	return flatTop
}

func porous(with string) bool {
	with = strings.ToLower(with)
	for _, w := range porousCovers {
		if strings.Contains(with, w) {
			return true
		}
	}
	return false
}

// fullM is how high a container of a given size stands: as calc/heap takes it.
var fullM = map[heap.Container]float64{heap.PalletBay: 1.00, heap.PlasticBin: 0.90}

// CatchM2 is the area that rain falls on, in m2: the footprint of a bay or bin
// of sizeL, else the top of a mound of volumeL, 0.9 V^(2/3) (own choice). It is 0
// for a tumbler and where neither is known.
func CatchM2(container heap.Container, sizeL, volumeL float64) float64 {
	if container == heap.Tumbler {
		return 0
	}
	if high := fullM[container]; high > 0 && sizeL > 0 {
		return sizeL / 1000 / high
	}
	return 0.9 * math.Pow(max(0, volumeL)/1000, 2.0/3)
}

// Drained is the kilograms of water that run out of a heap or layer.
func Drained(dryKg, waterKg float64) float64 { return max(0, waterKg-DrainsAbove*dryKg) }

// SurfaceDrying is the kilograms of water a top loses to a day or hour of that
// ET0. Wetness (how wet its outer layer is) and open (how little covers it) are
// shares from 0 to 1.
func SurfaceDrying(et0Mm, catchM2, wetness, open float64) float64 {
	return SurfaceShare * et0Mm * catchM2 * wetness * open
}
