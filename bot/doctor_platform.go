package main

import (
	"context"
	"errors"
	"log/slog"
	"net/http"
	"net/url"
	"time"

	"heapside/bot/discord"
	"heapside/commands"
)

// Own choices: reminders count minutes, and nobody waits longer than a minute
// for a doctor.
const (
	clockOff   = time.Minute
	platformIn = 25 * time.Second // for all questions
)

// lookAtPlatform asks the platform whose the token is, what is registered, and
// what the bot may do where.
func (d *doctor) lookAtPlatform(ctx context.Context) {
	token, err := d.token()
	switch {
	case err != nil:
		d.bad("token", "%s", sentence(err))
		return
	case d.offline:
		d.ok("token", "There is one%s; whether the platform accepts it was not asked.", d.tokenFrom())
		return
	}
	catalogue := commands.New(nil, slog.New(slog.DiscardHandler)).Commands() // nothing is asked of its store
	i, err := discord.NewInspector(token, catalogue, d.HTTP, d.now)
	if err != nil {
		d.bad("token", "%s. Copy it anew from the bot's page.", sentence(err))
		return
	}
	ctx, cancel := context.WithTimeout(ctx, platformIn)
	defer cancel()
	account, err := i.Account(ctx)
	if !d.lookAtAccount(account, err) {
		return
	}
	for _, look := range []func(context.Context, *discord.Inspector, int) error{d.lookAtServers, d.lookAtCommands} {
		if err := look(ctx, i, len(catalogue)); err != nil {
			d.warn("platform", "Not all was looked at: %s. Ask again in some minutes.", stoppedBy(err))
			return
		}
	}
}

// tokenFrom says which file the token came from, if one.
func (d *doctor) tokenFrom() string {
	if path := d.setting(tokenFileEnv); path != "" {
		return " in “" + path + "”, which others cannot read"
	}
	return ""
}

// lookAtAccount tells whether the platform takes the token, and the time with it.
func (d *doctor) lookAtAccount(a discord.Account, err error) bool {
	var unreached *url.Error
	switch {
	case err == nil:
		d.ok("token", "The platform accepts it%s: the bot is “%s”.", d.tokenFrom(), a.Name)
	case discord.Refused(err):
		d.bad("token", "The platform refuses it. Make a new one on the bot's page and put it in the place of the old.")
	case errors.As(err, &unreached):
		d.bad("platform", "It does not answer (%s). Look at the network.", cause(err))
		return false
	default:
		d.warn("platform", "It gave no proper answer (%s). Try again later.", stoppedBy(err))
	}
	d.lookAtClock(a.Date)
	return err == nil
}

func (d *doctor) lookAtClock(date string) {
	theirs, err := http.ParseTime(date)
	if err != nil {
		d.warn("clock", "The platform did not tell the time to compare with.")
		return
	}
	off := d.now().Sub(theirs).Round(time.Second)
	if off.Abs() > clockOff {
		d.bad("clock", "The clock here is %s off that of the platform. Set it, best by a time service.", off)
		return
	}
	d.ok("clock", "It differs by %s from that of the platform.", off)
}

// stoppedBy says why the platform was asked no more.
func stoppedBy(err error) string {
	switch {
	case discord.Throttled(err):
		return "the platform asked to wait"
	case errors.Is(err, context.DeadlineExceeded):
		return "it took too long"
	}
	return cause(err)
}
