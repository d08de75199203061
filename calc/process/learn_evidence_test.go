package process

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"

	"heapside/calc/heap"
)

// warm is a member of a given core and mantle temperature and moisture.
func warm(coreC, mantleC, wet float64) *member {
	m := &member{P: DefaultParams()}
	m.S.Add(&m.P, Material{
		DryKg: 100, WaterKg: 100 * wet / (1 - wet), CarbonKg: 45, NitrogenKg: 1.5,
		VolatileShare: 0.88, Degradable: 0.58, FastShare: 0.4, TempC: coreC,
	})
	m.S.Core.T, m.S.Mantle.T = coreC, mantleC
	return m
}

func TestReadingEvidence(t *testing.T) {
	m := warm(60, 40, 0.55)
	shown := m.S.Reading(&m.P, 0) // 56.4: 18 % of the way to the mantle
	assert.InDelta(t, 56.4, shown, 1e-9)
	at := func(read heap.Temp) float64 { return readingLogLik(read)(m) }
	best := at(heap.Temp{C: shown})
	// Student t with 4 degrees of freedom, scale 3: density 3/8 /3 at its middle,
	// a hundredth of it left to the outliers.
	assert.InDelta(t, math.Log(0.99*0.125+0.01/110), best, 1e-12)
	assert.InDelta(t, math.Log(0.99*0.125*math.Pow(1.25, -2.5)+0.01/110), at(heap.Temp{C: shown + 3}), 1e-12)
	assert.Greater(t, at(heap.Temp{C: 5}), math.Log(0.01/110), "no reading costs more than an outlier")
	m.Probe = 2
	assert.Less(t, at(heap.Temp{C: shown}), best, "a heap that moves fast is judged with more room")
	assert.Greater(t, at(heap.Temp{C: shown + 15}), math.Log(0.99*0.125*math.Pow(1+25./4, -2.5)))
	m.Probe = 0
	edge := readingLogLik(heap.Temp{C: m.S.Reading(&m.P, edgeDepthCm), Spot: "South edge"})(m)
	assert.Greater(t, edge, at(heap.Temp{C: m.S.Reading(&m.P, edgeDepthCm)}), "an edge is expected to be cooler")
}

func TestSqueezeEvidence(t *testing.T) {
	for _, row := range []struct {
		wet  float64
		want heap.Squeeze
	}{{0.30, heap.Crumbles}, {0.45, heap.Holds}, {0.55, heap.Drops}, {0.625, heap.Drips}, {0.75, heap.Runs}} {
		m := warm(30, 30, row.wet)
		total, best, bestP := 0.0, heap.Squeeze(""), 0.0
		for q := range squeezeAt {
			p := math.Exp(squeezeLogLik(q)(m))
			assert.GreaterOrEqual(t, p, squeezeFloor/5-1e-12)
			if total += p; p > bestP {
				best, bestP = q, p
			}
		}
		assert.InDelta(t, 1, total, 1e-9, "the classes cover everything")
		assert.Equal(t, row.want, best)
	}
}

func TestHandsAreBelievedAgainstTheBalance(t *testing.T) {
	slow(t)
	for _, q := range []heap.Squeeze{heap.Crumbles, heap.Holds, heap.Runs} {
		rec := bay()
		d := diary{start: spring, entries: rec.Entries}
		d.at(11, heap.Feel{Squeeze: q})
		rec.Entries = d.entries
		low, high := squeezeRange(q)
		wet := learned(t, rec, after(11.1)).now.band(func(m *member) float64 { return m.S.Moisture() })
		assert.True(t, wet.Mid > low-0.04 && wet.Mid < high+0.04, "%s: %v", q, wet)
	}
}

func TestReadingsAreBelievedAgainstTheModel(t *testing.T) {
	slow(t)
	rec := bay()
	d := diary{start: spring.AddDate(0, -3, 0), entries: nil}
	d.at(0, heap.Added{Material: "leaves-dry", VolumeL: 300, MassKg: 24})
	d.at(12, heap.Temp{C: 52})
	rec.Entries, rec.Weather = d.entries, nil
	at := learned(t, rec, d.start.AddDate(0, 0, 12)).now.reading(0)
	assert.InDelta(t, 52, at.Mid, 10, "dry leaves in January, and yet")
	d.at(12.5, heap.Temp{C: 152})
	rec.Entries = d.entries
	at = learned(t, rec, d.start.AddDate(0, 0, 13)).now.reading(0)
	assert.Less(t, at.High, 70.0)
}

func TestVolumeEvidence(t *testing.T) {
	m := warm(30, 30, 0.55)
	v := m.S.VolumeL(&m.P)
	assert.InDelta(t, 0, volumeLogLik(v)(m), 1e-12)
	assert.InDelta(t, -2.5*math.Log(1.25), volumeLogLik(v*math.Exp(0.12))(m), 1e-9)
	assert.Zero(t, volumeLogLik(100)(&member{P: DefaultParams()}), "an empty heap has no say")
}

func TestSmellEvidence(t *testing.T) {
	fine, foul := warm(50, 40, 0.55), warm(50, 40, 0.72)
	rich := warm(50, 40, 0.55)
	rich.S.NitrogenShare *= 2.5
	for _, row := range []struct {
		smell         string
		likely, other *member
	}{
		{"ammonia", rich, fine}, {"rotten", foul, fine}, {"sour", foul, fine}, {"earthy", fine, foul}, {"none", fine, foul},
	} {
		l := smellLogLik(row.smell)
		assert.Greater(t, l(row.likely), l(row.other), row.smell)
		assert.Less(t, l(row.likely)-l(row.other), math.Log(4.01), "%s is weak evidence", row.smell)
	}
	assert.Zero(t, smellLogLik("of roses")(fine))
}

func TestEvidenceMovesTheMembers(t *testing.T) {
	slow(t)
	base := learned(t, bay(), after(12))
	wet := func(k *Track) float64 { return k.now.band(func(m *member) float64 { return m.S.Moisture() }).Mid }
	litres := func(k *Track) float64 { return k.now.band(func(m *member) float64 { return m.S.VolumeL(&m.P) }).Mid }
	with := func(p heap.Payload) *Track {
		rec := bay()
		d := diary{start: spring, entries: rec.Entries}
		d.at(11.8, p)
		rec.Entries = d.entries
		return learned(t, rec, after(12))
	}
	assert.Less(t, wet(with(heap.Feel{Squeeze: heap.Holds})), wet(base))
	assert.Less(t, litres(with(heap.Height{Cm: 25})), litres(base))
	assert.Greater(t, litres(with(heap.Height{Cm: 60})), litres(base))
	assert.InDelta(t, wet(base)+0.03, wet(with(heap.Watered{Litres: 30})), 0.03)
	tumbler := bay()
	tumbler.Heap.Container = heap.Tumbler
	d := diary{start: spring, entries: tumbler.Entries}
	d.at(11.8, heap.Height{Cm: 60})
	plain := learned(t, tumbler, after(12))
	tumbler.Entries = d.entries
	assert.Equal(t, plain.now, learned(t, tumbler, after(12)).now, "the height of a tumbler says nothing")
}
