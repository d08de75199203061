package commands

import (
	"context"
	"time"

	"heapside/calc/audit"
	"heapside/calc/duty"
	"heapside/calc/feedstock"
	"heapside/calc/heap"
	"heapside/calc/process"
)

// Store is the record that the commands need. Every method is scoped by place
// and sees nothing outside it. Writes are all or nothing. Errors for people
// (an unknown heap id, a name in use) are *fault.Error; others are internal.
type Store interface {
	// Heaps lists the heaps of a place, oldest first, finished ones included.
	Heaps(ctx context.Context, at heap.Place) ([]heap.Heap, error)
	// StartHeap stores a heap and its Started entry and returns it with its id.
	// A name that another unfinished heap of the place bears (case folded) is fault.Taken.
	StartHeap(ctx context.Context, h heap.Heap, by heap.Person, logged time.Time) (heap.Heap, error)
	// ChangeHeap stores the heap's new attributes together with the entries that record them.
	ChangeHeap(ctx context.Context, h heap.Heap, entries ...heap.Entry) ([]heap.Entry, error)
	// Append stores entries in one transaction and returns them with ids.
	Append(ctx context.Context, at heap.Place, entries ...heap.Entry) ([]heap.Entry, error)
	// Void takes back entries, all or none: for each it appends a Voided entry
	// and, where the entry was Changed or Finished, puts the heap's attribute
	// back. Entries that are already voided, Voided entries and Started entries
	// are fault.Unknown.
	Void(ctx context.Context, at heap.Place, by heap.Person, logged time.Time, ids ...heap.EntryID) ([]heap.Entry, error)
	// Entries lists one heap's entries, by time then id, voided ones included.
	Entries(ctx context.Context, at heap.Place, id heap.ID) ([]heap.Entry, error)
	// Latest lists the newest entries of all the place's heaps in order of
	// logging, newest first, at most limit, voided ones included.
	Latest(ctx context.Context, at heap.Place, limit int) ([]heap.Entry, error)

	// Garden returns the settings of a place; the zero Garden (with Place set) when none are stored.
	Garden(ctx context.Context, at heap.Place) (heap.Garden, error)
	SaveGarden(ctx context.Context, g heap.Garden, by heap.Person, now time.Time) error

	// Stock lists the materials on hand by material id.
	Stock(ctx context.Context, at heap.Place) ([]heap.Stock, error)
	// SaveStock sets what is on hand of materials, all or none; a volume of 0 removes one.
	SaveStock(ctx context.Context, at heap.Place, by heap.Person, now time.Time, stock ...heap.Stock) error

	// Materials lists the place's own feedstocks: new ones and replacements of
	// table entries (same ID) with the group's weighed density.
	Materials(ctx context.Context, at heap.Place) ([]feedstock.Feedstock, error)
	SaveMaterial(ctx context.Context, at heap.Place, f feedstock.Feedstock, by heap.Person, now time.Time) error

	// Track is what the model learned about a heap, nil when nothing is kept.
	Track(ctx context.Context, at heap.Place, id heap.ID) ([]byte, error)
	SaveTrack(ctx context.Context, at heap.Place, id heap.ID, data []byte) error
	// Forecasts are what outlooks said about a heap since a moment, oldest first.
	Forecasts(ctx context.Context, at heap.Place, id heap.ID, since time.Time) ([]process.Forecast, error)
	SaveForecasts(ctx context.Context, at heap.Place, id heap.ID, forecasts ...process.Forecast) error

	// Plan is how a place wants to be reminded; the zero Plan when it never said.
	Plan(ctx context.Context, at heap.Place) (duty.Plan, error)
	// ChangePlan reads the plan, has it changed and checked and stores it, in one
	// transaction. An error of change stores nothing and is returned.
	ChangePlan(ctx context.Context, at heap.Place, by heap.Person, now time.Time, change func(*duty.Plan) error) (duty.Plan, error)
	// Standing is how a place's reminders get through; the zero Standing when it
	// has no plan.
	Standing(ctx context.Context, at heap.Place) (duty.Standing, error)
	// Acts lists what people changed of a topic, or of all when it is empty, since
	// a moment: the newest, at most limit, oldest first, and how many there are.
	// Every method that takes by and now keeps there what it changed.
	Acts(ctx context.Context, at heap.Place, topic audit.Topic, since time.Time, limit int) (acts []audit.Act, all int, err error)
	// Items lists what a place was reminded of since a day, the newest day first.
	Items(ctx context.Context, at heap.Place, since duty.Date) ([]duty.Item, error)
	// Item and Post return one; fault.Unknown when the place has none of that id.
	Item(ctx context.Context, at heap.Place, id int64) (duty.Item, error)
	Post(ctx context.Context, at heap.Place, id int64) (duty.Post, error)
	// Settle stores what somebody said of an item (State, By, At and Until of now)
	// and the entries logged for it, in one transaction. It is fault.Taken when the
	// item was closed before.
	Settle(ctx context.Context, at heap.Place, id int64, now duty.Item, entries ...heap.Entry) (duty.Item, []heap.Entry, error)
}
