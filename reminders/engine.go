package reminders

import (
	"context"
	"crypto/rand"
	"errors"
	"fmt"
	"log/slog"
	"runtime/debug"
	"sync"
	"time"

	"heapside/calc/advice"
	"heapside/calc/heap"
	"heapside/calc/measure"
	"heapside/storage"
)

// ErrToken is the end of all sending: the platform does not accept our account
// any more.
var ErrToken = errors.New("the platform refuses the bot's token")

// How the engine goes about it. All own choice.
const (
	tick     = 2 * time.Second  // between two looks at what is due
	batch    = 200              // places that one query names
	workers  = 4                // posts that are under way at once
	deadline = 15 * time.Second // of one post or edit
	lease    = 60 * time.Second // of a claimed post
	claimed  = 64               // posts that one claim takes
	restFor  = time.Minute      // before a place where something failed is looked at again
)

// Config is what an engine runs with; zero fields are the real things.
type Config struct {
	Now   func() time.Time
	Owner string // names this process among those that share the record; by chance when empty
	Log   *slog.Logger
}

// Engine sees to it that what is due is said, once. What is due stands in the
// record: an engine can end at any moment, and another go on from there.
type Engine struct {
	record  Record
	finder  Finder
	voice   Voice
	now     func() time.Time
	owner   string
	log     *slog.Logger
	workers int
	foresee func(s heap.State, m measure.Measures, from time.Time, horizon time.Duration) time.Time
	hook    func(step string) // called at each step of a pass, by tests

	pass     sync.Mutex // held by the pass under way
	stale    *rest      // from being armed
	due      *rest      // from being prepared
	mu       sync.Mutex // guards what follows
	stats    Stats
	zones    map[string]*time.Location
	hush     time.Time // nothing is sent before, as the platform asked
	armed    time.Time // when everything stale was last armed
	passed   time.Time // when a pass last came to its end
	unedited int       // edits that failed in a row
	refused  bool      // the token
}

// New is an engine over a record. It does nothing until Tick or Run.
func New(record Record, finder Finder, voice Voice, c Config) *Engine {
	if c.Now == nil {
		c.Now = time.Now
	}
	if c.Owner == "" {
		c.Owner = rand.Text()
	}
	if c.Log == nil {
		c.Log = slog.New(slog.DiscardHandler)
	}
	return &Engine{
		record: record, finder: finder, voice: voice, now: c.Now, owner: c.Owner, log: c.Log, workers: workers,
		foresee: advice.LookAgain, hook: func(string) {}, stale: newRest(c.Now), due: newRest(c.Now), zones: map[string]*time.Location{},
	}
}

// Tick is one pass: it works out anew what changes on record outdated, prepares
// what is due, posts it, and edits what is shown otherwise by now. What fails
// at one place waits there and holds up no other. Several processes may do so
// over one record. The error is the record's, the context's or ErrToken.
func (e *Engine) Tick(ctx context.Context) error {
	e.pass.Lock()
	defer e.pass.Unlock()
	if e.tokenRefused() {
		return ErrToken
	}
	err := errors.Join(e.armAll(ctx), e.prepareAll(ctx), e.sendAll(ctx), e.editAll(ctx))
	if err == nil {
		e.mu.Lock()
		defer e.mu.Unlock()
		e.passed = e.now()
	}
	return err
}

// each does something with all items, some at once, until the context ends.
func each[T any](ctx context.Context, workers int, items []T, do func(T)) {
	queue := make(chan T)
	var running sync.WaitGroup
	for range min(workers, len(items)) {
		running.Go(func() {
			for item := range queue {
				if ctx.Err() == nil {
					do(item)
				}
			}
		})
	}
	for _, item := range items {
		queue <- item
	}
	close(queue)
	running.Wait()
}

// sweep does what a query finds, batch by batch, until it finds no more; what is
// new by then is left for the next pass. Places where that fails rest for a while.
func sweep(ctx context.Context, e *Engine, doing string, resting *rest, find func(limit int) ([]storage.Due, error), do func(storage.Due) error) error {
	seen := map[heap.Place]bool{}
	for ctx.Err() == nil {
		limit := batch + resting.size()
		found, err := find(limit)
		if err != nil {
			return fmt.Errorf("%s: %w", doing, err)
		}
		var todo []storage.Due
		for _, d := range found {
			if !seen[d.Place] && !resting.holds(d.Place) {
				seen[d.Place] = true
				todo = append(todo, d)
			}
		}
		each(ctx, e.workers, todo, func(d storage.Due) {
			if err := guarded(func() error { return do(d) }); err != nil {
				e.log.Error("reminders: "+doing, "guild", d.Place.Guild, "channel", d.Place.Channel, "err", err)
				e.count(func(c *Stats) { c.Failed++ })
				resting.give(d.Place, e.now().Add(restFor))
			}
		})
		if len(todo) == 0 || len(found) < limit {
			break
		}
	}
	return ctx.Err()
}

// guarded turns a panic into an error: one place must not stop the others.
func guarded(do func() error) (err error) {
	defer func() {
		if p := recover(); p != nil {
			err = fmt.Errorf("panic: %v\n%s", p, debug.Stack())
		}
	}()
	return do()
}
