package maturity

import (
	"math"

	"heapside/calc/heap"
	"heapside/calc/measure"
)

// The published lines for seeds and plants.
const (
	// GrowOn is the share of radishes that must sprout and grow on in pots of
	// compost for any use (UF/IFAS Sarasota, seen).
	GrowOn = 0.75
	// WellCured is the emergence, and the vigour, in % of the control from which
	// compost counts as mature (CalRecycle and Minnesota, seen).
	WellCured = 80.0
	// ToxicBelow is the germination index below which compost counts as toxic
	// (Radhouani et al., J. New Sci. 20(1), seen).
	ToxicBelow = 50.0
	// zucconi and matureIndex are the lines of Zucconi 1981 and of others (both
	// from memory). In one study 57 to 67 was the lowest group (Nada 2015, seen).
	zucconi     = 60.0
	matureIndex = 80.0
	// fewSeeds is a number of seeds that tells little (own choice).
	fewSeeds = 10.0
)

// Sources of the tests with seeds.
const (
	srcIndex    = "germination index: formula of Mitelut & Popa 2011; below 50 toxic, Radhouani et al., J. New Sci. 20(1); 60 (Zucconi 1981) and 80 from memory"
	srcEmerge   = "emergence and vigour of 80 % of the control: CalRecycle, Minnesota compost specification"
	srcAgainst  = "against tests with seeds: one study found that neither the extract nor the soil test told mature compost from immature (Warman 1999; author and year from memory)"
	lowestGroup = "In one study composts of 57 to 67 were the lowest group (Nada 2015)."
)

// GerminationIndex is G/G0 x L/L0 x 100: seeds that germinated on the extract
// over those on water, times the length of their roots over that on water
// (Mitelut & Popa 2011, Romanian Biotechnol. Lett. 16(1) Suppl., seen). It is NaN
// when nothing germinated or grew on water.
func GerminationIndex(g, g0, l, l0 float64) float64 {
	if !(g0 > 0 && l0 > 0) {
		return math.NaN()
	}
	return g / g0 * l / l0 * 100
}

// sow is what a result says of seeds, of the compost or of the control.
type sow struct {
	share, root, seeds float64 // NaN when not said; share of 0 to 1
	said               string  // "18 of 20"
}

func sowOf(t heap.Test, whose string, m measure.Measures) sow {
	s := sow{share: math.NaN(), root: math.NaN(), seeds: math.NaN()}
	of, hasSown := t.Number(whose + sown)
	up, hasUp := t.Number(whose + sprouted)
	if hasSown && hasUp {
		s.share, s.seeds = up.Value/of.Value, of.Value
		s.said = counted(m, up.Value, of.Value)
	} else if percent, ok := t.Number(whose + sproutedShare); ok {
		s.share = percent.Value / 100
		s.said = plain(percent.Value) + " %"
	}
	if length, ok := t.Number(whose + root); ok {
		s.root = length.Value
	}
	return s
}

// counted is how many of a number: "18 of 20".
func counted(m measure.Measures, n, of float64) string {
	return m.Say("%[1]s of %[2]s", plain(n), plain(of)) // not as "2 buckets of grass"
}

// ofControlPercent is the emergence in % of the control's, as said or as counted.
func ofControlPercent(t heap.Test, compost, control sow) float64 {
	if n, ok := t.Number(emergence); ok {
		return n.Value
	}
	if !(control.share > 0) {
		return math.NaN()
	}
	return compost.share / control.share * 100
}

// judgeExtract judges seeds on an extract: by the index where the roots were
// measured, else by the emergence.
func judgeExtract(t heap.Test, m measure.Measures) Finding {
	compost, control := sowOf(t, "", m), sowOf(t, ofControl, m)
	gi := math.NaN()
	if n, ok := t.Number(index); ok {
		gi = n.Value
	} else if !math.IsNaN(compost.root) {
		gi = GerminationIndex(compost.share, control.share, compost.root, control.root)
	}
	if math.IsNaN(gi) {
		return judgeEmergence(t, compost, control, m)
	}
	f := judgeIndex(gi, m)
	if _, said := t.Number(index); !said {
		f.Lines = append([]string{m.Say("Germination index: %s over %s, times %s over %s mm of root: %.0f %%.",
			compost.said, control.said, plain(compost.root), plain(control.root), gi)}, f.Lines...)
	}
	return f
}

