package weather

import (
	"context"
	"encoding/json"
	"fmt"
	"net/url"
	"time"
)

// metNorway is the location forecast of MET Norway: nine days or so, the world
// over, nothing past.
type metNorway struct{ *wire }

func (metNorway) Name() string        { return MetNorway }
func (metNorway) Covers(Place) bool   { return true }
func (metNorway) Past() time.Duration { return 0 }
func (metNorway) Credit() Credit {
	return Credit{MetNorway, "Data from MET Norway, CC BY 4.0, combined and rounded here", "https://api.met.no/"}
}

func (s metNorway) Fetch(ctx context.Context, at Place, since, until time.Time, before *Report) (Report, error) {
	query := url.Values{"lat": {at.lat()}, "lon": {at.lon()}}
	return s.news(ctx, "/weatherapi/locationforecast/2.0/compact", query, at, before, func(body []byte) (Report, error) {
		return s.decode(body, since, until)
	})
}

// metUnits are the variables read and the units they are documented in.
var metUnits = map[string]string{
	"air_temperature":      "celsius",
	"relative_humidity":    "%",
	"precipitation_amount": "mm",
	"wind_speed":           "m/s",
}

type metAnswer struct {
	Geometry struct {
		Coordinates []float64 `json:"coordinates"` // longitude, latitude, height
	} `json:"geometry"`
	Properties *struct {
		Meta struct {
			Units map[string]string `json:"units"`
		} `json:"meta"`
		Series []metStep `json:"timeseries"`
	} `json:"properties"`
}

type metStep struct {
	Time time.Time `json:"time"`
	Data struct {
		Instant struct {
			Details struct {
				Air  *float64 `json:"air_temperature"`
				RH   *float64 `json:"relative_humidity"`
				Wind *float64 `json:"wind_speed"`
			} `json:"details"`
		} `json:"instant"`
		Next1 metPeriod `json:"next_1_hours"`
		Next6 metPeriod `json:"next_6_hours"`
	} `json:"data"`
}

type metPeriod struct {
	Details struct {
		Rain *float64 `json:"precipitation_amount"`
	} `json:"details"`
}

// decode reads an answer. Steps are an hour first and six hours later: between
// them moments are joined by straight lines and rain is spread evenly (own
// choice).
func (s metNorway) decode(body []byte, since, until time.Time) (Report, error) {
	var a metAnswer
	if err := json.Unmarshal(body, &a); err != nil {
		return Report{}, s.garbled("not the documented JSON: %w", err)
	}
	if err := a.check(); err != nil {
		return Report{}, s.failure(Garbled, 0, err)
	}
	series := a.Properties.Series
	byHour := grid{}
	for i := range series {
		byHour.moments(series, i)
		byHour.at(series[i].Time).RainMm = rainBounds.known(series[i].Data.Next1.Details.Rain)
	}
	for i := range series {
		byHour.share(series[i].Time, rainBounds.known(series[i].Data.Next6.Details.Rain))
	}
	return Report{Service: MetNorway, Since: since, Until: until, ElevationM: a.elevation(), Hours: byHour.hours(since, until)}, nil
}

func (a metAnswer) elevation() *float64 {
	if len(a.Geometry.Coordinates) < 3 {
		return nil
	}
	return elevationBounds.known(&a.Geometry.Coordinates[2])
}

// check refuses units other than the documented ones, and steps that are not
// hours in order.
func (a metAnswer) check() error {
	if a.Properties == nil || len(a.Properties.Series) == 0 {
		return fmt.Errorf("no time series")
	}
	for name, want := range metUnits {
		if got := a.Properties.Meta.Units[name]; got != want {
			return fmt.Errorf("%s is in %q, not %q as documented", name, got, want)
		}
	}
	series := a.Properties.Series
	for i, step := range series {
		switch t := step.Time; {
		case t.Unix() < earliestUnix || t.Unix() > latestUnix || !t.Truncate(time.Hour).Equal(t):
			return fmt.Errorf("time %s is not an hour of our days", t)
		case i > 0 && !series[i-1].Time.Before(t):
			return fmt.Errorf("time %s is out of order", t)
		}
	}
	return nil
}

// longestStep is how far apart two steps may be for the hours between them to
// be read off.
const longestStep = 6

// moments fills the hours from step i up to the next with what holds at a moment.
func (g grid) moments(series []metStep, i int) {
	from := series[i].Data.Instant.Details
	to, hours := from, 1
	if i+1 < len(series) {
		if n := series[i+1].Time.Sub(series[i].Time) / time.Hour; n <= longestStep {
			to, hours = series[i+1].Data.Instant.Details, int(n)
		}
	}
	for k := range hours {
		h, f := g.at(series[i].Time.Add(time.Duration(k)*time.Hour)), float64(k)/float64(hours)
		h.AirC = between(from.Air, to.Air, f)
		h.RH = times(between(from.RH, to.RH, f), 0.01)
		h.WindMS = between(from.Wind, to.Wind, f)
	}
}

// between is the value at f, 0 to 1, of the way from a to b.
func between(a, b *float64, f float64) *float64 {
	if f == 0 {
		return a
	}
	if a == nil || b == nil {
		return nil
	}
	return new(*a + (*b-*a)*f)
}

// share spreads rain of six hours over those of them that are not known, less
// what the others have.
func (g grid) share(t time.Time, rain *float64) {
	if rain == nil {
		return
	}
	rest, open := *rain, []*Hour(nil)
	for k := range longestStep {
		h := g.at(t.Add(time.Duration(k) * time.Hour))
		if h.RainMm != nil {
			rest -= *h.RainMm
			continue
		}
		open = append(open, h)
	}
	for _, h := range open {
		h.RainMm = new(max(0, rest) / float64(len(open)))
	}
}
