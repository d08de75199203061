package discord

import (
	"context"
	"errors"
	"fmt"
	"net/http"
	"time"

	"github.com/bwmarrin/discordgo"
	"github.com/gorilla/websocket"
)

const (
	drainIn      = 5 * time.Second // what is being answered may finish when we stop
	closeIn      = 2 * time.Second // closing the library's session takes 1 s, or for ever
	longestPause = time.Minute     // between two tries to connect or register
)

// Gateway close codes. Source: discord-api-docs c98d64bc,
// topics/opcodes-and-status-codes.mdx.
const (
	closeAuthFailed     = 4004
	closeInvalidSeq     = 4007
	closeSessionExpired = 4009
	closeInvalidShard   = 4010 // this and up to 4014 say: do not connect again
	closeBadIntents     = 4014
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
	go g.register(ctx)
	for {
		if err := g.watch(ctx); err != nil {
			return err
		}
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
	s.AddHandler(func(*discordgo.Session, *discordgo.Disconnect) { signal(g.lost, struct{}{}) })
	s.AddHandler(func(_ *discordgo.Session, i *discordgo.InteractionCreate) { g.onInteraction(i) })
	g.session = s
	return nil
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

// register puts the whole catalogue in place of what was registered before.
// It goes on trying while the platform is only unwell.
func (g *gateway) register(ctx context.Context) {
	var app string
	select {
	case app = <-g.app:
	case <-ctx.Done():
		return
	}
	for pause := time.Second; ; pause = min(2*pause, longestPause) {
		_, err := g.rest.ApplicationCommandBulkOverwrite(app, g.cfg.Guild, g.scoped(), discordgo.WithContext(ctx))
		switch {
		case err == nil:
			g.log.Info("commands registered", "count", len(g.registration))
			close(g.ready)
			return
		case ctx.Err() != nil:
			return
		case refused(err):
			g.failed <- fmt.Errorf("%w (%w)", ErrToken, err)
			return
		case clientError(err):
			g.failed <- fmt.Errorf("discord: the platform refused the commands: %w", err)
			return
		}
		g.log.Warn("cannot register the commands, trying again", "err", err, "in", pause)
		if sleep(ctx, pause) != nil {
			return
		}
	}
}

// scoped is the registration for where it goes: commands of one guild say
// nothing about contexts.
func (g *gateway) scoped() []*discordgo.ApplicationCommand {
	if g.cfg.Guild == "" {
		return g.registration
	}
	out := make([]*discordgo.ApplicationCommand, len(g.registration))
	for i, c := range g.registration {
		local := *c
		local.Contexts, local.IntegrationTypes = nil, nil
		out[i] = &local
	}
	return out
}

// refused reports that the token is not accepted.
func refused(err error) bool {
	var rest *discordgo.RESTError
	if errors.As(err, &rest) && rest.Response != nil {
		return rest.Response.StatusCode == http.StatusUnauthorized
	}
	return websocket.IsCloseError(err, closeAuthFailed)
}

// hopeless reports a close code after which one must not connect again.
func hopeless(err error) bool {
	var closed *websocket.CloseError
	return errors.As(err, &closed) && closed.Code >= closeInvalidShard && closed.Code <= closeBadIntents
}

// clientError reports an answer that says the request was wrong.
func clientError(err error) bool {
	var rest *discordgo.RESTError
	return errors.As(err, &rest) && rest.Response != nil &&
		rest.Response.StatusCode >= 400 && rest.Response.StatusCode < 500
}
