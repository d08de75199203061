package mix

import (
	"strings"
	"testing"

	"heapside/calc/feedstock"
	"heapside/calc/measure"

	"github.com/stretchr/testify/assert"
)

func TestLayeringSpeaksWhereItMatters(t *testing.T) {
	named := func(name string, change func(*feedstock.Feedstock)) feedstock.Feedstock {
		f := stuff(name, 45, 30, 50, 200)
		change(&f)
		return f
	}
	plain := named("compost", func(*feedstock.Feedstock) {})
	mats := named("grass clippings", func(f *feedstock.Feedstock) { f.Matting = true })
	coarse := named("wood chips", func(f *feedstock.Feedstock) { f.Coarse = true })
	whole := named("cabbage stalks", func(f *feedstock.Feedstock) { f.Chop = true })
	in := func(f feedstock.Feedstock, l float64) Input { return Input{Feedstock: f, VolumeL: l} }
	for _, row := range []struct {
		name   string
		inputs []Input
		recipe Recipe
		want   []string // a part of each line, in order
	}{
		{"a big heap of nothing special", []Input{in(plain, 2000)}, Recipe{}, nil},
		{"small", []Input{in(plain, 100)}, Recipe{}, []string{"holds heat from about"}},
		{"just enough", []Input{in(plain, 900)}, Recipe{}, []string{"only just enough"}},
		{"grass mats", []Input{in(mats, 1200)}, Recipe{}, []string{"twigs or stalks", "Spread the grass clippings in layers"}},
		{"chips below", []Input{in(coarse, 600), in(mats, 600)}, Recipe{}, []string{"Put some of the wood chips at the bottom", "Spread the grass clippings"}},
		{"stalks are chopped", []Input{in(whole, 1200)}, Recipe{}, []string{"Chop or tear the cabbage stalks first, to pieces of 5 cm"}},
		{"a trace is not named", []Input{in(plain, 1200), in(whole, 10)}, Recipe{}, nil},
		{"added and watered", []Input{in(plain, 1200)}, Recipe{Additions: []Addition{{Feedstock: coarse, VolumeL: 300}}, WaterL: 20},
			[]string{"Put some of the wood chips", "Water each dry layer", "Finish with"}},
	} {
		t.Run(row.name, func(t *testing.T) {
			got := Layering(row.inputs, row.recipe, measure.Measures{})
			if assert.Len(t, got, len(row.want), "%q", got) {
				for i := range got {
					assert.Contains(t, got[i], row.want[i])
				}
			}
		})
	}
}

func TestLayeringUsesTheGroupsMeasures(t *testing.T) {
	in := []Input{{Feedstock: stuff("x", 45, 30, 50, 200), VolumeL: 100}}
	lines := strings.Join(Layering(in, Recipe{}, measure.Measures{System: measure.US}), "\n")
	assert.Contains(t, lines, "cubic yard", "the published least volume is one cubic yard")
	assert.NotContains(t, lines, "m³")
}
