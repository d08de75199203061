package heap_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"heapside/calc/heap"
)

func TestOuter(t *testing.T) {
	rows := []struct {
		name string
		r    heap.Reading
		want bool
	}{
		{"nothing said", heap.Reading{}, false},
		{"deep", heap.Reading{DepthCm: 40}, false},
		{"just deep enough", heap.Reading{DepthCm: 15}, false},
		{"shallow", heap.Reading{DepthCm: 14.9}, true},
		{"an edge by its name", heap.Reading{Spot: " Edge "}, true},
		{"deep, yet at the side", heap.Reading{DepthCm: 40, Spot: "side"}, true},
		{"a name that says nothing", heap.Reading{Spot: "by the gate"}, false},
	}
	for _, r := range rows {
		t.Run(r.name, func(t *testing.T) { assert.Equal(t, r.want, r.r.Outer()) })
	}
}
