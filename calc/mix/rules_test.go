package mix

import (
	"fmt"
	"testing"

	"heapside/calc/feedstock"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// TestGrassAndLeafExperiment is MICHEL1993: leaves at C:N 48; two thirds leaves
// and one third grass by dry mass came to 30, one third and two thirds to 22.
// Equal carbon is our own reading; grass at 17.1 then follows from the 30.
func TestGrassAndLeafExperiment(t *testing.T) {
	blend := func(leaf, grass float64) float64 {
		return Blend{}.Add(of("leaf", leaf, 0, 44, 44.0/48), of("grass", grass, 0, 44, 44/17.1)).CN()
	}
	assert.InDelta(t, 48, mixed(stuff("leaf", 44, 48, 0, 100), 1).CN(), 1e-9)
	assert.InDelta(t, 30, blend(2, 1), 0.5)
	assert.InDelta(t, 22, blend(1, 2), 0.5)
}

// Handbook and loose-bucket properties: C:N and moisture NRCS, moisture of straw
// and cardboard and all densities of set H from memory (NRAES-54), densities of
// set L SWOLF, Rutgers, EPA and for crisp leaves own choice; carbon SWOLF, of
// straw AFSETOOLS.
var (
	handbook = map[string]feedstock.Feedstock{
		"grass":     stuff("grass", 44.8, 17, 82, 208),
		"leaves":    stuff("leaves", 43.7, 54, 38, 119),
		"straw":     stuff("straw", 45.8, 80, 12, 135),
		"cardboard": stuff("cardboard", 40.7, 563, 8, 154),
	}
	bucketful = map[string]feedstock.Feedstock{
		"grass":     stuff("grass", 44.8, 17, 82, 250),
		"leaves":    stuff("leaves", 43.7, 54, 15, 60),
		"straw":     stuff("straw", 45.8, 80, 9.7, 40),
		"cardboard": stuff("cardboard", 40.7, 563, 8, 59),
	}
)

// TestVolumeRules holds tables of green to brown by volume, C:N and moisture.
// They are own arithmetic on the properties above, done apart from this code.
func TestVolumeRules(t *testing.T) {
	for _, row := range []struct {
		set          map[string]feedstock.Feedstock
		name, brown  string
		green, parts float64
		cn, moisture float64
	}{
		{handbook, "H", "leaves", 2, 1, 26, 72}, {handbook, "H", "leaves", 1, 1, 31, 66},
		{handbook, "H", "leaves", 1, 2, 37, 59}, {handbook, "H", "leaves", 1, 3, 41, 54},
		{handbook, "H", "straw", 2, 1, 33, 65}, {handbook, "H", "straw", 1, 1, 43, 54},
		{handbook, "H", "straw", 1, 2, 54, 42}, {handbook, "H", "straw", 1, 3, 59, 36},
		{handbook, "H", "cardboard", 2, 1, 44, 62}, {handbook, "H", "cardboard", 1, 1, 68, 51},
		{handbook, "H", "cardboard", 1, 2, 111, 38}, {handbook, "H", "cardboard", 1, 3, 147, 31},
		{bucketful, "L", "leaves", 2, 1, 22, 75}, {bucketful, "L", "leaves", 1, 1, 27, 69},
		{bucketful, "L", "leaves", 1, 2, 32, 60}, {bucketful, "L", "leaves", 1, 3, 36, 54},
		{bucketful, "L", "straw", 2, 1, 22, 77}, {bucketful, "L", "straw", 1, 1, 26, 72},
		{bucketful, "L", "straw", 1, 2, 33, 64}, {bucketful, "L", "straw", 1, 3, 39, 59},
		{bucketful, "L", "cardboard", 2, 1, 26, 74}, {bucketful, "L", "cardboard", 1, 1, 34, 68},
		{bucketful, "L", "cardboard", 1, 2, 51, 58}, {bucketful, "L", "cardboard", 1, 3, 66, 51},
	} {
		t.Run(fmt.Sprintf("set %s %g grass to %g %s", row.name, row.green, row.parts, row.brown), func(t *testing.T) {
			b := mixed(row.set["grass"], row.green).Plus(mixed(row.set[row.brown], row.parts))
			assert.InDelta(t, row.cn, b.CN(), 0.51)
			assert.InDelta(t, row.moisture, b.Moisture(), 0.51)
		})
	}
}

// TestBrownPerGrass finds the volume of brown per grass for C:N 30, worked out
// as the tables above, among them the two rules of thumb: about as much
// leaves as grass (0.9) when they lie settled, 1.6 times when crisp.
func TestBrownPerGrass(t *testing.T) {
	for _, row := range []struct {
		set   map[string]feedstock.Feedstock
		name  string
		brown string
		want  float64
		off   float64
	}{
		{handbook, "H", "leaves", 0.90, 0.01}, {handbook, "H", "straw", 0.38, 0.01}, {handbook, "H", "cardboard", 0.24, 0.01},
		{bucketful, "L", "leaves", 1.6, 0.05}, {bucketful, "L", "straw", 1.5, 0.05}, {bucketful, "L", "cardboard", 0.74, 0.01},
	} {
		t.Run(row.name+" "+row.brown, func(t *testing.T) {
			g, b := row.set["grass"], row.set[row.brown]
			assert.InDelta(t, row.want, until(t, loose(&g), loose(&b), Blend.CN, 30), row.off)
		})
	}
}

// TestEqualVolumesOfGardenGreensAndBrowns holds the table to common practice
// (no source beyond the rules of thumb above): equal volumes land near the aim,
// and the draws span a wide range around it.
func TestEqualVolumesOfGardenGreensAndBrowns(t *testing.T) {
	table := feedstock.Default()
	get := func(id string) feedstock.Feedstock {
		f, ok := table.ByID(id)
		require.True(t, ok, "the table has no %s", id)
		return f
	}
	// The aim's window widened by a fifth: the rule is rough.
	const low, high = 25 * 0.8, 35 * 1.2
	for _, pair := range [][2]string{
		{"grass-clippings", "leaves-dry"},
		{"grass-clippings", "straw-general"},
		{"food-scraps", "leaves-dry"},
		{"weeds", "leaves-dry"},
		{"weeds", "straw-general"},
	} {
		t.Run(pair[0]+" and "+pair[1], func(t *testing.T) {
			p := Describe([]Part{litres(get(pair[0]), 50), litres(get(pair[1]), 50)}, 0, 1, 0)
			t.Logf("C:N %.0f (%.0f to %.0f), moisture %.0f (%.0f to %.0f), holds %.2f", p.CN.Typical, p.CN.Low, p.CN.High,
				p.Moisture.Typical, p.Moisture.Low, p.Moisture.High, p.Holds)
			assert.GreaterOrEqual(t, p.CN.Typical, low)
			assert.LessOrEqual(t, p.CN.Typical, high)
			assert.Greater(t, p.CN.High-p.CN.Low, 5.0, "the range is wide")
			assert.Less(t, p.CN.Low, 35.0)
			assert.Greater(t, p.CN.High, 25.0)
		})
	}
}
