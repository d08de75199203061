package process

import (
	"encoding/binary"
	"math"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"heapside/calc/heap"
)

// scribble makes a record of any bytes: five for each entry, in any order and
// with values that no heap has.
func scribble(data []byte) Record {
	rec := bay()
	d := diary{start: spring, entries: rec.Entries[:1]}
	for ; len(data) >= 5; data = data[5:] {
		v := float64(math.Float32frombits(binary.LittleEndian.Uint32(data[1:])))
		hours := float64(data[0]%34) - 4
		payloads := []heap.Payload{
			heap.Added{Material: "straw", VolumeL: v, MassKg: v / 3}, heap.Temp{C: v, DepthCm: float64(data[2])},
			heap.Turned{}, heap.Watered{Litres: v}, heap.Feel{Squeeze: heap.Runs}, heap.Height{Cm: v},
			heap.Rain{Mm: v}, heap.Moved{Share: math.Abs(v)}, heap.Smell{Smell: "rotten"}, heap.Covered{On: data[1]%2 == 0, With: "tarp"},
			heap.Changed{Field: "container", To: string(heap.Tumbler)},
		}
		d.at(hours/24, payloads[int(data[1])%len(payloads)])
	}
	rec.Entries = d.entries
	return rec
}

func FuzzLearn(f *testing.F) {
	entry := func(hour, kind byte, v float32) []byte {
		return binary.LittleEndian.AppendUint32([]byte{hour}, math.Float32bits(v)&^0xff|uint32(kind))
	}
	for _, v := range []float32{58, -20, 0, 1e9, float32(math.NaN()), float32(math.Inf(1))} {
		var all []byte
		for kind := range byte(11) {
			all = append(all, entry(6+2*kind, kind, v)...)
		}
		f.Add(all)
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		if len(data) > 200 {
			return
		}
		track, err := learn(scribble(data), spring.Add(30*time.Hour))
		if err != nil {
			return
		}
		sound(t, track)
		b := track.now.reading(0)
		require.False(t, math.IsNaN(b.Mid))
		require.LessOrEqual(t, b.Low, b.High)
	})
}
