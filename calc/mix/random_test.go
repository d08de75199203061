package mix

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"heapside/calc/fault"
	"heapside/calc/feedstock"
	"heapside/calc/measure"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// tally adds up a blend from the definitions, apart from the code under test.
type tally struct{ mass, water, carbon, nitrogen, volume, organic, ash float64 }

func (a *tally) add(p Part, litres float64) {
	f := p.Feedstock
	mass := litres * f.Density.Typical / 1000
	dry := mass * (1 - f.Moisture.Typical/100)
	a.mass += mass
	a.water += mass - dry
	a.volume += litres
	a.organic += dry * f.Volatile.Typical / 100
	a.ash += dry * (1 - f.Volatile.Typical/100)
	if !f.Mineral {
		a.carbon += dry * f.Carbon.Typical / 100
		a.nitrogen += dry * f.Carbon.Typical / 100 / f.CN.Typical
	}
}

// miss is how far the worst measure is outside the aim, in its own unit.
func (a *tally) miss(aim Aim) float64 {
	cn, wet := a.carbon/a.nitrogen, 100*a.water/a.mass
	air := 100 * (1 - (a.water/1+a.organic/1.6+a.ash/2.5)/a.volume)
	return max(aim.CN.Low-cn, cn-aim.CN.High, aim.Moisture.Low-wet, wet-aim.Moisture.High,
		1000*a.mass/a.volume-aim.MaxDensity, aim.MinAir-air)
}

func tallied(req Request, r Recipe) tally {
	var sum tally
	for _, p := range req.Inputs {
		sum.add(p, p.Volume.Typical+1000*p.Mass.Typical/p.Feedstock.Density.Typical)
	}
	for _, a := range r.Additions {
		sum.add(Part{Feedstock: a.Feedstock}, a.VolumeL)
	}
	sum.water += r.WaterL
	sum.mass += r.WaterL
	return sum
}

func requireSound(t *testing.T, req Request, r Recipe) {
	t.Helper()
	sum := tallied(req, r)
	require.LessOrEqual(t, sum.miss(req.Aim), 1e-6, "a recipe called feasible is not: %+v", r)
	require.LessOrEqual(t, len(r.Additions), maxAdditions)
	require.GreaterOrEqual(t, r.WaterL, 0.0)
	require.InDelta(t, sum.carbon/sum.nitrogen, r.After.CN.Typical, 1e-6)
	require.InDelta(t, 100*sum.water/sum.mass, r.After.Moisture.Typical, 1e-6)
	carry, added := r.WaterL, 0.0
	for _, a := range r.Additions {
		added += a.VolumeL
		carry += a.MassKg
	}
	require.InDelta(t, carry, r.CarryKg, 1e-9)
	seen := map[string]bool{}
	for _, a := range r.Additions {
		require.False(t, seen[a.Feedstock.ID])
		seen[a.Feedstock.ID] = true
		require.GreaterOrEqual(t, a.VolumeL, minShare*added, "a trace of %s", a.Feedstock.ID)
		for _, c := range req.Candidates {
			if c.Feedstock.ID == a.Feedstock.ID && c.MaxL > 0 {
				require.LessOrEqual(t, a.VolumeL, c.MaxL)
			}
		}
	}
}

// clear is an amount that meets the aim with room on every side, found by
// trying singles and pairs with water on a grid; nil when the grid has none.
func clear(req Request) *Recipe {
	inner := req.Aim
	inner.CN = Window{inner.CN.Low + 1.5, inner.CN.Aim, inner.CN.High - 1.5}
	inner.Moisture = Window{inner.Moisture.Low + 1.5, inner.Moisture.Aim, inner.Moisture.High - 1.5}
	inner.MaxDensity *= 0.95
	inner.MinAir += 2
	var base float64
	for _, p := range req.Inputs {
		base += p.Volume.Typical
	}
	try := func(r Recipe) *Recipe {
		for w := range 14 {
			r.WaterL = base * 0.04 * float64(w*w) / 4
			if sum := tallied(req, r); sum.miss(inner) <= 0 {
				return &r
			}
		}
		return nil
	}
	amounts := func(c Candidate) []float64 {
		var out []float64
		for v := 0.05 * base; v <= 15*base && (c.MaxL == 0 || v <= c.MaxL); v *= 1.35 {
			out = append(out, v)
		}
		return out
	}
	for i, c := range req.Candidates {
		for _, v := range amounts(c) {
			one := Addition{Feedstock: c.Feedstock, VolumeL: v}
			if r := try(Recipe{Additions: []Addition{one}}); r != nil {
				return r
			}
			for _, d := range req.Candidates[i+1:] {
				for _, w := range amounts(d) {
					if math.Min(v, w) < 0.06*(v+w) {
						continue
					}
					if r := try(Recipe{Additions: []Addition{one, {Feedstock: d.Feedstock, VolumeL: w}}}); r != nil {
						return r
					}
				}
			}
		}
	}
	return nil
}

