package mix

import (
	"math/rand/v2"
	"testing"

	"heapside/calc/feedstock"

	"github.com/stretchr/testify/require"
)

// wholeTable is the materials that may be suggested, and no fewer than 120: a
// table smaller than that is filled up with variants of its own rows.
func wholeTable() []Candidate {
	var out []Candidate
	for _, f := range feedstock.Default().All() {
		if f.Everyday > 0 {
			out = append(out, Candidate{Feedstock: f})
		}
	}
	r, rows := rand.New(rand.NewPCG(1, 2)), len(out)
	for i := 0; len(out) < 120; i++ {
		f := anyMaterial(r, i)
		if rows == 0 {
			out = append(out, Candidate{Feedstock: f})
			continue
		}
		f.Everyday = 1 + i%3
		out = append(out, Candidate{Feedstock: f})
	}
	return out
}

func BenchmarkSolveWholeTable(b *testing.B) {
	cands := wholeTable()
	cases := []struct {
		name  string
		parts []Part
	}{
		{"grass", []Part{litres(grass, 24), litres(scraps, 6)}},
		{"leaves", []Part{litres(leaves, 200)}},
		{"cardboard", []Part{litres(cardboard, 60), litres(straw, 60)}},
		{"muck", []Part{litres(muck, 60)}},
	}
	for _, c := range cases {
		b.Run(c.name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				a, err := Solve(Request{Inputs: c.parts, Candidates: cands})
				require.NoError(b, err)
				require.NotEmpty(b, a.Recipes)
			}
		})
	}
	b.Run("out of reach", func(b *testing.B) {
		b.ReportAllocs()
		wet := make([]Candidate, 0, len(cands))
		for _, c := range cands {
			if c.Feedstock.Moisture.Typical > 62 {
				wet = append(wet, c)
			}
		}
		for b.Loop() {
			a, err := Solve(Request{Inputs: cases[0].parts, Candidates: wet})
			require.NoError(b, err)
			require.Empty(b, a.Recipes)
		}
	})
}

func BenchmarkDescribe(b *testing.B) {
	parts := []Part{litres(grass, 24), litres(leaves, 36), litres(scraps, 6)}
	b.ReportAllocs()
	for b.Loop() {
		Describe(parts, 4, 1, 0)
	}
}
