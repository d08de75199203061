package commands

import (
	"context"
	"fmt"
	"regexp"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"heapside/calc/fault"
	"heapside/calc/feedstock"
	"heapside/calc/heap"
	"heapside/commands/speech"
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
		return h, of(option, err)
	case len(open) == 1:
		return open[0], nil
	case len(open) == 0:
		return heap.Heap{}, d.noHeap()
	}
	return heap.Heap{}, whichHeap(fault.New(fault.Missing, "Which heap: %s? Add heap:\"%s\".", either(namesOf(open)), open[0].Name), option, open)
}

// noHeap is the fault of a place where no heap is kept, with a button to start one.
func (d *desk) noHeap() error { return withLeads(fault.New(fault.Missing, noHeap), startAction) }

// maxNamed is how many heaps one sentence names. Own choice.
const maxNamed = 8

// either joins names that one is to be picked from.
func either(names []string) speech.Joined { return speech.Joined{Words: few(names), Last: "or"} }

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
		return heap.Heap{}, whichHeap(fault.New(fault.Ambiguous, "“%s” could be %s. Which one?", quote(said), either(namesOf(near))), "", near)
	}
	if len(open) == 0 {
		return heap.Heap{}, withLeads(fault.New(fault.Unknown, "There is no heap “%s” here, and none is kept. Start one with: heap start North Bay", quote(said)), startAction)
	}
	return heap.Heap{}, whichHeap(fault.New(fault.Unknown, "There is no heap “%s” here. Kept here: %s.", quote(said), speech.Joined{Words: few(namesOf(open)), Last: "and"}), "", open)
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
	if isWater(words) {
		return f, "", fault.New(fault.Unknown, "Water is reckoned by itself: leave it out of the list. What was poured on a heap goes with: log water 20 litres")
	}
	match := d.table.Find(words)
	if each := d.each(words, match); each != nil {
		e := fault.New(fault.Ambiguous, "“%s” is more than one thing. Say how much of each, such as “1 bucket of %s and 1 bucket of %s”.",
			quote(words), each[0].Name, each[1].Name)
		return f, "", sameOfEach(e, words, said, each)
	}
	switch match.Outcome {
	case feedstock.Found:
		return match.Feedstock, "", nil
	case feedstock.Guessed:
		return match.Feedstock, d.in.Say("I took “%s” as %s.", quote(words), d.called(match.Feedstock)), nil
	case feedstock.Ambiguous:
		return f, "", d.whichMaterial(fault.New(fault.Ambiguous, "“%s” could be %s. Which one?", quote(words), either(d.names(match.Near))), words, said, match.Near)
	case feedstock.Banned:
		return f, "", d.refused(match.Refusal)
	}
	var define []Action
	unknown := fault.Say("I do not know the material “%s”.", quote(words))
	if len(match.Near) > 0 {
		unknown = fault.Say("%s Did you mean %s?", unknown, speech.Joined{Words: d.names(match.Near), Last: "or"})
	}
	if definable(words) {
		unknown = fault.Say("%s If it is new here, define it: stock define %s cn:25 moisture:60", unknown, oneLine(words))
		define = []Action{{Label: "A material of your own, from a lab sheet or your best guess", Line: "stock define " + oneLine(words)}}
	}
	u := d.whichMaterial(fault.New(fault.Unknown, unknown.Format, unknown.Args...), words, said, match.Near)
	u.leads = define
	return f, "", u
}

// joiners stand between two materials.
var joiners = regexp.MustCompile(`(?i)\s*(?:\b(?:and|with|plus|und|mit|et|avec|y|con|en|met)\b|&|\+)\s*`)

// each are the materials that words name one after the other, where no name
// holds all of them; a guess would take one and drop the others.
func (d *desk) each(words string, match feedstock.Match) []feedstock.Feedstock {
	parts := joiners.Split(words, -1)
	if len(parts) < 2 || match.Outcome != feedstock.Guessed && match.Outcome != feedstock.Ambiguous {
		return nil
	}
	var each []feedstock.Feedstock
	one := len(parts) > 2 || match.Outcome == feedstock.Ambiguous // whether the guess is one of them
	for _, part := range parts {
		m := d.table.Find(part)
		if m.Outcome != feedstock.Found || slices.ContainsFunc(each, func(f feedstock.Feedstock) bool { return f.ID == m.Feedstock.ID }) {
			return nil
		}
		one = one || m.Feedstock.ID == match.Feedstock.ID
		each = append(each, m.Feedstock)
	}
	if !one {
		return nil
	}
	return each
}

// refused says why a material stays out of a shared heap.
func (d *desk) refused(r feedstock.Refusal) error {
	return fault.New(fault.Refused, "Please keep %s out of a shared heap. %s (%s)", r.In(d.in.Code()), d.in.Word(r.Reason), r.Source)
}

// definable is true for words that could be the name of a material.
func definable(words string) bool {
	name := oneLine(words)
	return utf8.RuneCountInString(name) <= maxQuote && strings.ContainsFunc(name, unicode.IsLetter) &&
		!strings.ContainsFunc(name, func(r rune) bool { return !unicode.IsLetter(r) && !strings.ContainsRune(" -'’", r) })
}

// names are what materials are called, for a sentence.
func (d *desk) names(fs []feedstock.Feedstock) []string {
	out := make([]string, len(fs))
	for i, f := range fs {
		out[i] = d.called(f)
	}
	return out
}
