package process

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// nile is the annual flow of the Nile at Aswan, 1871 to 1970, in 1e8 m3 (from
// memory; the published sum 91935, first 1120 and last 740 are checked).
var nile = []float64{
	1120, 1160, 963, 1210, 1160, 1160, 813, 1230, 1370, 1140, 995, 935, 1110, 994, 1020, 960, 1180, 799, 958, 1140,
	1100, 1210, 1150, 1250, 1260, 1220, 1030, 1100, 774, 840, 874, 694, 940, 833, 701, 916, 692, 1020, 1050, 969,
	831, 726, 456, 824, 702, 1120, 1100, 832, 764, 821, 768, 845, 864, 862, 698, 845, 744, 796, 1040, 759,
	781, 865, 845, 944, 984, 897, 822, 1010, 771, 676, 649, 846, 812, 742, 801, 1040, 860, 874, 848, 890,
	744, 749, 838, 1050, 918, 986, 797, 923, 975, 815, 1020, 906, 901, 1170, 912, 746, 919, 718, 714, 740,
}

// Variances of the local level model: KFAS run, rstudio-pubs 182968 (seen).
const (
	nileLevelVar = 1469.163
	nileNoiseVar = 15098.656
)

// kalmanNile is the exact answer: the first flow is the first mean with the
// noise variance, and has no term of its own in the likelihood.
func kalmanNile() (logLik, level, variance float64) {
	level, variance = nile[0], nileNoiseVar
	for _, y := range nile[1:] {
		variance += nileLevelVar
		f := variance + nileNoiseVar
		logLik += normalLog(y-level, f)
		gain := variance / f
		level += gain * (y - level)
		variance *= 1 - gain
	}
	return logLik, level, variance
}

func normalLog(d, variance float64) float64 {
	return -0.5 * (math.Log(2*math.Pi*variance) + d*d/variance)
}

func particleNile(n int, seed uint64) (logLik, level float64) {
	r := rand.New(rand.NewPCG(seed, 1))
	members := make([]float64, n)
	for i := range members {
		members[i] = nile[0] + math.Sqrt(nileNoiseVar)*r.NormFloat64()
	}
	c := newCloud(members, nil)
	for _, y := range nile[1:] {
		for i := range c.members {
			c.members[i] += math.Sqrt(nileLevelVar) * r.NormFloat64()
		}
		c.update(func(m *float64) float64 { return normalLog(y-*m, nileNoiseVar) }, r)
	}
	for i, m := range c.members {
		level += c.weight[i] * m
	}
	return c.logMean, level
}

func TestFilterOnTheNile(t *testing.T) {
	sum := 0.0
	for _, y := range nile {
		sum += y
	}
	require.Equal(t, 91935.0, sum)

	exact, level, variance := kalmanNile()
	assert.InDelta(t, -632.5456, exact, 0.001) // KFAS run, rstudio-pubs 182968 (seen)
	assert.InDelta(t, 798.37, level, 0.01)     // own Kalman filter
	assert.InDelta(t, 4032.2, variance, 0.1)   // own Kalman filter

	mean, meanLevel := 0.0, 0.0
	const runs = 20
	for seed := range uint64(runs) {
		l, at := particleNile(1000, seed)
		assert.InDelta(t, exact, l, 1.0, "seed %d", seed) // the tolerance stated for 1000 members
		assert.InDelta(t, level, at, 8, "seed %d", seed)
		mean += l / runs
		meanLevel += at / runs
	}
	t.Logf("exact %.4f, mean of %d runs %.3f, level %.2f against %.2f", exact, runs, mean, meanLevel, level)
	// The mean of the logs lies below the log of the mean by half their variance.
	assert.InDelta(t, exact, mean, 0.25)
	assert.InDelta(t, level, meanLevel, 2)
}

