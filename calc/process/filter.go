package process

import (
	"cmp"
	"math"
	"math/rand/v2"
	"slices"
)

// Shares of the member count (own choice, after common practice): a set of
// weights worth less than half of the members is resampled (the common rule,
// from memory), and no stage of an update leaves less than a third.
const (
	resampleShare = 1.0 / 2
	stageShare    = 1.0 / 3
)

// cloud is a bootstrap particle filter (Gordon, Salmond & Smith 1993) with
// systematic resampling (Kitagawa 1996) over members of any type. Weights are
// carried between updates and sum to 1. Randomness comes in with each call, so
// that the same calls give the same members.
type cloud[M any] struct {
	members []M
	weight  []float64
	shake   *shake[M] // nil: members are copied as they are

	spare   []M
	logLik  []float64
	trial   []float64
	logMean float64 // sum over updates of the log of the mean likelihood
}

func newCloud[M any](members []M, s *shake[M]) *cloud[M] {
	n := len(members)
	c := &cloud[M]{
		members: members, shake: s,
		weight: make([]float64, n), spare: make([]M, n),
		logLik: make([]float64, n), trial: make([]float64, n),
	}
	c.level()
	return c
}

// level makes all weights equal.
func (c *cloud[M]) level() {
	for i := range c.weight {
		c.weight[i] = 1 / float64(len(c.weight))
	}
}

// update weighs the members by the log likelihood of one observation, part of
// it at a time so that the effective number of members stays above a third of
// them, and resamples after each part that was not the whole. An observation
// impossible for every member changes nothing and returns false.
func (c *cloud[M]) update(logLik func(*M) float64, r *rand.Rand) bool {
	n := float64(len(c.members))
	for left := 1.0; left > 1e-9; {
		highest := c.evaluate(logLik)
		if math.IsInf(highest, -1) {
			return false
		}
		part := c.part(left, highest)
		c.logMean += part*highest + math.Log(c.weighted(part, highest))
		normalise(c.trial)
		copy(c.weight, c.trial)
		left -= part
		if left > 1e-9 || effective(c.weight) < n*resampleShare {
			c.resample(r)
		}
	}
	return true
}

// evaluate fills logLik and returns the highest; NaN counts as impossible.
func (c *cloud[M]) evaluate(logLik func(*M) float64) float64 {
	highest := math.Inf(-1)
	for i := range c.members {
		l := logLik(&c.members[i])
		if math.IsNaN(l) {
			l = math.Inf(-1)
		}
		c.logLik[i] = l
		highest = max(highest, l)
	}
	return highest
}

// part is the largest share of what is left of the likelihood that keeps
// enough effective members; never so small that the update would not end.
func (c *cloud[M]) part(left, highest float64) float64 {
	enough := float64(len(c.members)) * stageShare
	keeps := func(part float64) bool {
		c.weighted(part, highest)
		return effective(c.trial) >= enough
	}
	if keeps(left) {
		return left
	}
	low, high := 0.0, left
	for range 30 {
		mid := (low + high) / 2
		if keeps(mid) {
			low = mid
		} else {
			high = mid
		}
	}
	return min(left, max(low, 1e-3))
}

// weighted fills trial with the weights after a part of the likelihood, scaled
// by the highest, and returns their sum.
func (c *cloud[M]) weighted(part, highest float64) float64 {
	sum := 0.0
	for i, w := range c.weight {
		c.trial[i] = w * math.Exp(part*(c.logLik[i]-highest))
		sum += c.trial[i]
	}
	return sum
}

// resample draws members by weight, evenly spaced from one random start, and
// shakes their parameters.
func (c *cloud[M]) resample(r *rand.Rand) { c.draw(len(c.members), r) }

// thin goes on with n members, no more than there are.
func (c *cloud[M]) thin(n int, r *rand.Rand) {
	c.draw(min(n, len(c.members)), r)
	c.spare, c.weight, c.logLik, c.trial = c.spare[:n], c.weight[:n], c.logLik[:n], c.trial[:n]
	c.level()
}

