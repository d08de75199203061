package main

import (
	"context"
	"fmt"
	"log/slog"
	"slices"
	"strings"
	"time"

	"heapside/calc/process"
	"heapside/calc/water"
	"heapside/commands"
	"heapside/reminders/weather"
	"heapside/storage"
)

// The settings of the weather, by environment.
const (
	weatherEnv        = "HEAPSIDE_WEATHER"         // "off", or the services to ask in order
	weatherContactEnv = "HEAPSIDE_WEATHER_CONTACT" // how the services can reach whoever runs this
)

// weatherURLs move a service to another base address.
var weatherURLs = []struct {
	env    string
	source func(*weather.Config) *weather.Source
}{
	{"HEAPSIDE_OPEN_METEO_URL", func(c *weather.Config) *weather.Source { return &c.OpenMeteo }},
	{"HEAPSIDE_MET_NORWAY_URL", func(c *weather.Config) *weather.Source { return &c.MetNorway }},
	{"HEAPSIDE_NWS_URL", func(c *weather.Config) *weather.Source { return &c.NWS }},
	{"HEAPSIDE_PLACES_URL", func(c *weather.Config) *weather.Source { return &c.Places }},
}

// station is the weather as the environment sets it, kept in the record; nil
// when it is switched off.
func (m *Main) station(db *storage.DB, log *slog.Logger) (commands.Weather, error) {
	config, off := m.weatherConfig()
	if off {
		return nil, nil
	}
	s, err := weather.New(config, weather.Kept{Record: db}, weather.Options{Log: log, Transport: m.HTTP, Now: m.now})
	if err != nil {
		return nil, &usageError{fmt.Sprintf("%s: %v.", weatherEnv, err)}
	}
	m.closers = append(m.closers, func() error { s.Close(); return nil })
	return sky{s}, nil
}

// weatherConfig is the weather as the environment sets it, or that it is off.
func (m *Main) weatherConfig() (config weather.Config, off bool) {
	chosen := strings.ToLower(strings.TrimSpace(m.setting(weatherEnv)))
	if chosen == "off" {
		return config, true
	}
	if contact := strings.TrimSpace(m.setting(weatherContactEnv)); contact != "" {
		config.Agent = "heapside/1 " + contact
	}
	for _, u := range weatherURLs {
		u.source(&config).BaseURL = m.setting(u.env)
	}
	if chosen != "" {
		config.Order = strings.FieldsFunc(chosen, func(r rune) bool { return r == ',' || r == ' ' })
		// Place names come from Open-Meteo, under the same terms.
		config.Places.Off = !slices.Contains(config.Order, weather.OpenMeteo)
	}
	return config, false
}

// sky shows a weather station to the commands.
type sky struct{ station *weather.Station }

// Sky asks the station and fills what an hour lacks from the climate.
func (s sky) Sky(ctx context.Context, lat, lon float64, zone *time.Location, since, until time.Time) commands.Sky {
	r := s.station.Weather(ctx, weather.Query{Located: true, Lat: lat, Lon: lon, Since: since, Until: until})
	out := commands.Sky{Note: r.Reason, AsOf: r.AsOf}
	for _, c := range r.Credits {
		out.Credits = append(out.Credits, c.Text+" ("+c.URL+")")
	}
	if !r.Known {
		return out
	}
	known, rain := told{}, rained{}
	climate := process.Climate{Located: true, Lat: lat, Lon: lon}
	for _, h := range r.Hours {
		if h.AirC != nil {
			known[h.At.Unix()/3600] = whole(h, climate.Hour(h.At))
		}
		if h.RainMm != nil {
			rain[h.At.Unix()/3600] = *h.RainMm
		}
	}
	out.Hours, out.Rain = known, rain.at
	for _, d := range weather.Days(r.Hours, zone) {
		day := commands.SkyDay{Start: d.Start, RainMm: -1, Ahead: !d.Observed}
		if d.RainMm != nil {
			day.RainMm = *d.RainMm
		}
		if d.MinC != nil && d.MaxC != nil {
			day.MeanC, day.MinC, day.Told = (*d.MinC+*d.MaxC)/2, *d.MinC, true
		}
		out.Days = append(out.Days, day)
	}
	return out
}

// told are hours by their number since 1970.
type told map[int64]process.Hour

// Hour is the hour that holds t, if a service told of it.
func (k told) Hour(t time.Time) (process.Hour, bool) {
	h, ok := k[t.Unix()/3600]
	return h, ok
}

// rained is the rain of hours by their number since 1970, where it is known.
type rained map[int64]float64

func (r rained) at(t time.Time) (mm float64, told bool) {
	mm, told = r[t.Unix()/3600]
	return mm, told
}

// whole is an hour with the climate's value for what no service said.
func whole(h weather.Hour, usual process.Hour) process.Hour {
	pick := func(said *float64, otherwise float64) float64 {
		if said == nil {
			return otherwise
		}
		return *said
	}
	usual.AirC = *h.AirC
	usual.RH, usual.RainMm, usual.ET0Mm = pick(h.RH, usual.RH), pick(h.RainMm, usual.RainMm), pick(h.ET0Mm, usual.ET0Mm)
	if h.WindMS != nil {
		usual.WindMS = water.WindAt2m(*h.WindMS, 10)
	}
	return usual
}

// Places finds places by name.
func (s sky) Places(ctx context.Context, name string) ([]commands.Spot, error) {
	found, err := s.station.Search(ctx, name)
	var spots []commands.Spot
	for _, c := range found {
		spot := commands.Spot{Name: c.Name, Lat: c.Place.Lat, Lon: c.Place.Lon, Zone: c.Zone}
		for _, part := range []string{c.Admin, c.Country} {
			if part != "" && part != c.Name {
				spot.Name += ", " + part
			}
		}
		spots = append(spots, spot)
	}
	return spots, err
}
