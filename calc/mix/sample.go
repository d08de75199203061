package mix

import (
	"cmp"
	"hash/fnv"
	"math"
	"math/rand/v2"
	"slices"

	"heapside/calc/feedstock"
	"heapside/calc/measure"
)

// How many draws describe a blend. The default leaves a standard error of
// about one in a hundred on Holds.
const (
	minDraws     = 500
	defaultDraws = 1000
	maxDraws     = 20000
)

func drawsFor(asked int) int {
	if asked == 0 {
		return defaultDraws
	}
	return min(max(asked, minDraws), maxDraws)
}

// sampler draws the properties of each material once and hands the same draws
// to every blend it is in, so that blends are compared under the same luck. A
// material's draws depend on the seed and its id only, not on the order of asking.
//
// Properties are independent; each is triangular on its low, typical and high
// value, C:N and density on a log scale as they span decades (own choice).
type sampler struct {
	seed uint64
	n    int
	lots []lot
	sort []float64
}

type lot struct {
	feedstock feedstock.Feedstock
	draws     []Blend // one litre each
}

func newSampler(seed uint64, draws int) *sampler {
	return &sampler{seed: seed, n: drawsFor(draws)}
}

func (s *sampler) stream(key string) *rand.Rand {
	h := fnv.New64a()
	h.Write([]byte(key))
	return rand.New(rand.NewPCG(s.seed, h.Sum64()))
}

// litres returns the draws of one litre of f.
func (s *sampler) litres(f *feedstock.Feedstock) []Blend {
	for i := range s.lots {
		if sameProperties(&s.lots[i].feedstock, f) {
			return s.lots[i].draws
		}
	}
	draws, r := make([]Blend, s.n), s.stream(f.ID)
	density, cn := logs(f.Density.Range), logs(f.CN.Range)
	for i := range draws {
		draws[i] = litre(
			math.Exp(triangular(density, r.Float64())),
			triangular(f.Moisture.Range, r.Float64()),
			triangular(f.Carbon.Range, r.Float64()),
			math.Exp(triangular(cn, r.Float64())),
			triangular(f.Volatile.Range, r.Float64()),
			f.Mineral)
	}
	s.lots = append(s.lots, lot{*f, draws})
	return draws
}

func sameProperties(a, b *feedstock.Feedstock) bool {
	return a.ID == b.ID && a.Mineral == b.Mineral &&
		a.Density.Range == b.Density.Range && a.Moisture.Range == b.Moisture.Range &&
		a.Carbon.Range == b.Carbon.Range && a.CN.Range == b.CN.Range && a.Volatile.Range == b.Volatile.Range
}

// sum draws the parts together, their amounts' own ranges included. Parts are
// taken in canonical order, so that the order of telling does not matter.
func (s *sampler) sum(parts []Part) []Blend {
	total := make([]Blend, s.n)
	for _, p := range canonical(parts) {
		draws, r := s.litres(&p.Feedstock), s.stream("amount of "+p.Feedstock.ID)
		for i, one := range draws {
			amount := triangular(p.amount(), r.Float64())
			total[i] = total[i].Plus(one.Times(p.litres(amount, one)))
		}
	}
	return total
}

// canonical is the parts ordered by material and amount.
func canonical(parts []Part) []Part {
	sorted := slices.Clone(parts)
	slices.SortStableFunc(sorted, func(a, b Part) int {
		return cmp.Or(cmp.Compare(a.Feedstock.ID, b.Feedstock.ID), cmp.Compare(a.typical(), b.typical()))
	})
	return sorted
}

// profile describes typical and its draws.
func (s *sampler) profile(typical Blend, draws []Blend) Profile {
	return Profile{
		CN:       s.stat(typical, draws, Blend.CN),
		Moisture: s.stat(typical, draws, Blend.Moisture),
		Density:  s.stat(typical, draws, Blend.Density),
		Air:      s.stat(typical, draws, Blend.Air),
		Holds:    holds(draws),
	}
}

// stat is one measure of typical with the 10 and 90 % points of the draws.
func (s *sampler) stat(typical Blend, draws []Blend, of func(Blend) float64) Stat {
	if s.sort == nil {
		s.sort = make([]float64, s.n)
	}
	for i, d := range draws {
		s.sort[i] = of(d)
	}
	slices.Sort(s.sort)
	return Stat{Typical: of(typical), Low: quantile(s.sort, 0.1), High: quantile(s.sort, 0.9)}
}

// holds is the share of draws inside the wider published bounds.
func holds(draws []Blend) float64 {
	in := 0
	for _, d := range draws {
		cn, wet := d.CN(), d.Moisture()
		if cn >= WideCNLow && cn <= WideCNHigh && wet >= WideMoistureLow && wet <= WideMoistureHigh {
			in++
		}
	}
	return float64(in) / float64(len(draws))
}

// triangular is the value below which a share u of a triangular distribution
// lies whose ends are r.Low and r.High and whose peak is r.Typical.
func triangular(r measure.Range, u float64) float64 {
	width := r.High - r.Low
	if width <= 0 {
		return r.Typical
	}
	if rise := r.Typical - r.Low; u*width <= rise {
		return r.Low + math.Sqrt(u*width*rise)
	}
	return r.High - math.Sqrt((1-u)*width*(r.High-r.Typical))
}

// logs is the range of the logarithms of positive values. Minerals have no C:N
// and need none.
func logs(r measure.Range) measure.Range {
	if r.Low <= 0 {
		return measure.Range{}
	}
	return measure.Range{Low: math.Log(r.Low), Typical: math.Log(r.Typical), High: math.Log(r.High)}
}

// quantile of sorted values at share q, between neighbours by proportion.
func quantile(sorted []float64, q float64) float64 {
	at := q * float64(len(sorted)-1)
	below := int(at)
	if below+1 >= len(sorted) {
		return sorted[len(sorted)-1]
	}
	return sorted[below] + (at-float64(below))*(sorted[below+1]-sorted[below])
}
