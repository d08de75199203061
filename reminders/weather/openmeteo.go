package weather

import (
	"context"
	"encoding/json"
	"fmt"
	"math"
	"net/url"
	"strconv"
	"time"
)

// Bounds of one Open-Meteo request: past_days up to 92, forecast_days up to 16
// (docs of the forecast API, seen).
const (
	openMeteoPastDays   = 92
	openMeteoFutureDays = 16
)

// openMeteoUnits are the hourly variables asked for, and the units they come
// in when asked for as below.
var openMeteoUnits = map[string]string{
	"temperature_2m":             "°C",
	"relative_humidity_2m":       "%",
	"precipitation":              "mm",
	"et0_fao_evapotranspiration": "mm",
	"wind_speed_10m":             "m/s",
}

// openMeteo is the forecast API of Open-Meteo: past and future, the world over.
type openMeteo struct{ *wire }

func (openMeteo) Name() string        { return OpenMeteo }
func (openMeteo) Covers(Place) bool   { return true }
func (openMeteo) Past() time.Duration { return openMeteoPastDays * day }
func (openMeteo) Credit() Credit {
	return Credit{OpenMeteo, "Weather: Open-Meteo, CC BY 4.0, combined and rounded here", "https://open-meteo.com/"}
}

const day = 24 * time.Hour

// Fetch asks by the hour in UTC and Unix time: the service has one offset for a
// whole answer, so that local days come out wrong where the clocks change.
func (s openMeteo) Fetch(ctx context.Context, at Place, since, until time.Time, _ *Report) (Report, error) {
	now := s.now()
	a, err := s.get(ctx, "/v1/forecast", openMeteoQuery(at, since, until, now), "")
	if err != nil {
		return Report{}, err
	}
	r, err := s.decode(a.body, since, until, now)
	if err != nil {
		return Report{}, err
	}
	r.Place, r.FetchedAt, r.Expires, r.LastModified = at, now, a.expires, a.lastModified
	return r, nil
}

func openMeteoQuery(at Place, since, until, now time.Time) url.Values {
	today := now.UTC().Truncate(day)
	past := math.Ceil(today.Sub(since).Hours() / 24)
	future := math.Ceil(until.Sub(today).Hours()/24) + 1 // sums of an hour stand at its end
	return url.Values{
		"latitude": {at.lat()}, "longitude": {at.lon()},
		"hourly":           {"temperature_2m,relative_humidity_2m,precipitation,et0_fao_evapotranspiration,wind_speed_10m"},
		"temperature_unit": {"celsius"}, "wind_speed_unit": {"ms"}, "precipitation_unit": {"mm"},
		"timezone": {"GMT"}, "timeformat": {"unixtime"},
		"past_days":     {strconv.Itoa(int(max(0, min(past, openMeteoPastDays))))},
		"forecast_days": {strconv.Itoa(int(max(1, min(future, openMeteoFutureDays))))},
	}
}

// openMeteoAnswer is what is read of an answer.
type openMeteoAnswer struct {
	Offset    *int              `json:"utc_offset_seconds"`
	Elevation *float64          `json:"elevation"`
	Units     map[string]string `json:"hourly_units"`
	Hourly    *struct {
		Time []int64    `json:"time"`
		Air  []*float64 `json:"temperature_2m"`
		RH   []*float64 `json:"relative_humidity_2m"`
		Rain []*float64 `json:"precipitation"`
		ET0  []*float64 `json:"et0_fao_evapotranspiration"`
		Wind []*float64 `json:"wind_speed_10m"`
	} `json:"hourly"`
}

// decode reads an answer given at now. Temperature, humidity and wind are of
// the moment; rain and evapotranspiration are sums of the hour before it.
func (s openMeteo) decode(body []byte, since, until, now time.Time) (Report, error) {
	var a openMeteoAnswer
	if err := json.Unmarshal(body, &a); err != nil {
		return Report{}, s.garbled("not the documented JSON: %w", err)
	}
	if err := a.check(); err != nil {
		return Report{}, s.failure(Garbled, 0, err)
	}
	hourly := a.Hourly
	byHour := grid{}
	for i, t := range hourly.Time {
		at := time.Unix(t, 0)
		h, before := byHour.at(at), byHour.at(at.Add(-time.Hour))
		h.AirC, h.RH, h.WindMS = nth(hourly.Air, i), times(nth(hourly.RH, i), 0.01), nth(hourly.Wind, i)
		before.RainMm, before.ET0Mm = nth(hourly.Rain, i), nth(hourly.ET0, i)
	}
	hours := byHour.hours(since, until)
	for i := range hours {
		hours[i].Observed = !hours[i].At.Add(time.Hour).After(now)
	}
	return Report{
		Service: OpenMeteo, Since: since, Until: until,
		ElevationM: elevationBounds.known(a.Elevation), Hours: hours,
	}, nil
}

// elevationBounds are the heights on land, in metres.
var elevationBounds = bound{-500, 9000}

// nth is element i of a list that may have been left out.
func nth(list []*float64, i int) *float64 {
	if list == nil {
		return nil
	}
	return list[i]
}

// check refuses an answer in other units or another zone than asked for, and
// lists that do not belong together.
func (a openMeteoAnswer) check() error {
	switch {
	case a.Hourly == nil:
		return fmt.Errorf("no hourly values")
	case a.Offset == nil || *a.Offset != 0:
		return fmt.Errorf("times are not in GMT as asked")
	case len(a.Hourly.Time) > maxHours:
		return fmt.Errorf("%d hours", len(a.Hourly.Time))
	case a.Units["time"] != "unixtime":
		return fmt.Errorf("times are in %q, not Unix time as asked", a.Units["time"])
	}
	lists := map[string][]*float64{
		"temperature_2m": a.Hourly.Air, "relative_humidity_2m": a.Hourly.RH, "precipitation": a.Hourly.Rain,
		"et0_fao_evapotranspiration": a.Hourly.ET0, "wind_speed_10m": a.Hourly.Wind,
	}
	for name, list := range lists {
		if list == nil {
			continue // not given: unknown
		}
		if unit := a.Units[name]; unit != openMeteoUnits[name] {
			return fmt.Errorf("%s is in %q, not %q as asked", name, unit, openMeteoUnits[name])
		}
		if len(list) != len(a.Hourly.Time) {
			return fmt.Errorf("%d times but %d of %s", len(a.Hourly.Time), len(list), name)
		}
	}
	for _, t := range a.Hourly.Time {
		if t%3600 != 0 || t < earliestUnix || t > latestUnix {
			return fmt.Errorf("time %d is not an hour of our days", t)
		}
	}
	return nil
}

// maxHours is more than all days of one request.
const maxHours = (openMeteoPastDays + openMeteoFutureDays + 2) * 24

// Times outside 1970 to 2200 are a fault of the service.
const (
	earliestUnix = 0
	latestUnix   = 7258118400
)