func TestTenThousandRandomRequests(t *testing.T) {
	r := rand.New(rand.NewPCG(5, 6))
	solved, unsolved, cleared, seen := 0, 0, 0, 0
	for i := range 10_000 {
		req := anyRequest(r, 5)
		a, err := Solve(req)
		if err != nil {
			require.ErrorContains(t, err, "will not rot")
			continue
		}
		if len(a.Recipes) > 0 {
			solved++
			for _, recipe := range a.Recipes {
				require.True(t, recipe.Feasible)
				requireSound(t, req, recipe)
			}
			if solved%40 == 0 && clear(req) != nil {
				seen++
			}
			continue
		}
		unsolved++
		require.NotNil(t, a.Closest)
		require.False(t, a.Closest.Feasible)
		require.NotEmpty(t, a.Short)
		if unsolved%4 == 0 {
			cleared++
			if found := clear(req); found != nil {
				require.Fail(t, "missed", "case %d: the grid found %+v with %g water, closest was %q", i, found.Additions, found.WaterL, a.Short)
			}
		}
	}
	t.Logf("%d solved, %d out of reach, %d of them searched by grid; the grid finds %d of %d solved ones", solved, unsolved, cleared, seen, solved/40)
	assert.Greater(t, solved, 2000)
	assert.Greater(t, cleared, 500)
	assert.Greater(t, seen, solved/40/4, "a grid that finds nothing would prove nothing")
}

// TestExtremeMaterialsNeverGiveNaN draws properties out to the ends of what is
// accepted; nothing that comes back may be other than finite, or unsound.
func TestExtremeMaterialsNeverGiveNaN(t *testing.T) {
	r := rand.New(rand.NewPCG(11, 12))
	end := func(low, high float64) feedstock.Property {
		a, b, c := low+(high-low)*r.Float64(), low+(high-low)*r.Float64(), low+(high-low)*r.Float64()
		if r.IntN(3) == 0 {
			a = low
		}
		if r.IntN(3) == 0 {
			c = high
		}
		v := []float64{a, b, c}
		slices.Sort(v)
		return feedstock.Property{Range: measure.Range{Low: v[0], Typical: v[1], High: v[2]}}
	}
	extreme := func(id string) feedstock.Feedstock {
		return feedstock.Feedstock{ID: id, Name: id, Carbon: end(0.1, 100), CN: end(0.1, 5000), Moisture: end(0, 100),
			Density: end(1, 3000), Volatile: end(0, 100), Everyday: r.IntN(4), Mineral: r.IntN(5) == 0}
	}
	for range 300 {
		req := Request{Aim: DefaultAim(), Draws: minDraws}
		for _, id := range []string{"a", "b"} {
			p := litres(extreme(id), math.Exp(30*r.Float64()-16))
			req.Inputs = append(req.Inputs, p)
		}
		for _, id := range []string{"c", "d", "e"} {
			req.Candidates = append(req.Candidates, Candidate{Feedstock: extreme(id)})
		}
		req.Everything = append(req.Everything, extreme("f"), extreme("g"))
		a, err := Solve(req)
		if err != nil {
			_, ok := fault.As(err)
			require.True(t, ok, "%v", err)
			continue
		}
		profiles := []Profile{a.Before}
		for _, recipe := range a.Recipes {
			requireSound(t, req, recipe)
			profiles = append(profiles, recipe.After)
		}
		for _, recipe := range []*Recipe{a.Closest, a.Fix} {
			if recipe != nil {
				profiles = append(profiles, recipe.After)
			}
		}
		for _, p := range profiles {
			for _, s := range []Stat{p.CN, p.Moisture, p.Density, p.Air} {
				sum := s.Low + s.Typical + s.High
				require.False(t, math.IsNaN(sum) || math.IsInf(sum, 0), "%+v", p)
			}
		}
	}
}
