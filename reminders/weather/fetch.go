package weather

import (
	"context"
	"errors"
	"fmt"
	"hash/fnv"
	"slices"
	"time"
)

// How often and how far: own choice, within what the services allow. A heap
// does not notice weather that is three hours younger.
const (
	leastFresh = 3 * time.Hour
	mostFresh  = 7 * day
	revised    = 2 * day  // the newest past hours are asked for again
	horizon    = 15 * day // of a forecast
)

// errand is what one fetch is for.
type errand struct {
	service string
	place   Place
}

// flight is a fetch under way; report and err are set when done is closed.
type flight struct {
	done   chan struct{}
	report Report
	err    error
}

// current is the service's report of a place, fetched if what is kept is out
// of date.
func (s *Station) current(ctx context.Context, src *source, at Place, since time.Time, kept []Report, damaged bool) (*Report, error) {
	now := s.now().UTC()
	last, ok, err := s.cache.Latest(ctx, src.Name(), at)
	if err != nil {
		return nil, fmt.Errorf("read the latest report: %w", err)
	}
	from, complete := now.Add(-revised), true
	if src.Past() > 0 && !damaged {
		var gap time.Time
		gap, complete = firstGap(src.Name(), kept, later(since, now.Add(-src.Past())), now)
		from = earlier(from, gap)
	}
	var before *Report
	if ok {
		before = &last
		if complete && now.Before(last.Expires) {
			return before, nil
		}
	}
	r, err := s.shared(ctx, src, at, from.Truncate(time.Hour), now.Add(horizon).Truncate(time.Hour), before)
	if err != nil {
		return nil, err
	}
	return &r, nil
}

// firstGap is the first hour from since to now without observed rain in the
// service's reports; complete when the service was asked back to since.
func firstGap(service string, kept []Report, since, now time.Time) (at time.Time, complete bool) {
	kept = slices.DeleteFunc(slices.Clone(kept), func(r Report) bool { return r.Service != service })
	asked := now
	for i := range kept {
		asked = earlier(asked, kept[i].Since)
	}
	if since.Add(day).Before(asked) { // a day's slack: the service's reach moves on as we speak
		return since, false
	}
	next := since.Truncate(time.Hour)
	for _, h := range clip(Merge(kept), next, now) {
		if !h.At.Equal(next) || !h.Observed || h.RainMm == nil {
			break
		}
		next = next.Add(time.Hour)
	}
	return next, true
}

// shared fetches once for all who ask at the same time. The fetch outlives a
// caller who gives up; each waits on its own context.
func (s *Station) shared(ctx context.Context, src *source, at Place, since, until time.Time, before *Report) (Report, error) {
	key := errand{src.Name(), at}
	s.mu.Lock()
	f := s.inFlight[key]
	if f == nil {
		if kind, open := src.gate.open(at, s.now(), s.total); !open {
			s.mu.Unlock()
			return Report{}, &Failure{Service: src.Name(), Kind: kind, Err: errWaiting}
		}
		f = &flight{done: make(chan struct{})}
		s.inFlight[key] = f
		s.running.Go(func() { s.fly(key, f, src, since, until, before) })
	}
	s.mu.Unlock()
	select {
	case <-f.done:
		return f.report, f.err
	case <-ctx.Done():
		return Report{}, ctx.Err()
	}
}

var errWaiting = errors.New("not asked again yet")

func (s *Station) fly(key errand, f *flight, src *source, since, until time.Time, before *Report) {
	defer func() {
		s.mu.Lock()
		defer s.mu.Unlock()
		delete(s.inFlight, key)
		close(f.done)
	}()
	f.report, f.err = src.Fetch(s.life, key.place, since, until, before)
	if f.err != nil {
		var failure *Failure
		if errors.As(f.err, &failure) {
			src.gate.failed(key.place, failure, s.now())
			s.count(src, func(c *Stats) { c.Failed[failure.Kind]++ })
			s.log.Warn("weather service failed", "error", failure)
		}
		return
	}
	src.gate.succeeded()
	s.count(src, func(c *Stats) { c.Fetched, c.Newest = c.Fetched+1, later(c.Newest, f.report.FetchedAt) })
	f.report.Expires = holds(f.report)
	if err := s.cache.Append(s.life, f.report); err != nil {
		s.log.Error("weather could not be kept", "service", src.Name(), "error", err)
	}
}

// holds is until when a report is not asked for again: as the service says, but
// no less than leastFresh, and some minutes more that differ from place to
// place, so that nobody asks on the hour.
func holds(r Report) time.Time {
	at := later(r.Expires, r.FetchedAt.Add(leastFresh))
	at = earlier(at, r.FetchedAt.Add(mostFresh))
	h := fnv.New32a()
	fmt.Fprint(h, r.Service, r.Place, r.FetchedAt.Unix())
	at = at.Add(time.Duration(60+h.Sum32()%840) * time.Second) // 1 to 15 minutes
	if at.Minute() == 0 {
		at = at.Add(time.Minute)
	}
	return at.UTC()
}
