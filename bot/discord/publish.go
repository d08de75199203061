package discord

import (
	"context"
	"fmt"
	"time"

	"github.com/bwmarrin/discordgo"
)

// publish puts the whole catalogue in place of what was registered before.
// It goes on trying while the platform is only unwell, or takes no more
// commands today: those registered before work meanwhile.
func (g *gateway) publish(ctx context.Context) {
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
		case clientError(err) && !tooManyCommands(err):
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
