package commands

import (
	"context"
	"errors"
	"maps"
	"slices"
	"strings"

	"heapside/calc/fault"
	"heapside/calc/feedstock"
	"heapside/calc/heap"
	"heapside/commands/speech"
)

// unsaid is a fault that one option puts right, once it is said, or said
// otherwise: the same call with it. Its answer has a button for each way, or a
// form where there are none.
type unsaid struct {
	sentence *fault.Error
	option   string
	also     []string // options that the form asks for besides
	wrong    bool     // the option was said, and a form asks for it anew
	question string   // that the ways answer
	words    string   // the part of what was said that is in doubt; empty: all of it
	within   string   // the piece that the words stand in; empty: any
	ways     []way
	leads    []Action // buttons besides the ways
	path     string   // of the call that met it, set where it is run
	args     map[string]string
}

// way is what may stand for what is in doubt.
type way struct{ label, value string }

func (e *unsaid) Error() string { return e.sentence.Error() }
func (e *unsaid) Unwrap() error { return e.sentence }

// The questions that ways answer.
const (
	whichTitle   = "Which heap?"
	whichOne     = "Which one?"
	howMuchTitle = "How much?"
)

// whichHeap is the fault that one of several heaps puts right.
func whichHeap(e *fault.Error, option string, heaps []heap.Heap) *unsaid {
	u := &unsaid{sentence: e, option: option, question: whichTitle}
	for _, h := range heaps {
		u.ways = append(u.ways, way{h.Name, h.Name})
	}
	return u
}

// whichOf is the fault that one of several names puts right, in the place of
// words that could mean each.
func whichOf(e *fault.Error, words string, names []string) *unsaid {
	u := &unsaid{sentence: e, question: whichOne, words: words}
	for _, name := range names {
		u.ways = append(u.ways, way{name, name})
	}
	return u
}

// whichMaterial is whichOf for materials.
func (d *desk) whichMaterial(e *fault.Error, words, within string, near []feedstock.Feedstock) *unsaid {
	u := &unsaid{sentence: e, question: whichOne, words: words, within: within}
	for _, f := range near {
		u.ways = append(u.ways, way{d.called(f), f.Name})
	}
	return u
}

// sameOfEach is the fault that the same amount of each of several materials puts
// right, where the amount was said before them.
func sameOfEach(e *fault.Error, words, said string, each []feedstock.Feedstock) *unsaid {
	u := &unsaid{sentence: e, question: howMuchTitle, words: words, within: said}
	amount, ok := strings.CutSuffix(said, words)
	var names []string
	for _, f := range each {
		names = append(names, f.Name)
	}
	if value := strings.Join(names, " and "+amount); ok && amount != "" {
		u.ways = []way{{amount + value, value}}
	}
	return u
}

// of says which option a fault is about, where it is not known yet.
func of(option string, err error) error {
	var u *unsaid
	if errors.As(err, &u) && u.option == "" {
		u.option = option
	}
	return err
}

// doubt is a fault of what an option said.
func (d *desk) doubt(option string, err error) error {
	if e, ok := fault.As(err); ok && !errors.As(err, new(*unsaid)) {
		return &unsaid{sentence: e, option: option, wrong: true}
	}
	return err
}

// withLeads is a fault with what leads on from it.
func withLeads(e *fault.Error, leads ...Action) error { return &unsaid{sentence: e, leads: leads} }

// offer puts what there is to tap under the answer to a fault: what puts it
// right, a form for what is missing, or else what has the words asked for anew.
func (a *Assistant) offer(ctx context.Context, call Call, err error, r *Reply) {
	in := speech.Of(r.Language) // that its sentence is said in
	var u *unsaid
	if !errors.As(err, &u) {
		u = a.suspect(call, r.Err)
	}
	r.Actions = a.ways(ctx, call, u, in)
	switch {
	case len(r.Actions) > 0:
	case u.option != "" && (u.wrong || r.Err.Code == fault.Missing):
		r.Form = a.formFor(u, in)
	case u.option != "" || len(u.leads) == 0:
		r.Actions = a.again(u, in)
	}
	for _, lead := range u.leads {
		lead.Label, lead.Group = clip(in.Word(lead.Label), maxActionLabel), in.Word(lead.Group)
		r.Actions = append(r.Actions, lead)
	}
}

// suspect takes the words of a call for what is wrong with it, where it said
// nothing else.
func (a *Assistant) suspect(call Call, e *fault.Error) *unsaid {
	u := &unsaid{sentence: e, path: call.Path, args: call.Args}
	for _, o := range a.byPath[call.Path].Options {
		if o.Words && call.Args[o.Name] != "" && len(leavingOut(call.Args, "heap")) == 1 && slices.Contains(retold, e.Code) {
			u.option = o.Name
		}
	}
	return u
}

// retold are the faults of words that may be said otherwise.
var retold = []fault.Code{fault.NotUnderstood, fault.OutOfRange, fault.Unknown, fault.Missing, fault.Ambiguous, fault.TooLong}

// askers are the commands that ask for what they need though none of it is
// required.
var askers = []string{"mix", "spread", "heap change", "log visit"}

// again is the button that has the words of a call asked for anew, where it
// needs any: without them it does nothing.
func (a *Assistant) again(u *unsaid, in *speech.Speech) []Action {
	command, args := a.byPath[u.path], map[string]string{"heap": u.args["heap"]} // any other may be what is wrong
	needs := slices.ContainsFunc(command.Options, func(o Option) bool {
		return o.Words && o.Required && o.Kind != Pick && o.Kind != HeapName && u.args[o.Name] != ""
	})
	if u.path == "mix" || u.path == "spread" {
		args = nil // they answer for a heap alone
	}
	line := typed(u.path, args, command.Options)
	if !needs && !slices.Contains(askers, u.path) || u.path == "ask" || !slices.Contains(retold, u.sentence.Code) ||
		len(line) > maxActionLine || strings.Contains(line, "\n") {
		return nil
	}
	return []Action{{Label: in.Word(fillAgain), Line: line}}
}

