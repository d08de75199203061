package hygiene

import (
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"heapside/calc/heap"
	"heapside/calc/measure"
)

var rank = map[Status]int{NotYet: 0, Probably: 1, Reached: 2}

// each runs a law over random heaps, with and without a curve.
func each(t *testing.T, law func(r *rand.Rand, s heap.State, c Curve)) {
	r := rand.New(rand.NewPCG(7, 11))
	for range 150 {
		s := randomState(r)
		law(r, s, randomCurve(r, s))
		if t.Failed() {
			return
		}
	}
}

// TestRandomHeapsReachRules: the laws are tried on heaps of every status.
func TestRandomHeapsReachRules(t *testing.T) {
	got := map[Status]map[bool]int{Reached: {}, Probably: {}, NotYet: {}}
	each(t, func(_ *rand.Rand, s heap.State, c Curve) {
		for _, f := range Evaluate(s, c).Findings {
			got[f.Status][f.Rule.Turns > 0]++
		}
	})
	for status, n := range got {
		assert.Greater(t, n[true], 5, "%s, with turnings", status)
		assert.Greater(t, n[false], 50, "%s, without", status)
	}
}

func TestOrderDoesNotMatter(t *testing.T) {
	each(t, func(r *rand.Rand, s heap.State, c Curve) {
		want := Evaluate(s, c)
		s.Readings, s.Turns, c = slices.Clone(s.Readings), slices.Clone(s.Turns), slices.Clone(c)
		r.Shuffle(len(s.Readings), func(i, j int) { s.Readings[i], s.Readings[j] = s.Readings[j], s.Readings[i] })
		r.Shuffle(len(s.Turns), func(i, j int) { s.Turns[i], s.Turns[j] = s.Turns[j], s.Turns[i] })
		r.Shuffle(len(c), func(i, j int) { c[i], c[j] = c[j], c[i] })
		assert.Equal(t, want, Evaluate(s, c))
	})
}

// TestEachLevelHoldsMore: what is certain is probable too, and nothing takes
// longer than there was time for.
func TestEachLevelHoldsMore(t *testing.T) {
	each(t, func(_ *rand.Rand, s heap.State, c Curve) {
		report := Evaluate(s, c)
		for _, f := range report.Findings {
			assert.LessOrEqual(t, f.Probable.Hot, s.Now.Sub(s.RefilledAt), f.Rule.Code)
			assert.Equal(t, f.Status == Reached, f.Missing == Lack{})
			if !f.Rule.Unbroken {
				assert.LessOrEqual(t, f.Certain.Hot, f.Probable.Hot, f.Rule.Code)
				assert.LessOrEqual(t, f.Cautious.Hot, f.Probable.Hot, f.Rule.Code)
				assert.LessOrEqual(t, f.Certain.Turns, f.Probable.Turns, f.Rule.Code)
			}
			if f.Rule.StrictOf != "" {
				plain := finding(report, f.Rule.StrictOf)
				if f.Rule.Hold == plain.Rule.Hold {
					assert.LessOrEqual(t, rank[f.Status], rank[plain.Status], "%s is stricter", f.Rule.Code)
				}
			}
		}
		assert.LessOrEqual(t, report.Severity.Certain, report.Severity.Probable+1e-9)
	})
}

// TestMoreHeatLosesNothing: another hot reading at the end, and a hotter one
// anywhere, leave every rule at least as far as it was. Rules with an upper
// limit are left out where they must be.
func TestMoreHeatLosesNothing(t *testing.T) {
	each(t, func(r *rand.Rand, s heap.State, c Curve) {
		before := Evaluate(s, c)
		later := s
		later.Now = s.Now.Add(time.Duration(r.Int64N(int64(2 * day))))
		later.Readings = append(slices.Clone(s.Readings), heap.Reading{At: later.Now, C: 72, DepthCm: 40})
		for i, f := range Evaluate(later, c).Findings {
			assert.GreaterOrEqual(t, rank[f.Status], rank[before.Findings[i].Status], "%s after another hot reading", f.Rule.Code)
		}
		if len(s.Readings) == 0 {
			return
		}
		hotter := s
		hotter.Readings = slices.Clone(s.Readings)
		hotter.Readings[r.IntN(len(s.Readings))].C += 20 * r.Float64()
		for i, f := range Evaluate(hotter, c).Findings {
			if f.Rule.Hold.MostC == 0 {
				assert.GreaterOrEqual(t, rank[f.Status], rank[before.Findings[i].Status], "%s after a hotter reading", f.Rule.Code)
			}
		}
	})
}

// TestColdReadingAddsNoCertainty puts one reading below every threshold in.
func TestColdReadingAddsNoCertainty(t *testing.T) {
	each(t, func(r *rand.Rand, s heap.State, c Curve) {
		before := Evaluate(s, c)
		colder := s
		at := s.RefilledAt.Add(time.Duration(r.Int64N(int64(s.Now.Sub(s.RefilledAt)))))
		if len(s.Readings) > 0 && r.IntN(4) == 0 {
			at = s.Readings[0].At
		}
		colder.Readings = append(slices.Clone(s.Readings), heap.Reading{At: at, C: 39, DepthCm: 40})
		after := Evaluate(colder, c)
		for i, f := range after.Findings {
			was := before.Findings[i]
			assert.False(t, f.Status == Reached && was.Status != Reached, f.Rule.Code)
			if !f.Rule.Unbroken {
				assert.LessOrEqual(t, f.Certain.Hot, was.Certain.Hot, f.Rule.Code)
				assert.LessOrEqual(t, f.Certain.Turns, was.Certain.Turns, f.Rule.Code)
			}
		}
		assert.LessOrEqual(t, after.Severity.Certain, before.Severity.Certain+1e-9)
		assert.LessOrEqual(t, TurnsWhileHot(colder, 55), TurnsWhileHot(s, 55))
	})
}

