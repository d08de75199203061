package heap_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"heapside/calc/heap"
)

func TestAttributesGoToTextAndBack(t *testing.T) {
	full := heap.Heap{Name: "North Bay", Container: heap.PalletBay, SizeL: 812.5, Cover: "tarp", Aim: heap.Hygienic}
	var built heap.Heap
	for _, field := range heap.Attributes {
		var err error
		built, err = built.WithAttribute(field, full.Attribute(field))
		require.NoError(t, err, field)
	}
	assert.Equal(t, full, built)
}

func TestWhatIsNoAttributeIsRefused(t *testing.T) {
	for field, text := range map[string]string{"colour": "green", "size": "big", "": ""} {
		_, err := heap.Heap{}.WithAttribute(field, text)
		assert.Error(t, err, field)
	}
	for _, size := range []string{"-1 l", "NaN l", "Inf l", "1e9 l", ""} {
		_, err := heap.Heap{}.WithAttribute("size", size)
		assert.Error(t, err, size)
	}
	assert.Empty(t, heap.Heap{Name: "x"}.Attribute("colour"))
}

func TestNamesThatLookAlikeAreOne(t *testing.T) {
	for _, row := range []struct {
		name string
		one  string
		two  string
		same bool
	}{
		{"case", "North Bay", "NORTH bay", true},
		{"blanks", "North Bay", "  North \t\n Bay ", true},
		{"accents keep case apart only", "ÉTÉ", "été", true},
		{"Greek final sigma", "ΣΑΚΟΣ", "σακος", true},
		{"the kelvin sign", "K", "\u212a", true},
		{"a mark between blanks", "North Bay", "North \u200b Bay", true},
		{"right-to-left mark", "North Bay", "North\u200f Bay", true},
		{"zero-width space", "North Bay", "\u200bNorth Bay", true},
		{"another word", "North Bay", "North Bin", false},
		{"joined words", "North Bay", "NorthBay", false},
		{"an accent", "Ete", "Été", false},
	} {
		t.Run(row.name, func(t *testing.T) {
			assert.Equal(t, row.same, heap.NameKey(row.one) == heap.NameKey(row.two))
		})
	}
	for _, blank := range []string{"", " ", "\u200f", "\u200b \u200e"} {
		assert.Empty(t, heap.NameKey(blank))
	}
}

func FuzzNameKey(f *testing.F) {
	for _, name := range []string{"North Bay", " GRÖßE ", "堆肥 🌱", "\u200f \u200b", "\xff\xfe", "ǅ"} {
		f.Add(name)
	}
	f.Fuzz(func(t *testing.T, name string) {
		key := heap.NameKey(name)
		require.Equal(t, key, heap.NameKey(key))
		require.Equal(t, key, heap.NameKey(" "+name+"\u200b "))
		require.Equal(t, key, strings.TrimSpace(key))
	})
}
