package weather

import (
	"fmt"
	"time"
)

// Kind is how a service failed.
type Kind string

// The kinds.
const (
	Down      Kind = "down"      // no answer, a cut-off one, or an error of its own
	Slow      Kind = "slow"      // no answer in time
	Throttled Kind = "throttled" // asked too often
	Refused   Kind = "refused"   // our request or our name is not accepted
	Garbled   Kind = "garbled"   // an answer that is not what was documented or asked
	Outside   Kind = "outside"   // it does not know the place
)

// Failure is a service that gave no weather.
type Failure struct {
	Service    string
	Kind       Kind
	Status     int           // HTTP status, 0 without an answer
	RetryAfter time.Duration // as the service asks, 0 when it does not
	Err        error
}

func (f *Failure) Error() string {
	s := f.Service + " is " + string(f.Kind)
	if f.Status != 0 {
		s += fmt.Sprintf(" (status %d)", f.Status)
	}
	if f.Err != nil {
		s += ": " + f.Err.Error()
	}
	return s
}

func (f *Failure) Unwrap() error { return f.Err }

// saidAs are the kinds in a sentence about a service.
var saidAs = map[Kind]string{
	Down:      "did not answer properly",
	Slow:      "did not answer in time",
	Throttled: "wants to be asked less often",
	Refused:   "refused to answer",
	Garbled:   "gave an answer that cannot be read",
	Outside:   NotCovering,
}
