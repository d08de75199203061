package duty

import (
	"time"

	"heapside/calc/heap"
)

// work is what an entry counts for on the rota: hands-on work one, a look at
// the heap a quarter (own choice). What is not listed counts nothing.
var work = map[heap.Kind]float64{
	heap.KindTurned: 1, heap.KindWatered: 1, heap.KindCovered: 1, heap.KindMoved: 1, heap.KindFinished: 1,
	heap.KindTemp: 0.25, heap.KindFeel: 0.25, heap.KindSmell: 0.25, heap.KindHeight: 0.25, heap.KindTest: 0.25,
}

// Tally is the work that each person did since a moment, by the person's id,
// from what stands on record. The same work on one heap counts once a day.
func Tally(entries []heap.Entry, since time.Time) map[string]float64 {
	type once struct {
		who  string
		heap heap.ID
		kind heap.Kind
		day  Date
	}
	done, counted := map[string]float64{}, map[once]bool{}
	for _, e := range entries {
		key := once{e.By.ID, e.Heap, e.Payload.Kind(), On(e.At.UTC())}
		if e.VoidedBy != 0 || e.At.Before(since) || counted[key] {
			continue
		}
		counted[key] = true
		done[e.By.ID] += work[key.kind]
	}
	return done
}
