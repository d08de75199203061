package heap

import (
	"slices"
	"strings"
)

// shallowCm is the depth above which a reading is of the edge, not of the
// middle (own choice; rules for windrows read at 30 to 61 cm).
const shallowCm = 15.0

// edges are the words for a spot that is not the middle.
var edges = []string{"edge", "side", "top", "surface", "outside", "bottom", "corner"}

// Outer says that the reading speaks for the outer zone of the heap, not for
// its middle: it is shallow, or was taken at a spot that is called so.
func (r Reading) Outer() bool {
	if r.DepthCm > 0 && r.DepthCm < shallowCm {
		return true
	}
	return slices.Contains(edges, strings.ToLower(strings.TrimSpace(r.Spot)))
}
