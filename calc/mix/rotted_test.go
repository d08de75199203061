package mix

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"heapside/calc/feedstock"
	"heapside/calc/measure"
)

func TestRotted(t *testing.T) {
	table := feedstock.Default()
	grass, ok := table.ByID("grass-clippings")
	require.True(t, ok)
	leaves, ok := table.ByID("leaves-dry")
	require.True(t, ok)
	fresh := Content("the bay", []Part{{Feedstock: grass, Volume: measure.Exact(300)}, {Feedstock: leaves, Volume: measure.Exact(600)}}, nil)
	nothing := measure.Exact(0)
	assert.Equal(t, fresh, Rotted(fresh, nothing, fresh.Volume.Typical), "nothing lost, nothing changed")

	half := measure.Range{Low: 0.4, Typical: 0.5, High: 0.6}
	now := Rotted(fresh, half, 400)
	before, after := Blend{}.Add(fresh), Blend{}.Add(now)
	assert.InDelta(t, 400, after.VolumeL, 1e-9)
	assert.InEpsilon(t, before.NitrogenKg, after.NitrogenKg, 1e-9, "nitrogen stays")
	lost := before.VolatileKg * fresh.Feedstock.Degradable.Typical * 0.5
	assert.InEpsilon(t, before.VolatileKg-lost, after.VolatileKg, 1e-9, "half of what can rot has gone")
	assert.InEpsilon(t, before.DryKg-lost, after.DryKg, 1e-9, "and nothing else")
	assert.InEpsilon(t, before.Moisture(), after.Moisture(), 1e-9)
	assert.Less(t, after.CN(), before.CN())
	assert.Less(t, now.Feedstock.CN.Low, now.Feedstock.CN.Typical)
	assert.Less(t, now.Feedstock.CN.Typical, now.Feedstock.CN.High)
	assert.Equal(t, fresh, Rotted(fresh, half, 0), "without a volume it is taken as it was put in")
}
