package commands

import (
	"regexp"
	"slices"
	"strings"

	"heapside/calc/feedstock"
	"heapside/calc/measure"
)

// completeMaterial completes the last of a list of materials: what stands before
// it is kept, so that picking a suggestion goes on with the list.
func (d *desk) completeMaterial(typed string) []Choice {
	at := d.lastCut(typed)
	return d.named(typed[:at], "", typed[at:], maxChoices)
}

// named are the materials that a word may become, in an amount if there is one,
// with what stands before it. Where another word for one was typed its material
// says so.
func (d *desk) named(before, amount, word string, n int) []Choice {
	var choices []Choice
	begun := strings.ToLower(strings.TrimSpace(word))
	for _, f := range d.table.Complete(word, n) {
		value := before + d.amountOf(amount, f)
		name := value
		if i := slices.IndexFunc(d.otherWords(f), func(a string) bool { return strings.HasPrefix(strings.ToLower(a), begun) }); i >= 0 &&
			begun != "" && !strings.Contains(strings.ToLower(d.called(f)), begun) {
			name += " (" + d.otherWords(f)[i] + ")"
		}
		choices = append(choices, Choice{Name: name, Value: value})
	}
	return choices
}

// amountOf is an amount of a material as a list says it.
func (d *desk) amountOf(amount string, f feedstock.Feedstock) string {
	if amount == "" {
		return d.called(f)
	}
	return d.in.Say("%s of %s", amount, d.called(f))
}

// otherWords are what a material is called besides its name: in the language of
// the call, then in English.
func (d *desk) otherWords(f feedstock.Feedstock) []string {
	words := f.Words(d.in.Code())[1:]
	if d.called(f) == f.Name {
		return words
	}
	return slices.Concat(words, []string{f.Name}, f.Aliases)
}

// lastCut is where the last item of a list begins.
func (d *desk) lastCut(list string) int {
	at := 0
	for _, sep := range []string{", ", " and ", "+ ", " or ", d.joint("and"), d.joint("or")} {
		if i := strings.LastIndex(list, sep); i >= 0 {
			at = max(at, i+len(sep))
		}
	}
	return at
}

// joint is an "and" or "or" between two items, in the language of the call.
func (d *desk) joint(word string) string { return " " + d.in.Word(word) + " " }

// counted is an item that begins with a count: the count, and what follows it.
var counted = regexp.MustCompile(`(?i)^((?:about |some )?(?:\d+(?:[.,/]\d+)?[½¼¾]?|[½¼¾]|half an?|an?|one|two|three|four|five|six|eight|ten|a few|a couple of))(?: +(.*))?$`)

// count takes the count off the front of an item, in English or the language of
// the call.
func (d *desk) count(item string) (count, rest string, ok bool) {
	if m := counted.FindStringSubmatch(item); m != nil {
		return m[1], m[2], true
	}
	return d.local.Counted(item)
}

// usualUnits are what materials are carried in, the most usual first. Own choice.
var usualUnits = []string{"bucket", "sack", "barrow", "bag", "crate", "bale", "l", "kg"}

// Room in a list of suggestions: how many units it names, and how many
// materials with which an item that is whole goes on. Own choice.
const (
	maxUnits = 3
	goOnWith = 8
)

// completeLoad completes a list of amounts of materials: the unit of the last
// one, then its material, and then how the list may go on.
func (d *desk) completeLoad(typed string) []Choice {
	typed = strings.TrimLeft(oneLine(typed)+trailing(typed), " ")
	at := d.lastItemAt(typed)
	before, item := typed[:at], typed[at:]
	count, rest, ok := d.count(item)
	if !ok {
		return d.amounts(before, d.usualAmounts(), item)
	}
	if amount, word, ok := d.unitOf(count, rest); ok {
		if whole, ok := d.whole(word); ok {
			return d.goOn(before, amount, whole)
		}
		return d.named(before, amount, word, maxChoices)
	}
	amounts := d.unitsLike(count, rest)
	if len(amounts) == 0 {
		return d.amounts(before, d.unitsLike(count, "")[:1], rest)
	}
	return d.amounts(before, amounts, "")
}

// usualAmounts are what people most often bring. Own choice.
func (d *desk) usualAmounts() []string {
	return []string{"1 " + d.local.Name("bucket", 1), "2 " + d.local.Name("bucket", 2), "1 " + d.local.Name("sack", 1)}
}

// trailing is the blank at the end of a text that is being typed: after it
// another word begins.
func trailing(typed string) string {
	if strings.HasSuffix(typed, " ") {
		return " "
	}
	return ""
}

// lastItemAt is where the last item of a list of amounts begins: a material may
// hold an "and" itself, and then no count follows it.
func (d *desk) lastItemAt(list string) int {
	at := 0
	for _, sep := range []string{", ", " and ", "+ ", d.joint("and")} {
		i := strings.LastIndex(list, sep)
		if i < 0 {
			continue
		}
		if _, _, counted := d.count(list[i+len(sep):]); counted || i+len(sep) == len(list) {
			at = max(at, i+len(sep))
		}
	}
	return at
}

// amounts are the materials a word may become, in each of several amounts.
func (d *desk) amounts(before string, amounts []string, word string) []Choice {
	var choices []Choice
	for _, amount := range amounts {
		choices = append(choices, d.named(before, amount, word, maxChoices/len(amounts))...)
	}
	return choices
}

