package discordtest

import (
	"encoding/json"
	"io"
	"net/http"
	"strconv"
	"time"
)

// Point is a kind of request that can be made to fail.
type Point string

// The points.
const (
	AtGateway  Point = "gateway"  // asking for the gateway's address
	AtRegister Point = "register" // registering the commands
	AtCallback Point = "callback" // the first answer to an interaction
	AtEdit     Point = "edit"     // the answer after it was postponed
	AtFollowUp Point = "follow-up"
	AtWithdraw Point = "withdraw" // taking back the postponed answer
	AtLook     Point = "look"     // a question about the account, its servers and channels

	AtPost        Point = "post"         // a message nobody asked for
	AtEditMessage Point = "edit message" // a message in the place of one that stands in a channel
)

// Fault is how one request fails. With Arrived the platform does what was
// asked and only its answer is an error. Cut and Silent stand for an answer:
// the first closes the connection, the second says nothing until the client
// has given up. The zero Fault lets its request through.
type Fault struct {
	Status      int
	RetryAfter  time.Duration // with status 429
	Code        int           // the platform's own error code, e.g. 10062
	Arrived     bool
	Cut, Silent bool
}

// Fail makes the next requests of a kind fail, one for each fault.
func (p *Platform) Fail(at Point, faults ...Fault) {
	p.mu.Lock()
	defer p.mu.Unlock()
	p.faults[at] = append(p.faults[at], faults...)
}

// RefuseToken makes the platform refuse its token from now on, as after a reset.
func (p *Platform) RefuseToken() { p.update(func() { p.refusing = true }) }

// Met waits until every fault of a kind was met.
func (p *Platform) Met(at Point) {
	p.t.Helper()
	p.await("the faults at "+string(at)+" to be met", func() bool { return len(p.faults[at]) == 0 })
}

// faulty answers requests of a kind with the faults that are due.
func (p *Platform) faulty(at Point, next http.HandlerFunc) http.HandlerFunc {
	return func(w http.ResponseWriter, r *http.Request) {
		var fault *Fault
		p.update(func() {
			if queue := p.faults[at]; len(queue) > 0 {
				fault, p.faults[at] = &queue[0], queue[1:]
			}
		})
		if fault == nil || *fault == (Fault{}) {
			next(w, r)
			return
		}
		if fault.Arrived {
			next(&unheard{header: http.Header{}}, r)
		}
		if fault.Silent {
			_, _ = io.Copy(io.Discard, r.Body) // only then is a client that gives up noticed
			select {
			case <-r.Context().Done():
			case <-p.over:
			}
		}
		if fault.Cut || fault.Silent {
			panic(http.ErrAbortHandler)
		}
		if fault.Status == http.StatusTooManyRequests {
			seconds := strconv.FormatFloat(fault.RetryAfter.Seconds(), 'f', 3, 64)
			w.Header().Set("Retry-After", seconds)
			w.Header().Set("X-RateLimit-Scope", "user")
			answer(w, fault.Status, map[string]any{
				"message": "You are being rate limited.", "retry_after": fault.RetryAfter.Seconds(), "global": false,
			})
			return
		}
		refuse(w, fault.Status, fault.Code, http.StatusText(fault.Status))
	}
}

// unheard swallows an answer.
type unheard struct{ header http.Header }

func (u *unheard) Header() http.Header         { return u.header }
func (u *unheard) Write(b []byte) (int, error) { return len(b), nil }
func (u *unheard) WriteHeader(int)             {}

func answer(w http.ResponseWriter, status int, body any) {
	w.Header().Set("Content-Type", "application/json")
	w.WriteHeader(status)
	_ = json.NewEncoder(w).Encode(body) // the client may have gone
}

func refuse(w http.ResponseWriter, status, code int, message string) {
	answer(w, status, map[string]any{"code": code, "message": message})
}
