package mix

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"heapside/calc/measure"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// anyParts are one to four random parts, weighed or by volume.
func anyParts(r *rand.Rand) []Part {
	parts := make([]Part, 1+r.IntN(4))
	for i := range parts {
		parts[i] = litres(anyMaterial(r, i), 1+100*r.Float64())
		if r.IntN(2) == 0 {
			parts[i] = kilos(parts[i].Feedstock, 1+100*r.Float64())
		}
	}
	return parts
}

// law runs a property over a thousand random blends.
func law(t *testing.T, check func(r *rand.Rand, parts []Part, b Blend)) {
	t.Helper()
	r := rand.New(rand.NewPCG(9, 10))
	for range 1000 {
		parts := anyParts(r)
		check(r, parts, Blend{}.Add(parts...))
	}
}

func TestMassIsConserved(t *testing.T) {
	law(t, func(_ *rand.Rand, parts []Part, b Blend) {
		inputs, err := Resolve(parts)
		require.NoError(t, err)
		var mass, volume float64
		for i, in := range inputs {
			mass += in.MassKg
			volume += in.VolumeL
			if parts[i].byMass() {
				require.InEpsilon(t, parts[i].Mass.Typical, in.MassKg, 1e-9)
			}
		}
		require.InEpsilon(t, mass, b.MassKg(), 1e-9)
		require.InEpsilon(t, volume, b.VolumeL, 1e-9)
		require.InEpsilon(t, b.MassKg(), b.WaterKg+b.DryKg, 1e-12)
		require.LessOrEqual(t, b.VolatileKg, b.DryKg)
	})
}

func TestBrownerMaterialNeverLowersCN(t *testing.T) {
	law(t, func(r *rand.Rand, _ []Part, b Blend) {
		f := anyMaterial(r, 9)
		f.Mineral = false
		if b.NitrogenKg == 0 {
			return
		}
		after := b.Plus(mixed(f, 50*r.Float64())).CN()
		if f.CN.Typical >= b.CN() {
			require.GreaterOrEqual(t, after, b.CN()*(1-1e-12))
		} else {
			require.LessOrEqual(t, after, b.CN()*(1+1e-12))
		}
		require.LessOrEqual(t, after, max(f.CN.Typical, b.CN())*(1+1e-12))
	})
}

func TestWaterRaisesMoistureAndNothingElse(t *testing.T) {
	law(t, func(r *rand.Rand, _ []Part, b Blend) {
		wet := b.AddWater(0.1 + 50*r.Float64())
		require.Equal(t, b.CN(), wet.CN())
		require.Equal(t, b.VolumeL, wet.VolumeL)
		require.Greater(t, wet.Moisture(), b.Moisture())
		require.Greater(t, wet.Density(), b.Density())
		require.LessOrEqual(t, wet.Air(), b.Air())
	})
}

func TestMineralsStayOutOfCN(t *testing.T) {
	in := mixed(grass, 20)
	with := in.Plus(mixed(shells, 5))
	assert.Equal(t, in.CN(), with.CN())
	assert.Greater(t, with.DryKg, in.DryKg)
	assert.Greater(t, with.VolumeL, in.VolumeL)
	assert.Zero(t, mixed(shells, 5).CN(), "no nitrogen to divide by")
}

func TestNothingIsZeroAndNeverNaN(t *testing.T) {
	b := Blend{}
	for name, v := range map[string]float64{"C:N": b.CN(), "moisture": b.Moisture(), "density": b.Density(), "air": b.Air()} {
		assert.Zero(t, v, name)
	}
	assert.Equal(t, 0.0, mixed(muck, 1).AddWater(50).Air(), "a drowned blend has no air, not less")
}