// little are words between a unit and what it holds.
var little = []string{"of", "von", "mit", "van", "met", "du", "des", "del"}

// unitOf takes the unit off what follows a count: "2" and "buckets of gra" is
// "2 buckets" and "gra".
func (d *desk) unitOf(count, rest string) (amount, word string, ok bool) {
	unit, word, more := strings.Cut(rest, " ")
	if _, known := d.local.Unit(unit); !known || !more {
		return "", "", false
	}
	word = strings.TrimPrefix(strings.ReplaceAll(strings.TrimLeft(word, " "), "’", "'"), "d'")
	for _, of := range append([]string{strings.TrimSpace(d.in.Say("%s of %s", "", ""))}, little...) {
		if after, found := strings.CutPrefix(word, of+" "); found && of != "" {
			return count + " " + unit, after, true
		}
	}
	if strings.HasPrefix(little[0], word) || strings.HasPrefix(d.in.Say("%s of %s", "", ""), " "+word) {
		word = "" // "of" itself is being typed
	}
	return count + " " + unit, word, true
}

// unitsLike are amounts in the units that a word may become.
func (d *desk) unitsLike(count, word string) []string {
	word = strings.ToLower(word)
	var amounts []string
	for _, id := range usualUnits {
		if len(amounts) == maxUnits {
			break
		}
		single, many := d.local.Name(id, 1), d.local.Name(id, 2)
		said := many
		if d.one(count) {
			said = single
		}
		if strings.HasPrefix(strings.ToLower(single), word) || strings.HasPrefix(strings.ToLower(many), word) {
			amounts = append(amounts, count+" "+said)
		}
	}
	return amounts
}

func (d *desk) one(count string) bool {
	if one(count) {
		return true
	}
	a, err := d.local.ParseAmount(count + " l")
	return err == nil && a.Count.Typical <= 1
}

func one(count string) bool {
	return slices.Contains([]string{"1", "a", "an", "one", "half a", "half an", "½", "¼", "¾"}, strings.ToLower(count))
}

// whole is the material that a word is already, by its name or one of its aliases.
func (d *desk) whole(word string) (feedstock.Feedstock, bool) {
	word = strings.ToLower(oneLine(word))
	if word == "" {
		return feedstock.Feedstock{}, false
	}
	m := d.table.Find(word)
	same := func(w string) bool { return strings.EqualFold(w, word) }
	return m.Feedstock, m.Outcome == feedstock.Found && (same(d.called(m.Feedstock)) || slices.ContainsFunc(d.otherWords(m.Feedstock), same))
}

// goOn suggests a list that ends with a whole material as it is, and with one
// more, of the other kind before those of its own: that is what evens it out.
func (d *desk) goOn(before, amount string, f feedstock.Feedstock) []Choice {
	list := before + d.amountOf(amount, f)
	choices := []Choice{{Name: list, Value: list}}
	var others, same []Choice
	for _, next := range d.table.Complete("", maxChoices) {
		value := list + d.joint("and") + d.amountOf("1 "+d.local.Name("bucket", 1), next)
		switch {
		case strings.Contains(list, d.called(next)):
		case next.Kind == f.Kind:
			same = append(same, Choice{Name: value, Value: value})
		default:
			others = append(others, Choice{Name: value, Value: value})
		}
	}
	others = others[:min(len(others), goOnWith)]
	choices = append(choices, append(others, same[:min(len(same), goOnWith/2)]...)...)
	for _, longer := range d.named(before, amount, d.called(f), maxChoices) {
		if longer.Value != list {
			choices = append(choices, longer)
		}
	}
	return choices
}

// usualWater are the usual amounts of water by unit. Own choice.
var usualWater = map[measure.System][]string{
	measure.Metric:   {"1 can", "2 cans", "3 cans", "4 cans", "1 bucket", "2 buckets", "10 litres", "20 litres", "50 litres"},
	measure.US:       {"1 can", "2 cans", "3 cans", "4 cans", "1 bucket", "2 buckets", "2 gallons", "5 gallons", "10 gallons"},
	measure.Imperial: {"1 can", "2 cans", "3 cans", "4 cans", "1 bucket", "2 buckets", "2 gallons", "5 gallons", "10 gallons"},
}

// completeWater suggests amounts of water, a count in the units that water is
// carried in, with what it comes to.
func (d *desk) completeWater(typed string) []Choice {
	said := strings.ToLower(oneLine(typed))
	words := usualWater[d.system()]
	if m := counted.FindStringSubmatch(said); m != nil {
		words = nil
		many, single := []string{"cans", "buckets", "litres"}, []string{"can", "bucket", "litre"}
		if d.system() != measure.Metric {
			many[2], single[2] = "gallons", "gallon"
		}
		if one(m[1]) {
			many = single
		}
		for _, unit := range many {
			words = append(words, m[1]+" "+unit)
		}
	}
	var all []Choice
	for _, w := range words {
		if watered, err := d.readWater(w); err == nil {
			all = append(all, Choice{Name: w + " (" + d.m.SayWater(watered.Litres) + ")", Value: w})
		}
	}
	return slices.DeleteFunc(all, func(c Choice) bool { return !strings.HasPrefix(c.Value, said) })
}
