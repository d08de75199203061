// Package heap is the shared record: a heap, the entries people logged, and
// what those entries say so far. It knows no storage and no chat platform.
package heap

import (
	"time"

	"heapside/calc/measure"
)

// ID identifies a heap, EntryID an entry; both are unique in one database.
type (
	ID      int64
	EntryID int64
)

// Place is one channel of one guild: the scope of everything on record.
type Place struct{ Guild, Channel string }

// Person is who did something. ID is the platform's id, Name what was shown.
type Person struct{ ID, Name string }

// Container is what holds a heap.
type Container string

// The containers.
const (
	OpenHeap   Container = "open heap"
	PalletBay  Container = "pallet bay"
	PlasticBin Container = "plastic bin"
	Tumbler    Container = "tumbler"
)

// Aim is what the group wants of a heap.
type Aim string

// The aims.
const (
	Fast     Aim = "fast"
	Steady   Aim = "steady"
	Hygienic Aim = "hygienic"
)

// Heap is one heap of one channel. SizeL is what the container holds, or the
// size the open heap is built to, in litres (0: not said).
type Heap struct {
	ID        ID
	Place     Place
	Name      string
	Container Container
	SizeL     float64
	Cover     string // "none", "lid", "tarp", ... as last changed; the log may say more
	Aim       Aim
	Started   time.Time
	Finished  time.Time // zero while it is kept
}

// Entry is one thing on the record. Entries never change; one that was taken
// back carries who did it in VoidedBy.
type Entry struct {
	ID       EntryID
	Heap     ID
	At       time.Time // when it happened
	Logged   time.Time // when it was written down
	By       Person
	Payload  Payload
	VoidedBy EntryID // the voiding entry, or 0
	Leader   EntryID // the first of the entries stored in one go with this one, itself when alone
}

// Garden is a channel's settings. The zero value of each field means "not
// set": UTC, metric, no place.
type Garden struct {
	Place      Place
	Measures   measure.Measures
	Zone       string // IANA name
	Located    bool
	Lat, Lon   float64
	Organisers []Person // appointed here, besides those the platform names
	ReadOnly   []Person // may ask, but not log or change anything
	Language   string   // tag of the language that is spoken here; empty when each hears their own
}

// Stock is a material on hand.
type Stock struct {
	Material string // feedstock id
	Said     string
	VolumeL  float64
	At       time.Time
}