func TestProfileIsOrderedAndFinite(t *testing.T) {
	law(t, func(r *rand.Rand, parts []Part, b Blend) {
		if r.IntN(20) > 0 {
			return // sampling is slow: fifty blends do
		}
		p := Describe(parts, 10*r.Float64(), r.Uint64(), minDraws)
		for _, s := range []Stat{p.CN, p.Moisture, p.Density, p.Air} {
			require.False(t, math.IsNaN(s.Typical) || math.IsInf(s.Typical, 0))
			require.LessOrEqual(t, s.Low, s.High)
			// Typical lies among the draws: no further out than their spread.
			width := s.High - s.Low + 1e-6
			require.GreaterOrEqual(t, s.Typical, s.Low-width)
			require.LessOrEqual(t, s.Typical, s.High+width)
		}
		require.GreaterOrEqual(t, p.Holds, 0.0)
		require.LessOrEqual(t, p.Holds, 1.0)
	})
}

func TestDescribeIsTheSameForTheSame(t *testing.T) {
	parts := []Part{litres(grass, 24), litres(leaves, 48), kilos(scraps, 3)}
	parts[0].Volume = measure.Range{Low: 20, Typical: 24, High: 28}
	p := Describe(parts, 2, 42, 0)
	assert.Equal(t, p, Describe(parts, 2, 42, 0))
	assert.NotEqual(t, p, Describe(parts, 2, 43, 0), "the seed matters")
	turned := slices.Clone(parts)
	slices.Reverse(turned)
	assert.Equal(t, p, Describe(turned, 2, 42, 0), "the order of telling does not")
}

func TestDescribeWidensWithTheAmount(t *testing.T) {
	sure := []Part{litres(grass, 24), litres(leaves, 24)}
	vague := slices.Clone(sure)
	vague[0].Volume = measure.Range{Low: 10, Typical: 24, High: 40}
	a, b := Describe(sure, 0, 1, 2000), Describe(vague, 0, 1, 2000)
	assert.Greater(t, b.CN.High-b.CN.Low, a.CN.High-a.CN.Low)
	assert.Equal(t, a.CN.Typical, b.CN.Typical)
}

func TestExactMaterialsHaveNoSpread(t *testing.T) {
	f := stuff("x", 45, 30, 55, 300)
	p := Describe([]Part{litres(f, 10)}, 0, 1, 0)
	assert.InDelta(t, p.CN.Low, p.CN.High, 1e-9)
	assert.InDelta(t, 30, p.CN.Typical, 1e-9)
	assert.Equal(t, 1.0, p.Holds)
}

func TestStatsAreTheTenthAndNinetiethOfHundred(t *testing.T) {
	f := stuff("x", 45, 30, 50, 300)
	f.Moisture.Range = measure.Range{Low: 30, Typical: 50, High: 70}
	p := Describe([]Part{litres(f, 10)}, 0, 1, 20000)
	// The 10 % point of a symmetric triangle lies sqrt(0.2) of the way up its
	// rise: 30 + 20 sqrt(0.2). Own arithmetic.
	assert.InDelta(t, 30+20*math.Sqrt(0.2), p.Moisture.Low, 0.3)
	assert.InDelta(t, 70-20*math.Sqrt(0.2), p.Moisture.High, 0.3)
}

func TestDescribeOfNonsenseIsZero(t *testing.T) {
	for name, parts := range map[string][]Part{
		"nothing": nil, "no amount": {{Feedstock: grass}}, "negative": {litres(grass, -1)}, "not a number": {litres(grass, math.NaN())},
	} {
		t.Run(name, func(t *testing.T) { assert.Zero(t, Describe(parts, 0, 1, 0)) })
	}
	assert.Zero(t, Describe([]Part{litres(grass, 1)}, math.Inf(1), 1, 0), "water without end")
}

func TestTriangularHasItsQuantiles(t *testing.T) {
	// CDF of the triangular distribution, inverted: (x-low)²/(width·rise) = u
	// left of the peak. Own arithmetic.
	r := measure.Range{Low: 10, Typical: 20, High: 50}
	for _, row := range []struct{ u, want float64 }{
		{0, 10}, {0.25, 20}, {1, 50}, {0.0625, 15}, {0.75, 50 - math.Sqrt(0.25*40*30)},
	} {
		assert.InDelta(t, row.want, triangular(r, row.u), 1e-9)
	}
	assert.Equal(t, 7.0, triangular(measure.Exact(7), 0.3))
}
