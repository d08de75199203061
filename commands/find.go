package commands

import (
	"context"
	"errors"
	"fmt"
	"slices"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"

	"heapside/calc/fault"
	"heapside/calc/feedstock"
	"heapside/calc/heap"
	"heapside/calc/trouble"
)

// heapNames lists the names of a place's unfinished heaps; none when they
// cannot be read, since they only help to understand a line.
func (a *Assistant) heapNames(ctx context.Context, at heap.Place) []string {
	heaps, err := a.store.Heaps(ctx, at)
	if err != nil {
		a.log.Warn("heap names not read", "err", err)
		return nil
	}
	return namesOf(kept(heaps))
}

func kept(heaps []heap.Heap) []heap.Heap {
	var open []heap.Heap
	for _, h := range heaps {
		if h.Finished.IsZero() {
			open = append(open, h)
		}
	}
	return open
}

func namesOf(heaps []heap.Heap) []string {
	names := make([]string, len(heaps))
	for i, h := range heaps {
		names[i] = h.Name
	}
	return names
}

const noHeap = "No heap is kept here yet. Start one with: heap start North Bay"

// heap finds the heap an option names. Without a name it is the only one kept.
func (d *desk) heap(option string) (heap.Heap, error) {
	heaps, err := d.store.Heaps(d.ctx, d.call.Place)
	if err != nil {
		return heap.Heap{}, err
	}
	open := kept(heaps)
	said := d.arg(option)
	switch {
	case said != "":
		h, err := findHeap(heaps, said)
		var which *whichHeap
		if errors.As(err, &which) {
			which.option = option
		}
		return h, err
	case len(open) == 1:
		return open[0], nil
	case len(open) == 0:
		return heap.Heap{}, fault.New(fault.Missing, noHeap)
	}
	return heap.Heap{}, &whichHeap{
		sentence: fault.New(fault.Missing, "Which heap: %s? Add heap:\"%s\".", list(few(namesOf(open)), "or"), open[0].Name),
		heaps:    open, option: option,
	}
}

// maxNamed is how many heaps one sentence names. Own choice.
const maxNamed = 8

// few shortens a list of names to what a sentence can hold.
func few(names []string) []string {
	if len(names) <= maxNamed {
		return names
	}
	return append(slices.Clone(names[:maxNamed-1]), fmt.Sprintf("%d others", len(names)-maxNamed+1))
}

// heaps are the heap an option names, or all that are kept.
func (d *desk) heaps(option string) ([]heap.Heap, error) {
	if d.arg(option) != "" {
		h, err := d.heap(option)
		return []heap.Heap{h}, err
	}
	all, err := d.store.Heaps(d.ctx, d.call.Place)
	return kept(all), err
}

// slipsInName is how many typing slips a heap's name may hold: two already turn
// "south bay" into "north bay". Own choice.
const slipsInName = 1

// findHeap matches a name: the same name first, kept heaps before finished
// ones; then the only one that contains the words or is a slip away from them.
func findHeap(heaps []heap.Heap, said string) (heap.Heap, error) {
	want := heapKey(said)
	open := kept(heaps)
	for _, group := range [][]heap.Heap{open, heaps} {
		for i := len(group) - 1; i >= 0; i-- {
			if heapKey(group[i].Name) == want {
				return group[i], nil
			}
		}
	}
	near := matching(open, func(name string) bool { return want != "" && strings.Contains(name, want) })
	if len(near) == 0 {
		near = matching(open, func(name string) bool { return len(name) >= 5 && feedstock.Distance(name, want) <= slipsInName })
	}
	if len(near) == 1 {
		return near[0], nil
	}
	if len(near) > 1 {
		return heap.Heap{}, &whichHeap{
			sentence: fault.New(fault.Ambiguous, "“%s” could be %s. Which one?", quote(said), list(few(namesOf(near)), "or")), heaps: near,
		}
	}
	if len(open) == 0 {
		return heap.Heap{}, fault.New(fault.Unknown, "There is no heap “%s” here, and none is kept. Start one with: heap start North Bay", quote(said))
	}
	return heap.Heap{}, fault.New(fault.Unknown, "There is no heap “%s” here. Kept here: %s.", quote(said), list(few(namesOf(open)), "and"))
}

func matching(heaps []heap.Heap, is func(key string) bool) []heap.Heap {
	var found []heap.Heap
	for _, h := range heaps {
		if is(heapKey(h.Name)) {
			found = append(found, h)
		}
	}
	return found
}

// heapKey folds what people vary when they name a heap.
func heapKey(name string) string {
	key := heap.NameKey(strings.Trim(name, " \t\n.,!?\"'“”‘’"))
	for _, article := range []string{"the", "our", "of", "for", "in", "on"} {
		key = strings.TrimPrefix(key, heap.NameKey(article)+" ")
	}
	return key
}

// state reads a heap's log up to now.
func (d *desk) state(h heap.Heap) (heap.State, error) {
	entries, err := d.store.Entries(d.ctx, d.call.Place, h.ID)
	if err != nil {
		return heap.State{}, err
	}
	return heap.Read(h, entries, d.call.Now), nil
}

