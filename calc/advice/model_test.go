package advice

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"

	"heapside/calc/heap"
	"heapside/calc/process"
)

func TestModelJobs(t *testing.T) {
	now := time.Date(2026, 6, 14, 18, 0, 0, 0, time.UTC)
	state := func(payloads ...heap.Payload) heap.State {
		h := heap.Heap{ID: 1, Name: "North Bay", Container: heap.PalletBay, SizeL: 1000, Aim: heap.Fast, Started: now.AddDate(0, 0, -20)}
		entries := []heap.Entry{
			{ID: 1, Heap: 1, At: h.Started, Payload: heap.Added{Material: "straw-general", Name: "straw", VolumeL: 900, MassKg: 40}},
			{ID: 2, Heap: 1, At: now.AddDate(0, 0, -1), Payload: heap.Temp{C: 50, DepthCm: 40}},
		}
		for i, p := range payloads {
			entries = append(entries, heap.Entry{ID: heap.EntryID(3 + i), Heap: 1, At: now.Add(-time.Hour), Payload: p})
		}
		return heap.Read(h, entries, now)
	}
	started := now.AddDate(0, 0, -100)
	curing := heap.Read(heap.Heap{ID: 1, Name: "Old Bay", Container: heap.PalletBay, SizeL: 1000, Aim: heap.Fast, Started: started}, []heap.Entry{
		{ID: 1, Heap: 1, At: started, Payload: heap.Added{Material: "straw-general", Name: "straw", VolumeL: 900, MassKg: 40}},
		{ID: 2, Heap: 1, At: started.AddDate(0, 0, 5), Payload: heap.Temp{C: 62, DepthCm: 40}},
		{ID: 3, Heap: 1, At: now.AddDate(0, 0, -30), Payload: heap.Turned{}},
		{ID: 4, Heap: 1, At: now.AddDate(0, 0, -26), Payload: heap.Temp{C: 25, DepthCm: 40}},
		{ID: 5, Heap: 1, At: now.AddDate(0, 0, -1), Payload: heap.Temp{C: 22, DepthCm: 40}},
	}, now)
	dry := process.Condition{Dry: 0.72, WantsWater: true, WaterL: process.Band{Low: 20, Mid: 31, High: 44}}
	airless := process.Condition{Airless: 0.8}
	for _, tt := range []struct {
		name   string
		state  heap.State
		seen   process.Condition
		kind   string
		called bool
		when   Urgency
		litres float64
		says   string
	}{
		{"probably dry", state(), dry, Water, true, Soon, 30, "7 in 10"},
		{"dry while curing can wait", curing, dry, Water, true, WhenYouCan, 30, "7 in 10"},
		{"a hand that found it moist goes before the model", state(heap.Feel{Squeeze: heap.Drops}), dry, Water, false, 0, 0, ""},
		{"even odds call for nothing", state(), process.Condition{Dry: 0.5}, Water, false, 0, 0, ""},
		{"short of air", state(), airless, Turn, true, Soon, 0, "8 in 10"},
		{"turned an hour ago", state(heap.Turned{}), airless, Turn, false, 0, 0, ""},
	} {
		t.Run(tt.name, func(t *testing.T) {
			var found *Job
			for _, j := range Find(Case{State: tt.state, Condition: &tt.seen}) {
				if j.Kind == tt.kind {
					found = &j
				}
			}
			assert.Equal(t, tt.called, found != nil)
			if found != nil {
				assert.Equal(t, tt.when, found.Urgency)
				assert.InDelta(t, tt.litres, found.WaterL, 1e-9)
				assert.Contains(t, found.Reason, tt.says)
				assert.NotEmpty(t, found.Source)
			}
		})
	}
}