func TestFilterGivesTheSameForTheSameSeed(t *testing.T) {
	a, levelA := particleNile(200, 7)
	b, levelB := particleNile(200, 7)
	assert.Equal(t, a, b)
	assert.Equal(t, levelA, levelB)
	other, _ := particleNile(200, 8)
	assert.NotEqual(t, a, other)
}

func TestFilterTempersSharpEvidence(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	members := make([]float64, 300)
	for i := range members {
		members[i] = r.NormFloat64()
	}
	own := newShake(1, func(m *float64, v []float64) { v[0] = *m }, func(m *float64, v []float64) { *m = v[0] })
	c := newCloud(members, own)
	// Evidence at two standard deviations with a third of the prior's spread: the
	// exact answer is normal with mean 2/(1+0.1). The pull to the mean lags behind.
	require.True(t, c.update(func(m *float64) float64 { return normalLog(2-*m, 0.1) }, r))
	mean := 0.0
	for i, m := range c.members {
		mean += c.weight[i] * m
	}
	assert.InDelta(t, 2/1.1, mean, 0.2)
	assert.GreaterOrEqual(t, effective(c.weight), 100.0)
	distinct := map[float64]bool{}
	for _, m := range c.members {
		distinct[m] = true
	}
	assert.Len(t, distinct, len(c.members), "shaken copies differ")
}

func TestFilterSurvivesTheImpossible(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	for name, l := range map[string]float64{"never": math.Inf(-1), "not a number": math.NaN()} {
		c := newCloud([]float64{1, 2, 3}, nil)
		assert.False(t, c.update(func(*float64) float64 { return l }, r), name)
		assert.Equal(t, []float64{1, 2, 3}, c.members, name)
		assert.InDeltaSlice(t, []float64{1. / 3, 1. / 3, 1. / 3}, c.weight, 1e-12, name)
	}
	// One member that cannot be judged does not spoil the others.
	c := newCloud([]float64{1, math.NaN(), 3, 4}, nil)
	assert.True(t, c.update(func(m *float64) float64 { return *m - *m }, r))
	for i, m := range c.members {
		if c.weight[i] > 0 {
			assert.False(t, math.IsNaN(m))
		}
	}
}

func TestShakeKeepsMeanAndSpread(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 4))
	members := make([]float64, 20000)
	for i := range members {
		members[i] = 5 + 2*r.NormFloat64()
	}
	s := newShake(1, func(m *float64, v []float64) { v[0] = *m }, func(m *float64, v []float64) { *m = v[0] })
	c := newCloud(members, s)
	for range 50 {
		c.resample(r)
	}
	var mean, spread float64
	for _, m := range c.members {
		mean += m / float64(len(members))
	}
	for _, m := range c.members {
		spread += (m - mean) * (m - mean) / float64(len(members))
	}
	assert.InDelta(t, 5, mean, 0.25)
	assert.InDelta(t, 2, math.Sqrt(spread), 0.15)
}

func TestBandOfWeightedPoints(t *testing.T) {
	for _, row := range []struct {
		name   string
		points []point
		want   Band
	}{
		{"one", []point{{7, 1}}, Band{7, 7, 7}},
		{"two equal weights", []point{{3, 1}, {1, 1}}, Band{1, 2, 3}},
		{"all the weight on one", []point{{1, 0}, {5, 1}, {9, 0}}, Band{5, 5, 5}},
		{"no value", []point{{math.NaN(), 1}, {2, 1}}, Band{2, 2, 2}},
		{"ten tenths", tenths(), Band{0.5, 4.5, 8.5}},
	} {
		t.Run(row.name, func(t *testing.T) {
			got := band(row.points)
			assert.InDelta(t, row.want.Low, got.Low, 1e-9)
			assert.InDelta(t, row.want.Mid, got.Mid, 1e-9)
			assert.InDelta(t, row.want.High, got.High, 1e-9)
		})
	}
	assert.True(t, math.IsNaN(band(nil).Mid))
}

func tenths() []point {
	var p []point
	for i := range 10 {
		p = append(p, point{float64(i), 0.1})
	}
	return p
}
