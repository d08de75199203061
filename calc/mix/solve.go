package mix

import (
	"cmp"
	"math"
	"slices"
	"strings"

	"heapside/calc/fault"
)

const (
	defaultAlternatives = 3
	maxAlternatives     = 10
	// nearEqual is the share of score within which holding more often decides
	// (own choice).
	nearEqual = 1.25
	// poor is how many times the best score an alternative may have before it
	// is no help (own choice).
	poor = 6
	// weighed is how many of the nearly equal ones are drawn and compared.
	weighed = 8
	// enoughPairs and enoughTriples are how many rounded ones are weighed.
	enoughPairs, enoughTriples = 24, 12
	// perMain is how many options with the same main material are weighed.
	perMain = 3
)

// Solve says what the inputs are and what to add so that they meet the aim with
// little to carry. A recipe comes back as Feasible only when its rounded amounts
// meet the whole aim at typical values; the best stands first. The zero Aim, or
// a zero part of it, is the default. The same request gives the same answer,
// whatever the order of its inputs and candidates.
//
// Errors are *fault.Error: Missing for no inputs or mineral ones alone,
// OutOfRange for amounts, properties and aims that no heap has.
func Solve(req Request) (Answer, error) {
	aim := req.Aim.filled()
	if err := aim.Check(); err != nil {
		return Answer{}, err
	}
	inputs, err := Resolve(req.Inputs)
	if err != nil {
		return Answer{}, err
	}
	base := Blend{}.Add(canonical(req.Inputs)...)
	if base.NitrogenKg <= 0 {
		return Answer{}, fault.New(fault.Missing, "There is nothing here but %s, and that will not rot by itself; say which greens or browns go with it.", names(inputs))
	}
	cands, err := candidates(req.Candidates, base.VolumeL)
	if err != nil {
		return Answer{}, err
	}
	d := &drawn{sampler: newSampler(req.Seed, req.Draws)}
	d.base = d.sum(req.Inputs)
	answer := Answer{Inputs: inputs, Before: d.profile(base, d.base)}

	s := newSolver(base, cands, aim, req.Measures)
	wanted := req.Alternatives
	if wanted <= 0 {
		wanted = defaultAlternatives
	}
	for _, o := range s.choose(s.options(), d, min(wanted, maxAlternatives)) {
		answer.Recipes = append(answer.Recipes, s.recipe(o, d))
	}
	if len(answer.Recipes) > 0 {
		return answer, nil
	}
	miss := s.closest()
	closest := s.recipe(miss, d)
	if closest.Feasible {
		answer.Recipes = []Recipe{closest}
		return answer, nil
	}
	answer.Closest, answer.Short = &closest, aim.lacks(miss.blend, req.Measures)
	answer.Fix, err = s.fix(req.Everything, d)
	return answer, err
}

// options are rounded sets that meet the aim: nothing or water alone when that
// does; else single materials and the pairs worth having; else three materials.
// Finer measures are tried only when whole ones never do.
func (s *solver) options() []option {
	if s.aim.Meets(s.base) {
		return []option{{blend: s.base, violation: s.aim.violation(s.base)}}
	}
	if p, ok := s.plan(set{}, math.Inf(1)); ok {
		for _, part := range finer {
			if out := s.roundAll(nil, []plan{p}, 1, part); len(out) > 0 {
				return out
			}
		}
	}
	single := s.singles()
	pair := s.pairs(single)
	for _, part := range finer {
		out := s.roundAll(nil, single, len(single), part)
		out = s.roundAll(out, pair, enoughPairs, part)
		if len(out) > 0 {
			return out
		}
	}
	triple := s.triples()
	for _, part := range finer {
		if out := s.roundAll(nil, triple, enoughTriples, part); len(out) > 0 {
			return out
		}
	}
	return nil
}

// roundAll appends up to enough rounded plans, best first, with at most
// perMain for the same main material.
func (s *solver) roundAll(out []option, plans []plan, enough int, part float64) []option {
	mains := make(map[string]int)
	for _, p := range plans {
		if enough == 0 {
			break
		}
		main := s.kin(p.set, p.litres)
		if p.n > 1 && mains[main] == perMain {
			continue
		}
		if o, ok := s.round(p, part); ok {
			out = append(out, o)
			mains[main]++
			enough--
		}
	}
	return out
}

// kin is the family of the main material of a set.
func (s *solver) kin(g set, litres [maxAdditions]float64) string {
	if g.n == 0 {
		return "water"
	}
	main := 0
	for i := range g.n {
		if litres[i] > litres[main] {
			main = i
		}
	}
	return s.family(g.of[main])
}

// choose picks at most n options of different main materials. Among those of
// nearly the least score it takes the one that holds over most draws.
func (s *solver) choose(options []option, d *drawn, n int) []option {
	slices.SortFunc(options, func(a, b option) int {
		return cmp.Or(cmp.Compare(a.score, b.score), slices.Compare(a.of[:], b.of[:]))
	})
	var out []option
	for len(options) > 0 && len(out) < n {
		if len(out) > 0 && options[0].score > poor*out[0].score {
			break
		}
		best, most := 0, -1.0
		for i := range min(len(options), weighed) {
			if options[i].score > nearEqual*options[0].score {
				break
			}
			if h := holds(d.with(s, &options[i])); h > most {
				best, most = i, h
			}
		}
		picked := options[best]
		out = append(out, picked)
		options = slices.DeleteFunc(options, func(o option) bool {
			return s.kin(o.set, o.litres) == s.kin(picked.set, picked.litres)
		})
	}
	return out
}

// drawn keeps the draws of the inputs and a buffer for those of each option.
type drawn struct {
	*sampler
	base, buffer []Blend
}

// with are the draws of the inputs and an option together, good until the next
// call.
func (d *drawn) with(s *solver, o *option) []Blend {
	d.buffer = append(d.buffer[:0], d.base...)
	for i, c := range o.members() {
		for j, one := range d.litres(&s.cands[c].Feedstock) {
			d.buffer[j] = d.buffer[j].Plus(one.Times(o.litres[i]))
		}
	}
	for j := range d.buffer {
		d.buffer[j].WaterKg += o.waterL * waterDensity
	}
	return d.buffer
}

func (s *solver) recipe(o option, d *drawn) Recipe {
	r := Recipe{WaterL: o.waterL, CarryKg: o.waterL * waterDensity, Feasible: o.violation <= tolerance}
	for i, c := range o.members() {
		a := Addition{Feedstock: s.cands[c].Feedstock, VolumeL: o.litres[i], MassKg: s.cands[c].one.MassKg() * o.litres[i]}
		r.Additions = append(r.Additions, a)
		r.CarryKg += a.MassKg
	}
	slices.SortStableFunc(r.Additions, func(a, b Addition) int { return cmp.Compare(b.VolumeL, a.VolumeL) })
	r.After = d.profile(o.blend, d.with(s, &o))
	return r
}

func names(inputs []Input) string {
	var out []string
	for _, in := range inputs {
		if !slices.Contains(out, in.Feedstock.Name) {
			out = append(out, in.Feedstock.Name)
		}
	}
	return strings.Join(out, " and ")
}