// material looks up the words for a material. The note tells people when a
// typing slip was corrected.
func (d *desk) material(words, said string) (f feedstock.Feedstock, note string, err error) {
	if strings.TrimSpace(words) == "" {
		return f, "", fault.New(fault.Missing, "“%s” of what? Say for example “2 buckets of dry leaves”.", quote(said))
	}
	if strings.EqualFold(oneLine(words), "water") {
		return f, "", fault.New(fault.Unknown, "Water is reckoned by itself: leave it out of the list. What was poured on a heap goes with: log water 20 litres")
	}
	match := d.table.Find(words)
	switch match.Outcome {
	case feedstock.Found:
		return match.Feedstock, "", nil
	case feedstock.Guessed:
		return match.Feedstock, "I took “" + quote(words) + "” as " + match.Feedstock.Name + ".", nil
	case feedstock.Ambiguous:
		return f, "", fault.New(fault.Ambiguous, "“%s” could be %s. Which one?", quote(words), list(names(match.Near), "or"))
	case feedstock.Banned:
		return f, "", refused(match.Refusal)
	}
	hint := ""
	if len(match.Near) > 0 {
		hint = " Did you mean " + list(names(match.Near), "or") + "?"
	}
	if definable(words) {
		hint += " If it is new here, define it: stock define " + oneLine(words) + " cn:25 moisture:60"
	}
	return f, "", fault.New(fault.Unknown, "I do not know the material “%s”.%s", quote(words), hint)
}

// refused says why a material stays out of a shared heap.
func refused(r feedstock.Refusal) error {
	return fault.New(fault.Refused, "Please keep %s out of a shared heap. %s (%s)", r.Name, r.Reason, r.Source)
}

// definable is true for words that could be the name of a material.
func definable(words string) bool {
	name := oneLine(words)
	return utf8.RuneCountInString(name) <= maxQuote && strings.ContainsFunc(name, unicode.IsLetter) &&
		!strings.ContainsFunc(name, func(r rune) bool { return !unicode.IsLetter(r) && !strings.ContainsRune(" -'’", r) })
}

func names(fs []feedstock.Feedstock) []string {
	out := make([]string, len(fs))
	for i, f := range fs {
		out[i] = f.Name
	}
	return out
}

// Complete suggests values for an option while it is typed, at most 25.
// call.Path names the command and call.Args what is filled in so far.
func (a *Assistant) Complete(ctx context.Context, call Call, option, typed string) []Choice {
	command, ok := a.byPath[call.Path]
	if !ok {
		return nil
	}
	for _, o := range command.Options {
		if o.Name != option {
			continue
		}
		d, err := a.open(ctx, &call)
		if err != nil {
			return nil
		}
		return d.complete(o, clip(clean(typed), maxArg))
	}
	return nil
}

const maxChoices = 25 // Discord API docs: at most 25 autocomplete results

func (d *desk) complete(o Option, typed string) []Choice {
	var choices []Choice
	switch o.Kind {
	case Pick, Hint:
		for _, c := range o.Choices {
			if strings.HasPrefix(strings.ToLower(c.Name), strings.ToLower(typed)) {
				choices = append(choices, c)
			}
		}
	case HeapName:
		heaps, err := d.store.Heaps(d.ctx, d.call.Place)
		if err != nil {
			return nil
		}
		for _, h := range kept(heaps) {
			if strings.Contains(heapKey(h.Name), heapKey(typed)) {
				choices = append(choices, Choice{Name: h.Name, Value: h.Name})
			}
		}
	case Symptom:
		for _, s := range trouble.Symptoms() {
			if strings.Contains(s.Name, strings.ToLower(typed)) {
				choices = append(choices, Choice{Name: s.Name, Value: s.Name})
			}
		}
	case Pest:
		for _, name := range tried() {
			if strings.Contains(strings.ToLower(name), strings.ToLower(strings.TrimSpace(typed))) {
				choices = append(choices, Choice{Name: name, Value: name})
			}
		}
	case Material:
		choices = d.completeMaterial(typed)
	case Member, JobKind, Lesson:
		choices = d.completePlan(o.Kind, typed)
	}
	return choices[:min(len(choices), maxChoices)]
}

// completeMaterial completes the last material of a list of amounts: what
// stands before it is kept, so that picking a suggestion goes on with the list.
func (d *desk) completeMaterial(typed string) []Choice {
	before, word := lastMaterial(typed)
	var choices []Choice
	for _, f := range d.table.Complete(word, maxChoices) {
		if value := before + f.Name; len(value) <= 100 { // Discord API docs: choices up to 100
			choices = append(choices, Choice{Name: value, Value: value})
		}
	}
	return choices
}

// lastMaterial cuts a half-typed list after its last amount: "2 buckets of
// gra" is "2 buckets of " and "gra".
func lastMaterial(typed string) (before, word string) {
	for _, cut := range []string{" of ", ", ", " and ", "+ "} {
		if i := strings.LastIndex(typed, cut); i >= 0 && i+len(cut) > len(before) {
			before = typed[:i+len(cut)]
		}
	}
	word = typed[len(before):]
	if _, err := strconv.ParseFloat(strings.TrimSpace(word), 64); err == nil {
		return typed, ""
	}
	return before, word
}
