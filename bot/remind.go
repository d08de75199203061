package main

import (
	"context"
	"errors"
	"log/slog"
	"time"

	"heapside/bot/discord"
	"heapside/bot/terminal"
	"heapside/calc/duty"
	"heapside/calc/heap"
	"heapside/commands"
	"heapside/reminders"
	"heapside/storage"
)

// finder shows the jobs that the commands find to the reminders.
type finder struct{ *commands.Assistant }

// Jobs implements reminders.Finder.
func (f finder) Jobs(ctx context.Context, at heap.Place, now time.Time) ([]duty.Found, error) {
	found, err := f.Assistant.Jobs(ctx, at, now)
	out := make([]duty.Found, len(found))
	for i, j := range found {
		out[i] = duty.Found{Heap: j.Heap.ID, Name: j.Heap.Name, Job: j.Job}
	}
	return out, err
}

// channels posts reminders where their groups talk.
type channels struct {
	db      *storage.DB
	adapter *discord.Adapter
}

// Post implements reminders.Voice.
func (c channels) Post(ctx context.Context, p duty.Post, nonce string) (string, error) {
	r, err := reminder(ctx, c.db, p)
	if err != nil {
		return "", err
	}
	return c.adapter.Post(ctx, p.Place.Channel, r, nonce)
}

// Edit implements reminders.Voice.
func (c channels) Edit(ctx context.Context, p duty.Post) error {
	r, err := reminder(ctx, c.db, p)
	if err != nil {
		return err
	}
	return c.adapter.Edit(ctx, p.Place.Channel, p.Message, r)
}

// reminder is a post as its group reads it.
func reminder(ctx context.Context, db *storage.DB, p duty.Post) (commands.Reply, error) {
	garden, err := db.Garden(ctx, p.Place)
	if err != nil {
		return commands.Reply{}, err
	}
	zone, err := time.LoadLocation(garden.Zone)
	if err != nil {
		zone = time.UTC // as the commands take one that this machine does not know
	}
	return commands.PostReply(p, zone, garden.Language), nil
}

// onScreen says reminders in the local chat.
type onScreen struct {
	db   *storage.DB
	chat *terminal.Chat
}

// Post implements reminders.Voice.
func (o onScreen) Post(ctx context.Context, p duty.Post, _ string) (string, error) {
	r, err := reminder(ctx, o.db, p)
	if err != nil {
		return "", err
	}
	return "screen", o.chat.Say(r)
}

// Edit implements reminders.Voice. What is on a screen stays; the next answer
// says what became of it.
func (onScreen) Edit(context.Context, duty.Post) error { return nil }

// unspoken is the voice of an engine that only looks ahead.
type unspoken struct{}

var errUnspoken = errors.New("nothing is sent from here")

// Post implements reminders.Voice.
func (unspoken) Post(context.Context, duty.Post, string) (string, error) { return "", errUnspoken }

// Edit implements reminders.Voice.
func (unspoken) Edit(context.Context, duty.Post) error { return errUnspoken }

// engine reminds by a voice, within a reach.
func (o office) engine(voice reminders.Voice, log *slog.Logger, reach storage.Reach) *reminders.Engine {
	return reminders.New(o.db.Within(reach), finder{o.assistant}, voice, reminders.Config{Now: o.now, Log: log})
}
