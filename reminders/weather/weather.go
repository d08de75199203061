// Package weather asks weather services what fell and what is to come, and
// keeps what each said and when. Station is the door: it answers from what is
// kept, asks the services in order when that is out of date, and says how old
// and whose the answer is. What no service said stays unknown; it is never 0.
package weather

import (
	"context"
	"time"
)

// The services.
const (
	OpenMeteo = "open-meteo"
	MetNorway = "met-norway"
	NWS       = "nws"
)

// Hour is the weather of the hour that begins At (UTC, on the hour). A nil
// pointer is not known.
type Hour struct {
	At       time.Time `json:"at"`
	AirC     *float64  `json:"c,omitempty"`    // at 2 m, when the hour begins
	RH       *float64  `json:"rh,omitempty"`   // share, 0 to 1, when the hour begins
	RainMm   *float64  `json:"mm,omitempty"`   // all that falls within the hour, snow as water
	ET0Mm    *float64  `json:"et0,omitempty"`  // FAO-56 reference evapotranspiration within the hour
	WindMS   *float64  `json:"wind,omitempty"` // at 10 m: calc/water has it at 2 m
	Observed bool      `json:"obs,omitempty"`  // the hour was over when this was said
}

// Report is one answer of one service. It never changes once kept.
type Report struct {
	Service      string    `json:"service"`
	Place        Place     `json:"place"`
	FetchedAt    time.Time `json:"fetched_at"`
	Since        time.Time `json:"since"` // the span that was asked for
	Until        time.Time `json:"until"`
	Expires      time.Time `json:"expires"` // not asked again before
	LastModified string    `json:"last_modified,omitempty"`
	ElevationM   *float64  `json:"elevation_m,omitempty"` // of the service's grid cell
	Hours        []Hour    `json:"hours"`                 // oldest first, one per hour at most
}

// Credit is what a service asks to be said where its data are used.
type Credit struct{ Service, Text, URL string }

// Service is one source of weather.
type Service interface {
	Name() string
	Credit() Credit
	// Covers reports whether the service may know the place.
	Covers(Place) bool
	// Past is how far back the service can be asked; 0 for forecasts only.
	Past() time.Duration
	// Fetch asks for the hours from since to until, as far as the service has
	// them. Before is the last report of the same service and place, or nil: a
	// service that says nothing has changed answers with its hours. An error is
	// a *Failure, or the context's.
	Fetch(ctx context.Context, at Place, since, until time.Time, before *Report) (Report, error)
}

// Cache keeps reports for good. Implementations are safe for concurrent use.
type Cache interface {
	// Append keeps a report beside all earlier ones: nothing is ever replaced.
	// Appending one of the same service, place and FetchedAt again is no error
	// and changes nothing.
	Append(ctx context.Context, r Report) error
	// Latest is the report of a service for a place that was fetched last, with
	// all its hours; false when there is none.
	Latest(ctx context.Context, service string, at Place) (Report, bool, error)
	// Reports are the reports of all services for a place that were fetched at
	// asOf or before and hold an hour h with since <= h.At < until, by FetchedAt.
	// It may leave hours outside that span out of them. Besides an error it gives
	// what could be read.
	Reports(ctx context.Context, at Place, since, until, asOf time.Time) ([]Report, error)
}

// bounds are the values that the earth's air has had, a little widened (own
// choice); a value outside is a fault of the service and counts as unknown.
var (
	airBounds  = bound{-95, 65}
	rhBounds   = bound{0, 1.05} // forecasts run a little over saturation
	rainBounds = bound{0, 400}  // mm in an hour; the record is about 305 (from memory)
	et0Bounds  = bound{0, 3}
	windBounds = bound{0, 120}
)

type bound struct{ low, high float64 }

// known is v when it can be, else nil.
func (b bound) known(v *float64) *float64 {
	if v == nil || !(*v >= b.low && *v <= b.high) {
		return nil
	}
	return v
}

// times is v scaled, nil when v is unknown.
func times(v *float64, f float64) *float64 {
	if v == nil {
		return nil
	}
	return new(*v * f)
}

// plausible is the hour without the values that cannot be.
func (h Hour) plausible() Hour {
	h.AirC, h.RainMm = airBounds.known(h.AirC), rainBounds.known(h.RainMm)
	h.ET0Mm, h.WindMS = et0Bounds.known(h.ET0Mm), windBounds.known(h.WindMS)
	if h.RH = rhBounds.known(h.RH); h.RH != nil {
		h.RH = new(min(1, *h.RH))
	}
	return h
}
