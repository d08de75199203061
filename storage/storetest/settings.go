package storetest

import (
	"fmt"
	"math"
	"strings"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"heapside/calc/fault"
	"heapside/calc/feedstock"
	"heapside/calc/heap"
	"heapside/calc/measure"
)

func grass(at heap.Place) feedstock.Feedstock {
	spread := feedstock.Property{Range: measure.Range{Low: 180, Typical: 210.5, High: 260}, Source: "group"}
	return feedstock.Feedstock{
		ID: "grass", Name: "grass of " + at.Channel, Kind: feedstock.Green, Density: spread, Carbon: spread,
		Matting: true, Everyday: 3, Aliases: []string{"lawn", "mowings"},
	}
}

func garden(at heap.Place) heap.Garden {
	return heap.Garden{
		Place: at, Zone: "Europe/London", Located: true, Lat: 51.5, Lon: 0,
		Measures:   measure.Measures{System: measure.Imperial, Fahrenheit: true, Sizes: map[string]float64{"bucket": 14, "barrow": 85.5}},
		Organisers: []heap.Person{wren, tamsy},
		ReadOnly:   []heap.Person{{ID: "9", Name: "Tobias"}},
	}
}

func stock(material string, litres float64) heap.Stock {
	return heap.Stock{Material: material, Said: "some", VolumeL: litres, At: noon}
}

var settingTests = map[string]func(*bench){
	"a garden is zero until it is set": func(b *bench) {
		g, err := b.store.Garden(b.Context(), bays)
		require.NoError(b, err)
		assert.Equal(b, heap.Garden{Place: bays}, g)
	},
	"a garden reads back and is replaced": func(b *bench) {
		for _, g := range []heap.Garden{garden(bays), {Place: bays, Zone: "Asia/Kathmandu", Language: "de"}} {
			require.NoError(b, b.store.SaveGarden(b.Context(), g, wren, noon))
			read, err := b.store.Garden(b.Context(), bays)
			require.NoError(b, err)
			assert.Equal(b, g, read)
		}
	},
	"a place that is not on earth is refused": func(b *bench) {
		for _, at := range [][2]float64{{91, 0}, {0, 181}, {math.NaN(), 0}, {0, math.Inf(-1)}} {
			g := heap.Garden{Place: bays, Located: true, Lat: at[0], Lon: at[1]}
			b.refused(fault.OutOfRange, b.store.SaveGarden(b.Context(), g, wren, noon))
		}
	},
	"stock is set, replaced and removed": func(b *bench) {
		for _, s := range []heap.Stock{stock("straw", 40), stock("leaves", 100), stock("straw", 35)} {
			require.NoError(b, b.store.SaveStock(b.Context(), bays, wren, noon, s))
		}
		read, err := b.store.Stock(b.Context(), bays)
		require.NoError(b, err)
		assert.Equal(b, []heap.Stock{stock("leaves", 100), stock("straw", 35)}, read)

		require.NoError(b, b.store.SaveStock(b.Context(), bays, wren, noon, stock("straw", 0)))
		read, err = b.store.Stock(b.Context(), bays)
		require.NoError(b, err)
		assert.Equal(b, []heap.Stock{stock("leaves", 100)}, read)
	},
	"an amount that cannot be on hand is refused": func(b *bench) {
		for _, litres := range []float64{-1, math.NaN(), math.Inf(1), 1e9} {
			b.refused(fault.OutOfRange, b.store.SaveStock(b.Context(), bays, wren, noon, stock("straw", litres)))
		}
		b.refused(fault.Missing, b.store.SaveStock(b.Context(), bays, wren, noon, stock("", 1)))
		b.refused(fault.TooLong, b.store.SaveStock(b.Context(), bays, wren, noon, stock(strings.Repeat("x", 5000), 1)))
	},
	"a channel keeps no more than 500 stocks": func(b *bench) {
		for i := range 500 {
			require.NoError(b, b.store.SaveStock(b.Context(), bays, wren, noon, stock(fmt.Sprint("m", i), 1)))
		}
		b.refused(fault.TooLong, b.store.SaveStock(b.Context(), bays, wren, noon, stock("more", 1)))
		require.NoError(b, b.store.SaveStock(b.Context(), bays, wren, noon, stock("m1", 2)))
	},
	"own materials read back and are replaced": func(b *bench) {
		first, second := grass(bays), grass(bays)
		second.Density.Typical = 230
		second.ID, second.Name = "bracken", "bracken"
		for _, f := range []feedstock.Feedstock{first, second} {
			require.NoError(b, b.store.SaveMaterial(b.Context(), bays, f, wren, noon))
		}
		read, err := b.store.Materials(b.Context(), bays)
		require.NoError(b, err)
		assert.Equal(b, []feedstock.Feedstock{second, first}, read)

		first.Density.Typical = 225
		require.NoError(b, b.store.SaveMaterial(b.Context(), bays, first, wren, noon))
		read, err = b.store.Materials(b.Context(), bays)
		require.NoError(b, err)
		assert.Equal(b, []feedstock.Feedstock{second, first}, read)
	},
	"a material that is no value is not stored": func(b *bench) {
		f := grass(bays)
		f.Density.High = math.NaN()
		require.Error(b, b.store.SaveMaterial(b.Context(), bays, f, wren, noon))
		b.refused(fault.Missing, b.store.SaveMaterial(b.Context(), bays, feedstock.Feedstock{}, wren, noon))
		f = grass(bays)
		f.Caution = strings.Repeat("x", 10_000)
		b.refused(fault.TooLong, b.store.SaveMaterial(b.Context(), bays, f, wren, noon))
		read, err := b.store.Materials(b.Context(), bays)
		require.NoError(b, err)
		assert.Empty(b, read)
	},
}
