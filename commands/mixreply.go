package commands

import (
	"fmt"
	"math"
	"strings"

	"heapside/calc/feedstock"
	"heapside/calc/mix"
)

// mixReply says what to add first, then why, then how sure that is.
func (d *desk) mixReply(answer mix.Answer, aim mix.Aim, notes []string) Reply {
	r := Reply{Headline: d.mixHeadline(answer), Values: map[string]Value{}}
	inputValues(r.Values, answer.Inputs)
	profileValues(r.Values, "before", answer.Before)

	best := bestRecipe(answer)
	if best != nil {
		recipeValues(r.Values, "", *best)
	}
	r.Body = append(r.Body, Block{Title: d.in.Word("What you have"), Lines: d.inputLines(answer, notes)})
	r.Body = append(r.Body, d.recipeBlocks(answer)...)
	if best != nil && len(answer.Recipes) > 0 {
		r.Body = append(r.Body, d.checkBlock(answer, answer.Recipes[0]))
	}
	r.Cautions = d.caution(involved(answer, best))
	r.Basis = mixBasis(aim, involved(answer, best))
	return r
}

// bestRecipe is the recipe that the answer's numbers describe: the first that
// works, else the nearest miss.
func bestRecipe(answer mix.Answer) *mix.Recipe {
	switch {
	case len(answer.Recipes) > 0:
		return &answer.Recipes[0]
	case answer.Closest != nil:
		return answer.Closest
	}
	return nil
}

func (d *desk) mixHeadline(answer mix.Answer) string {
	if len(answer.Recipes) == 0 {
		return d.missHeadline(answer)
	}
	first := answer.Recipes[0]
	if nothing(first) && !first.Feasible {
		return d.in.Word("Nothing worth adding: that mix is right, as near as buckets tell.")
	}
	if nothing(first) {
		return d.in.Word("Nothing to add: that mix is right as it is.")
	}
	var ways []string
	for _, recipe := range answer.Recipes {
		if len(ways) < 2 {
			ways = append(ways, d.sayRecipe(recipe))
		}
	}
	if len(ways) == 2 {
		return d.in.Say("Add about %s, or %s.", ways[0], ways[1])
	}
	return d.in.Say("Add about %s.", ways[0])
}

func nothing(r mix.Recipe) bool { return len(r.Additions) == 0 && r.WaterL == 0 }

func (d *desk) missHeadline(answer mix.Answer) string {
	head := d.in.Word("Not quite, with what there is")
	if answer.Short != "" {
		head += " (" + answer.Short + ")"
	}
	if answer.Fix != nil {
		return d.in.Say("%s. It would work with %s.", head, d.sayRecipe(*answer.Fix))
	}
	return head + "."
}

func (d *desk) sayRecipe(r mix.Recipe) string {
	var parts []string
	for _, a := range r.Additions {
		parts = append(parts, d.in.Say("%s of %s", d.local.SayFine(a.VolumeL), d.called(a.Feedstock)))
	}
	if r.WaterL > 0 {
		parts = append(parts, d.in.Say("%s of water", d.local.SayFineWater(r.WaterL)))
	}
	if len(parts) == 0 {
		return d.in.Word("nothing more")
	}
	return d.in.List(parts, "and")
}

func (d *desk) inputLines(answer mix.Answer, notes []string) []string {
	var lines []string
	for _, in := range answer.Inputs {
		lines = append(lines, d.in.Say("%s of %s (about %s)", capital(d.local.SayVolume(in.VolumeL)), d.called(in.Feedstock), d.local.SayMass(in.MassKg)))
	}
	lines = append(lines, d.in.Say("As it is: %s.", d.describe(answer.Before)))
	return append(lines, notes...)
}

// describe says a blend in plain words with its numbers.
func (d *desk) describe(p mix.Profile) string {
	return strings.Join([]string{d.sayCN(p.CN), d.sayMoisture(p.Moisture), d.sayAir(p.Air)}, ", ")
}

