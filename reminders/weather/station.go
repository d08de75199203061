package weather

import (
	"context"
	"errors"
	"fmt"
	"hash/fnv"
	"log/slog"
	"net/http"
	"slices"
	"strings"
	"sync"
	"time"

	"heapside/calc/fault"
)

// How often and how far: own choice, within what the services allow. A heap
// does not notice weather that is three hours younger.
const (
	leastFresh = 3 * time.Hour
	mostFresh  = 7 * day
	revised    = 2 * day  // the newest past hours are asked for again
	horizon    = 15 * day // of a forecast
	longestAgo = 400 * day
)

// Options are what tests replace; zero fields are the real things.
type Options struct {
	Now       func() time.Time
	Sleep     func(context.Context, time.Duration) error
	Transport http.RoundTripper
	Log       *slog.Logger
}

// Station answers questions about the weather. It is safe for concurrent use;
// gardens that share a place share what is fetched for it.
type Station struct {
	cache    Cache
	sources  []*source
	places   *wire // nil when switched off
	now      func() time.Time
	log      *slog.Logger
	total    time.Duration
	life     context.Context
	end      context.CancelFunc
	running  sync.WaitGroup
	mu       sync.Mutex
	inFlight map[errand]*flight
}

// source is a service in use, or why it is not.
type source struct {
	Service
	gate gate
	off  string // "is switched off"
}

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

// New is a station that keeps its reports in the cache. It asks nobody yet.
func New(c Config, cache Cache, o Options) (*Station, error) {
	if err := checkAgent(c.Agent); err != nil {
		return nil, err
	}
	order, err := c.order()
	if err != nil {
		return nil, err
	}
	o, limits := o.orDefault(c.Timeouts.orDefault()), c.Timeouts.orDefault()
	life, end := context.WithCancel(context.Background())
	s := &Station{
		cache: cache, now: o.Now, log: o.Log, total: limits.Total,
		life: life, end: end, inFlight: map[errand]*flight{},
	}
	for _, name := range order {
		src, err := newSource(name, c, limits, o)
		if err != nil {
			return nil, err
		}
		s.sources = append(s.sources, src)
	}
	if !c.Places.Off {
		base, err := c.Places.base(placesURL)
		if err != nil {
			return nil, err
		}
		s.places = newWire("place search", base, c.Agent, limits, o)
	}
	return s, nil
}

func (o Options) orDefault(t Timeouts) Options {
	if o.Now == nil {
		o.Now = time.Now
	}
	if o.Sleep == nil {
		o.Sleep = sleep
	}
	if o.Transport == nil {
		o.Transport = newTransport(t)
	}
	if o.Log == nil {
		o.Log = slog.New(slog.DiscardHandler)
	}
	return o
}

func sleep(ctx context.Context, d time.Duration) error {
	timer := time.NewTimer(d)
	defer timer.Stop()
	select {
	case <-timer.C:
		return nil
	case <-ctx.Done():
		return ctx.Err()
	}
}

func newWire(service, base, agent string, t Timeouts, o Options) *wire {
	if agent == "" {
		agent = "heapside"
	}
	return &wire{
		service: service, base: base, agent: agent, total: t.Total, now: o.Now, sleep: o.Sleep, log: o.Log,
		client: &http.Client{Transport: o.Transport, CheckRedirect: sameHost}, turn: make(chan struct{}, 1),
	}
}

// makers are the services by name, with how each is made from its settings.
var makers = map[string]struct {
	public     string
	source     func(Config) Source
	needsAgent bool
	outside    int // the status that says a place is not covered
	make       func(*wire) Service
}{
	OpenMeteo: {
		public: openMeteoURL,
		source: func(c Config) Source { return c.OpenMeteo },
		make:   func(w *wire) Service { return openMeteo{w} },
	},
	MetNorway: {
		public: metNorwayURL, needsAgent: true, outside: http.StatusUnprocessableEntity,
		source: func(c Config) Source { return c.MetNorway },
		make:   func(w *wire) Service { return metNorway{w} },
	},
	NWS: {
		public: nwsURL, needsAgent: true, outside: http.StatusNotFound,
		source: func(c Config) Source { return c.NWS },
		make:   func(w *wire) Service { return &nws{wire: w, cells: map[Place]cell{}} },
	},
}

