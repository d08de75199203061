// Package reminders says what is due, at its hour, and says it once.
package reminders

import (
	"fmt"
	"time"
)

// Refusal is why the platform would not take a message.
type Refusal int

// The refusals. After each of them it is certain that nothing was posted.
const (
	RateLimited  Refusal = iota + 1 // too much at once; welcome again after Refused.After
	ChannelGone                     // the channel was deleted
	NoAccess                        // the channel is there, but we may not post in it
	GuildGone                       // we were removed from the server
	TokenRefused                    // our account is not accepted any more; nothing can be sent
	Malformed                       // the message breaks a rule of the platform: a bug of ours
	Busy                            // slow mode, or a limit on writing there; try again later
	MessageGone                     // the message to be edited was deleted
)

var refusals = [...]string{
	RateLimited:  "rate limited",
	ChannelGone:  "channel gone",
	NoAccess:     "no access",
	GuildGone:    "server gone",
	TokenRefused: "token refused",
	Malformed:    "malformed",
	Busy:         "busy",
	MessageGone:  "message gone",
}

// String is the refusal in words, for logs.
func (r Refusal) String() string {
	if r < RateLimited || r > MessageGone {
		return fmt.Sprintf("refusal %d", int(r))
	}
	return refusals[r]
}

// Refused is the error of a message that the platform certainly did not take.
// After any other error it is unknown whether it was delivered.
type Refused struct {
	Why   Refusal
	After time.Duration // how long to wait at least; of RateLimited only
	Err   error         // what the platform said
}

// Error implements error.
func (r *Refused) Error() string { return fmt.Sprintf("refused, %s: %v", r.Why, r.Err) }

// Unwrap gives what the platform said.
func (r *Refused) Unwrap() error { return r.Err }