// The words for a blend follow the windows of mix.DefaultAim and the wider
// published bounds (C:N 20-40, moisture 40-65 %, LSU 3838-D after NRAES-54).
func (d *desk) sayCN(s mix.Stat) string {
	word := within(s, mix.DefaultAim().CN, "rich in greens", "balanced", "short of greens")
	return d.in.Say("%s (C:N %s)", d.in.Word(word), d.likely(s))
}

func (d *desk) sayMoisture(s mix.Stat) string {
	word := within(s, mix.DefaultAim().Moisture, "dry", "moist", "wet")
	return d.in.Say("%s (%s %% water)", d.in.Word(word), d.likely(s))
}

// within is the word for a value below, inside or above a window.
func within(s mix.Stat, w mix.Window, below, inside, above string) string {
	switch {
	case s.Typical < w.Low:
		return below
	case s.Typical > w.High:
		return above
	}
	return inside
}

func (d *desk) sayAir(s mix.Stat) string {
	word := "airy"
	if s.Typical < mix.DefaultAim().MinAir {
		word = "short of air"
	}
	return d.in.Say("%s (%s %% air)", d.in.Word(word), d.likely(s))
}

// likely prints a typical value with its 10 and 90 % points.
func (d *desk) likely(s mix.Stat) string {
	return d.in.Say("%s, likely %s–%s", whole(s.Typical), whole(s.Low), whole(s.High))
}

func whole(v float64) string { return fmt.Sprintf("%.0f", v) }

// recipeBlocks shows the first recipe as before and after, the others in a line.
func (d *desk) recipeBlocks(answer mix.Answer) []Block {
	var blocks []Block
	switch {
	case len(answer.Recipes) > 0 && nothing(answer.Recipes[0]):
		blocks = append(blocks, Block{Lines: []string{d.in.Say("Holds %s.", d.outOfTen(answer.Before.Holds))}})
	case len(answer.Recipes) > 0:
		blocks = append(blocks, d.beforeAfter(d.sayRecipe(answer.Recipes[0]), answer.Before, answer.Recipes[0].After))
	case answer.Closest != nil:
		blocks = append(blocks, d.beforeAfter(d.in.Say("Closest: %s", d.sayRecipe(*answer.Closest)), answer.Before, answer.Closest.After))
	}
	if answer.Fix != nil {
		blocks = append(blocks, d.beforeAfter(d.in.Say("With one thing more: %s", d.sayRecipe(*answer.Fix)), answer.Before, answer.Fix.After))
	}
	if len(answer.Recipes) < 2 {
		return blocks
	}
	var others []string
	for _, r := range answer.Recipes[1:] {
		others = append(others, d.in.Say("%s: C:N %s, %s %% water, holds %s",
			capital(d.sayRecipe(r)), whole(r.After.CN.Typical), whole(r.After.Moisture.Typical), d.outOfTen(r.After.Holds)))
	}
	return append(blocks, Block{Title: d.in.Word("Or"), Lines: others})
}

func (d *desk) beforeAfter(title string, before, after mix.Profile) Block {
	return Block{Title: capital(title), Lines: []string{
		d.in.Say("C:N %s → %s", whole(before.CN.Typical), d.likely(after.CN)),
		d.in.Say("water %s → %s %%", whole(before.Moisture.Typical), d.likely(after.Moisture)),
		d.in.Say("air space %s → %s %%", whole(before.Air.Typical), whole(after.Air.Typical)),
		d.in.Say("Holds %s.", d.outOfTen(after.Holds)),
	}}
}

// outOfTen says a share of draws as people say odds.
func (d *desk) outOfTen(share float64) string {
	switch n := int(math.Round(share * 10)); n {
	case 10:
		return d.in.Word("in nearly every load")
	case 0:
		return d.in.Word("in hardly any load")
	default:
		return d.in.Say("in about %d of 10 loads", n)
	}
}

func (d *desk) checkBlock(answer mix.Answer, r mix.Recipe) Block {
	lines := []string{d.in.Word("Squeeze a handful: one to three drops is right; none, add water; a trickle, add more brown.")}
	lines = append(lines, mix.Layering(answer.Inputs, r, d.local)...)
	return Block{Title: d.in.Word("Check with the hand"), Lines: lines}
}

