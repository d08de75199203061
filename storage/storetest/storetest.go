// Package storetest is what every engine of the record must pass.
package storetest

import (
	"context"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"heapside/calc/audit"
	"heapside/calc/duty"
	"heapside/calc/fault"
	"heapside/calc/feedstock"
	"heapside/calc/heap"
	"heapside/calc/process"
	"heapside/storage"
)

// Store is the record as the suite sees it.
type Store interface {
	Heaps(ctx context.Context, at heap.Place) ([]heap.Heap, error)
	StartHeap(ctx context.Context, h heap.Heap, by heap.Person, logged time.Time) (heap.Heap, error)
	ChangeHeap(ctx context.Context, h heap.Heap, entries ...heap.Entry) ([]heap.Entry, error)
	Append(ctx context.Context, at heap.Place, entries ...heap.Entry) ([]heap.Entry, error)
	Void(ctx context.Context, at heap.Place, by heap.Person, logged time.Time, ids ...heap.EntryID) ([]heap.Entry, error)
	Entries(ctx context.Context, at heap.Place, id heap.ID) ([]heap.Entry, error)
	Latest(ctx context.Context, at heap.Place, limit int) ([]heap.Entry, error)
	Garden(ctx context.Context, at heap.Place) (heap.Garden, error)
	SaveGarden(ctx context.Context, g heap.Garden, by heap.Person, now time.Time) error
	Stock(ctx context.Context, at heap.Place) ([]heap.Stock, error)
	SaveStock(ctx context.Context, at heap.Place, by heap.Person, now time.Time, stock ...heap.Stock) error
	Materials(ctx context.Context, at heap.Place) ([]feedstock.Feedstock, error)
	SaveMaterial(ctx context.Context, at heap.Place, f feedstock.Feedstock, by heap.Person, now time.Time) error
	Track(ctx context.Context, at heap.Place, id heap.ID) ([]byte, error)
	SaveTrack(ctx context.Context, at heap.Place, id heap.ID, data []byte) error
	Forecasts(ctx context.Context, at heap.Place, id heap.ID, since time.Time) ([]process.Forecast, error)
	SaveForecasts(ctx context.Context, at heap.Place, id heap.ID, forecasts ...process.Forecast) error
	AppendReport(ctx context.Context, r storage.Report) error
	LatestReport(ctx context.Context, service string, lat, lon float64) (storage.Report, bool, error)
	Plan(ctx context.Context, at heap.Place) (duty.Plan, error)
	ChangePlan(ctx context.Context, at heap.Place, by heap.Person, now time.Time, change func(*duty.Plan) error) (duty.Plan, error)
	Acts(ctx context.Context, at heap.Place, topic audit.Topic, since time.Time, limit int) ([]audit.Act, int, error)
	Standing(ctx context.Context, at heap.Place) (duty.Standing, error)
	Trouble(ctx context.Context, at heap.Place, what duty.Trouble, now time.Time, notices ...duty.Post) (bool, error)
	GuildGone(ctx context.Context, guild string, now time.Time) error
	Stale(ctx context.Context, limit int) ([]storage.Due, error)
	Arm(ctx context.Context, was storage.Due, next duty.Occurrence, settled ...duty.Item) error
	Due(ctx context.Context, now time.Time, limit int) ([]storage.Due, error)
	Prepare(ctx context.Context, was storage.Due, p duty.Post, next duty.Occurrence, rota duty.Rota) (bool, error)
	Skip(ctx context.Context, was storage.Due, next duty.Occurrence) (bool, error)
	Missed(ctx context.Context, at heap.Place) ([]duty.Date, error)
	Claim(ctx context.Context, owner string, now time.Time, lease time.Duration, limit int) ([]duty.Post, error)
	Sent(ctx context.Context, p duty.Post, message string, now time.Time) error
	Retry(ctx context.Context, p duty.Post, next time.Time, why string) error
	Drop(ctx context.Context, p duty.Post, fold bool, why string) error
	Outdated(ctx context.Context, now time.Time, lease time.Duration, limit int) ([]duty.Post, error)
	Shown(ctx context.Context, p duty.Post) error
	EditLater(ctx context.Context, p duty.Post, next time.Time) error
	Post(ctx context.Context, at heap.Place, id int64) (duty.Post, error)
	LastSent(ctx context.Context, besides heap.Place) (heap.Place, bool, error)
	Items(ctx context.Context, at heap.Place, since duty.Date) ([]duty.Item, error)
	Item(ctx context.Context, at heap.Place, id int64) (duty.Item, error)
	Settle(ctx context.Context, at heap.Place, id int64, now duty.Item, entries ...heap.Entry) (duty.Item, []heap.Entry, error)
	ForgetPerson(ctx context.Context, id string) ([]storage.Removed, error)
	ForgetGuild(ctx context.Context, guild string) ([]storage.Removed, error)
	Reports(ctx context.Context, lat, lon float64, since, until, asOf time.Time) ([]storage.Report, error)
}

