// Package gauge shows over HTTP how a running assistant fares: counts for
// whoever keeps watch over it, and whether all is well. Nothing that it shows
// names a group, a channel or a person, or repeats what one wrote.
//
// Names and units follow "Metric and label naming" and "Instrumentation" of the
// Prometheus documentation (from memory); moments are seconds since 1970, so
// that an age needs no clock of ours.
package gauge

import (
	"context"
	"time"

	"heapside/bot/discord"
	"heapside/calc/duty"
	"heapside/commands"
	"heapside/reminders"
	"heapside/reminders/weather"
)

// Sources are what is asked when somebody looks. All but Weather are needed.
type Sources struct {
	Version   string // of the program
	Path      string // of the record's file
	Now       func() time.Time
	Record    Record
	Gateway   Gateway
	Reminders Reminders
	Limits    Limits
	Weather   Weather // nil: it is switched off
}

// Record is what is asked of the record.
type Record interface {
	Backlog(ctx context.Context, now time.Time) (posts int, oldest time.Time, err error)
	Troubled(ctx context.Context) (map[duty.Trouble]int, error)
}

// Gateway is what is asked of the connection to the platform.
type Gateway interface{ Link() discord.Link }

// Reminders is what is asked of the engine that reminds.
type Reminders interface {
	Stats() reminders.Stats
	Passed() time.Time
}

// Limits is what is asked of the limits against floods.
type Limits interface {
	TurnedAway() (commands, suggestions commands.TurnedAway)
}

// Weather is what is asked of the weather station.
type Weather interface{ Stats() []weather.Stats }