// caution is the one caution of several materials: a manure's before others,
// since it concerns what people eat; else the first there is.
func (d *desk) caution(materials []feedstock.Feedstock) []string {
	var first []string
	for _, f := range materials {
		switch {
		case f.Caution == "":
		case f.Kind == feedstock.Manure:
			return []string{d.sayCaution(f)}
		case first == nil:
			first = []string{d.sayCaution(f)}
		}
	}
	return first
}

// sayCaution is what to mind with a material.
func (d *desk) sayCaution(f feedstock.Feedstock) string {
	said := f.Cautions()
	for i, sentence := range said {
		said[i] = d.in.Word(sentence)
	}
	return strings.Join(said, " ")
}

// involved are the materials of an answer, what came in before what to add.
func involved(answer mix.Answer, best *mix.Recipe) []feedstock.Feedstock {
	var all []feedstock.Feedstock
	for _, in := range answer.Inputs {
		all = append(all, in.Feedstock)
	}
	if best != nil {
		for _, a := range best.Additions {
			all = append(all, a.Feedstock)
		}
	}
	return all
}

func mixBasis(aim mix.Aim, materials []feedstock.Feedstock) []string {
	aimed := fmt.Sprintf("Aim: C:N %g–%g and %g–%g %% water", aim.CN.Low, aim.CN.High, aim.Moisture.Low, aim.Moisture.High)
	if aim != mix.DefaultAim() {
		aimed += " as you asked"
	}
	basis := []string{
		aimed + ", with the wider bounds 20–40 and 40–65 % for “holds” (Cooperband 2002; LSU AgCenter 3838-D after NRAES-54)",
		"mass balance on dry matter over the materials' own ranges; “likely” is 8 of 10 draws",
	}
	for _, f := range materials {
		basis = appendNew(basis, fmt.Sprintf("%s: C:N %s [%s], water %s %% [%s], %s kg/m³ [%s]", f.Name,
			whole(f.CN.Typical), f.CN.Source, whole(f.Moisture.Typical), f.Moisture.Source, whole(f.Density.Typical), f.Density.Source))
	}
	return basis
}

func inputValues(values map[string]Value, inputs []mix.Input) {
	for i, in := range inputs {
		prefix := fmt.Sprintf("in.%d.", i+1)
		values[prefix+"mass"] = Value{in.MassKg, "kg"}
		values[prefix+"volume"] = Value{in.VolumeL, "l"}
		materialValues(values, prefix, in.Feedstock)
	}
}

// materialValues are the typical properties that the balance used: the carbon
// of a mineral does not count in it.
func materialValues(values map[string]Value, prefix string, f feedstock.Feedstock) {
	values[prefix+"material"] = Value{f.ID, ""}
	carbon := f.Carbon.Typical
	if f.Mineral {
		carbon = 0
	}
	values[prefix+"carbon"] = Value{carbon, "% of dry mass"}
	values[prefix+"cn"] = Value{f.CN.Typical, "1"}
	values[prefix+"moisture"] = Value{f.Moisture.Typical, "%"}
	values[prefix+"density"] = Value{f.Density.Typical, "kg/m3"}
}

func recipeValues(values map[string]Value, prefix string, r mix.Recipe) {
	for _, a := range r.Additions {
		name := prefix + "add." + a.Feedstock.ID + "."
		values[name+"mass"] = Value{a.MassKg, "kg"}
		values[name+"volume"] = Value{a.VolumeL, "l"}
		materialValues(values, name, a.Feedstock)
	}
	values[prefix+"water.volume"] = Value{r.WaterL, "l"}
	profileValues(values, prefix+"after", r.After)
	values[prefix+"holds"] = Value{r.After.Holds, "1"}
}

func profileValues(values map[string]Value, prefix string, p mix.Profile) {
	for _, row := range []struct {
		name, unit string
		stat       mix.Stat
	}{{"cn", "1", p.CN}, {"moisture", "%", p.Moisture}, {"density", "kg/m3", p.Density}, {"air", "%", p.Air}} {
		name := prefix + "." + row.name
		values[name] = Value{row.stat.Typical, row.unit}
		values[name+".low"] = Value{row.stat.Low, row.unit}
		values[name+".high"] = Value{row.stat.High, row.unit}
	}
}
