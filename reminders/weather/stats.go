package weather

import (
	"maps"
	"time"
)

// Stats count what a station got from a service since it was made.
type Stats struct {
	Service string
	Fetched int          // reports
	Failed  map[Kind]int // requests for reports that gave none; all kinds are there
	Newest  time.Time    // when the last report came; zero before the first
}

func newStats(service string) Stats {
	s := Stats{Service: service, Failed: map[Kind]int{}}
	for kind := range saidAs {
		s.Failed[kind] = 0
	}
	return s
}

// count changes the counts of a source.
func (s *Station) count(src *source, change func(*Stats)) {
	s.mu.Lock()
	defer s.mu.Unlock()
	change(&src.stats)
}

// Stats are the counts so far, of the services in use.
func (s *Station) Stats() []Stats {
	s.mu.Lock()
	defer s.mu.Unlock()
	var all []Stats
	for _, src := range s.sources {
		if src.off == "" {
			one := src.stats
			one.Failed = maps.Clone(one.Failed)
			all = append(all, one)
		}
	}
	return all
}
