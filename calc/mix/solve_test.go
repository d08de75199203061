package mix

import (
	"math"
	"slices"
	"testing"

	"heapside/calc/fault"
	"heapside/calc/feedstock"
	"heapside/calc/measure"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func mustSolve(t *testing.T, req Request) Answer {
	t.Helper()
	a, err := Solve(req)
	require.NoError(t, err)
	req.Aim = req.Aim.filled()
	for _, r := range a.Recipes {
		require.True(t, r.Feasible)
		requireSound(t, req, r)
	}
	return a
}

func added(r Recipe) (ids []string) {
	for _, a := range r.Additions {
		ids = append(ids, a.Feedstock.ID)
	}
	return ids
}

func TestSolveInTheGarden(t *testing.T) {
	browns := offered(leaves, straw, cardboard)
	for _, row := range []struct {
		name   string
		inputs []Part
		cands  []Candidate
		first  []string
		water  bool
	}{
		{"nothing to add", []Part{litres(grass, 30), litres(leaves, 68)}, browns, nil, false},
		{"water alone", []Part{litres(stuff("hay", 45, 30, 14, 40), 100)}, browns, nil, true},
		{"wet and green wants a dry brown", []Part{litres(grass, 24)}, browns, []string{"leaves"}, false},
		{"dry and brown wants a green", []Part{litres(leaves, 200)}, offered(grass, straw), []string{"grass"}, false},
		{"very brown and dry wants a green and water", []Part{litres(cardboard, 100)}, offered(stuff("dry-green", 45, 12, 30, 300)), []string{"dry-green"}, true},
	} {
		t.Run(row.name, func(t *testing.T) {
			a := mustSolve(t, Request{Inputs: row.inputs, Candidates: row.cands})
			require.NotEmpty(t, a.Recipes)
			assert.Equal(t, row.first, added(a.Recipes[0]))
			assert.Equal(t, row.water, a.Recipes[0].WaterL > 0)
			assert.Nil(t, a.Closest)
			assert.Empty(t, a.Short)
			assert.Len(t, a.Inputs, len(row.inputs))
		})
	}
}

func TestAmountsAreWholeMeasures(t *testing.T) {
	for _, m := range []measure.Measures{{}, {System: measure.US}, {Sizes: map[string]float64{"bucket": 14}}} {
		a := mustSolve(t, Request{Inputs: []Part{litres(grass, 60)}, Candidates: offered(leaves, straw, scraps), Measures: m})
		require.NotEmpty(t, a.Recipes)
		for _, r := range a.Recipes {
			for _, add := range r.Additions {
				steps := add.VolumeL / m.Step(add.VolumeL)
				assert.InDelta(t, math.Round(steps), steps, 1e-6, "%g L of %s", add.VolumeL, add.Feedstock.ID)
			}
			steps := r.WaterL / m.WaterStep(r.WaterL)
			assert.InDelta(t, math.Round(steps), steps, 1e-6)
		}
	}
}

func TestAlternativesAreDifferentMaterials(t *testing.T) {
	oak, beech := leaves, leaves
	oak.ID, beech.ID = "leaves-oak", "leaves-beech"
	beech.CN.Typical *= 1.02
	a := mustSolve(t, Request{Inputs: []Part{litres(scraps, 40)}, Candidates: offered(oak, beech, straw, cardboard)})
	require.Greater(t, len(a.Recipes), 1)
	kin := map[byte]bool{}
	for _, r := range a.Recipes {
		require.NotEmpty(t, r.Additions)
		main := r.Additions[0].Feedstock.ID[0]
		assert.False(t, kin[main], "two answers of one kind: %v", added(r))
		kin[main] = true
	}
	a = mustSolve(t, Request{Inputs: []Part{litres(scraps, 40)}, Candidates: offered(oak, straw, cardboard), Alternatives: 1})
	assert.Len(t, a.Recipes, 1)
}

func TestEverydayMaterialsComeFirst(t *testing.T) {
	rare := straw
	rare.ID, rare.Everyday = "asparagus", 1
	a := mustSolve(t, Request{Inputs: []Part{litres(scraps, 40)}, Candidates: offered(rare, straw)})
	assert.Equal(t, []string{"straw"}, added(a.Recipes[0]))
	// What the group has in stock needs no fetching, however rare.
	cands := offered(rare)
	cands[0].MaxL = 500
	a = mustSolve(t, Request{Inputs: []Part{litres(scraps, 40)}, Candidates: cands})
	assert.Equal(t, []string{"asparagus"}, added(a.Recipes[0]))
}

func TestNearEqualPrefersWhatHolds(t *testing.T) {
	sure, vague := leaves, leaves
	sure.ID, vague.ID = "sure", "vague"
	vague.CN.Low, vague.CN.High = 15, 150
	vague.Density.Low, vague.Density.High = 30, 250
	vague.Density.Typical *= 1.15 // a little less to carry
	a := mustSolve(t, Request{Inputs: []Part{litres(grass, 24)}, Candidates: offered(vague, sure)})
	require.NotEmpty(t, a.Recipes)
	assert.Equal(t, []string{"sure"}, added(a.Recipes[0]))
	require.Greater(t, len(a.Recipes), 1)
	assert.Less(t, a.Recipes[1].Additions[0].VolumeL, a.Recipes[0].Additions[0].VolumeL, "the vague one is less to carry")
	assert.Greater(t, a.Recipes[0].After.Holds, a.Recipes[1].After.Holds)
}

func TestSlowCarbonComesLater(t *testing.T) {
	// Exact materials hold equally, so effort decides; chips are less to carry.
	exact, chips := stuff("straw", 46, 80, 12, 40), stuff("chips", 46, 80, 12, 46)
	req := Request{Inputs: []Part{litres(stuff("wet", 48, 18, 76, 320), 40)}, Candidates: offered(chips, exact)}
	assert.Equal(t, []string{"chips"}, added(mustSolve(t, req).Recipes[0]))
	req.Candidates[0].Feedstock.Degradable.Range = measure.Exact(0.2)
	assert.Equal(t, []string{"straw"}, added(mustSolve(t, req).Recipes[0]))
}

func TestOutOfReach(t *testing.T) {
	everything := []feedstock.Feedstock{grass, scraps, leaves, straw, muck}
	t.Run("too wet with only wet things", func(t *testing.T) {
		a := mustSolve(t, Request{Inputs: []Part{litres(grass, 24)}, Candidates: offered(scraps, muck), Everything: everything})
		require.Empty(t, a.Recipes)
		require.NotNil(t, a.Closest)
		assert.False(t, a.Closest.Feasible)
		assert.Zero(t, a.Closest.WaterL, "water never mends what is too wet")
		assert.Contains(t, a.Short, "still too wet: ")
		assert.Contains(t, a.Short, "aim 50 to 60 %")
		require.NotNil(t, a.Fix)
		assert.True(t, a.Fix.Feasible)
		assert.Contains(t, []string{"leaves", "straw"}, a.Fix.Additions[0].Feedstock.ID)
	})
	t.Run("too brown with only browns", func(t *testing.T) {
		a := mustSolve(t, Request{Inputs: []Part{litres(straw, 200)}, Candidates: offered(leaves, cardboard), Everything: everything})
		assert.Contains(t, a.Short, "still too brown: C:N ")
		assert.Positive(t, a.Closest.WaterL, "it mends at least the moisture")
		require.NotNil(t, a.Fix)
		assert.True(t, a.Fix.Feasible)
	})
	t.Run("nothing to add it with", func(t *testing.T) {
		a := mustSolve(t, Request{Inputs: []Part{litres(grass, 24)}})
		require.NotNil(t, a.Closest)
		assert.Empty(t, a.Closest.Additions)
		assert.Nil(t, a.Fix, "nothing else is known")
		assert.Equal(t, "still too wet: 80 %, aim 50 to 60 %; still too green: C:N 17, aim 25 to 35", a.Short)
	})
	t.Run("stock too small, and more of it would do", func(t *testing.T) {
		cands := offered(leaves)
		cands[0].MaxL = 20
		a := mustSolve(t, Request{Inputs: []Part{litres(grass, 100)}, Candidates: cands, Everything: []feedstock.Feedstock{leaves}})
		require.Empty(t, a.Recipes)
		assert.LessOrEqual(t, a.Closest.Additions[0].VolumeL, 20.0)
		require.NotNil(t, a.Fix)
		assert.Equal(t, []string{"leaves"}, added(*a.Fix))
		assert.Greater(t, a.Fix.Additions[0].VolumeL, 20.0)
	})
	t.Run("a fix beside what is in stock", func(t *testing.T) {
		// Very wet, so leaves alone turn it brown before it is dry enough.
		soup := stuff("soup", 45, 19, 88, 350)
		cands := offered(stuff("grounds", 50, 20, 60, 400))
		cands[0].MaxL = 40
		req := Request{Inputs: []Part{litres(soup, 24)}, Candidates: cands, Everything: []feedstock.Feedstock{leaves}}
		require.Empty(t, mustSolve(t, Request{Inputs: req.Inputs, Candidates: offered(leaves)}).Recipes, "leaves alone do: the case shows nothing")
		a := mustSolve(t, req)
		require.NotNil(t, a.Fix)
		assert.Equal(t, []string{"leaves", "grounds"}, added(*a.Fix))
	})
	t.Run("a fix that is never suggested", func(t *testing.T) {
		hidden := leaves
		hidden.Everyday = 0
		a := mustSolve(t, Request{Inputs: []Part{litres(grass, 100)}, Everything: []feedstock.Feedstock{hidden}})
		assert.Nil(t, a.Fix)
	})
}

func TestAimChangedByThePerson(t *testing.T) {
	req := Request{Inputs: []Part{litres(grass, 48)}, Candidates: offered(leaves, straw, cardboard)}
	req.Aim.CN = around(40)
	a := mustSolve(t, req)
	require.NotEmpty(t, a.Recipes)
	assert.InDelta(t, 40, a.Recipes[0].After.CN.Typical, 5)
	req.Aim = Aim{Moisture: around(65)}
	a = mustSolve(t, req)
	require.NotEmpty(t, a.Recipes)
	assert.InDelta(t, 65, a.Recipes[0].After.Moisture.Typical, 5)
}

func TestTheWholeAnswerIsDeterminedByTheRequest(t *testing.T) {
	req := Request{
		Inputs:     []Part{litres(grass, 24), kilos(scraps, 4), litres(leaves, 10)},
		Candidates: offered(leaves, straw, cardboard, muck), Seed: 7,
	}
	first := mustSolve(t, req)
	assert.Equal(t, first, mustSolve(t, req))
	turned := req
	turned.Inputs, turned.Candidates = slices.Clone(req.Inputs), slices.Clone(req.Candidates)
	slices.Reverse(turned.Inputs)
	slices.Reverse(turned.Candidates)
	other := mustSolve(t, turned)
	slices.Reverse(other.Inputs)
	assert.Equal(t, first, other, "the order of telling does not matter")
	twice := req
	twice.Candidates = append(slices.Clone(req.Candidates), req.Candidates...)
	assert.Equal(t, first, mustSolve(t, twice), "nor does naming a material twice")
}

func TestTenTimesTheInputsTakeTenTimesTheRecipe(t *testing.T) {
	for _, litre := range []float64{24, 60, 240} {
		small := mustSolve(t, Request{Inputs: []Part{litres(grass, litre)}, Candidates: offered(leaves)}).Recipes[0]
		large := mustSolve(t, Request{Inputs: []Part{litres(grass, 10*litre)}, Candidates: offered(leaves)}).Recipes[0]
		// Within the rounding to whole measures of both.
		assert.InEpsilon(t, 10, large.Additions[0].VolumeL/small.Additions[0].VolumeL, 0.2)
	}
	// Before rounding it is exact.
	for _, scale := range []float64{1, 10, 1000} {
		base := mixed(grass, scale)
		cands, err := candidates(offered(leaves), base.VolumeL)
		require.NoError(t, err)
		p := newSolver(base, cands, DefaultAim(), measure.Measures{}).singles()
		require.Len(t, p, 1)
		one, err := candidates(offered(leaves), 1)
		require.NoError(t, err)
		q := newSolver(mixed(grass, 1), one, DefaultAim(), measure.Measures{}).singles()
		assert.InEpsilon(t, scale*q[0].litres[0], p[0].litres[0], 1e-9)
	}
}

func TestATableOfThimblesAndOfWindrows(t *testing.T) {
	for _, litre := range []float64{0.02, 0.3, 2, 5e5} {
		a := mustSolve(t, Request{Inputs: []Part{litres(grass, litre)}, Candidates: offered(leaves, cardboard, straw)})
		assert.NotEmpty(t, a.Recipes, "%g litres", litre)
	}
}

func TestBadRequests(t *testing.T) {
	one := []Part{litres(grass, 10)}
	bent := func(change func(*feedstock.Feedstock)) []Part {
		f := grass
		change(&f)
		return []Part{litres(f, 10)}
	}
	nan := math.NaN()
	for _, row := range []struct {
		name string
		req  Request
		code fault.Code
	}{
		{"no inputs", Request{}, fault.Missing},
		{"no amount", Request{Inputs: []Part{{Feedstock: grass}}}, fault.OutOfRange},
		{"zero", Request{Inputs: []Part{litres(grass, 0)}}, fault.OutOfRange},
		{"negative", Request{Inputs: []Part{kilos(grass, -3)}}, fault.OutOfRange},
		{"not a number", Request{Inputs: []Part{litres(grass, nan)}}, fault.OutOfRange},
		{"endless", Request{Inputs: []Part{litres(grass, math.Inf(1))}}, fault.OutOfRange},
		{"absurd", Request{Inputs: []Part{litres(grass, 1e9)}}, fault.OutOfRange},
		{"ends out of order", Request{Inputs: []Part{{Feedstock: grass, Volume: measure.Range{Low: 3, Typical: 2, High: 1}}}}, fault.OutOfRange},
		{"both volume and mass", Request{Inputs: []Part{{Feedstock: grass, Volume: measure.Exact(1), Mass: measure.Exact(1)}}}, fault.NotUnderstood},
		{"no density", Request{Inputs: bent(func(f *feedstock.Feedstock) { f.Density.Range = measure.Range{} })}, fault.OutOfRange},
		{"no C:N", Request{Inputs: bent(func(f *feedstock.Feedstock) { f.CN.Range = measure.Range{} })}, fault.OutOfRange},
		{"moisture above 100", Request{Inputs: bent(func(f *feedstock.Feedstock) { f.Moisture.High = 101 })}, fault.OutOfRange},
		{"moisture not a number", Request{Inputs: bent(func(f *feedstock.Feedstock) { f.Moisture.Typical = nan })}, fault.OutOfRange},
		{"only minerals", Request{Inputs: []Part{litres(shells, 3)}}, fault.Missing},
		{"candidate without density", Request{Inputs: one, Candidates: offered(feedstock.Feedstock{ID: "x"})}, fault.OutOfRange},
		{"negative stock", Request{Inputs: one, Candidates: []Candidate{{leaves, -1}}}, fault.OutOfRange},
		{"C:N upside down", Request{Inputs: one, Aim: Aim{CN: Window{35, 30, 25}}}, fault.OutOfRange},
		{"C:N absurd", Request{Inputs: one, Aim: Aim{CN: Window{300, 320, 340}}}, fault.OutOfRange},
		{"C:N a hair wide", Request{Inputs: one, Aim: Aim{CN: Window{30, 30, 30}}}, fault.OutOfRange},
		{"moisture not a number as aim", Request{Inputs: one, Aim: Aim{Moisture: Window{50, nan, 60}}}, fault.OutOfRange},
		{"moisture of soup", Request{Inputs: one, Aim: Aim{Moisture: Window{90, 92, 95}}}, fault.OutOfRange},
		{"density not a number", Request{Inputs: one, Aim: Aim{MaxDensity: nan}}, fault.OutOfRange},
		{"all air", Request{Inputs: one, Aim: Aim{MinAir: 99}}, fault.OutOfRange},
	} {
		t.Run(row.name, func(t *testing.T) {
			_, err := Solve(row.req)
			f, ok := fault.As(err)
			require.True(t, ok, "%v", err)
			assert.Equal(t, row.code, f.Code)
			assert.NotContains(t, f.Message, "%!")
			assert.Contains(t, f.Message, " ")
		})
	}
}
