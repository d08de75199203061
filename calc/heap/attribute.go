package heap

import (
	"fmt"
	"strconv"
	"strings"
	"unicode"
)

// Attributes are the fields of a heap that a Changed entry can name.
var Attributes = []string{"name", "container", "size", "cover", "aim"}

// Attribute is one attribute as Changed records it: the size as "800 l", the
// others as they stand. It is empty for a field that is not in Attributes.
func (h Heap) Attribute(field string) string {
	switch field {
	case "name":
		return h.Name
	case "container":
		return string(h.Container)
	case "size":
		return strconv.FormatFloat(h.SizeL, 'f', -1, 64) + " l"
	case "cover":
		return h.Cover
	case "aim":
		return string(h.Aim)
	}
	return ""
}

// WithAttribute is the heap with one attribute set from the text that
// Attribute gives. It fails on other fields and on a size that is no number.
func (h Heap) WithAttribute(field, text string) (Heap, error) {
	switch field {
	case "name":
		h.Name = text
	case "container":
		h.Container = Container(text)
	case "size":
		litres, err := strconv.ParseFloat(strings.TrimSuffix(text, " l"), 64)
		if err != nil || !(litres >= 0 && litres <= MaxLitres) {
			return h, fmt.Errorf("heap size %q is not a number of litres", text)
		}
		h.SizeL = litres
	case "cover":
		h.Cover = text
	case "aim":
		h.Aim = Aim(text)
	default:
		return h, fmt.Errorf("a heap has no attribute %q", field)
	}
	return h, nil
}

// NameKey is what two names of one heap have in common: invisible format
// characters dropped, blanks trimmed and collapsed, case folded.
func NameKey(name string) string {
	seen := strings.Map(func(r rune) rune {
		if unicode.Is(unicode.Cf, r) {
			return -1
		}
		return fold(r)
	}, name)
	return strings.Join(strings.Fields(seen), " ")
}

// fold is the smallest rune among those that differ from r only in case.
func fold(r rune) rune {
	least := r
	for next := unicode.SimpleFold(r); next != r; next = unicode.SimpleFold(next) {
		least = min(least, next)
	}
	return least
}
