package mix

import (
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// anyProgram is the program of a random blend with n random materials, and the
// blends that its columns stand for.
func anyProgram(r *rand.Rand, n int) (program, programBlends) {
	t := programBlends{aim: anyAim(r)}
	if r.IntN(2) == 0 {
		t.aim.MinAir = 55 + 35*r.Float64()
	}
	full := t.aim.at(0)
	f := anyMaterial(r, 0)
	f.Mineral = false
	t.base = loose(&f)
	p := program{base: full.column(t.base, 0), n: n}
	for i := range n {
		f := anyMaterial(r, 1+i)
		t.one[i] = loose(&f)
		col := full.column(t.one[i], 1+t.one[i].MassKg())
		p.cols[i], p.caps[i] = &col, 0.2+8*r.Float64()
	}
	return p, t
}

type programBlends struct {
	aim  Aim
	base Blend
	one  [maxAdditions]Blend
}

// violation is that of the blend at x with the least water that suits, found
// from the blend and not from the program.
func (t programBlends) violation(x [maxAdditions]float64) float64 {
	b := t.base
	for i, one := range t.one {
		b = b.Plus(one.Times(x[i]))
	}
	goal := t.aim.Moisture.Low
	if w := b.MassKg() * (goal - b.Moisture()) / (100 - goal); w > 0 {
		b = b.AddWater(w)
	}
	return t.aim.violation(b)
}

// grid visits k amounts of each unknown up to its cap, traces left out.
func (p *program) grid(k int, visit func([maxAdditions]float64)) {
	var x [maxAdditions]float64
	var fill func(int)
	fill = func(i int) {
		if i == p.n {
			if sum := x[0] + x[1] + x[2]; sum == 0 || min(at(x, 0, p.n, sum), at(x, 1, p.n, sum), at(x, 2, p.n, sum)) >= minShare*sum {
				visit(x)
			}
			return
		}
		for j := range k + 1 {
			x[i] = p.caps[i] * float64(j) / float64(k)
			fill(i + 1)
		}
	}
	fill(0)
}

func at(x [maxAdditions]float64, i, n int, otherwise float64) float64 {
	if i < n {
		return x[i]
	}
	return otherwise
}

func TestProgramIsNeverWorseThanAFineGrid(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 4))
	solved := 0
	for _, size := range []struct{ n, cases, grid int }{{1, 3000, 400}, {2, 1500, 40}, {3, 400, 14}} {
		for range size.cases {
			p, blends := anyProgram(r, size.n)
			x, ok := p.solve()
			if ok {
				solved++
				require.LessOrEqual(t, blends.violation(x), 1e-6, "the solution misses the aim")
				for i := range p.n {
					require.LessOrEqual(t, x[i], p.caps[i]*(1+1e-9))
					require.GreaterOrEqual(t, x[i], -1e-9)
				}
			}
			p.grid(size.grid, func(y [maxAdditions]float64) {
				if blends.violation(y) > -1e-9 {
					return
				}
				require.True(t, ok, "grid found %v where the program found nothing", y)
				require.LessOrEqual(t, p.effort(x), p.effort(y)+1e-7)
			})
		}
	}
	assert.Greater(t, solved, 500, "too few solvable cases to show anything")
}

func TestProgramWithNoUnknowns(t *testing.T) {
	aim := DefaultAim()
	in := mixed(leaves, 70).Plus(mixed(grass, 30)).Times(0.01)
	dry := mixed(leaves, 1)
	for name, c := range map[string]struct {
		blend Blend
		want  bool
	}{
		"right as it is": {in, true},
		"too brown":      {dry, false},
	} {
		t.Run(name, func(t *testing.T) {
			p := program{base: aim.at(0).column(c.blend, 0)}
			_, ok := p.solve()
			assert.Equal(t, c.want, ok)
			assert.Equal(t, c.want, aim.Meets(c.blend))
		})
	}
}
