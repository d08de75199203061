package mix

import (
	"cmp"
	"slices"
	"strings"

	"heapside/calc/feedstock"
	"heapside/calc/measure"
)

// MinHeatL is the least volume in litres that holds heat: one cubic yard
// (Cornell Horticulture). Mueller-Saemann 1986 asks for SureHeatL, 1 m3.
const (
	MinHeatL  = 764.554857984
	SureHeatL = 1000
)

// Layering is short advice on how to put inputs and a recipe together, at most
// six lines, in the language of the measures. A line comes only where the
// materials call for it.
func Layering(inputs []Input, r Recipe, m measure.Measures) []string {
	parts := slices.Clone(inputs)
	for _, a := range r.Additions {
		parts = append(parts, Input(a))
	}
	matting, coarse := called(parts, m, isMatting), called(parts, m, isCoarse)
	var out []string
	if len(coarse) > 0 {
		out = append(out, m.Say("Put some of the %s at the bottom, for air, and the rest through the heap.", listed(coarse, m)))
	} else if len(matting) > 0 {
		out = append(out, m.Word("Start on a hand's depth of twigs or stalks if you have them, for air."))
	}
	if len(matting) > 0 {
		out = append(out, m.Say("Spread the %s in layers no thicker than a hand, or shaken through the rest: thick layers mat and shut out air.", listed(matting, m)))
	}
	if chop := called(parts, m, func(f *feedstock.Feedstock) bool { return f.Chop }); len(chop) > 0 {
		out = append(out, m.Say("Chop or tear the %s first, to pieces of %s or less.", listed(chop, m), m.SayLength(pieceCm)))
	}
	if r.WaterL > 0 {
		out = append(out, m.Word("Water each dry layer as you build; water poured on top runs through."))
	}
	if len(r.Additions) > 0 {
		out = append(out, m.Word("Finish with a layer of the drier material, against flies and smell."))
	}
	if litres := volume(parts); litres < SureHeatL {
		out = append(out, small(litres, m))
	}
	return out
}

// pieceCm is the largest piece to add: extension.org page 34398 says 2 in.
const pieceCm = 5.08

func small(litres float64, m measure.Measures) string {
	if litres < MinHeatL {
		return m.Say("That is %s. A heap holds heat from about %s: add this to a larger one, or expect slow, cool compost.", m.SayBulk(litres), m.SayBulk(MinHeatL))
	}
	return m.Say("That is %s, only just enough to hold heat; %s is better.", m.SayBulk(litres), m.SayBulk(SureHeatL))
}

// called are the names of the materials that are so, largest volume first,
// without what is a trace of the whole.
func called(parts []Input, m measure.Measures, is func(*feedstock.Feedstock) bool) []string {
	all := volume(parts)
	sorted := slices.Clone(parts)
	slices.SortStableFunc(sorted, func(a, b Input) int { return cmp.Compare(b.VolumeL, a.VolumeL) })
	var out []string
	for i := range sorted {
		f := &sorted[i].Feedstock
		if is(f) && sorted[i].VolumeL >= minShare*all && !slices.Contains(out, f.In(m.Style.Language)) {
			out = append(out, f.In(m.Style.Language))
		}
	}
	return out
}

func volume(parts []Input) float64 {
	sum := 0.0
	for i := range parts {
		sum += parts[i].VolumeL
	}
	return sum
}

// listed joins names as a sentence does.
func listed(names []string, m measure.Measures) string {
	if n := len(names); n > 1 {
		return m.Say("%s and %s", strings.Join(names[:n-1], ", "), names[n-1])
	}
	return strings.Join(names, "")
}
