package gauge

import (
	"fmt"
	"io"
	"net/http"
	"strings"
	"time"
)

// lookThrough is how long ago the reminders may have been looked through (own
// choice: every two seconds is usual, and a hundred posts of which each waits
// for its deadline take so long).
const lookThrough = 5 * time.Minute

// faults are what is wrong, in plain words; none when all is well.
func (s state) faults() []string {
	var all []string
	say := func(format string, args ...any) { all = append(all, fmt.Sprintf(format, args...)) }
	if s.unread {
		say("The record does not answer.")
	}
	// Two heartbeats are about as long as half the patience: it is to be known
	// before the program gives up.
	switch silent := s.link.Silent; {
	case !s.link.Open:
		say("There is no connection to the platform.")
	case silent > s.link.Patience/2:
		say("The platform has answered no heartbeat for %s.", silent.Round(time.Second))
	}
	switch since := s.at.Sub(s.passed); {
	case s.passed.IsZero():
		say("The reminders were not looked through yet.")
	case since > lookThrough:
		say("The reminders were not looked through for %s.", since.Round(time.Second))
	}
	return all
}

// health says whether all is well.
func (s Sources) health(w http.ResponseWriter, r *http.Request) {
	faults := s.look(r.Context()).faults()
	w.Header().Set("Content-Type", "text/plain; charset=utf-8")
	w.Header().Set("Cache-Control", "no-store")
	if len(faults) == 0 {
		faults = []string{"ok"}
	} else {
		w.WriteHeader(http.StatusServiceUnavailable)
	}
	_, _ = io.WriteString(w, strings.Join(faults, "\n")+"\n") // whoever asked may have gone
}