// TestWhatDoesNotCount: readings of the edge, before the heap was filled, after
// now, and no numbers change no finding.
func TestWhatDoesNotCount(t *testing.T) {
	each(t, func(r *rand.Rand, s heap.State, c Curve) {
		want := Evaluate(s, c).Findings
		inside := s.RefilledAt.Add(s.Now.Sub(s.RefilledAt) / 2)
		for _, extra := range []heap.Reading{
			{At: inside, C: 20, Spot: "edge"}, {At: inside, C: 70, DepthCm: 5},
			{At: s.RefilledAt.Add(-time.Hour), C: 70}, {At: s.Now.Add(time.Hour), C: 70},
			{At: inside, C: math.NaN()}, {At: inside, C: math.Inf(1)},
		} {
			more := s
			more.Readings = append(slices.Clone(s.Readings), extra)
			assert.Equal(t, want, Evaluate(more, c).Findings)
		}
	})
}

// TestHeldStepByStep counts the probable time again step by step.
func TestHeldStepByStep(t *testing.T) {
	const step = 4 * time.Minute
	r := rand.New(rand.NewPCG(5, 6))
	for range 10 {
		s := randomState(r)
		c := randomCurve(r, s)
		_, got := Held(s, c, 55)
		var want time.Duration
		for at := s.RefilledAt.Add(step / 2); at.Before(s.Now); at = at.Add(step) {
			if warmAt(s, c, at) {
				want += step
			}
		}
		// Each crossing of the line can be off by a step.
		crossings := 2*len(s.Readings) + 2*len(c)
		require.InDelta(t, want.Minutes(), got.Minutes(), float64(crossings+1)*step.Minutes()/2)
	}
}

// warmAt says by definition whether the middle was probably at 55 °C or above.
func warmAt(s heap.State, c Curve, at time.Time) bool {
	var before, after heap.Reading
	for _, r := range s.Readings {
		if r.Outer() || r.At.Before(s.RefilledAt) || r.At.After(s.Now) {
			continue
		}
		if !r.At.After(at) && (before.At.IsZero() || r.At.After(before.At) || r.At.Equal(before.At) && r.C < before.C) {
			before = r
		}
		if r.At.After(at) && (after.At.IsZero() || r.At.Before(after.At) || r.At.Equal(after.At) && r.C < after.C) {
			after = r
		}
	}
	both := !before.At.IsZero() && !after.At.IsZero()
	gap := after.At.Sub(before.At)
	if both && gap <= 36*time.Hour && (before.C >= 55) == (after.C >= 55) {
		return before.C >= 55
	}
	from, to := before.At, after.At
	if before.At.IsZero() {
		from = s.RefilledAt
	}
	if after.At.IsZero() {
		to = s.Now
	}
	told := false
	for i := 1; i < len(c); i++ {
		p, q := c[i-1], c[i]
		if q.At.Sub(p.At) > 24*time.Hour || !q.At.After(from) || !p.At.Before(to) {
			continue
		}
		told = true
		if !at.Before(p.At) && at.Before(q.At) {
			share := float64(at.Sub(p.At)) / float64(q.At.Sub(p.At))
			return p.Mid+share*(q.Mid-p.Mid) >= 55
		}
	}
	if told || !both || gap > 72*time.Hour {
		return false
	}
	return before.C+(after.C-before.C)*float64(at.Sub(before.At))/float64(gap) >= 55
}

// TestWordsOfAnyReport: every sentence is whole and promises nothing.
func TestWordsOfAnyReport(t *testing.T) {
	each(t, func(r *rand.Rand, s heap.State, c Curve) {
		m := measure.Measures{Fahrenheit: r.IntN(2) == 0}
		report := Evaluate(s, c)
		lines := append(report.Headline(m), report.Basis.Remarks(m, s.Now)...)
		lines = append(lines, report.Severity.Say(), Caution)
		for _, f := range report.Findings {
			lines = append(lines, f.Say(m), f.Rule.Scope)
			lines = append(lines, f.Rule.Also(m)...)
		}
		plain(t, lines)
	})
}

func plain(t *testing.T, lines []string) {
	t.Helper()
	for _, line := range lines {
		assert.NotContains(t, strings.ToLower(line), "safe")
		assert.NotContains(t, line, "NaN")
		assert.NotContains(t, line, "%!")
		assert.NotContains(t, line, " 0 ")
		assert.NotContains(t, line, "  ")
	}
}

func BenchmarkEvaluate2000(b *testing.B) {
	r := rand.New(rand.NewPCG(1, 2))
	s := heap.State{Now: now, RefilledAt: ago(150)}
	var c Curve
	for i := range 2000 {
		at := s.RefilledAt.Add(time.Duration(i) * 150 * day / 2000)
		if i%7 == 0 {
			s.Turns = append(s.Turns, at)
			continue
		}
		s.Readings = append(s.Readings, heap.Reading{At: at, C: 55 + 8*r.NormFloat64(), DepthCm: 40})
	}
	for i := range 600 {
		c = append(c, Point{At: s.RefilledAt.Add(time.Duration(i) * 6 * time.Hour), Low: 50, Mid: 55 + 8*r.NormFloat64()})
	}
	b.Run("readings", func(b *testing.B) {
		for b.Loop() {
			Evaluate(s, nil)
		}
	})
	b.Run("estimate", func(b *testing.B) {
		for b.Loop() {
			Evaluate(s, c)
		}
	})
}
