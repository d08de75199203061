package spread

import (
	"math"

	"heapside/calc/measure"
)

// Load is an amount of compost in whole measures of one kind.
type Load struct {
	Unit measure.Unit
	N    float64
}

// String is "13 buckets" or "4 bags of 40 l".
func (l Load) String() string { return l.Say(measure.Measures{}) }

// Say is String in the language of a group's measures.
func (l Load) Say(m measure.Measures) string {
	if l.N == 1 {
		return "1 " + m.Word(l.Unit.One)
	}
	return m.SayNumber(l.N) + " " + m.Word(l.Unit.Many)
}

const (
	// forgiven is the share of a measure that is not worth going for once more (own choice).
	forgiven = 0.05
	// leastFull is how full the only load must be for a measure to be named (own choice).
	leastFull = 0.6
	// mostCounted is the largest number of loads that helps anybody (own choice).
	mostCounted = 60
)

// carriers are what compost is fetched in. A bag is the group's own where it
// set one, else one as compost is sold in.
var carriers = []string{"bucket", "barrow", "bag"}

// soldBag is a bag of bought compost: 40 litres, or a cubic foot in the US
// (common practice, no source).
func soldBag(m measure.Measures) measure.Unit {
	if _, own := m.Sizes["bag"]; own {
		bag, _ := m.Unit("bag")
		return bag
	}
	if m.System == measure.US {
		foot, _ := m.Unit("cubic foot")
		return measure.Unit{ID: "bag", Dim: measure.Volume, Size: foot.Size, One: "bag of 1 cubic foot", Many: "bags of 1 cubic foot", Container: true, Source: CommonPractice}
	}
	return measure.Unit{ID: "bag", Dim: measure.Volume, Size: measure.Exact(40), One: "bag of 40 l", Many: "bags of 40 l", Container: true, Source: CommonPractice}
}

// Loads are the ways to fetch that many litres in whole measures of the group's
// own, rounded up so that it is enough. Measures too big or too small to help
// are left out: below half a bucket or so none is left.
func Loads(litres float64, m measure.Measures) []Load {
	var loads []Load
	for _, id := range carriers {
		unit, ok := m.Unit(id)
		if id == "bag" {
			unit, ok = soldBag(m), true
		}
		n := litres / unit.Size.Typical
		if !ok || n < leastFull || n > mostCounted {
			continue
		}
		loads = append(loads, Load{unit, math.Max(1, math.Ceil(n-forgiven))})
	}
	return loads
}
