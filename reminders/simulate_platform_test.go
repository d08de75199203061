package reminders

import (
	"context"
	"errors"
	"fmt"
	"slices"
	"time"

	"heapside/calc/duty"
)

// remembers is how long the platform knows a nonce (own choice; Discord API
// docs, Create Message: "in the past few minutes").
const remembers = 3 * time.Minute

// platform is a stand-in that fails as real ones do.
type platform struct {
	s        *year
	messages map[string]*message
	order    []*message
	nonces   map[string]*message // the newest of each
	down     time.Time           // does nothing until then
	deaf     time.Time           // does all, but its answers are lost, until then
	limited  time.Time
	did      map[string]int
	edits    int
}

// message is one in a channel, as people see it.
type message struct {
	id    string
	nonce string
	post  duty.Post
	at    time.Time
	known bool // an engine wrote down that it is there
}

func newPlatform(s *year) *platform {
	return &platform{s: s, messages: map[string]*message{}, nonces: map[string]*message{}, did: map[string]int{}}
}

var (
	errDown = errors.New("502 bad gateway")
	errDeaf = errors.New("timeout while awaiting an answer")
)

// Post implements Voice.
func (f *platform) Post(_ context.Context, p duty.Post, nonce string) (string, error) {
	f.misfortune(p)
	if err := f.refusal(p); err != nil {
		return "", err
	}
	m := f.nonces[nonce]
	if m != nil && f.s.at.Sub(m.at) <= remembers {
		f.did["known"]++
	} else {
		m = &message{id: fmt.Sprint("m", len(f.order)), nonce: nonce, post: p, at: f.s.at}
		m.post.Message, m.post.Items = m.id, slices.Clone(p.Items)
		f.messages[m.id], f.nonces[nonce] = m, m
		f.order = append(f.order, m)
		f.did["taken"]++
		f.s.tell("posted %s in %s: %s of %v to %q, %s %q", m.id, p.Place.Channel, p.Kind, p.Day, p.To.Name, briefly(p.Items), p.Notes)
		f.s.oracle.posted(m)
	}
	if f.s.at.Before(f.deaf) {
		f.did["swallowed"]++
		return "", errDeaf
	}
	return m.id, nil
}

// Edit implements Voice.
func (f *platform) Edit(_ context.Context, p duty.Post) error {
	if f.s.chance(15) {
		f.misfortune(p)
	}
	if err := f.refusal(p); err != nil {
		return err
	}
	m, ok := f.messages[p.Message]
	if !ok {
		f.s.fault("edit of %q, which is no message", p.Message)
		return &Refused{Why: MessageGone, Err: errDown}
	}
	m.post.Items = slices.Clone(p.Items)
	f.edits++
	if f.s.at.Before(f.deaf) {
		return errDeaf
	}
	return nil
}

// refusal is why the platform does not take it, if so.
func (f *platform) refusal(p duty.Post) error {
	c := f.s.channel(p.Place)
	refuse := func(why Refusal, after time.Duration) error {
		f.did[why.String()]++
		return &Refused{Why: why, After: after, Err: errors.New("refused by the stand-in")}
	}
	switch {
	case f.s.at.Before(f.down):
		f.did["down"]++
		return errDown
	case c.deleted:
		return refuse(ChannelGone, 0)
	case f.s.at.Before(c.muted):
		return refuse(NoAccess, 0)
	case f.s.at.Before(f.limited):
		return refuse(RateLimited, f.limited.Sub(f.s.at))
	case !f.s.calm && f.s.chance(1):
		return refuse(Busy, 0)
	}
	return nil
}

// misfortune begins some, as a message is about to be sent.
func (f *platform) misfortune(p duty.Post) {
	s := f.s
	if s.calm {
		return
	}
	begin := func(what string, until *time.Time, long time.Duration) {
		*until = s.at.Add(s.span(time.Millisecond, 3*time.Minute))
		switch {
		case s.chance(4):
			*until = s.at.Add(s.span(long/2, long))
		case s.chance(12):
			*until = s.at.Add(s.span(time.Minute, long/8))
		}
		s.tell("%s until %s", what, until.Add(s.skew).Format("2006-01-02 15:04:05"))
	}
	c := s.channel(p.Place)
	switch roll := s.rng.Float64() * 100; {
	case roll < 3:
		begin("the platform is down", &f.down, 30*time.Hour)
	case roll < 8:
		begin("answers are lost", &f.deaf, time.Hour)
	case roll < 10:
		f.limited = s.at.Add(s.span(time.Millisecond, 5*time.Minute))
	case roll < 11.5:
		c.muted = s.at.Add(s.span(time.Minute, 80*time.Hour))
		s.tell("no access to %s until %s", c.at.Channel, c.muted.Add(s.skew).Format("2006-01-02 15:04:05"))
	case roll < 12.5 && c != s.channels[0]:
		c.deleted = true
		s.tell("%s is deleted", c.at.Channel)
	}
}

// heal ends all misfortune.
func (f *platform) heal() {
	f.down, f.deaf, f.limited = time.Time{}, time.Time{}, time.Time{}
	for _, c := range f.s.channels {
		c.muted = time.Time{}
	}
}

// healthy says that a message for a channel would arrive, and the answer too.
func (f *platform) healthy(c *channel) bool {
	return !f.s.at.Before(f.down) && !f.s.at.Before(f.deaf) && !f.s.at.Before(f.limited) && !f.s.at.Before(c.muted) && !c.deleted
}

// briefly is a list of items for a story.
func briefly(items []duty.Item) (out string) {
	for _, i := range items {
		out += fmt.Sprintf("[%d %s of heap %d] ", i.ID, i.Kind, i.Heap)
	}
	return out
}
