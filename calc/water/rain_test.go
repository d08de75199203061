package water

import (
	"math"
	"math/rand/v2"
	"testing"

	"heapside/calc/heap"
	"heapside/calc/measure"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestRainIn(t *testing.T) {
	for _, row := range []struct {
		name      string
		container heap.Container
		covered   bool
		with      string
		want      measure.Range // own choice, see RainIn
	}{
		{"open heap of unknown shape", heap.OpenHeap, false, "", openTop},
		{"open bay", heap.PalletBay, false, "none", flatTop},
		{"bay under a tarp", heap.PalletBay, true, "blue tarp", underSheet},
		{"bay with a lid", heap.PalletBay, true, "a wooden Lid", underLid},
		{"bin with its lid", heap.PlasticBin, true, "", underLid},
		{"bin without", heap.PlasticBin, false, "", flatTop},
		{"straw lets some through", heap.OpenHeap, true, "thick Straw", underStraw},
		{"cover of unknown kind", heap.OpenHeap, true, "", underSheet},
		{"tumbler", heap.Tumbler, false, "", measure.Range{}},
	} {
		t.Run(row.name, func(t *testing.T) {
			got := RainIn(row.container, row.covered, row.with)
			assert.Equal(t, row.want, got)
			assert.True(t, 0 <= got.Low && got.Low <= got.Typical && got.Typical <= got.High && got.High <= 1)
		})
	}
}

func TestCatch(t *testing.T) {
	for _, row := range []struct {
		name         string
		container    heap.Container
		size, volume float64
		want         float64
	}{
		{"a full bay of a metre each way", heap.PalletBay, 1000, 400, 1},
		{"a bin keeps its footprint as it sinks", heap.PlasticBin, 270, 20, 0.3},
		{"a bay of unknown size goes by its content", heap.PalletBay, 0, 1000, 0.9},
		{"an open heap goes by its content", heap.OpenHeap, 1000, 125, 0.225},
		{"a tumbler catches nothing", heap.Tumbler, 200, 100, 0},
		{"nothing there", heap.OpenHeap, 0, 0, 0},
		{"a volume that cannot be", heap.OpenHeap, 0, -3, 0},
	} {
		t.Run(row.name, func(t *testing.T) {
			assert.InDelta(t, row.want, CatchM2(row.container, row.size, row.volume), 1e-9)
		})
	}
}

func TestWantedReachesTheAim(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 4))
	for range 2000 {
		c := Content{DryKg: 0.1 + 500*r.Float64(), WaterKg: 800 * r.Float64()}
		aim := 0.01 + 0.9*r.Float64()
		litres := Wanted(c.DryKg, c.WaterKg, aim)
		after := Content{c.DryKg, c.WaterKg + litres}.Moisture()
		require.InDelta(t, max(aim, c.Moisture()), after, 1e-9)
		require.LessOrEqual(t, litres, Wanted(c.DryKg, c.WaterKg, aim+0.05), "a wetter aim never wants less")
		require.LessOrEqual(t, litres, Wanted(c.DryKg*1.1, c.WaterKg, aim), "more dry matter never wants less")
	}
}

func TestWantedInCans(t *testing.T) {
	// 60 kg dry and 60 kg water is 50 %; 58 % needs 60 * 0.58/0.42 - 60 = 22.9 l (by hand).
	litres := Wanted(60, 60, 0.58)
	assert.InDelta(t, 22.86, litres, 0.01)
	assert.Equal(t, "23 litres (about 2½ cans)", measure.Measures{}.SayWater(litres))
}

func TestWantedOfWhatCannotBeIsNothing(t *testing.T) {
	for _, row := range [][3]float64{
		{0, 5, 0.5}, {-1, 5, 0.5}, {10, -5, 0.5}, {10, 5, 1}, {10, 5, 1.5}, {10, 5, 0},
		{math.NaN(), 5, 0.5}, {10, math.NaN(), 0.5}, {10, 5, math.NaN()},
	} {
		assert.Zero(t, Wanted(row[0], row[1], row[2]), "%v", row)
	}
}

func TestForecast(t *testing.T) {
	heapOf := Content{DryKg: 60, WaterKg: 50}
	top := Top{CatchM2: 1, RainIn: flatTop, Wetness: 0.5}
	t.Run("ten millimetres on a square metre", func(t *testing.T) {
		got, ok := ForecastDoes(heapOf, top, Sky{RainMm: measure.Exact(10), ET0Mm: 4})
		require.True(t, ok)
		assert.InDelta(t, 8, got.InL.Typical, 1e-9) // 10 l times 0.8
		assert.InDelta(t, 0.8, got.DriedL, 1e-9)    // 0.5 * 4 * 1 * 0.5 * 0.8
		assert.InDelta(t, 57.2/117.2, got.Moisture.Typical, 1e-9)
		assert.Zero(t, got.DrainedL)
	})
	t.Run("a flood drains to what the heap holds", func(t *testing.T) {
		got, ok := ForecastDoes(heapOf, top, Sky{RainMm: measure.Exact(500)})
		require.True(t, ok)
		assert.InDelta(t, DrainsAbove/(1+DrainsAbove), got.Moisture.Typical, 1e-9) // 76 %, own choice
		assert.InDelta(t, 50+400-192, got.DrainedL.Typical, 1e-9)
	})
	t.Run("what cannot be is refused", func(t *testing.T) {
		for _, bad := range []float64{math.NaN(), math.Inf(1), -1} {
			_, ok := ForecastDoes(Content{DryKg: 60, WaterKg: bad}, top, Sky{})
			assert.False(t, ok, "water %v", bad)
			_, ok = ForecastDoes(heapOf, top, Sky{RainMm: measure.Exact(bad)})
			assert.False(t, ok, "rain %v", bad)
			_, ok = ForecastDoes(heapOf, Top{CatchM2: bad}, Sky{})
			assert.False(t, ok, "catch %v", bad)
		}
	})
	t.Run("water is neither made nor lost", func(t *testing.T) {
		r := rand.New(rand.NewPCG(5, 6))
		for range 1000 {
			c := Content{DryKg: 1 + 200*r.Float64(), WaterKg: 400 * r.Float64()}
			rain := 60 * r.Float64()
			sky := Sky{RainMm: measure.Range{Low: rain / 2, Typical: rain, High: 2 * rain}, ET0Mm: 30 * r.Float64()}
			got, ok := ForecastDoes(c, top, sky)
			require.True(t, ok)
			held := c.DryKg * got.Moisture.Typical / (1 - got.Moisture.Typical)
			require.InDelta(t, c.WaterKg+got.InL.Typical, held+got.DriedL+got.DrainedL.Typical, 1e-6)
			require.LessOrEqual(t, got.Moisture.Low, got.Moisture.Typical+1e-12)
			require.LessOrEqual(t, got.Moisture.Typical, got.Moisture.High+1e-12)
		}
	})
}
