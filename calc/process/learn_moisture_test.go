package process

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"heapside/calc/heap"
)

// driedOut is an invented bay under a tarp whose hands found it ever drier than
// its water balance: what went in is 66 % wet on paper, and rots at 60 C.
func driedOut() (rec Record, days float64) {
	rec = bay()
	d := diary{start: spring}
	for _, in := range []heap.Added{
		{Material: "hedge-clippings", VolumeL: 170, MassKg: 20}, {Material: "grass-clippings", VolumeL: 144, MassKg: 36},
		{Material: "leaves-dry", VolumeL: 255, MassKg: 23}, {Material: "manure-horse", VolumeL: 170, MassKg: 100},
	} {
		d.at(0, in)
	}
	d.at(0.05, heap.Watered{Litres: 20})
	d.at(0.1, heap.Covered{On: true, With: "tarp"})
	for _, r := range []struct{ day, c float64 }{
		{1.3, 34}, {2.3, 52}, {4.3, 64}, {8.3, 59}, {11.3, 53}, {13.3, 56}, {16.3, 60}, {18.3, 54}, {20.3, 47},
		{23.3, 51}, {28.3, 41}, {32, 36}, {33.3, 49}, {34.3, 60}, {36.3, 63}, {37.3, 61}, {39.3, 57}, {40.3, 61},
	} {
		d.at(r.day, heap.Temp{C: r.c, DepthCm: 40})
	}
	d.at(11.4, heap.Feel{Squeeze: heap.Holds})
	d.at(12, heap.Turned{})
	d.at(12.1, heap.Watered{Litres: 20})
	d.at(21.4, heap.Feel{Squeeze: heap.Crumbles})
	d.at(22, heap.Turned{})
	d.at(22.1, heap.Watered{Litres: 30})
	d.at(32.1, heap.Added{Material: "grass-clippings", VolumeL: 96, MassKg: 24})
	d.at(32.1, heap.Added{Material: "leaves-dry", VolumeL: 170, MassKg: 15})
	d.at(32.1, heap.Added{Material: "manure-horse", VolumeL: 85, MassKg: 50})
	d.at(32.2, heap.Turned{})
	d.at(32.2, heap.Watered{Litres: 20})
	d.at(36.4, heap.Feel{Squeeze: heap.Drops})
	d.at(38, heap.Turned{})
	rec.Entries = d.entries
	return rec, 41.3
}

// Hands, not the balance, say how wet a heap is; and what was just read, or read
// yesterday, is about what it shows. Over several heaps, since each set of
// members errs. Twelve heaps gave 59.2 C an hour after the reading of 61 and
// 56.5 a day later, with 58 % water.
func TestHandsAndReadingsHoldTheEstimate(t *testing.T) {
	slow(t)
	const heaps = 4
	rec, days := driedOut()
	var atOnce, dayOn float64
	for id := range heaps {
		rec.Heap.ID = heap.ID(20 + id)
		now := learned(t, rec, after(days)).now
		wet := now.band(func(m *member) float64 { return m.S.Moisture() })
		assert.GreaterOrEqual(t, wet.Mid, 0.45)
		assert.LessOrEqual(t, wet.Mid, 0.62)
		at := now.reading(40)
		assert.True(t, at.Low < 61 && at.High > 55, "61 C yesterday, %v now", at)
		dayOn += at.Mid / heaps
		atOnce += learned(t, rec, after(40.35)).now.reading(40).Mid / heaps
	}
	assert.InDelta(t, 61, atOnce, 3)
	assert.InDelta(t, 61, dayOn, 5.5)
}

// An outlook and the past speak of readings as deep as the last one.
func TestReadingsAreMeantAsDeepAsTheLast(t *testing.T) {
	track := learned(t, bay(), after(6.1))
	deep := track.now.reading(40)
	assert.Equal(t, deep, track.Now(Question{}).Reading)
	assert.Less(t, track.Now(Question{DepthCm: 10}).Reading.Mid, deep.Mid-3)
	o, err := track.Outlook(Question{})
	require.NoError(t, err)
	assert.Equal(t, deep, o.Hours[0])
	edge := bay()
	d := diary{start: spring, entries: edge.Entries}
	d.at(6.05, heap.Temp{C: 30, DepthCm: 5, Spot: "edge"})
	edge.Entries = d.entries
	assert.InDelta(t, 40, learned(t, edge, after(6.1)).settings.depthCm, 0)
}

// A member's slow solids may turn out more or fewer; nothing is made of nothing.
func TestRefuelingMovesSolids(t *testing.T) {
	for _, by := range []float64{0.7, 0.95, 1, 1.05, 1.5, 100} {
		m := warm(50, 40, 0.55)
		was := *m
		m.refuel(by)
		assert.InDelta(t, was.S.DryKg(), m.S.DryKg(), 1e-9)
		assert.InDelta(t, m.S.Core.Slow-was.S.Core.Slow+m.S.Mantle.Slow-was.S.Mantle.Slow, m.S.AddedDegradable-was.S.AddedDegradable, 1e-9)
		assert.Positive(t, m.S.Core.Inert)
		assert.InDelta(t, was.S.Loss()*was.S.AddedDegradable, m.S.Loss()*m.S.AddedDegradable, 1e-9, "what is gone stays gone")
	}
}

// A hot spot is hotter by a share of what the heap is above the ground.
func TestSpots(t *testing.T) {
	m := warm(60, 40, 0.55)
	m.S.SoilC = 10
	plain := m.S.Reading(&m.P, 0)
	assert.Equal(t, plain, m.reading(0))
	m.Spot = 0.1
	assert.InDelta(t, plain+0.1*(plain-10), m.reading(0), 1e-9)
	m.S.SoilC = plain + 5
	assert.Equal(t, plain, m.reading(0), "a cold heap has no hot spots")
}

// However long a heap lives, its past reaches back to the start, newest densest.
func TestPastIsThinned(t *testing.T) {
	w := walk{cloud: newCloud([]member{*warm(50, 40, 0.55)}, nil)}
	first := hourOf(spring) / markEveryH * markEveryH
	for n := range int64(10 * mostMarks) {
		w.mark(first + n*markEveryH)
		assert.LessOrEqual(t, len(w.past), mostMarks)
	}
	assert.Equal(t, moment(first), w.past[0].At)
	last := len(w.past) - 1
	assert.Equal(t, moment(first+(10*mostMarks-1)*markEveryH), w.past[last].At)
	for i := 2; i <= last; i++ {
		assert.LessOrEqual(t, w.past[i].At.Sub(w.past[i-1].At), w.past[i-1].At.Sub(w.past[i-2].At))
	}
}
