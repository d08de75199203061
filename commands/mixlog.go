package commands

import (
	"cmp"
	"maps"
	"math"
	"slices"
	"strconv"
	"strings"
	"unicode/utf8"

	"heapside/calc/feedstock"
	"heapside/calc/heap"
	"heapside/calc/mix"
)

// addedTitle is what a list of heaps under a recipe asks.
const addedTitle = "Log that it was added to"

// sameAgain is how far an amount may be off after it was said and read again,
// as a share of it. Own choice: less than any measure shows.
const sameAgain = 0.01

// addedActions log what arrived together with the first recipe for it, for each
// heap that it may have gone on. The line holds all of it, so that a button
// logs what its message says however much later it is pressed; where the line
// is too long, or would be read as anything else, there is none.
func (d *desk) addedActions(answer mix.Answer) ([]Action, error) {
	if len(answer.Recipes) == 0 {
		return nil, nil
	}
	recipe := answer.Recipes[0]
	arrived := load{}
	if d.arg("what") != "" {
		var err error
		if arrived, err = d.readLoad(d.arg("what")); err != nil {
			return nil, err
		}
	}
	args := map[string]string{"what": d.addedList(arrived, recipe)}
	if recipe.WaterL > 0 {
		args["water"] = strconv.FormatFloat(math.Round(recipe.WaterL*100)/100, 'f', -1, 64) + "l"
	}
	if !d.readsAs(args, arrived, recipe) {
		return nil, nil
	}
	heaps, err := d.heaps("heap")
	if err != nil {
		return nil, err
	}
	label := func(h heap.Heap) string { // the recipe is cut rather than the name
		say := func(with string) string { return d.in.Say("Log it with %s, %s", with, h.Name) }
		return say(clip(d.sayRecipe(recipe), max(maxActionLabel-utf8.RuneCountInString(say("")), 1)))
	}
	if nothing(recipe) {
		label = func(h heap.Heap) string { return d.in.Say("Log it as added, %s", h.Name) }
	}
	var actions []Action
	for _, h := range heaps {
		args["heap"] = h.Name
		if line, ok := d.addedLine(args, heaps); ok {
			actions = append(actions, Action{Label: clip(label(h), maxActionLabel), Line: line, Group: d.in.Word(addedTitle)})
		}
	}
	return actions[:min(len(actions), maxChoices)], nil
}

// addedLine is the line that logs a load for a heap, as short as need be, if it
// fits into a button and is read as that.
func (d *desk) addedLine(args map[string]string, heaps []heap.Heap) (string, bool) {
	line := typed("log add", args, addOptions)
	if len(line) > maxActionLine && args["water"] == "" {
		line = "log add " + args["what"] + " to " + args["heap"]
	}
	path, read, err := d.parse(line, namesOf(heaps))
	return line, len(line) <= maxActionLine && err == nil && path == "log add" && maps.Equal(read, args)
}

// addedList is what arrived, in the amounts as they were said, and what a recipe
// adds, each material by its shortest name.
func (d *desk) addedList(arrived load, recipe mix.Recipe) string {
	var items []string
	for i, in := range arrived.inputs {
		items = append(items, oneLine(arrived.items[i].Amount.Said)+" "+d.shortest(in.Feedstock))
	}
	for _, a := range recipe.Additions {
		items = append(items, d.local.SayFine(a.VolumeL)+" "+d.shortest(a.Feedstock))
	}
	return strings.Join(items, ", ")
}

// shortest is the shortest word in the language of the call by which a material
// is found and that is no measure as well: a caddy is both.
func (d *desk) shortest(f feedstock.Feedstock) string {
	words := f.Words(d.in.Code())
	slices.SortStableFunc(words, func(a, b string) int { return cmp.Compare(len(a), len(b)) })
	for _, w := range words {
		_, measured := d.m.Unit(w)
		if m := d.table.Find(w); !measured && m.Outcome == feedstock.Found && m.Feedstock.ID == f.ID {
			return w
		}
	}
	return f.Name
}

// readsAs reports whether a line is read as just what arrived, what a recipe
// adds, and its water.
func (d *desk) readsAs(args map[string]string, arrived load, recipe mix.Recipe) bool {
	again, err := d.readLoad(args["what"])
	if err != nil || len(again.inputs) != len(arrived.inputs)+len(recipe.Additions) {
		return false
	}
	want := slices.Clone(arrived.inputs)
	for _, a := range recipe.Additions {
		want = append(want, mix.Input(a))
	}
	near := func(a, b float64) bool { return math.Abs(a-b) <= sameAgain*b }
	for i, in := range again.inputs {
		if in.Feedstock.ID != want[i].Feedstock.ID || !near(in.VolumeL, want[i].VolumeL) || !near(in.MassKg, want[i].MassKg) {
			return false
		}
	}
	if args["water"] == "" {
		return true
	}
	watered, err := d.readWater(args["water"])
	return err == nil && near(watered.Litres, recipe.WaterL)
}

// withWater is the water that was poured on together with a load, if any.
func (d *desk) withWater() ([]heap.Payload, error) {
	if d.arg("water") == "" {
		return nil, nil
	}
	watered, err := d.readWater(d.arg("water"))
	return []heap.Payload{watered}, err
}
