package commands

import (
	"context"
	"log/slog"
)

// Assistant answers calls from the catalogue over one store. It is safe for
// use by several goroutines.
type Assistant struct {
	store     Store
	log       *slog.Logger
	catalogue []Command
}

// New returns an Assistant over a store.
func New(store Store, log *slog.Logger) *Assistant {
	return &Assistant{store: store, log: log}
}

// Commands is the catalogue, in the order help lists it. Callers must not change it.
func (a *Assistant) Commands() []Command { return a.catalogue }

// Do answers a call. It never fails: what went wrong is in Reply.Err.
func (a *Assistant) Do(ctx context.Context, call Call) Reply { return Reply{} }

// Line answers a typed line ("log temp 58 heap:\"North Bay\"") with the rest
// of the call (place, person, time) taken from call.
func (a *Assistant) Line(ctx context.Context, call Call, line string) Reply { return Reply{} }

// Complete suggests values for an option while it is typed, at most 25.
// call.Path names the command and call.Args what is filled in so far.
func (a *Assistant) Complete(ctx context.Context, call Call, option, typed string) []Choice {
	return nil
}
