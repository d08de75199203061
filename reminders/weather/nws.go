package weather

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"sync"
	"time"
)

// nws is the forecast grid of the US National Weather Service: about a week,
// nothing past.
type nws struct {
	*wire
	mu    sync.Mutex
	cells map[Place]cell
}

// cell is where a place lies in the forecast grid. The mapping drifts (a cell
// became sea and answered 404, 2026, seen): it is asked for again after a while.
type cell struct {
	path     string // "/gridpoints/LZK/83,73"
	resolved time.Time
}

// cellHolds is how long a mapping is trusted: "every few weeks" (own choice).
const cellHolds = 14 * day

// nwsBoxes hold the service's land, roughly and from memory; the service itself
// says no to the rest.
var nwsBoxes = []box{
	{24.4, 49.5, -125, -66.9},    // contiguous states
	{51, 71.5, -179.99, -129.9},  // Alaska
	{51, 53.5, 172, 180},         // its far islands
	{18.8, 22.4, -160.4, -154.7}, // Hawaii
	{17.6, 18.6, -67.4, -64.5},   // Puerto Rico, Virgin Islands
	{13.2, 20.6, 144.6, 146.1},   // Guam, Northern Marianas
	{-14.6, -11, -171.1, -168.1}, // American Samoa
}

func (*nws) Name() string        { return NWS }
func (*nws) Past() time.Duration { return 0 }
func (*nws) Covers(p Place) bool {
	return slices.ContainsFunc(nwsBoxes, func(b box) bool { return b.holds(p) })
}
func (*nws) Credit() Credit {
	return Credit{NWS, "Weather: US National Weather Service, public domain, combined and rounded here", "https://www.weather.gov/"}
}

// Fetch looks the grid cell up when it is not known or too old, and once more
// when the cell is gone.
func (s *nws) Fetch(ctx context.Context, at Place, since, until time.Time, before *Report) (Report, error) {
	c, fresh, err := s.cell(ctx, at)
	if err != nil {
		return Report{}, err
	}
	r, err := s.fetch(ctx, c, at, since, until, before)
	if f := (*Failure)(nil); errors.As(err, &f) && f.Kind == Outside && !fresh {
		s.forget(at)
		if c, _, err = s.cell(ctx, at); err != nil {
			return Report{}, err
		}
		return s.fetch(ctx, c, at, since, until, before)
	}
	return r, err
}

func (s *nws) fetch(ctx context.Context, c cell, at Place, since, until time.Time, before *Report) (Report, error) {
	return s.news(ctx, c.path, nil, at, before, func(body []byte) (Report, error) {
		return s.decode(body, since, until)
	})
}

// cell is the place's cell; fresh when it was looked up just now.
func (s *nws) cell(ctx context.Context, at Place) (c cell, fresh bool, err error) {
	s.mu.Lock()
	c, ok := s.cells[at]
	s.mu.Unlock()
	if ok && s.now().Sub(c.resolved) < cellHolds {
		return c, false, nil
	}
	a, err := s.get(ctx, "/points/"+at.String(), nil, "")
	if err != nil {
		return cell{}, false, err
	}
	path, err := s.decodePoint(a.body)
	if err != nil {
		return cell{}, false, err
	}
	c = cell{path, s.now()}
	s.mu.Lock()
	defer s.mu.Unlock()
	s.cells[at] = c
	return c, true, nil
}

func (s *nws) forget(at Place) {
	s.mu.Lock()
	defer s.mu.Unlock()
	delete(s.cells, at)
}

var gridOffice = regexp.MustCompile(`^[A-Z]{3}$`)

// decodePoint reads the path of a cell. The address that the answer offers is
// not followed: the base address may be another.
func (s *nws) decodePoint(body []byte) (path string, err error) {
	var a struct {
		Properties struct {
			Office string `json:"gridId"`
			X      *int   `json:"gridX"`
			Y      *int   `json:"gridY"`
		} `json:"properties"`
	}
	if err := json.Unmarshal(body, &a); err != nil {
		return "", s.garbled("not the documented JSON: %w", err)
	}
	p := a.Properties
	if !gridOffice.MatchString(p.Office) || p.X == nil || p.Y == nil || *p.X < 0 || *p.Y < 0 {
		return "", s.garbled("no grid cell")
	}
	return "/gridpoints/" + p.Office + "/" + strconv.Itoa(*p.X) + "," + strconv.Itoa(*p.Y), nil
}

