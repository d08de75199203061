package weather

import (
	"context"
	"errors"
	"strings"
	"time"

	"heapside/calc/fault"
)

// longestAgo is how far back a question may go (own choice).
const longestAgo = 400 * day

// Query is a question about a garden's weather.
type Query struct {
	Located      bool // a place is set
	Lat, Lon     float64
	Since, Until time.Time
}

// Result is the answer. Hours that nothing is known of are left out.
type Result struct {
	Known   bool   // there is at least one hour from a service
	Reason  string // why nothing, or nothing newer, is known; "" when all is well
	Hours   []Hour
	Asked   int       // hours in the span that was asked for
	AsOf    time.Time // when the newest report in use was fetched; zero when none is
	Credits []Credit  // to be shown with the answer: of the services in use
}

// Age is how old the newest report in use is; false when there is none.
func (r Result) Age(now time.Time) (time.Duration, bool) {
	return max(0, now.Sub(r.AsOf)), !r.AsOf.IsZero()
}

// Weather is what is known of a span of hours, asking a service when what is
// kept is out of date. It does not fail: what it could not learn is left out and
// Reason says why.
func (s *Station) Weather(ctx context.Context, q Query) Result {
	now := s.now().UTC()
	since := later(q.Since, now.Add(-longestAgo)).UTC().Truncate(time.Hour)
	until := earlier(q.Until, now.Add(horizon)).UTC().Truncate(time.Hour)
	r := Result{Asked: max(0, int(until.Sub(since)/time.Hour))}
	unasked := func(reason string) Result {
		r.Reason = reason
		return r
	}
	if !q.Located {
		return unasked("No place is set for this garden.")
	}
	at, err := At(q.Lat, q.Lon)
	if err != nil {
		f, _ := fault.As(err)
		return unasked(f.Message)
	}
	if r.Asked == 0 {
		return unasked("No hours were asked for.")
	}
	reports, err := s.cache.Reports(ctx, at, since, until, now)
	if err != nil {
		s.log.Error("weather on record could not be read", "error", err)
	}
	newest, met := s.refresh(ctx, at, since, reports, err != nil)
	if newest != nil {
		reports = append(reports, *newest)
	}
	r = s.result(r, at, reports, since, until)
	switch {
	case len(met) > 0 && r.Known:
		r.Reason = "No newer weather: " + strings.Join(met, "; ") + "."
	case len(met) > 0:
		r.Reason = "No weather: " + strings.Join(met, "; ") + "."
	}
	return r
}

// result puts reports together.
func (s *Station) result(r Result, at Place, reports []Report, since, until time.Time) Result {
	hours, used := merge(reports, since, until)
	r.Known = len(used) > 0
	elevation := 0.0
	for i := range reports {
		if !used[reports[i].Service] {
			continue
		}
		r.AsOf = later(r.AsOf, reports[i].FetchedAt)
		if reports[i].ElevationM != nil {
			elevation = *reports[i].ElevationM
		}
	}
	if r.Known {
		FillET0(hours, at, elevation) // before clipping, which may cut days short
	}
	r.Hours = clip(hours, since, until)
	for _, src := range s.sources {
		if used[src.Name()] {
			r.Credits = append(r.Credits, src.Credit())
		}
	}
	return r
}

// refresh makes sure that some service's report is up to date, asking them in
// order, and returns it; else it tells in words what each service met. Kept are the
// reports on record; when they are damaged, what they lack is not asked for.
func (s *Station) refresh(ctx context.Context, at Place, since time.Time, kept []Report, damaged bool) (newest *Report, met []string) {
	for _, src := range s.sources {
		if src.off != "" {
			met = append(met, title(src.Name())+" "+src.off)
			continue
		}
		if !src.Covers(at) {
			continue
		}
		r, err := s.current(ctx, src, at, since, kept, damaged)
		if err == nil {
			return r, nil
		}
		if ctx.Err() != nil {
			return nil, []string{"asking took too long"}
		}
		met = append(met, title(src.Name())+" "+s.says(src.Name(), err))
	}
	if len(met) == 0 {
		met = []string{"no service covers this place"}
	}
	return nil, met
}

// says is what a service did instead of answering, in words.
func (s *Station) says(service string, err error) string {
	var f *Failure
	if errors.As(err, &f) {
		return saidAs[f.Kind]
	}
	s.log.Error("weather could not be fetched", "service", service, "error", err)
	return "could not be asked"
}

var titles = map[string]string{OpenMeteo: "Open-Meteo", MetNorway: "MET Norway", NWS: "the US National Weather Service"}

func title(service string) string { return titles[service] }
