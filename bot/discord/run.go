package discord

import (
	"context"
	"errors"
	"fmt"
	"time"

	"github.com/bwmarrin/discordgo"
	"github.com/gorilla/websocket"
)

const (
	drainIn      = 5 * time.Second // what is being answered may finish when we stop
	closeIn      = 2 * time.Second // closing the library's session takes 1 s, or for ever
	longestPause = time.Minute     // between two tries to connect or register
)

// Run opens the gateway, registers the commands and serves until the context
// ends (then it returns nil, after what is in flight was answered) or until
// serving has become impossible: a refused token, a refused registration, or a
// gateway that stays away or silent for longer than Config.Patience. It can be
// called once.
func (a *Adapter) Run(ctx context.Context) error {
	if !a.running.CompareAndSwap(false, true) {
		return errors.New("discord: the adapter has been run already")
	}
	ctx, cancel := context.WithCancel(ctx)
	defer cancel()
	go func() {
		select {
		case <-a.closed:
			cancel()
		case <-ctx.Done():
		}
	}()
	g := &gateway{
		Adapter: a, lost: make(chan struct{}, 1), app: make(chan string, 1), failed: make(chan error, 1),
	}
	err := g.serve(ctx)
	a.drain()
	g.shut()
	a.link.lost()
	if ctx.Err() != nil && !errors.Is(err, ErrToken) {
		return nil
	}
	return err
}

// drain waits a little for the interactions in flight and stops the others.
func (a *Adapter) drain() {
	a.mu.Lock()
	a.draining = true
	a.mu.Unlock()
	done := make(chan struct{})
	go func() {
		a.inFlight.Wait()
		close(done)
	}()
	select {
	case <-done:
	case <-time.After(drainIn):
		a.log.Warn("stopped before every answer was sent")
	}
	a.stopWork()
}

// gateway is the connection during one Run.
type gateway struct {
	*Adapter
	session *discordgo.Session
	lost    chan struct{} // the session was closed
	app     chan string   // the application's id, once known
	failed  chan error    // why registration is hopeless
}

func (g *gateway) serve(ctx context.Context) error {
	if err := g.renew(); err != nil {
		return err
	}
	if err := g.connect(ctx); err != nil {
		return err
	}
	go g.publish(ctx)
	for {
		if err := g.watch(ctx); err != nil {
			return err
		}
		g.link.lost()
		g.log.Warn("gateway lost, connecting again")
		if err := g.connect(ctx); err != nil {
			return err
		}
	}
}

// renew makes a session that will identify afresh.
func (g *gateway) renew() error {
	s, err := g.newSession()
	if err != nil {
		return err
	}
	s.AddHandler(func(_ *discordgo.Session, r *discordgo.Ready) {
		if r.Application != nil && r.Application.ID != "" {
			signal(g.app, r.Application.ID)
		}
	})
	s.AddHandler(func(*discordgo.Session, *discordgo.Resumed) { g.link.resumed() })
	s.AddHandler(func(*discordgo.Session, *discordgo.Disconnect) { signal(g.lost, struct{}{}) })
	s.AddHandler(func(_ *discordgo.Session, i *discordgo.InteractionCreate) { g.onInteraction(i) })
	s.AddHandler(func(_ *discordgo.Session, d *discordgo.GuildDelete) { g.onGuildDelete(d) })
	g.session = s
	return nil
}

// onGuildDelete passes on that a server removed us. The event of one that is
// out of order says so (discord-api-docs c98d64bc, events/gateway-events.mdx).
func (a *Adapter) onGuildDelete(d *discordgo.GuildDelete) {
	if a.cfg.Gone == nil || d == nil || d.Guild == nil || d.ID == "" || d.Unavailable {
		return
	}
	a.apart("hearing that a server is gone", func() { a.cfg.Gone(d.ID) })
}

// signal leaves a value for whoever waits; one that is left already will do.
func signal[T any](c chan T, value T) {
	select {
	case c <- value:
	default:
	}
}

// connect opens the session, resuming what can be resumed, and tries again
// with growing pauses until Patience is used up.
func (g *gateway) connect(ctx context.Context) error {
	begun := time.Now()
	for pause := time.Second; ; pause = min(2*pause, longestPause) {
		err := g.open(ctx)
		switch {
		case err == nil, errors.Is(err, discordgo.ErrWSAlreadyOpen):
			g.link.opened(g.session)
			g.log.Info("gateway open")
			return nil
		case ctx.Err() != nil:
			return ctx.Err()
		case errors.Is(err, ErrStalled):
			return err
		case refused(err):
			return fmt.Errorf("%w (%w)", ErrToken, err)
		case hopeless(err):
			return fmt.Errorf("discord: the gateway refused the connection: %w", err)
		case websocket.IsCloseError(err, closeInvalidSeq, closeSessionExpired):
			if err := g.renew(); err != nil {
				return err
			}
		}
		if time.Since(begun)+pause > g.cfg.Patience {
			return fmt.Errorf("%w: no connection for %s: %w", ErrStalled, g.cfg.Patience, err)
		}
		g.log.Warn("cannot connect, trying again", "err", err, "in", pause)
		if err := sleep(ctx, pause); err != nil {
			return err
		}
	}
}

// open opens the session once. The library has no deadline of its own there
// and can lock itself up when the first packet is not the one it expects.
func (g *gateway) open(ctx context.Context) error {
	select {
	case <-g.lost: // what was lost is what we are about to open
	default:
	}
	result := make(chan error, 1)
	go func(s *discordgo.Session) {
		defer func() {
			if p := recover(); p != nil {
				result <- fmt.Errorf("discord: opening the gateway: panic: %v", p)
			}
		}()
		result <- s.Open()
	}(g.session)
	timeout := time.NewTimer(g.cfg.OpenIn)
	defer timeout.Stop()
	select {
	case err := <-result:
		return err
	case <-timeout.C:
		return fmt.Errorf("%w: opening took more than %s", ErrStalled, g.cfg.OpenIn)
	case <-ctx.Done():
		return ctx.Err()
	}
}

// watch returns nil when the connection was lost, and an error when there is
// no use in going on.
func (g *gateway) watch(ctx context.Context) error {
	check := time.NewTicker(max(g.cfg.Patience/6, time.Millisecond))
	defer check.Stop()
	lastAck := time.Now()
	for {
		select {
		case <-ctx.Done():
			return ctx.Err()
		case err := <-g.failed:
			return err
		case <-g.lost:
			return nil
		case <-check.C:
			if g.session.TryRLock() { // a locked-up session must not lock us up too
				if g.session.LastHeartbeatAck.After(lastAck) {
					lastAck = g.session.LastHeartbeatAck
				}
				g.session.RUnlock()
			}
			if silent := time.Since(lastAck); silent > g.cfg.Patience {
				return fmt.Errorf("%w: no heartbeat answered for %s", ErrStalled, silent.Round(time.Second))
			}
		}
	}
}

// shut closes the session, unless it is locked up.
func (g *gateway) shut() {
	if g.session == nil {
		return
	}
	done := make(chan struct{})
	go func(s *discordgo.Session) {
		defer close(done)
		if err := s.Close(); err != nil {
			g.log.Warn("closing the gateway", "err", err)
		}
	}(g.session)
	select {
	case <-done:
	case <-time.After(closeIn):
	}
}
