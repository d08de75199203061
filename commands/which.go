package commands

import (
	"context"
	"errors"
	"maps"
	"strings"

	"heapside/calc/fault"
	"heapside/calc/heap"
)

// whichHeap is a fault that naming one of several heaps puts right: the same
// call with the heap as option.
type whichHeap struct {
	sentence *fault.Error
	heaps    []heap.Heap
	option   string
	path     string // of the call that met it, set where it is run
	args     map[string]string
}

func (e *whichHeap) Error() string { return e.sentence.Error() }
func (e *whichHeap) Unwrap() error { return e.sentence }

// whichTitle is the question that a list of heaps answers.
const whichTitle = "Which heap?"

// ways are the lines that put a fault right, one for each heap it may mean. A
// line that would not be read as the call it stands for is left out, and so is
// one that is too long for a button.
func (a *Assistant) ways(ctx context.Context, call Call, err error) []Action {
	var which *whichHeap
	if !errors.As(err, &which) || which.option == "" {
		return nil
	}
	command, names := a.byPath[which.path], a.heapNames(ctx, call.Place)
	question := a.speech(ctx, call).Word(whichTitle)
	var actions []Action
	for _, h := range which.heaps {
		args := maps.Clone(which.args)
		args[which.option] = h.Name
		line := typed(which.path, args, command.Options)
		path, read, err := a.parse(line, names)
		if len(line) > maxActionLine || strings.Contains(line, "\n") || err != nil || path != which.path || !maps.Equal(read, args) {
			continue
		}
		actions = append(actions, Action{Label: clip(h.Name, maxActionLabel), Line: line, Group: question})
	}
	return actions[:min(len(actions), maxChoices)]
}
