package advice

import (
	"cmp"
	"slices"

	"heapside/calc/feedstock"
	"heapside/calc/heap"
	"heapside/calc/measure"
)

// Supply is what a garden has on hand, and what its materials are; a nil Table is
// feedstock.Default.
type Supply struct {
	Stock []heap.Stock
	Table *feedstock.Table
}

func (s Supply) material(id string) (feedstock.Feedstock, bool) {
	if s.Table == nil {
		return feedstock.Default().ByID(id)
	}
	return s.Table.ByID(id)
}

// litres is how much is on hand of the materials that are so.
func (s Supply) litres(so func(feedstock.Feedstock) bool) float64 {
	var sum float64
	for _, on := range s.Stock {
		if f, ok := s.material(on.Material); ok && so(f) {
			sum += on.VolumeL
		}
	}
	return sum
}

// most is what is on hand the most of, of one class of material: "10 barrows of
// straw"; "" when there is none.
func (s Supply) most(kind feedstock.Kind, m measure.Measures) string {
	stock := slices.DeleteFunc(slices.Clone(s.Stock), func(on heap.Stock) bool {
		f, ok := s.material(on.Material)
		return !ok || f.Kind != kind || on.VolumeL <= 0
	})
	if len(stock) == 0 {
		return ""
	}
	largest := slices.MaxFunc(stock, func(a, b heap.Stock) int { return cmp.Compare(a.VolumeL, b.VolumeL) })
	f, _ := s.material(largest.Material)
	return m.Say("%s of %s", carried(m, largest.VolumeL), f.In(m.Style.Language))
}

// mixedIn are the kinds of job for which something is fetched.
var mixedIn = map[string]feedstock.Kind{Browns: feedstock.Brown, Greens: feedstock.Green}

// fetch says what of the stock a job could be done with.
func (l *look) fetch(jobs []Job) []Job {
	for i := range jobs {
		if kind, ok := mixedIn[jobs[i].Kind]; ok {
			if have := l.supply.most(kind, l.say); have != "" {
				jobs[i].Reason += " " + l.say.Say("In stock: %s.", have)
			}
		}
	}
	return jobs
}
