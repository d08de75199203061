package duty

import (
	"time"

	"heapside/calc/advice"
	"heapside/calc/heap"
)

// Found is a job that advice found; Heap is 0 for one of the whole garden.
type Found struct {
	Heap heap.ID
	Name string // of the heap
	advice.Job
}

// State is what became of an item.
type State string

// The states of an item.
const (
	Open     State = "open"
	Done     State = "done"     // By did it
	Later    State = "later"    // By put it off until Until
	Unneeded State = "unneeded" // By said that it is not needed
	Lapsed   State = "lapsed"   // nothing calls for it any more
)

// Item is one job as the group was reminded of it. A place has at most one of a
// heap, a kind and a day.
type Item struct {
	ID   int64
	Post int64
	Day  Date // local day of the reminder
	Found
	Said time.Time // when the post was prepared

	State State
	By    heap.Person  // who closed it
	At    time.Time    // when it was closed
	Entry heap.EntryID // what was logged for it, or 0
	Until Date         // of Later
}

// PostKind is what a post is.
type PostKind string

// The kinds of post. A place has at most one of each a day.
const (
	Digest PostKind = "digest" // the jobs of the day, and the week when it is its day
	Notice PostKind = "notice" // that reminders cannot be posted elsewhere
)

// Post is one message to a channel.
type Post struct {
	ID    int64
	Place heap.Place
	Kind  PostKind
	Day   Date        // local day it is for
	Due   time.Time   // when it should come
	To    heap.Person // who is addressed; nobody when the ID is empty
	Notes []string    // lines besides the items: what was missed, a notice's text
	Week  []string    // lines of the week's summary
	Items []Item

	Message string // the platform's id once it was sent
	Attempt int    // how often it was claimed
	Owner   string // who claimed it last
	Version int    // grows whenever an item changes
}

// Empty reports whether there is nothing to say.
func (p Post) Empty() bool { return len(p.Items) == 0 && len(p.Week) == 0 && p.Kind == Digest }
