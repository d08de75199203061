package commands

import (
	"context"
	"errors"
	"fmt"
	"log/slog"
	"runtime/debug"
	"strings"
	"time"

	"heapside/calc/fault"
)

// Assistant answers calls from the catalogue over one store. It is safe for
// use by several goroutines.
type Assistant struct {
	store     Store
	weather   Weather // nil: none is asked
	log       *slog.Logger
	catalogue []Command
	byPath    map[string]Command
	recall    recall
	tables    tables

	calls, suggestions *limiter // nil: any number
}

// New returns an Assistant over a store. It panics when two commands share a
// path: that is a mistake in the catalogue, found at start-up.
func New(store Store, log *slog.Logger, settings ...Setting) *Assistant {
	a := &Assistant{store: store, log: log, byPath: map[string]Command{}}
	for _, set := range settings {
		set(a)
	}
	a.catalogue = a.allCommands()
	for _, c := range a.catalogue {
		a.register("", c)
	}
	return a
}

func (a *Assistant) register(prefix string, c Command) {
	path := strings.TrimSpace(prefix + " " + c.Name)
	if c.Run == nil {
		for _, sub := range c.Subs {
			a.register(path, sub)
		}
		return
	}
	if _, taken := a.byPath[path]; taken {
		panic("commands: two commands are called " + path)
	}
	a.byPath[path] = c
}

// Commands is the catalogue, in the order help lists it. Callers must not change it.
func (a *Assistant) Commands() []Command { return a.catalogue }

// Do answers a call. It never fails: what went wrong is in Reply.Err. A panic
// or an internal error becomes one plain sentence and a log line.
func (a *Assistant) Do(ctx context.Context, call Call) Reply {
	if r, over := a.over(ctx, call); over {
		return r
	}
	return a.do(ctx, call)
}

// do is Do within the limits.
func (a *Assistant) do(ctx context.Context, call Call) (reply Reply) {
	began := time.Now()
	defer func() {
		if p := recover(); p != nil {
			a.log.Error("command panicked", "path", call.Path, "panic", fmt.Sprint(p), "stack", string(debug.Stack()))
			reply = failed(a.internal(call.Path)) // in English: what panicked may be what knows the language
		}
		a.log.Debug("command", "path", call.Path, "guild", call.Place.Guild, "channel", call.Place.Channel,
			"took", time.Since(began), "failed", reply.Err != nil)
	}()
	reply, err := a.run(ctx, &call)
	if err == nil {
		return reply
	}
	if e, ok := fault.As(err); ok {
		reply = a.failed(ctx, call, e)
		a.offer(ctx, call, err, &reply)
		return reply
	}
	a.log.Error("command failed", "path", call.Path, "guild", call.Place.Guild, "channel", call.Place.Channel, "err", err)
	return a.failed(ctx, call, a.internal(call.Path))
}

// Line answers a typed line ("log temp 58 heap:\"North Bay\"") with the rest
// of the call (place, person, time) taken from call. A line that begins with
// no command is taken as a plain sentence.
func (a *Assistant) Line(ctx context.Context, call Call, line string) Reply {
	if r, over := a.over(ctx, call); over {
		return r
	}
	path, args, err := a.parse(line, a.heapNames(ctx, call.Place))
	if err != nil {
		if e, ok := fault.As(err); ok {
			r := a.failed(ctx, call, e)
			a.offer(ctx, call, err, &r)
			return r
		}
		return a.failed(ctx, call, a.internal(line))
	}
	call.Path, call.Args = path, args
	return a.do(ctx, call)
}

// run checks a call against the catalogue and runs its command, without the
// recovery and logging of Do.
func (a *Assistant) run(ctx context.Context, call *Call) (Reply, error) {
	command, ok := a.byPath[call.Path]
	if !ok {
		return Reply{}, fault.New(fault.Unknown, "There is no command “%s”. Try one of: %s.", quote(call.Path), a.names())
	}
	call.By.Name, call.By.ID = clip(clean(call.By.Name), maxName), clean(call.By.ID)
	args, err := checkArgs(command, call.Args)
	if err != nil {
		return Reply{}, met(err, call.Path, args)
	}
	for _, o := range command.Options {
		if said := args[o.Name]; o.Words && said != "" {
			if args[o.Name] = placeWhen(command, args, said); args[o.Name] == "" && o.Required {
				return Reply{}, met(missing(o), call.Path, args)
			}
		}
	}
	call.Args = args
	reply, err := command.Run(ctx, call)
	return reply, met(err, call.Path, call.Args)
}

// met notes in a fault that an option puts right which call met it.
func met(err error, path string, args map[string]string) error {
	var u *unsaid
	if errors.As(err, &u) && u.path == "" {
		u.path, u.args = path, args
	}
	return err
}

// internal is the sentence for a mistake of ours. Logging commands say that
// nothing was stored, because nothing was: writes are all or nothing.
func (a *Assistant) internal(path string) *fault.Error {
	switch command, _, _ := strings.Cut(path, " "); command {
	case "log", "undo", "heap", "stock", "garden", "duty":
		return fault.New(fault.NotSaved, "Not saved: something went wrong on my side. Please try again in a minute.")
	}
	return fault.New(fault.NotSaved, "I could not answer that: something went wrong on my side. Please try again in a minute.")
}

func (a *Assistant) names() string {
	var names []string
	for _, c := range a.catalogue {
		names = append(names, c.Name)
	}
	return strings.Join(names, ", ")
}
