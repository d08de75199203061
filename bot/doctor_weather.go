package main

import (
	"context"
	"errors"
	"fmt"
	"time"

	"heapside/reminders/weather"
)

// weatherIn is for all services together, weatherPatience for one of them (own
// choices).
const weatherIn = 30 * time.Second

var weatherPatience = weather.Timeouts{Connect: 4 * time.Second, Header: 6 * time.Second, Total: 8 * time.Second}

// exampleLat and exampleLon are asked about where no garden says where it is:
// Greenwich.
const exampleLat, exampleLon = 51.48, 0.0

// lookAtWeather asks each service that the settings allow one small question.
func (d *doctor) lookAtWeather(ctx context.Context) {
	config, off := d.weatherConfig()
	if off {
		d.ok("weather", "Switched off (%s); the plain climate stands in for it.", weatherEnv)
		return
	}
	config.Timeouts = weatherPatience
	once := func(context.Context, time.Duration) error { return errOnce }
	s, err := weather.New(config, nil, weather.Options{Transport: d.HTTP, Now: d.now, Sleep: once}) // Check keeps nothing
	switch {
	case err != nil:
		d.bad("weather", "%s: %v.", weatherEnv, err)
		return
	case d.offline:
		s.Close()
		d.ok("weather", "The settings are understood; no service was asked.")
		return
	}
	defer s.Close()
	ctx, cancel := context.WithTimeout(ctx, weatherIn)
	defer cancel()
	lat, lon, where := d.somewhere()
	checks, err := s.Check(ctx, lat, lon)
	if err != nil {
		d.bad("weather", "%s", sentence(err))
		return
	}
	d.weatherFound(checks, fmt.Sprintf("%.2f, %.2f (%s)", lat, lon, where))
}

// errOnce keeps a service from being asked a second time.
var errOnce = errors.New("asked once only")

// somewhere is a place to ask about: that of a garden, where one is on record.
func (d *doctor) somewhere() (lat, lon float64, what string) {
	for _, w := range d.record.Watched {
		if w.Lat != nil && w.Lon != nil {
			return *w.Lat, *w.Lon, "a garden on record"
		}
	}
	return exampleLat, exampleLon, "Greenwich, as no garden on record says where it is"
}

// weatherFound says who answered, who did not, and who is not asked why.
func (d *doctor) weatherFound(checks []weather.Check, where string) {
	var answer, failures []string
	unasked, failed := map[string][]string{}, map[string][]string{}
	for _, c := range checks {
		switch {
		case c.Failed != "":
			if failed[c.Failed] == nil {
				failures = append(failures, c.Failed)
			}
			failed[c.Failed] = append(failed[c.Failed], c.Name)
		case c.Unasked != "":
			unasked[c.Unasked] = append(unasked[c.Unasked], c.Name)
		default:
			answer = append(answer, c.Name)
		}
	}
	for _, did := range failures {
		who := "it"
		if len(failed[did]) > 1 {
			who = "each"
		}
		d.warn("weather", "No proper answer came from %s: %s %s. What was told before or the plain climate stands in. Try again later; if it stays so, look at the network.", listed(failed[did]), who, did)
	}
	if len(answer) > 0 {
		d.ok("weather", "Asked about %s, proper answers came from %s.", where, listed(answer))
	}
	for _, r := range unaskedFor {
		is := "ok"
		if len(answer) == 0 {
			is = r.alone
		}
		if names := unasked[r.why]; len(names) > 0 {
			d.say(is, "weather", "%s: %s.%s", r.says, listed(names), r.mend)
		}
	}
}

// unaskedFor are the reasons to leave a service out, what the doctor makes of
// them where no other answers, and what can be done.
var unaskedFor = []struct{ why, alone, says, mend string }{
	{weather.NoAgent, "warn", "Not asked, as they want to know whom to reach", " Set " + weatherContactEnv + " to a mail address or page of yours."},
	{weather.NotCovering, "ok", "Not asked, as the place lies outside of what they cover", ""},
	{weather.SwitchedOff, "ok", "Switched off", ""},
}
