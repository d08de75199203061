package advice

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"

	"heapside/calc/heap"
	"heapside/calc/maturity/scenario"
)

func TestKindsHaveNamesOfTheirOwn(t *testing.T) {
	seen := map[string]bool{}
	for _, k := range Kinds() {
		assert.NotEmpty(t, k.Name, k.ID)
		assert.False(t, seen[k.ID] || seen[k.Name], k.ID)
		seen[k.ID], seen[k.Name] = true, true
		assert.Equal(t, k.ID == Cool, k.Always, "only too much heat is never kept quiet: %s", k.ID)
		assert.False(t, k.Idle && len(Closes(k.ID)) > 0, "%s asks for no work, so nothing closes it", k.ID)
	}
	assert.False(t, Idle("unheard-of"))
	assert.Empty(t, Closes("unheard-of"))
}

func TestDoneBy(t *testing.T) {
	since := scenario.Now
	entry := func(id heap.EntryID, happened, logged time.Duration, p heap.Payload) heap.Entry {
		return heap.Entry{ID: id, At: since.Add(happened), Logged: since.Add(logged), Payload: p}
	}
	rows := []struct {
		name    string
		kind    string
		entries []heap.Entry
		want    heap.EntryID
	}{
		{"nothing logged", Turn, nil, 0},
		{"turned since", Turn, []heap.Entry{entry(1, time.Hour, time.Hour, heap.Turned{})}, 1},
		{"turned before and logged before", Turn, []heap.Entry{entry(1, -time.Hour, -time.Hour, heap.Turned{})}, 0},
		{"turned three days before and logged since", Turn, []heap.Entry{entry(1, -3*day, time.Hour, heap.Turned{})}, 1},
		{"turned four days before and logged since", Turn, []heap.Entry{entry(1, -4*day, time.Hour, heap.Turned{})}, 0},
		{"the first that was logged", Turn, []heap.Entry{entry(9, time.Hour, 3*day, heap.Turned{}), entry(7, 2*day, 2*day, heap.Turned{})}, 7},
		{"something else was done", Turn, []heap.Entry{entry(1, time.Hour, time.Hour, heap.Watered{})}, 0},
		{"turning cools it", Cool, []heap.Entry{entry(1, time.Hour, time.Hour, heap.Turned{})}, 1},
		{"a cover put on", Cover, []heap.Entry{entry(1, time.Hour, time.Hour, heap.Covered{On: true})}, 1},
		{"a cover taken off", Cover, []heap.Entry{entry(1, time.Hour, time.Hour, heap.Covered{})}, 0},
		{"taken off for the rain", Uncover, []heap.Entry{entry(1, time.Hour, time.Hour, heap.Covered{})}, 1},
		{"put on instead", Uncover, []heap.Entry{entry(1, time.Hour, time.Hour, heap.Covered{On: true})}, 0},
		{"the air is not the heap", Reading, []heap.Entry{entry(1, time.Hour, time.Hour, heap.Temp{C: 12, Spot: heap.SpotAir})}, 0},
		{"the heap is not the air", Air, []heap.Entry{entry(1, time.Hour, time.Hour, heap.Temp{C: 22})}, 0},
		{"nothing closes this kind", Grow, []heap.Entry{entry(1, time.Hour, time.Hour, heap.Added{})}, 0},
	}
	for _, r := range rows {
		t.Run(r.name, func(t *testing.T) {
			got, ok := DoneBy(r.kind, since, heap.State{Entries: r.entries})
			assert.Equal(t, r.want, got.ID)
			assert.Equal(t, r.want != 0, ok)
		})
	}
}
