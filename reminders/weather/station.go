package weather

import (
	"context"
	"log/slog"
	"net/http"
	"sync"
	"time"
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
	mu       sync.Mutex // guards what follows, and the stats of the sources
	inFlight map[errand]*flight
}

// source is a service in use, or why it is not.
type source struct {
	Service
	gate  gate
	off   string // "is switched off"
	stats Stats
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
	src := &source{Service: m.make(w), gate: gate{outside: map[Place]time.Time{}}, stats: newStats(name)}
	switch {
	case set.Off:
		src.off = SwitchedOff
	case m.needsAgent && c.Agent == "":
		src.off = NoAgent
	}
	return src, nil
}

// Close ends what is under way and waits for it.
func (s *Station) Close() {
	s.end()
	s.running.Wait()
}
