package mix

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestThreeAdditionsWhenTwoDoNotReach(t *testing.T) {
	// Five buckets of wet scraps, and a little each of three dry browns.
	req := Request{
		Inputs: []Part{litres(scraps, 60)},
		Candidates: []Candidate{
			{Feedstock: leaves, MaxL: 60},
			{Feedstock: straw, MaxL: 60},
			{Feedstock: cardboard, MaxL: 30},
		},
	}
	for i := range req.Candidates {
		for j := range req.Candidates[:i] {
			two := req
			two.Candidates = []Candidate{req.Candidates[i], req.Candidates[j]}
			a, err := Solve(two)
			require.NoError(t, err)
			require.Empty(t, a.Recipes, "two are enough: the case shows nothing")
		}
	}
	a, err := Solve(req)
	require.NoError(t, err)
	require.NotEmpty(t, a.Recipes)
	assert.Len(t, a.Recipes[0].Additions, 3)
	req.Aim = req.Aim.filled()
	requireSound(t, req, a.Recipes[0])
}

// TestShortlistMissesNoTriple compares the pruned search for three additions
// with the search over all of them where no two materials suffice.
func TestShortlistMissesNoTriple(t *testing.T) {
	r := rand.New(rand.NewPCG(7, 8))
	needed, missed := 0, 0
	for range 250 {
		req := anyRequest(r, 0)
		for i := range 72 {
			req.Candidates = append(req.Candidates, Candidate{Feedstock: anyMaterial(r, 100+i), MaxL: 2 + 12*r.Float64()})
		}
		base := Blend{}.Add(req.Inputs...)
		if base.NitrogenKg <= 0 {
			continue
		}
		cands, err := candidates(req.Candidates, base.VolumeL)
		require.NoError(t, err)
		s := newSolver(base, cands, req.Aim, req.Measures)
		if _, ok := s.plan(set{}, math.Inf(1)); ok || len(s.singles()) > 0 || len(s.pairs(nil)) > 0 {
			continue
		}
		if !anyTriple(s) {
			continue
		}
		needed++
		if len(s.triples()) == 0 {
			missed++
		}
	}
	t.Logf("%d requests need three additions; the shortlist misses %d", needed, missed)
	assert.Positive(t, needed)
	assert.Zero(t, missed)
}

func anyTriple(s *solver) bool {
	for i := range s.cands {
		for j := i + 1; j < len(s.cands); j++ {
			for k := j + 1; k < len(s.cands); k++ {
				if _, ok := s.planAt(set{of: [maxAdditions]int{i, j, k}, n: 3}, len(tensions)-1); ok {
					return true
				}
			}
		}
	}
	return false
}
