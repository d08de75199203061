package commands

import (
	"context"
	"errors"
	"slices"
	"strings"

	"heapside/calc/fault"
	"heapside/calc/heap"
	"heapside/commands/speech"
)

func (a *Assistant) askCommand() Command {
	return Command{
		Name: "ask", Summary: "Say it in plain words: “58 degrees in North Bay”, “what do I add to 2 buckets of grass?”",
		Options: []Option{{Name: "words", Summary: "the sentence, e.g. what needs doing?", Words: true, Required: true}},
		Run:     a.ask,
	}
}

// ask runs the command that a sentence asks for and says first how it was
// understood, so that people learn the short form and see a misreading.
func (a *Assistant) ask(ctx context.Context, call *Call) (Reply, error) {
	d, err := a.open(ctx, call)
	if err != nil {
		return Reply{}, err
	}
	said := d.arg("words")
	known := vocabulary{Heaps: a.heapNames(ctx, call.Place), Measures: d.m, Table: d.table.English()}
	path, args, ok := route(said, known)
	if !ok && d.isList(said) {
		path, args, ok = "mix", map[string]string{"what": said}, true
	}
	command, exists := a.byPath[path]
	if !ok || !exists {
		return Reply{}, withLeads(notUnderstood(said, known), a.plainest()...)
	}
	understood := d.in.Say("Understood as: %s", typed(path, args, command.Options))
	if err := d.strangeHeap(command, args); err != nil {
		return Reply{}, met(err, path, args)
	}
	routed := *call
	routed.Path, routed.Args = path, args
	reply, err := a.run(ctx, &routed)
	if e, ok := fault.As(err); ok {
		e = fault.New(e.Code, "%s (%s)", refusal{e}, understood)
		var which *unsaid
		if errors.As(err, &which) {
			which.sentence = e
			return Reply{}, which
		}
		return Reply{}, e
	}
	if err != nil {
		return Reply{}, err
	}
	reply.Body = append([]Block{{Lines: []string{understood}}}, reply.Body...)
	return reply, nil
}

// isList reports whether a sentence is nothing but amounts of materials in
// another language than English.
func (d *desk) isList(said string) bool {
	if _, err := d.m.ParseItems(said); err == nil || len(said) > longestValue {
		return false
	}
	l, err := d.readLoad(said)
	return wasRefused(err) || err == nil && len(l.notes) == 0
}

// strangeHeap refuses a heap that a sentence names and nobody keeps: in a plain
// sentence a guess between two names would too often be the wrong heap.
func (d *desk) strangeHeap(command Command, args map[string]string) error {
	heaps, err := d.store.Heaps(d.ctx, d.call.Place)
	if err != nil {
		return err
	}
	for _, o := range command.Options {
		said := args[o.Name]
		if o.Kind != HeapName || said == "" {
			continue
		}
		if !slices.ContainsFunc(heaps, func(h heap.Heap) bool { return heapKey(h.Name) == heapKey(said) }) {
			e := fault.New(fault.Unknown, "There is no heap “%s” here. Kept here: %s.", quote(said), speech.Joined{Words: namesOf(kept(heaps)), Last: "and"})
			return whichHeap(e, o.Name, kept(heaps))
		}
	}
	return nil
}

// plainest are what somebody may want who was not understood.
func (a *Assistant) plainest() []Action {
	var actions []Action
	for _, path := range []string{"next", "log visit", "guide"} {
		actions = append(actions, Action{Label: a.byPath[path].Summary, Line: path})
	}
	return actions
}

func notUnderstood(said string, known vocabulary) *fault.Error {
	return fault.New(fault.NotUnderstood, "I did not understand “%s”, and wrote nothing down. One thing at a time, please, for example: %s.",
		quote(said), strings.Join(quoted(nearest(said, known, 3)), ", "))
}

func quoted(lines []string) []string {
	out := make([]string, len(lines))
	for i, line := range lines {
		out[i] = "“" + line + "”"
	}
	return out
}
