package storetest

import (
	"bytes"
	"math"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"heapside/calc/fault"
	"heapside/calc/process"
)

var outlookTests = map[string]func(*bench){
	"a track reads back as it was stored last": func(b *bench) {
		h := b.start(bays, "North Bay")
		data, err := b.store.Track(b.Context(), bays, h.ID)
		require.NoError(b, err)
		assert.Empty(b, data)
		for _, said := range [][]byte{{1, 0, 2}, bytes.Repeat([]byte{7}, 64<<10)} {
			require.NoError(b, b.store.SaveTrack(b.Context(), bays, h.ID, said))
			data, err = b.store.Track(b.Context(), bays, h.ID)
			require.NoError(b, err)
			assert.Equal(b, said, data)
		}
		require.Error(b, b.store.SaveTrack(b.Context(), bays, h.ID, nil))
		require.Error(b, b.store.SaveTrack(b.Context(), bays, h.ID, make([]byte, 64<<10+1)))
	},
	"forecasts read back in order, and the first word stands": func(b *bench) {
		h := b.start(bays, "North Bay")
		said := []process.Forecast{forecast(0, 24, 50, 48), forecast(0, 72, 45, 48), forecast(24, 24, 47, math.NaN())}
		require.NoError(b, b.store.SaveForecasts(b.Context(), bays, h.ID, said[2], said[0], said[1]))
		require.NoError(b, b.store.SaveForecasts(b.Context(), bays, h.ID, forecast(0, 24, 10, 48)))
		got, err := b.store.Forecasts(b.Context(), bays, h.ID, noon.Add(-time.Hour))
		require.NoError(b, err)
		require.Len(b, got, 3)
		assert.Equal(b, said[:2], got[:2])
		assert.True(b, math.IsNaN(got[2].LastC), "no reading is no number")
		late, err := b.store.Forecasts(b.Context(), bays, h.ID, noon.Add(time.Hour))
		require.NoError(b, err)
		assert.Len(b, late, 1)
	},
	"tracks and forecasts of another place are out of reach": func(b *bench) {
		h := b.start(bays, "North Bay")
		require.NoError(b, b.store.SaveTrack(b.Context(), bays, h.ID, []byte{1}))
		require.NoError(b, b.store.SaveForecasts(b.Context(), bays, h.ID, forecast(0, 24, 50, 48)))
		b.refused(fault.Unknown, b.store.SaveTrack(b.Context(), plots, h.ID, []byte{2}))
		b.refused(fault.Unknown, b.store.SaveForecasts(b.Context(), other, h.ID, forecast(0, 24, 50, 48)))
		data, err := b.store.Track(b.Context(), other, h.ID)
		require.NoError(b, err)
		assert.Empty(b, data)
		seen, err := b.store.Forecasts(b.Context(), plots, h.ID, noon.Add(-time.Hour))
		require.NoError(b, err)
		assert.Empty(b, seen)
	},
}

func forecast(after, ahead int, mid, last float64) process.Forecast {
	return process.Forecast{
		At: noon.Add(time.Duration(after) * time.Hour), Ahead: time.Duration(ahead) * time.Hour,
		Band: process.Band{Low: mid - 5, Mid: mid, High: mid + 7}, LastC: last,
	}
}