// layer is one raw variable: equal neighbours are merged into longer intervals.
type layer struct {
	Unit   string `json:"uom"`
	Values []struct {
		ValidTime string   `json:"validTime"`
		Value     *float64 `json:"value"`
	} `json:"values"`
}

type nwsAnswer struct {
	Properties *struct {
		Elevation struct {
			Unit  string   `json:"unitCode"`
			Value *float64 `json:"value"`
		} `json:"elevation"`
		Air  layer `json:"temperature"`
		RH   layer `json:"relativeHumidity"`
		Wind layer `json:"windSpeed"`
		Rain layer `json:"quantitativePrecipitation"`
	} `json:"properties"`
}

// decode reads the raw layers of a cell.
func (s *nws) decode(body []byte, since, until time.Time) (Report, error) {
	var a nwsAnswer
	if err := json.Unmarshal(body, &a); err != nil {
		return Report{}, s.garbled("not the documented JSON: %w", err)
	}
	if a.Properties == nil {
		return Report{}, s.garbled("no properties")
	}
	p, byHour := a.Properties, grid{}
	states := []struct {
		name, unit string
		layer      layer
		factor     float64
		set        func(*Hour, *float64)
	}{
		{"temperature", "wmoUnit:degC", p.Air, 1, func(h *Hour, v *float64) { h.AirC = v }},
		{"relativeHumidity", "wmoUnit:percent", p.RH, 0.01, func(h *Hour, v *float64) { h.RH = v }},
		{"windSpeed", "wmoUnit:km_h-1", p.Wind, 1 / 3.6, func(h *Hour, v *float64) { h.WindMS = v }},
	}
	for _, st := range states {
		err := st.layer.each(st.unit, func(v interval, value float64) {
			v.each(since, until, func(at time.Time, _ time.Duration, atStart bool) {
				if atStart {
					st.set(byHour.at(at), new(value*st.factor))
				}
			})
		})
		if err != nil {
			return Report{}, s.garbled("%s: %w", st.name, err)
		}
	}
	if err := byHour.rain(p.Rain, since, until); err != nil {
		return Report{}, s.garbled("quantitativePrecipitation: %w", err)
	}
	r := Report{Service: NWS, Since: since, Until: until, Hours: byHour.hours(since, until)}
	if p.Elevation.Unit == "wmoUnit:m" {
		r.ElevationM = elevationBounds.known(p.Elevation.Value)
	}
	return r, nil
}

// rain spreads sums evenly over their intervals. An hour that is not covered
// whole stays unknown.
func (g grid) rain(l layer, since, until time.Time) error {
	type part struct {
		mm     float64
		covers time.Duration
	}
	parts := map[int64]part{}
	err := l.each("wmoUnit:mm", func(v interval, mm float64) {
		length := v.to.Sub(v.from)
		v.each(since, until, func(at time.Time, covers time.Duration, _ bool) {
			p := parts[at.Unix()]
			parts[at.Unix()] = part{p.mm + mm*float64(covers)/float64(length), p.covers + covers}
		})
	})
	for unix, p := range parts {
		if p.covers == time.Hour {
			g.at(time.Unix(unix, 0)).RainMm = new(p.mm)
		}
	}
	return err
}

// each visits the known values of a layer, which must be in the unit.
func (l layer) each(unit string, visit func(interval, float64)) error {
	if len(l.Values) > maxHours {
		return fmt.Errorf("%d values", len(l.Values))
	}
	if len(l.Values) > 0 && l.Unit != unit {
		return fmt.Errorf("in %q, not %q as documented", l.Unit, unit)
	}
	for _, v := range l.Values {
		if v.Value == nil {
			continue
		}
		span, err := parseInterval(v.ValidTime)
		if err != nil {
			return err
		}
		visit(span, *v.Value)
	}
	return nil
}