func newSource(name string, c Config, t Timeouts, o Options) (*source, error) {
	m := makers[name]
	set := m.source(c)
	base, err := set.base(m.public)
	if err != nil {
		return nil, err
	}
	w := newWire(name, base, c.Agent, t, o)
	w.outside = m.outside
	src := &source{Service: m.make(w), gate: gate{outside: map[Place]time.Time{}}}
	switch {
	case set.Off:
		src.off = "is switched off"
	case m.needsAgent && c.Agent == "":
		src.off = "is not asked without a way to reach whoever runs this"
	}
	return src, nil
}

// Close ends what is under way and waits for it.
func (s *Station) Close() {
	s.end()
	s.running.Wait()
}

// Query is a question about a garden's weather.
type Query struct {
	Located      bool // a place is set
	Lat, Lon     float64
	Since, Until time.Time
	Gauge        []GaugeReading
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
// Reason says why. A gauge is heard even without a place.
func (s *Station) Weather(ctx context.Context, q Query) Result {
	now := s.now().UTC()
	since := later(q.Since, now.Add(-longestAgo)).UTC().Truncate(time.Hour)
	until := earlier(q.Until, now.Add(horizon)).UTC().Truncate(time.Hour)
	r := Result{Asked: max(0, int(until.Sub(since)/time.Hour))}
	gaugeOnly := func(reason string) Result {
		r.Reason, r.Hours = reason, clip(Merge(nil, q.Gauge), since, until)
		return r
	}
	if !q.Located {
		return gaugeOnly("No place is set for this garden.")
	}
	at, err := At(q.Lat, q.Lon)
	if err != nil {
		f, _ := fault.As(err)
		return gaugeOnly(f.Message)
	}
	if r.Asked == 0 {
		return gaugeOnly("No hours were asked for.")
	}
	// A gauge reading may have begun before the span.
	reports, err := s.cache.Reports(ctx, at, since.Add(-longestGaugeSpan), until, now)
	if err != nil {
		s.log.Error("weather on record could not be read", "error", err)
	}
	newest, reason := s.refresh(ctx, at, since, reports, err != nil)
	if newest != nil {
		reports = append(reports, *newest)
	}
	return s.result(r, at, reports, q.Gauge, since, until, reason)
}

// result puts reports and gauge together.
func (s *Station) result(r Result, at Place, reports []Report, gauge []GaugeReading, since, until time.Time, reason string) Result {
	hours, used := merge(reports, gauge, since, until)
	r.Hours, r.Reason = clip(hours, since, until), reason
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
	FillET0(r.Hours, at, elevation)
	for _, src := range s.sources {
		if used[src.Name()] {
			r.Credits = append(r.Credits, src.Credit())
		}
	}
	return r
}

// clip is the part of hours, in order, that lies in a span.
func clip(hours []Hour, since, until time.Time) []Hour {
	byTime := func(h Hour, t time.Time) int { return h.At.Compare(t) }
	from, _ := slices.BinarySearchFunc(hours, since, byTime)
	to, _ := slices.BinarySearchFunc(hours, until, byTime)
	return hours[from:max(from, to)]
}

// refresh makes sure that some service's report is up to date, asking them in
// order, and returns it; else it tells what each service met. Kept are the
// reports on record; when they are damaged, what they lack is not asked for.
func (s *Station) refresh(ctx context.Context, at Place, since time.Time, kept []Report, damaged bool) (*Report, string) {
	var met []string
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
			return r, ""
		}
		if ctx.Err() != nil {
			return nil, "Asking for the weather took too long."
		}
		met = append(met, s.says(src, err))
	}
	if len(met) == 0 {
		return nil, "No weather service covers this place."
	}
	return nil, "No newer weather: " + strings.Join(met, "; ") + "."
}

// says is what a service met, in words.
func (s *Station) says(src *source, err error) string {
	var f *Failure
	if errors.As(err, &f) {
		return title(src.Name()) + " " + saidAs[f.Kind]
	}
	s.log.Error("weather could not be fetched", "service", src.Name(), "error", err)
	return title(src.Name()) + " could not be asked"
}

var titles = map[string]string{OpenMeteo: "Open-Meteo", MetNorway: "MET Norway", NWS: "the US National Weather Service"}

func title(service string) string { return titles[service] }

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
	for _, h := range clip(Merge(kept, nil), next, now) {
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
			s.log.Warn("weather service failed", "error", failure)
		}
		return
	}
	src.gate.succeeded()
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