func (c *cloud[M]) draw(n int, r *rand.Rand) {
	if c.shake != nil {
		c.shake.learn(c.members, c.weight)
	}
	at, sum := 0, c.weight[0]
	start := r.Float64()
	for k := range n {
		for point := (start + float64(k)) / float64(n); point > sum && at < len(c.members)-1; {
			at++
			sum += c.weight[at]
		}
		c.spare[k] = c.members[at]
	}
	c.members, c.spare = c.spare[:n], c.members
	c.level()
	if c.shake != nil {
		for i := range c.members {
			c.shake.one(&c.members[i], r)
		}
	}
}

// effective is the number of equal weights that w is worth, for weights of any sum.
func effective(w []float64) float64 {
	var sum, squares float64
	for _, v := range w {
		sum += v
		squares += v * v
	}
	if squares == 0 {
		return 0
	}
	return sum * sum / squares
}

func normalise(w []float64) {
	sum := 0.0
	for _, v := range w {
		sum += v
	}
	for i := range w {
		w[i] /= sum
	}
}

// shrink is how far parameters keep their own value at each resampling: Liu &
// West 2001 with discount 0.98 (seen as usual range 0.95-0.99; formula from
// memory), a = (3*0.98-1)/(2*0.98).
const shrink = 0.98979

// shake pulls the parameters of resampled members toward their common mean and
// scatters them by as much as the pull narrowed them (Liu & West 2001).
type shake[M any] struct {
	get func(*M, []float64) // the parameters on an unbounded scale
	set func(*M, []float64)

	mean, spread, own []float64
}

func newShake[M any](dim int, get, set func(*M, []float64)) *shake[M] {
	return &shake[M]{get: get, set: set,
		mean: make([]float64, dim), spread: make([]float64, dim), own: make([]float64, dim)}
}

// learn takes the weighted mean and standard deviation of the parameters.
func (s *shake[M]) learn(members []M, weight []float64) {
	clear(s.mean)
	clear(s.spread)
	for i := range members {
		s.get(&members[i], s.own)
		for j, v := range s.own {
			s.mean[j] += weight[i] * v
		}
	}
	for i := range members {
		s.get(&members[i], s.own)
		for j, v := range s.own {
			s.spread[j] += weight[i] * (v - s.mean[j]) * (v - s.mean[j])
		}
	}
	for j := range s.spread {
		s.spread[j] = math.Sqrt(s.spread[j])
	}
}

func (s *shake[M]) one(m *M, r *rand.Rand) {
	s.get(m, s.own)
	scatter := math.Sqrt(1 - shrink*shrink)
	for j := range s.own {
		s.own[j] = shrink*s.own[j] + (1-shrink)*s.mean[j] + scatter*s.spread[j]*r.NormFloat64()
	}
	s.set(m, s.own)
}

// Band is three quantiles of what the members say: a tenth lie below Low, half
// below Mid, a tenth above High.
type Band struct{ Low, Mid, High float64 }

// point is one value with its weight.
type point struct{ value, weight float64 }

// band is the 10, 50 and 90 % quantiles of weighted points, which it sorts.
// Points without weight or value do not count.
func band(points []point) Band {
	points = slices.DeleteFunc(points, func(p point) bool { return !(p.weight > 0) || math.IsNaN(p.value) })
	slices.SortFunc(points, func(a, b point) int { return cmp.Compare(a.value, b.value) })
	return Band{quantile(points, 0.1), quantile(points, 0.5), quantile(points, 0.9)}
}

// quantile is where the cumulated weight of sorted points reaches q, straight
// between the middles of neighbouring weights.
func quantile(sorted []point, q float64) float64 {
	total := 0.0
	for _, p := range sorted {
		total += p.weight
	}
	target, before := q*total, 0.0
	for i, p := range sorted {
		middle := before + p.weight/2
		if middle >= target {
			if i == 0 {
				return p.value
			}
			last := sorted[i-1]
			from := before - last.weight/2
			return last.value + (p.value-last.value)*(target-from)/(middle-from)
		}
		before += p.weight
	}
	if len(sorted) == 0 {
		return math.NaN()
	}
	return sorted[len(sorted)-1].value
}
