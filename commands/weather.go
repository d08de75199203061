package commands

import (
	"context"
	"time"

	"heapside/calc/process"
)

// Weather tells what the sky did and will do over a garden. Implementations
// are safe for concurrent use; they do not fail but say in the Sky what is not
// known.
type Weather interface {
	// Sky is the weather of a place between two times.
	Sky(ctx context.Context, lat, lon float64, zone *time.Location, since, until time.Time) Sky
	// Places finds places by name, the likeliest first. No hit is a *fault.Error.
	Places(ctx context.Context, name string) ([]Spot, error)
}

// Sky is what is known of the weather of a garden. Hours that nobody told of
// are missing in it.
type Sky struct {
	Hours   process.Weather // nil when nothing is known
	Rain    Rain            // nil when nothing is known
	Days    []SkyDay        // by the garden's calendar, oldest first
	AsOf    time.Time       // when the newest of it was told; zero when nothing is known
	Note    string          // why nothing, or nothing newer, is known; empty when all is well
	Credits []string        // to be shown with what rests on it
}

// Rain is the rain in mm that falls within the hour that holds t; false when
// nobody told of it.
type Rain func(t time.Time) (mm float64, told bool)

// SkyDay is the weather of one local day. RainMm is negative when unknown.
type SkyDay struct {
	Start  time.Time
	RainMm float64
	MeanC  float64
	MinC   float64
	Told   bool // MeanC and MinC are known
	Ahead  bool // still to come, or not over
}

// Spot is a place found by name.
type Spot struct {
	Name     string // with region and country
	Lat, Lon float64
	Zone     string // IANA name, or empty
}

// Under lets an assistant look at the weather. Without it the model runs on a
// stated climate.
func Under(w Weather) Setting { return func(a *Assistant) { a.weather = w } }

// Setting changes how an Assistant is made.
type Setting func(*Assistant)

// weatherIn is how long an answer waits for the weather: a service that takes
// longer is heard the next time. Own choice.
const weatherIn = 5 * time.Second

// sky is the weather of the garden from a moment on until the end of an outlook.
func (d *desk) sky(since time.Time) Sky {
	switch {
	case d.weather == nil:
		return Sky{Note: "No weather service is asked here."}
	case !d.garden.Located:
		return Sky{Note: "No place is set for the garden (garden place), so no weather is known."}
	}
	ctx, cancel := context.WithTimeout(d.ctx, weatherIn)
	defer cancel()
	return d.weather.Sky(ctx, d.garden.Lat, d.garden.Lon, d.zone, since, d.call.Now.Add(outlookReach))
}

// outlookReach is how far ahead weather is asked for: the days of an outlook.
const outlookReach = 15 * 24 * time.Hour
