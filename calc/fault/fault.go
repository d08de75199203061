// Package fault is the one error a person may read: a code for programs and a
// sentence that says what would be accepted. Every other error is internal.
package fault

import (
	"errors"
	"fmt"
)

// Code names what went wrong, for scripts and tests.
type Code string

// The codes a person's input can meet.
const (
	NotUnderstood Code = "not_understood" // no reading of the words makes sense
	Unknown       Code = "unknown"        // a material, heap, unit or entry that is not known here
	Ambiguous     Code = "ambiguous"      // two readings are equally close
	OutOfRange    Code = "out_of_range"   // understood, but no heap can be so
	Missing       Code = "missing"        // a needed part was not given
	Refused       Code = "refused"        // known, and does not belong in a shared heap
	NotAllowed    Code = "not_allowed"    // the caller lacks the right
	Taken         Code = "taken"          // a name that is in use
	TooLong       Code = "too_long"       // more text than is kept
	TooMany       Code = "too_many"       // more calls than are taken in a while; this one was not carried out
	Unavailable   Code = "unavailable"    // something outside did not answer; what was typed may be right
	NotSaved      Code = "not_saved"      // an internal error; nothing was stored
)

// Error is an error meant for people. Message is one or two plain sentences
// that quote what was typed and say what would be accepted. Format and Args are
// what it was printed from, so that it can be said in another language.
type Error struct {
	Code    Code
	Message string
	Format  string
	Args    []any
}

func (e *Error) Error() string { return string(e.Code) + ": " + e.Message }

// New returns an Error with a formatted message.
func New(code Code, format string, args ...any) *Error {
	return &Error{Code: code, Message: fmt.Sprintf(format, args...), Format: format, Args: args}
}

// As reports the Error inside err, if there is one.
func As(err error) (*Error, bool) {
	var e *Error
	ok := errors.As(err, &e)
	return e, ok
}

// Is reports whether err holds an Error of a code.
func Is(err error, code Code) bool {
	e, ok := As(err)
	return ok && e.Code == code
}
