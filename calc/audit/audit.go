// Package audit is what people changed of what rules a group: its settings, its
// reminders, its stock. A change is data, what was and what is, so that it can
// be said in any language and set again.
package audit

import (
	"bytes"
	"encoding/json"
	"fmt"
	"time"

	"heapside/calc/heap"
)

// Topic is the part of a group's rules that was changed.
type Topic string

// The topics. They are kept in the record: a name never changes.
const (
	Settings  Topic = "settings"
	Reminders Topic = "reminders"
	Stock     Topic = "stock"
)

// Act is what somebody changed of one topic in one go.
type Act struct {
	ID      int64
	At      time.Time
	By      heap.Person
	Topic   Topic
	Changes []Change
}

// What is the thing that was changed.
type What string

// What can be changed, with the type of From and To and what Of names. They are
// kept in the record: a name never changes.
const (
	Units     What = "units"     // UnitsValue
	Measure   What = "measure"   // float64, litres; of a container
	Zone      What = "zone"      // string, IANA name
	Location  What = "place"     // LocationValue
	Language  What = "language"  // string, tag
	Organiser What = "organiser" // bool; of People
	Reader    What = "readonly"  // bool; of People

	On       What = "reminders" // bool
	Days     What = "days"      // duty.Weekdays
	Hour     What = "hour"      // duty.Clock
	Quiet    What = "quiet"     // duty.Quiet
	JobKind  What = "kind"      // bool, reminded of; of a kind of job
	Paused   What = "pause"     // duty.Date, the first day again
	Weekly   What = "weekly"    // duty.Weekdays
	Turns    What = "turns"     // bool, on the rota; of People
	Order    What = "order"     // none: Was and People are the rota
	Away     What = "away"      // []duty.Span; of People
	StandsIn What = "swap"      // bool; People are whose turn it is and who takes it
	Lesson   What = "lesson"    // LessonValue; of a kind of job, of Heap or of the garden

	OnHand     What = "stock"    // float64, litres; of a material
	CarbonToN  What = "cn"       // measure.Range; of a material
	Carbon     What = "carbon"   // measure.Range, % of dry mass; of a material
	Moisture   What = "moisture" // measure.Range, % of wet mass; of a material
	BulkWeight What = "density"  // measure.Range, kg/m3; of a material
)

// Change is one thing that was changed. From and To are JSON of the type that
// What names; one that is missing was not set.
type Change struct {
	What   What            `json:"what"`
	Of     string          `json:"of,omitempty"`   // id of the container, material or kind of job
	Heap   heap.ID         `json:"heap,omitempty"` // of which heap; 0 when of none
	People []heap.Person   `json:"people,omitempty"`
	Was    []heap.Person   `json:"was,omitempty"` // the people in place of whom People are
	From   json.RawMessage `json:"from,omitempty"`
	To     json.RawMessage `json:"to,omitempty"`
}

// Read reads From or To, or gives the zero value for one that is missing.
func Read[T any](data json.RawMessage) (value T, err error) {
	if len(data) == 0 {
		return value, nil
	}
	if err := json.Unmarshal(data, &value); err != nil {
		return value, fmt.Errorf("read change: %w", err)
	}
	return value, nil
}

// found gathers changes.
type found struct {
	changes []Change
	err     error
}

// add adds a change of c from one value to another, unless both are the same.
// A nil is not set.
func (f *found) add(c Change, from, to any) {
	c.From, c.To = f.value(from), f.value(to)
	if !bytes.Equal(c.From, c.To) {
		f.changes = append(f.changes, c)
	}
}

func (f *found) value(v any) json.RawMessage {
	if v == nil || f.err != nil {
		return nil
	}
	var data []byte
	data, f.err = json.Marshal(v)
	return data
}

// set is a value, or nil where it is the zero of its type.
func set[T comparable](v T) any {
	var zero T
	if v == zero {
		return nil
	}
	return v
}
