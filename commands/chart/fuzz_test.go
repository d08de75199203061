package chart

import (
	"encoding/binary"
	"math"
	"testing"
	"time"
	"unicode/utf8"

	"github.com/stretchr/testify/require"

	"heapside/calc/fault"
)

func FuzzName(f *testing.F) {
	for _, name := range []string{"North Bay", "", "\u202eyaB", "Bay\x1b[31m", "堆肥 كومة", "🌱", "\xff", "a\u0301\u0301\u0301"} {
		f.Add(name)
	}
	f.Fuzz(func(t *testing.T, name string) {
		clean := cleanName(name)
		require.NotEmpty(t, clean)
		require.LessOrEqual(t, utf8.RuneCountInString(clean), maxName)
		checkPlain(t, clean)
		require.Equal(t, clean, cleanName(clean), "nothing is left to clean")
	})
}

// FuzzData reads each 12 bytes as one item: what it is, when, and its number.
func FuzzData(f *testing.F) {
	item := func(what byte, hours int16, v float64) []byte {
		b := append([]byte{what}, binary.LittleEndian.AppendUint16(nil, uint16(hours))...)
		return append(binary.LittleEndian.AppendUint64(b, math.Float64bits(v)), 0)
	}
	f.Add(append(item(0, -30, 58), item(1, 5, 40)...), true)
	f.Add(append(item(3, -30, 7), item(2, 5, 2)...), false)
	f.Add(append(item(4, 30000, math.NaN()), item(0, -30000, math.Inf(1))...), false)
	f.Fuzz(func(t *testing.T, data []byte, american bool) {
		d := Data{Heap: "Lane Bin", Now: noon, Fahrenheit: american, Inches: american, ThresholdC: 55}
		for ; len(data) >= 12; data = data[12:] {
			at := noon.Add(time.Duration(int16(binary.LittleEndian.Uint16(data[1:]))) * time.Hour)
			v := math.Float64frombits(binary.LittleEndian.Uint64(data[3:]))
			switch data[0] % 5 {
			case 0:
				d.Readings = append(d.Readings, Reading{at, v, data[11]%2 == 1})
			case 1:
				d.Band = append(d.Band, BandPoint{at, v - float64(data[11]), v, v + 3, data[11]%2 == 1})
			case 2:
				d.Marks = append(d.Marks, Mark{at, MarkKind(data[11] % 6)})
			case 3:
				d.Rain = append(d.Rain, RainBar{at, v, data[11]%2 == 1})
			case 4:
				d.Air = append(d.Air, AirPoint{at, v})
			}
		}
		if _, err := PNG(d); err != nil {
			_, ok := fault.As(err)
			require.True(t, ok, "%v", err)
		}
		checkWords(t, d)
	})
}
