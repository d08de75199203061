package weather

import (
	"context"
	"time"
)

// Check is how a service answered one small question.
type Check struct {
	Name    string // as people know the service
	Unasked string // why it was not asked, one of those below; empty when it was
	Failed  string // what came instead of an answer, such as "did not answer in time"
	Hours   int    // of weather that it told
}

// Why a service is not asked.
const (
	SwitchedOff = "is switched off"
	NoAgent     = "is not asked without a way to reach whoever runs this"
	NotCovering = "does not cover this place"
)

// checkTown is the town that the search for places is tried with (own choice).
const checkTown = "Ghent"

// Check asks each service, in order, about the next hours at a place, whatever
// was asked lately, and keeps nothing. A place that is not on earth is a
// *fault.Error.
func (s *Station) Check(ctx context.Context, lat, lon float64) ([]Check, error) {
	at, err := At(lat, lon)
	if err != nil {
		return nil, err
	}
	now := s.now().UTC().Truncate(time.Hour)
	var out []Check
	for _, src := range s.sources {
		c := Check{Name: title(src.Name()), Unasked: src.off}
		if c.Unasked == "" && !src.Covers(at) {
			c.Unasked = NotCovering
		}
		if c.Unasked == "" {
			r, err := src.Fetch(ctx, at, now, now.Add(day), nil)
			switch c.Hours = len(r.Hours); {
			case err != nil:
				c.Failed = s.says(src.Name(), err)
			case c.Hours == 0:
				c.Failed = saidAs[Garbled]
			}
		}
		out = append(out, c)
	}
	search := Check{Name: "the search for places", Unasked: SwitchedOff}
	if s.places != nil {
		search.Unasked = ""
		if _, err := s.places.search(ctx, checkTown); err != nil {
			search.Failed = s.says("place search", err)
		}
	}
	return append(out, search), nil
}
