package audit

import (
	"maps"
	"math"
	"slices"

	"heapside/calc/heap"
	"heapside/calc/measure"
)

// UnitsValue is how a group measures, its containers apart.
type UnitsValue struct {
	System     measure.System `json:"system"`
	Fahrenheit bool           `json:"fahrenheit"`
}

// LocationValue is where a garden is, in degrees to two decimals: no closer than
// about a kilometre.
type LocationValue struct {
	Lat float64 `json:"lat"`
	Lon float64 `json:"lon"`
}

// Garden is what differs between two states of a garden's settings.
func Garden(was, now heap.Garden) ([]Change, error) {
	var f found
	f.add(Change{What: Units}, units(was), units(now))
	for _, id := range both(was.Measures.Sizes, now.Measures.Sizes) {
		f.add(Change{What: Measure, Of: id}, held(was.Measures.Sizes, id), held(now.Measures.Sizes, id))
	}
	f.add(Change{What: Zone}, set(was.Zone), set(now.Zone))
	f.add(Change{What: Location}, location(was), location(now))
	f.add(Change{What: Language}, set(was.Language), set(now.Language))
	f.members(Organiser, was.Organisers, now.Organisers)
	f.members(Reader, was.ReadOnly, now.ReadOnly)
	return f.changes, f.err
}

func units(g heap.Garden) UnitsValue {
	v := UnitsValue{g.Measures.System, g.Measures.Fahrenheit}
	if v.System == "" {
		v.System = measure.Metric
	}
	return v
}

// both are the keys of two maps, sorted.
func both[V any](a, b map[string]V) []string {
	keys := slices.AppendSeq(slices.Collect(maps.Keys(a)), maps.Keys(b))
	slices.Sort(keys)
	return slices.Compact(keys)
}

func held[V any](values map[string]V, key string) any {
	if v, ok := values[key]; ok {
		return v
	}
	return nil
}

func location(g heap.Garden) any {
	if !g.Located {
		return nil
	}
	return LocationValue{math.Round(g.Lat*100) / 100, math.Round(g.Lon*100) / 100}
}

// members adds who left a list and who is new on it.
func (f *found) members(what What, was, now []heap.Person) {
	for _, p := range was {
		if !among(now, p) {
			f.add(Change{What: what, People: []heap.Person{p}}, true, nil)
		}
	}
	for _, p := range now {
		if !among(was, p) {
			f.add(Change{What: what, People: []heap.Person{p}}, nil, true)
		}
	}
}

func among(people []heap.Person, who heap.Person) bool {
	return slices.ContainsFunc(people, func(p heap.Person) bool { return p.ID == who.ID })
}
