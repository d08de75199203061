package mix

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// anyProgram is the program of a random blend with n random materials.
func anyProgram(r *rand.Rand, n int) (program, Aim) {
	aim := anyAim(r)
	full := aim.at(0)
	f := anyMaterial(r, 0)
	f.Mineral = false
	p := program{base: full.column(loose(&f), 0), n: n}
	for i := range n {
		f := anyMaterial(r, 1+i)
		one := loose(&f)
		col := full.column(one, 1+one.MassKg())
		p.cols[i], p.caps[i] = &col, 0.2+8*r.Float64()
	}
	return p, aim
}

// slack is the least row of the program at x, water being poured as needed.
func (p *program) slack(x [maxAdditions]float64) float64 {
	least := math.Inf(1)
	for r := range rowCount {
		v := p.base.rows[r]
		for i := range p.n {
			v += x[i] * p.cols[i].rows[r]
		}
		least = math.Min(least, v)
	}
	return least
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
			p, _ := anyProgram(r, size.n)
			x, ok := p.solve()
			if ok {
				solved++
				require.GreaterOrEqual(t, p.slack(x), -1e-8, "the solution breaks a row")
				for i := range p.n {
					require.LessOrEqual(t, x[i], p.caps[i]*(1+1e-9))
					require.GreaterOrEqual(t, x[i], -1e-9)
				}
			}
			p.grid(size.grid, func(y [maxAdditions]float64) {
				if p.slack(y) < 1e-9 {
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