// judgeIndex says what a germination index is by the lines that others drew.
func judgeIndex(gi float64, m measure.Measures) Finding {
	f := Finding{Outcome: Finished, Basis: []string{srcIndex, srcAgainst}, Short: m.Say("index %.0f %%", gi), Values: []heap.Number{{Name: index, Value: gi, Unit: "%"}}}
	switch {
	case gi < ToxicBelow:
		f.Outcome = Against
		f.Lines = []string{m.Say("An index of %.0f is below 50, where compost counts as toxic to seedlings.", gi)}
	case gi < matureIndex:
		f.Plants = true
		f.Lines = []string{m.Say("An index of %.0f is above 50, where compost counts as toxic; published lines for mature compost are 60 and 80, so for seedlings it is not settled.", gi)}
		if gi >= 57 && gi <= 67 {
			f.Lines = append(f.Lines, m.Word(lowestGroup))
		}
	default:
		f.Plants, f.Seedlings = true, true
		f.Lines = []string{m.Say("An index of %.0f is above every published line (50, 60 and 80).", gi)}
	}
	return f
}

// judgeEmergence judges by what sprouted against a control, and by the vigour
// where that was said.
func judgeEmergence(t heap.Test, compost, control sow, m measure.Measures) Finding {
	percent := ofControlPercent(t, compost, control)
	if math.IsNaN(percent) {
		return Finding{Outcome: Silent}
	}
	f := Finding{Outcome: Finished, Plants: true, Short: m.Say("%.0f %% of the control", percent), Basis: []string{srcEmerge, srcAgainst}, Values: []heap.Number{{Name: emergence, Value: percent, Unit: "%"}}}
	said := m.Say("Emergence is %.0f %% of the control", percent)
	if _, given := t.Number(emergence); !given {
		said = m.Say("%s sprouted against %s in the control: %.0f %% of it", compost.said, control.said, percent)
	}
	strong, told := t.Number(vigour)
	switch {
	case percent < WellCured:
		said = m.Say("%s; well cured compost has 80 %% or more.", said)
	case told && strong.Value < WellCured:
		said = m.Say("%s, but the vigour only %s %%; both should be 80 or more.", said, plain(strong.Value))
	case told:
		f.Seedlings = true
		said = m.Say("%s, the vigour %s %%: both above the 80 of well cured compost.", said, plain(strong.Value))
	default:
		said = m.Say("%s, above the 80 of well cured compost; how strong the seedlings are was not said.", said)
	}
	if percent < WellCured || told && strong.Value < WellCured {
		f.Outcome, f.Plants = Against, false
	}
	f.Lines = []string{said}
	return f
}

// judgePots judges seed in pots of compost: by the control where there is one,
// which takes the quality of the seed out (own choice), else by the share.
func judgePots(t heap.Test, m measure.Measures) Finding {
	compost, control := sowOf(t, "", m), sowOf(t, ofControl, m)
	if _, said := t.Number(index); said {
		return judgeExtract(t, m)
	}
	of, hasSown := t.Number(sown)
	on, hasOn := t.Number(grown)
	share, said := compost.share, m.Say("%s sprouted", compost.said)
	if hasSown && hasOn {
		share, said = on.Value/of.Value, m.Say("%s grew on", counted(m, on.Value, of.Value))
	}
	if f := judgeEmergence(t, compost, control, m); f.Outcome != Silent {
		f.Seedlings = f.Seedlings || f.Plants && hasOn && share >= GrowOn
		return f
	}
	if math.IsNaN(share) {
		return Finding{Outcome: Silent}
	}
	f := Finding{Outcome: Against, Short: said, Basis: []string{SourceRadish, srcAgainst}}
	line := m.Say("%s, less than the three in four that any use asks for", said)
	if share >= GrowOn {
		f.Outcome, f.Plants, f.Seedlings = Finished, true, true
		line = m.Say("%s, at least the three in four that any use asks for", said)
	}
	if low, high := likelyShare(share, of.Value); hasSown {
		line = m.Say("%s; with %s seeds the share is likely %.0f to %.0f %%", line, plain(of.Value), 100*low, 100*high)
	}
	f.Lines = []string{line + "."}
	if hasSown && of.Value < fewSeeds {
		f.Lines = append(f.Lines, m.Word("So few seeds tell little: sow 20."))
	}
	return f
}

// likelyShare is the interval (Wilson 1927, 8 in 10) of a share counted in n.
func likelyShare(share, n float64) (low, high float64) {
	const z = 1.2816
	middle := (share + z*z/(2*n)) / (1 + z*z/n)
	half := z / (1 + z*z/n) * math.Sqrt(share*(1-share)/n+z*z/(4*n*n))
	return max(0, middle-half), min(1, middle+half)
}
