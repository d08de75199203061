package main

import (
	"context"
	"fmt"
	"strings"

	"heapside/bot/discord"
)

// lookAtCommands compares what is registered with the catalogue of n commands,
// and looks for what a trial left: beside the commands for everywhere each of
// them appears twice.
func (d *doctor) lookAtCommands(ctx context.Context, i *discord.Inspector, n int) error {
	diff, err := i.Differences(ctx)
	if err != nil {
		return err
	}
	trials, stopped := i.Trials(ctx)
	switch none := len(diff.Missing) == n; {
	case diff.None():
		d.ok("commands", "All %d are registered everywhere, as this program has them.", n)
	case d.mend:
		if err := i.Register(ctx); err != nil {
			return err
		}
		d.ok("commands", "All %d are now registered everywhere; before, %s.", n, differing(diff))
	case none && len(trials) > 0:
		d.warn("commands", "They are registered only in %s, as a trial. Everywhere: heapside serve without -guild, or heapside doctor -mend.", listed(trialNames(trials)))
		return stopped
	case none:
		d.bad("commands", "None is registered everywhere. heapside serve does it when it starts, heapside doctor -mend now.")
	case len(diff.Missing) > 0:
		d.bad("commands", "They are not registered as this program has them: %s. heapside serve mends it when it starts, heapside doctor -mend now.", differing(diff))
	default:
		d.warn("commands", "They are not registered as this program has them: %s. heapside serve mends it when it starts, heapside doctor -mend now.", differing(diff))
	}
	if len(trials) == 0 {
		return stopped
	}
	if !d.mend {
		d.warn("trial", "A trial (serve -guild) left commands in %s, and there each appears twice. Clear them: heapside doctor -mend.", listed(trialNames(trials)))
		return stopped
	}
	for _, t := range trials {
		if err := i.Clear(ctx, t.Guild); err != nil {
			return err
		}
	}
	d.ok("trial", "The commands that a trial left in %s are cleared; those for everywhere stay.", listed(trialNames(trials)))
	return stopped
}

// differing says which commands are missing, outdated and unknown.
func differing(d discord.Differences) string {
	var parts []string
	for _, kind := range []struct {
		names []string
		is    string
	}{{d.Missing, "missing"}, {d.Outdated, "outdated"}, {d.Unknown, "no longer ours"}} {
		if len(kind.names) > 0 {
			parts = append(parts, kind.is+": "+listed(kind.names))
		}
	}
	return strings.Join(parts, "; ")
}

func trialNames(trials []discord.Trial) []string {
	names := make([]string, len(trials))
	for n, t := range trials {
		names[n] = fmt.Sprintf("“%s”", t.Name)
	}
	return names
}
