package mix

import "math"

// option is a set with amounts a person can measure, and what the blend then
// is at typical values.
type option struct {
	set
	litres    [maxAdditions]float64
	waterL    float64
	blend     Blend
	score     float64 // as plan
	violation float64 // as Aim.violation
}

// finer are the parts of a whole measure tried in turn: whole measures as far
// as they do, then halves and less for amounts or windows too small for them.
var finer = [...]float64{1, 0.5, 0.25, 0.125}

// reach is how many measures up and down from the exact amount are tried.
const reach = 2

// round finds whole measures near the exact amounts that meet the aim, and
// false when there are none. It prefers little effort and the middle of the aim.
func (s *solver) round(p plan, part float64) (option, bool) {
	best, found := option{}, false
	least := math.Inf(1)
	s.neighbours(p, part, func(o option, effort float64) {
		if o.violation > tolerance {
			return
		}
		off := s.aim.offCentre(o.blend)
		if v := effort * (1 + 0.5*off*off); v < least {
			best, least, found = o, v, true
		}
	})
	return best, found
}

// nearest finds the whole measures near the exact amounts that miss the aim by
// least in all, then the least effort; nothing when they make it worse.
func (s *solver) nearest(p plan) option {
	best := option{blend: s.base, violation: s.aim.violation(s.base)}
	least := s.aim.missed(s.base)
	s.neighbours(p, 1, func(o option, effort float64) {
		if v := s.aim.missed(o.blend) + 1e-3*effort/s.base.VolumeL; v < least {
			best, least = o, v
		}
	})
	return best
}

// neighbours visits the measures around the exact amounts, with the waters that
// suit each, and the effort of each.
func (s *solver) neighbours(p plan, part float64, visit func(option, float64)) {
	o := option{set: p.set}
	var fill func(i int, blend Blend, effort float64)
	fill = func(i int, blend Blend, effort float64) {
		if i == p.n {
			if s.hasTrace(o) {
				return
			}
			waters, n := s.waters(blend, part)
			for _, w := range waters[:n] {
				o.waterL, o.blend = w, blend.AddWater(w)
				o.violation = s.aim.violation(o.blend)
				all := effort + waterEffort*w
				o.score = s.score(o.set, o.litres, all)
				visit(o, all)
			}
			return
		}
		c := &s.cands[p.of[i]]
		for _, litres := range s.amounts(p.litres[i], c.capL, part) {
			if litres > 0 {
				o.litres[i] = litres
				fill(i+1, blend.Plus(c.one.Times(litres)), effort+c.effort*litres)
			}
		}
	}
	fill(0, s.base, 0)
}

func (s *solver) hasTrace(o option) bool {
	var all float64
	for i := range o.n {
		all += o.litres[i]
	}
	for i := range o.n {
		if o.litres[i] < minShare*all {
			return true
		}
	}
	return false
}

// amounts are whole measures around litres, none above most; unused ones are 0.
func (s *solver) amounts(litres, most, part float64) (out [2*reach + 2]float64) {
	step := s.measures.Step(litres) * part
	for i := range 2*reach + 1 {
		v := whole(litres+float64(i-reach)*step, step)
		v = whole(v, s.measures.Step(v)*part)
		if v <= most {
			out[i] = v
		}
	}
	if litres+step > most {
		out[len(out)-1] = most
	}
	return out
}

// waters are none, the measures of water around what the middle of the moisture
// window asks for, and the least that reaches its low end; n of them.
func (s *solver) waters(b Blend, part float64) (out [5]float64, n int) {
	low, mid := s.full.need(b), s.inner.need(b)
	if mid <= 0 {
		return out, 1
	}
	step := s.measures.WaterStep(mid) * part
	for i := range 3 {
		out[1+i] = max(0, whole(mid+float64(i-1)*step, step))
	}
	if low <= 0 {
		return out, 4
	}
	step = s.measures.WaterStep(low) * part
	out[4] = math.Ceil(low/step-1e-9) * step
	return out, 5
}

func whole(v, step float64) float64 { return math.Round(v/step) * step }
