package weather

import (
	"sync"
	"time"
)

// Waits after failures in a row: own choice. From the third on the service
// counts as broken, and when its wait is over a single request tries it.
const (
	firstWait   = time.Minute
	brokenAfter = 3
	brokenWait  = 15 * time.Minute
	longestWait = 6 * time.Hour
	refusedWait = time.Hour // our request is wrong; repeating it will not help
	outsideWait = 7 * day   // borders move slowly
)

// gate says when a service may be asked again.
type gate struct {
	mu       sync.Mutex
	failures int
	shut     time.Time // until then
	last     Kind
	outside  map[Place]time.Time // until then
}

// open reports whether a request about the place may go out at now; if not, what
// the last one met. Of a broken service it lets one request through and holds
// the others back for as long as that may take.
func (g *gate) open(at Place, now time.Time, takes time.Duration) (Kind, bool) {
	g.mu.Lock()
	defer g.mu.Unlock()
	if now.Before(g.outside[at]) {
		return Outside, false
	}
	if now.Before(g.shut) {
		return g.last, false
	}
	if g.failures >= brokenAfter {
		g.shut = now.Add(takes)
	}
	return "", true
}

// succeeded opens the gate.
func (g *gate) succeeded() {
	g.mu.Lock()
	defer g.mu.Unlock()
	g.failures, g.shut = 0, time.Time{}
}

// failed shuts the gate for a while.
func (g *gate) failed(at Place, f *Failure, now time.Time) {
	g.mu.Lock()
	defer g.mu.Unlock()
	if f.Kind == Outside {
		g.failures, g.shut = 0, time.Time{} // it did answer
		g.outside[at] = now.Add(outsideWait)
		return
	}
	g.failures++
	g.last = f.Kind
	wait := firstWait << (g.failures - 1)
	if g.failures >= brokenAfter {
		wait = min(longestWait, brokenWait<<min(g.failures-brokenAfter, 10))
	}
	if f.Kind == Refused {
		wait = max(wait, refusedWait)
	}
	g.shut = now.Add(max(wait, f.RetryAfter))
}
