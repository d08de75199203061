package commands

import (
	"context"
	"sync"
	"time"

	"heapside/calc/fault"
	"heapside/commands/speech"
)

// Limits against floods. Own choice: nobody who types or presses meets them,
// and a group of thirty at work at once does not either. The platform itself asks
// for suggestions at most a few times a second while one person types.
const (
	personCommands = 30  // a minute
	guildCommands  = 300 // a minute, of all its people
	personSuggests = 300 // a minute
	guildSuggests  = 3000

	limitedAtOnce = 20_000 // people and guilds remembered
)

// Limited bounds how many calls a minute the assistant takes from one person
// and from one guild, whatever their rights. Who goes beyond is told once a
// minute; further replies are Quiet.
func Limited() Setting {
	return func(a *Assistant) {
		a.calls = newLimiter(personCommands, guildCommands)
		a.suggestions = newLimiter(personSuggests, guildSuggests)
	}
}

// limiter holds a bucket of tokens for each person and each guild: a call takes
// one of both, and each fills within a minute. A nil limiter lets all pass. Time
// is that of the calls. It is safe for use by several goroutines.
//
// Buckets that nobody used while limitedAtOnce others were are dropped, which
// loses nothing after a minute: they are full again.
type limiter struct {
	person, guild float64 // tokens a minute, and at most

	mu       sync.Mutex
	now, was map[limited]*bucket // used lately, and before that
	turned   TurnedAway
}

// TurnedAway counts what a limit refused: because one person asked too much, or
// all of their group together.
type TurnedAway struct{ Person, Group int }

// TurnedAway is what the limits refused since the assistant was made: commands,
// and suggestions for what is being typed.
func (a *Assistant) TurnedAway() (commands, suggestions TurnedAway) {
	return a.calls.turnedAway(), a.suggestions.turnedAway()
}

func (l *limiter) turnedAway() TurnedAway {
	if l == nil {
		return TurnedAway{}
	}
	l.mu.Lock()
	defer l.mu.Unlock()
	return l.turned
}

// limited is a person (everywhere) or a guild.
type limited struct{ person, guild string }

type bucket struct {
	tokens float64
	at     time.Time // when tokens was right
	told   time.Time // when the person was last told of a limit
}

func newLimiter(person, guild float64) *limiter {
	return &limiter{person: person, guild: guild, now: map[limited]*bucket{}}
}

// verdict is what becomes of a call.
type verdict uint8

const (
	taken     verdict = iota
	overAlone         // the person asks too much, and is to be told
	overAll           // the guild asks too much, and the person is to be told
	overTold          // either, and they were told
)

// take takes a token for a call, or says why there is none. A call that is
// refused for its person costs the guild nothing.
func (l *limiter) take(call Call) verdict {
	if l == nil {
		return taken
	}
	l.mu.Lock()
	defer l.mu.Unlock()
	person := l.bucket(limited{person: call.By.ID}, l.person, call.Now)
	guild := l.bucket(limited{guild: call.Place.Guild}, l.guild, call.Now)
	v := overAll
	switch {
	case person.tokens >= 1 && guild.tokens >= 1:
		person.tokens--
		guild.tokens--
		return taken
	case person.tokens < 1:
		v = overAlone
		l.turned.Person++
	default:
		l.turned.Group++
	}
	if !person.told.IsZero() && call.Now.Sub(person.told) < time.Minute {
		return overTold
	}
	person.told = call.Now
	return v
}

// bucket is the bucket of a key, filled up to now. The lock is held.
func (l *limiter) bucket(key limited, most float64, now time.Time) *bucket {
	b := l.now[key]
	if b == nil {
		if b = l.was[key]; b == nil {
			b = &bucket{tokens: most, at: now}
		}
		if len(l.now) >= limitedAtOnce/2 {
			l.now, l.was = map[limited]*bucket{}, l.now
		}
		l.now[key] = b
	}
	if since := now.Sub(b.at); since > 0 {
		b.tokens = min(most, b.tokens+most*since.Minutes())
	}
	b.at = now // a clock set back starts anew from there
	return b
}

// over is the answer to a call beyond the limits; false when it is within them.
func (a *Assistant) over(ctx context.Context, call Call) (Reply, bool) {
	switch a.calls.take(call) {
	case overAlone:
		return a.failed(ctx, call, fault.New(fault.TooMany, "That is more than %d commands a minute from one person. This one was not carried out; please go on in a minute.", personCommands)), true
	case overAll:
		return a.failed(ctx, call, fault.New(fault.TooMany, "Your group sends more than %d commands a minute. This one was not carried out; please go on in a minute.", guildCommands)), true
	case overTold:
		// Nothing is read for it, not even the garden's language: floods stay cheap.
		e := fault.New(fault.TooMany, "Not carried out: too many commands in a minute.")
		e.Message = faultIn(speech.Of(call.Locale), e)
		r := failed(e)
		r.Quiet = true
		return r, true
	}
	return Reply{}, false
}