// fillAgain is the button that opens a form anew.
const fillAgain = "Fill it in again"

// ways are the lines that put a fault right. A line that would not be read as
// the call it stands for is left out, and so is one that is too long for a
// button.
func (a *Assistant) ways(ctx context.Context, call Call, u *unsaid, in *speech.Speech) []Action {
	command := a.byPath[u.path]
	o, ok := optionOf(command, u.option)
	if ok && len(u.ways) == 0 {
		a.complete(ctx, call, u, o)
	}
	if !ok || len(u.ways) == 0 {
		return nil
	}
	names := a.heapNames(ctx, call.Place)
	var actions []Action
	for _, w := range u.ways {
		args := maps.Clone(u.args)
		said, ok := u.instead(args[u.option], w.value)
		args[u.option] = ""
		if !ok || o.Kind == HeapName && slices.Contains(slices.Collect(maps.Values(args)), said) { // a heap goes to another
			continue
		}
		args[u.option] = said
		line := typed(u.path, args, command.Options)
		path, read, err := a.parse(line, names)
		if len(line) > maxActionLine || strings.Contains(line, "\n") || err != nil || path != u.path || !maps.Equal(read, args) {
			continue
		}
		actions = append(actions, Action{Label: clip(in.Word(w.label), maxActionLabel), Line: line, Group: in.Word(u.question)})
	}
	return actions[:min(len(actions), maxChoices)]
}

// listed are the kinds of option of which the suggestions are ways: there are
// few, and each is whole.
var listed = []OptionKind{HeapName, Hint, Water, Moment, Member, JobKind, Lesson, Symptom, Pest, EntryNumber, OpenJob, Person, Topic}

// complete takes what is suggested for an option as the ways to say it.
func (a *Assistant) complete(ctx context.Context, call Call, u *unsaid, o Option) {
	d, err := a.open(ctx, &call)
	if err != nil || !slices.Contains(listed, o.Kind) {
		return
	}
	if u.question = whichOne; o.Kind == HeapName {
		u.question = whichTitle
	}
	for _, c := range completers[o.Kind](d, o, "") {
		u.ways = append(u.ways, way{c.Name, c.Value})
	}
	u.words = ""
}

// instead is what was said with other words in the place of those in doubt;
// false when they are not there as they were read.
func (u *unsaid) instead(said, other string) (string, bool) {
	if u.words == "" {
		return other, true
	}
	piece := said
	if u.within != "" {
		piece = u.within
	}
	from, at := strings.Index(said, piece), strings.LastIndex(piece, u.words)
	if from < 0 || at < 0 {
		return "", false
	}
	at += from
	return said[:at] + other + said[at+len(u.words):], true
}

// formFor asks for the options that are missing; nil when they cannot be asked
// for so.
func (a *Assistant) formFor(u *unsaid, in *speech.Speech) *Form {
	command, rest := a.byPath[u.path], maps.Clone(u.args)
	var fields []Field
	for _, name := range append([]string{u.option}, u.also...) {
		o, ok := optionOf(command, name)
		if !ok {
			return nil
		}
		label, example, _ := strings.Cut(in.Word(o.Summary), ", ")
		switch {
		case strings.HasPrefix(o.Summary, "e.g. "): // it is an example only
			label, example = in.Word(command.Summary), in.Word(o.Summary)
		case o.Kind == Pick:
			example = choiceNames(o).In(in)
		}
		fields = append(fields, Field{Option: name, Label: capital(label), Example: example, Required: len(u.also) == 0, Long: o.Kind == Load})
		delete(rest, name)
	}
	return form(capital(u.path), typed(u.path, rest, command.Options), fields...)
}

func optionOf(command Command, name string) (Option, bool) {
	n := slices.IndexFunc(command.Options, func(o Option) bool { return o.Name == name })
	if n < 0 || name == "" {
		return Option{}, false
	}
	return command.Options[n], true
}

// usualAmounts are how much of something arrives mostly. Own choice.
var usualAmounts = []string{"1 bucket", "2 buckets", "3 buckets", "1 sack", "1 barrow"}

// howMuch adds to a fault about amounts what the amount may be, where a piece of
// what was said is a material without one, or has a number without a measure.
func (d *desk) howMuch(option string, err error) error {
	e, ok := fault.As(err)
	if !ok {
		return err
	}
	u := &unsaid{sentence: e, option: option, question: howMuchTitle}
	said, end := d.arg(option), 0
	for _, piece := range splitNames(said) {
		piece = strings.TrimSpace(piece)
		at := strings.Index(said[end:], piece)
		if at < 0 {
			break
		}
		at += end
		end = at + len(piece)
		if _, err := d.local.ParseItems(piece); err == nil || piece == "" {
			continue
		}
		amounts, name := usualAmounts, piece
		if m := counted.FindStringSubmatch(piece); m != nil {
			amounts, name = nil, m[2]
			for _, amount := range d.unitsLike(m[1], "") {
				amounts = append(amounts, strings.TrimSuffix(amount, " of "))
			}
		}
		if _, whole := d.whole(name); !whole && d.table.Find(name).Outcome != feedstock.Ambiguous {
			break
		}
		for _, amount := range amounts {
			count, unit, _ := strings.Cut(amount, " ")
			u.ways = append(u.ways, way{count + " " + d.in.Word(unit), said[:at] + amount + " of " + name + said[end:]})
		}
		break
	}
	return u
}