// Run runs the suite; open returns an empty record that closes with the test.
func Run(t *testing.T, open func(t *testing.T) Store) {
	for _, part := range []struct {
		name  string
		tests map[string]func(*bench)
	}{
		{"heaps", heapTests},
		{"entries", entryTests},
		{"void", voidTests},
		{"settings", settingTests},
		{"outlook", outlookTests},
		{"weather", weatherTests},
		{"plans", planTests},
		{"due", dueTests},
		{"posts", postTests},
		{"edits", editTests},
		{"items", itemTests},
		{"steps", stepTests},
		{"scope", scopeTests},
		{"writes", writeTests},
		{"forget", forgetTests},
		{"audit", auditTests},
	} {
		for name, test := range part.tests {
			t.Run(part.name+"/"+name, func(t *testing.T) {
				test(&bench{T: t, store: open(t)})
			})
		}
	}
}

// The invented garden and its people.
var (
	bays  = heap.Place{Guild: "millrace-lane", Channel: "bays"}
	plots = heap.Place{Guild: "millrace-lane", Channel: "plots"}
	other = heap.Place{Guild: "orchard-end", Channel: "bays"}

	wren  = heap.Person{ID: "7", Name: "Wren"}
	tamsy = heap.Person{ID: "11", Name: "Tamsy"}

	noon = time.Date(2026, 5, 2, 12, 0, 0, 0, time.UTC)
)

// bench is one test with its store.
type bench struct {
	*testing.T
	store Store
}

func (b *bench) start(at heap.Place, name string) heap.Heap {
	b.Helper()
	h, err := b.store.StartHeap(b.Context(), heap.Heap{
		Place: at, Name: name, Container: heap.PalletBay, SizeL: 800, Cover: "none", Aim: heap.Fast, Started: noon,
	}, wren, noon)
	require.NoError(b, err)
	return h
}

func (b *bench) append(at heap.Place, entries ...heap.Entry) []heap.Entry {
	b.Helper()
	stored, err := b.store.Append(b.Context(), at, entries...)
	require.NoError(b, err)
	return stored
}

// change stores the heap with one changed field and returns that entry.
func (b *bench) change(h heap.Heap, field string, after time.Duration) heap.Entry {
	b.Helper()
	stored, err := b.store.ChangeHeap(b.Context(), h, entry(h, after, heap.Changed{Field: field}))
	require.NoError(b, err)
	require.Len(b, stored, 1)
	return stored[0]
}

func (b *bench) void(at heap.Place, ids ...heap.EntryID) []heap.Entry {
	b.Helper()
	voided, err := b.store.Void(b.Context(), at, tamsy, noon.Add(time.Hour), ids...)
	require.NoError(b, err)
	return voided
}

func (b *bench) entries(h heap.Heap) []heap.Entry {
	b.Helper()
	entries, err := b.store.Entries(b.Context(), h.Place, h.ID)
	require.NoError(b, err)
	return entries
}

// only is the one heap of a place.
func (b *bench) only(at heap.Place) heap.Heap {
	b.Helper()
	heaps, err := b.store.Heaps(b.Context(), at)
	require.NoError(b, err)
	require.Len(b, heaps, 1)
	return heaps[0]
}

// refused requires an error for people with that code.
func (b *bench) refused(code fault.Code, err error) {
	b.Helper()
	require.Error(b, err)
	f, ok := fault.As(err)
	require.True(b, ok, "not an error for people: %v", err)
	require.Equal(b, code, f.Code, f.Message)
	require.NotEmpty(b, f.Message)
}

func entry(h heap.Heap, after time.Duration, p heap.Payload) heap.Entry {
	at := noon.Add(after)
	return heap.Entry{Heap: h.ID, At: at, Logged: at, By: wren, Payload: p}
}

func temp(h heap.Heap, after time.Duration, c float64) heap.Entry {
	return entry(h, after, heap.Temp{C: c, DepthCm: 40, Said: "hot"})
}
