package reminders

import (
	"context"
	"fmt"
	"log/slog"
	"time"

	"heapside/calc/duty"
	"heapside/calc/heap"
	"heapside/storage"
)

// process is one run of the program: an engine over a record, until it ends at
// some step. What it would do after that does not happen.
type process struct {
	*mortal
	s      *year
	engine *Engine
	busy   bool // in a pass
	fuse   int  // steps until it ends
	lives  int  // 1: is not started again
}

// boot starts the program.
func (s *year) boot(db *storage.DB) *process {
	p := &process{mortal: &mortal{DB: db}, s: s, fuse: 1 + int(s.span(0, 120))}
	if s.calm {
		p.fuse = -1
	}
	p.engine = New(p, finder{s}, lastWords{p.mortal, s.platform}, Config{Now: s.clock, Owner: fmt.Sprint("p", s.rng.Uint64()), Log: s.log()})
	p.engine.workers = 1
	p.engine.foresee = atOnce
	p.engine.hook = p.step
	s.running = append(s.running, p)
	for _, c := range s.channels {
		c.unseen = false
	}
	s.wake(s.clock())
	s.tell("an engine starts, %d steps to go", p.fuse)
	return p
}

func (s *year) log() *slog.Logger {
	if s.told {
		return slog.New(slog.NewTextHandler(s.t.Output(), &slog.HandlerOptions{ReplaceAttr: func(_ []string, a slog.Attr) slog.Attr {
			if a.Key == slog.TimeKey {
				return slog.Attr{}
			}
			return a
		}}))
	}
	return slog.New(slog.DiscardHandler)
}

func (p *process) tick() {
	p.busy = true
	p.s.passes++
	defer func() { p.busy = false }()
	err := p.engine.Tick(context.Background())
	if err != nil && !p.dead {
		p.s.fault("a pass failed: %v", err)
	}
}

// step is called by the engine; it may be the last thing it does.
func (p *process) step(name string) {
	if p.dead {
		return
	}
	if p.fuse--; p.fuse == 0 {
		p.end(name)
		return
	}
	if name == "before-post" && !p.s.calm && p.s.depth == 0 && len(p.s.running) > 1 && p.s.chance(15) {
		p.stall()
	}
}

func (p *process) end(step string) {
	p.dead = true
	p.s.crashes[step]++
	p.s.wake(p.s.clock().Add(lease)) // when what it had claimed can be claimed again
	p.s.tell("the engine ends at %q", step)
	if p.lives == 1 {
		return
	}
	down := p.s.span(0, 20*time.Second)
	switch {
	case p.s.chance(5):
		down = p.s.span(12*time.Hour, 90*time.Hour)
	case p.s.chance(12):
		down = p.s.span(0, 8*time.Hour)
	case p.s.chance(30):
		down = p.s.span(0, 20*time.Minute)
	}
	p.s.later(down, func() { p.s.boot(p.s.db) })
}

// stall holds an engine up in the middle of a post, longer than its lease,
// while others work.
func (p *process) stall() {
	s := p.s
	s.tell("the engine stands still")
	s.depth++
	for range 3 {
		s.advance(s.at.Add(s.span(0, 50*time.Second)))
		s.pass()
	}
	s.depth--
	s.wake(s.clock())
	s.wake(s.clock().Add(lease))
}

// What follows wakes the engines when there is something to do.

// Arm implements Record.
func (p *process) Arm(ctx context.Context, was storage.Due, next duty.Occurrence, settled ...duty.Item) error {
	p.s.wake(next.At)
	return p.mortal.Arm(ctx, was, next, settled...)
}

// Due implements Record.
func (p *process) Due(ctx context.Context, now time.Time, limit int) ([]storage.Due, error) {
	due, err := p.mortal.Due(ctx, now, limit)
	for _, d := range due {
		c := p.s.channel(d.Place)
		p.s.wake(c.plan.Speakable(now, c.zone))
	}
	return due, err
}

// Prepare implements Record.
func (p *process) Prepare(ctx context.Context, was storage.Due, post duty.Post, next duty.Occurrence, rota duty.Rota) (bool, error) {
	p.s.wake(next.At)
	return p.mortal.Prepare(ctx, was, post, next, rota)
}

// Skip implements Record.
func (p *process) Skip(ctx context.Context, was storage.Due, next duty.Occurrence) (bool, error) {
	p.s.wake(next.At)
	return p.mortal.Skip(ctx, was, next)
}

// Sent implements Record.
func (p *process) Sent(ctx context.Context, post duty.Post, message string, now time.Time) error {
	err := p.mortal.Sent(ctx, post, message, now)
	if err == nil {
		p.s.platform.messages[message].known = true
	}
	return err
}

// Retry implements Record.
func (p *process) Retry(ctx context.Context, post duty.Post, next time.Time, why string) error {
	p.s.wake(next)
	p.s.channel(post.Place).waits(post, next)
	return p.mortal.Retry(ctx, post, next, why)
}

// Drop implements Record.
func (p *process) Drop(ctx context.Context, post duty.Post, folded bool, why string) error {
	p.s.wake(p.s.clock())
	return p.mortal.Drop(ctx, post, folded, why)
}

// EditLater implements Record.
func (p *process) EditLater(ctx context.Context, post duty.Post, next time.Time) error {
	p.s.wake(next)
	return p.mortal.EditLater(ctx, post, next)
}

// Trouble implements Record.
func (p *process) Trouble(ctx context.Context, at heap.Place, what duty.Trouble, now time.Time, notices ...duty.Post) (bool, error) {
	p.s.wake(now)
	return p.mortal.Trouble(ctx, at, what, now, notices...)
}
