package mix

import (
	"testing"

	"heapside/calc/measure"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestContentIsTheHeapItStandsFor(t *testing.T) {
	parts := []Part{litres(grass, 200), litres(leaves, 300), kilos(scraps, 20), litres(shells, 1)}
	c := Content("what is in North Bay", parts, nil)
	require.NoError(t, c.check())
	assert.Equal(t, "what is in North Bay", c.Feedstock.Name)
	assert.Zero(t, c.Feedstock.Everyday, "a heap is never something to fetch")

	want, got := Describe(parts, 0, 1, 4000), Describe([]Part{c}, 0, 1, 4000)
	in, err := Resolve(parts)
	require.NoError(t, err)
	assert.InEpsilon(t, volume(in), c.Volume.Typical, 1e-9)
	for name, s := range map[string][2]Stat{
		"C:N": {want.CN, got.CN}, "moisture": {want.Moisture, got.Moisture}, "density": {want.Density, got.Density}, "air": {want.Air, got.Air},
	} {
		assert.InEpsilon(t, s[0].Typical, s[1].Typical, 1e-9, name)
		// The fold keeps the 10 and 90 % points, but for what is skewed or moves
		// together in the parts.
		assert.InDelta(t, s[0].Low, s[1].Low, 0.2*(s[0].High-s[0].Low), name)
		assert.InDelta(t, s[0].High, s[1].High, 0.2*(s[0].High-s[0].Low), name)
	}
}

func TestSqueezeTestReplacesTheMoisture(t *testing.T) {
	parts := []Part{litres(grass, 200), litres(leaves, 300)}
	dry, wet := Content("bay", parts, nil), Content("bay", parts, &measure.Range{Low: 66, Typical: 70, High: 75})
	a, b := Blend{}.Add(dry), Blend{}.Add(wet)
	assert.InDelta(t, 70, b.Moisture(), 1e-9)
	assert.InEpsilon(t, a.DryKg, b.DryKg, 1e-9, "water moved, dry matter did not")
	assert.InEpsilon(t, a.VolumeL, b.VolumeL, 1e-9)
	assert.InEpsilon(t, a.CN(), b.CN(), 1e-9)
	for name, r := range map[string]measure.Range{"below nothing": {Low: -5, Typical: 1, High: 2}, "upside down": {Low: 60, Typical: 50, High: 40}} {
		assert.Equal(t, dry, Content("bay", parts, &r), name)
	}
}

func TestContentCanBeMended(t *testing.T) {
	tooBrown := Content("bay", []Part{litres(leaves, 500), litres(straw, 200)}, nil)
	a := mustSolve(t, Request{Inputs: []Part{tooBrown}, Candidates: offered(grass, leaves)})
	require.NotEmpty(t, a.Recipes)
	assert.Equal(t, []string{"grass"}, added(a.Recipes[0]))

	soaked := Content("bay", []Part{litres(grass, 100), litres(leaves, 150)}, &measure.Range{Low: 66, Typical: 70, High: 75})
	a = mustSolve(t, Request{Inputs: []Part{soaked}, Candidates: offered(stuff("dry", 45, 30, 10, 80), grass)})
	require.NotEmpty(t, a.Recipes)
	assert.Equal(t, []string{"dry"}, added(a.Recipes[0]))
	assert.Zero(t, a.Recipes[0].WaterL)
}

func TestContentOfNothing(t *testing.T) {
	assert.Zero(t, Content("bay", nil, nil))
	_, err := Solve(Request{Inputs: []Part{Content("bay", nil, nil)}})
	require.Error(t, err)
}

func TestContentOfMineralsAlone(t *testing.T) {
	c := Content("ash bin", []Part{litres(shells, 10)}, nil)
	assert.True(t, c.Feedstock.Mineral)
	require.NoError(t, c.check())
}
