// Package duty is when a group is reminded, of what, and whose turn it is:
// the group's plan, the instants it means in a time zone, the rota, and which of
// the jobs that were found are worth a message. It reads no clock.
package duty

import (
	"slices"
	"time"

	"heapside/calc/fault"
	"heapside/calc/heap"
)

// Plan is how a channel wants to be reminded. The zero Plan says nothing ever.
// Its times are local wall time of the garden's zone.
type Plan struct {
	On     bool     `json:"on"`
	Days   Weekdays `json:"days"` // on which a reminder may come; 0: every day
	At     Clock    `json:"at"`
	Quiet  Quiet    `json:"quiet"`
	Off    []string `json:"off,omitempty"` // kinds of job that are not spoken of
	Paused Date     `json:"paused"`        // the first day that is reminded again; zero: not paused
	Weekly Weekdays `json:"weekly"`        // the day whose reminder also sums up the week; 0: none
	Rota   Rota     `json:"rota"`
	Taught []Taught `json:"taught,omitempty"`

	// Changed is when people last changed it, as far as known: no reminder is
	// owed for an hour of this plan before that.
	Changed time.Time `json:"changed,omitzero"`
}

// Usual is the plan of a channel that only switches reminders on (own choice:
// after work, while it is light for half of the year).
func Usual() Plan { return Plan{On: true, At: 18 * 60, Quiet: Quiet{From: 21 * 60, To: 8 * 60}} }

// Clock is a time of day in minutes after midnight, 0 to 1439.
type Clock int

// String is the time as 18:00.
func (c Clock) String() string {
	return time.Date(0, 1, 1, 0, int(c), 0, 0, time.UTC).Format("15:04")
}

// Quiet are the hours without messages, from From until To, over midnight when
// From is later. When both are equal there are none.
type Quiet struct {
	From Clock `json:"from"`
	To   Clock `json:"to"`
}

// Holds reports whether a time of day is quiet.
func (q Quiet) Holds(c Clock) bool {
	if q.From <= q.To {
		return q.From <= c && c < q.To
	}
	return c >= q.From || c < q.To
}

// Weekdays is a set of days of the week: bit 0 is Sunday, as in time.Weekday.
type Weekdays uint8

// Week makes a set of days.
func Week(days ...time.Weekday) (w Weekdays) {
	for _, d := range days {
		w |= 1 << d
	}
	return w
}

// Has reports whether the set holds a day.
func (w Weekdays) Has(d time.Weekday) bool { return w&(1<<d) != 0 }

// Taught is what the group said about one kind of job of one heap: that it
// came too soon, or is not wanted.
type Taught struct {
	Heap  heap.ID     `json:"heap"`
	Kind  string      `json:"kind"`
	Every int         `json:"every,omitempty"` // days after it was last done before it is spoken of again
	Until Date        `json:"until"`           // not spoken of before this day
	Never bool        `json:"never,omitempty"`
	By    heap.Person `json:"by"`
}

// Check refuses a plan that cannot be kept, with a sentence for people.
func (p Plan) Check() error {
	switch {
	case p.On && p.Quiet.Holds(p.At):
		return fault.New(fault.OutOfRange, "%s lies in the quiet hours, %s to %s. Choose another hour, or other quiet hours.", p.At, p.Quiet.From, p.Quiet.To)
	case len(p.Rota.Members) > MaxMembers:
		return fault.New(fault.TooLong, "%d people are on the rota already, which is as many as it holds.", MaxMembers)
	}
	return nil
}

// Mutes reports whether a kind of job is switched off for the whole channel.
func (p Plan) Mutes(kind string) bool { return slices.Contains(p.Off, kind) }
