package scenario

import (
	"fmt"
	"math/rand/v2"
	"time"

	"heapside/calc/heap"
	"heapside/calc/maturity"
	"heapside/calc/measure"
)

// Random is the state of a heap with a random record of up to 400 days, for
// tests of what must hold for any record.
func Random(r *rand.Rand) heap.State {
	span := time.Duration(1 + r.Int64N(int64(400*24*time.Hour)))
	h := heap.Heap{
		Name:      "Long Bay",
		Container: pick(r, heap.OpenHeap, heap.PalletBay, heap.PlasticBin, heap.Tumbler),
		Aim:       pick(r, heap.Fast, heap.Steady, heap.Hygienic, ""),
		SizeL:     pick(r, 0.0, 220, 1000),
		Started:   Now.Add(-span),
	}
	var entries []heap.Entry
	for i := range r.IntN(40) {
		back := time.Duration(r.Int64N(int64(span)))
		if r.IntN(2) == 0 {
			back %= 15 * 24 * time.Hour // recent entries decide most
		}
		at := Now.Add(-back)
		entries = append(entries, heap.Entry{ID: heap.EntryID(i + 1), At: at, Logged: at, Payload: randomPayload(r)})
	}
	return heap.Read(h, entries, Now)
}

func randomPayload(r *rand.Rand) heap.Payload {
	switch r.IntN(14) {
	case 0, 1, 2, 3:
		return heap.Temp{C: -5 + 95*r.Float64()}
	case 4:
		return heap.Temp{C: 35 * r.Float64(), Spot: "air"}
	case 5:
		litres := 400 * r.Float64()
		return heap.Added{Material: pick(r, "grass-clippings", "leaves-dry", "manure-horse", "unheard-of"), VolumeL: litres, MassKg: litres * r.Float64()}
	case 6, 7:
		return heap.Turned{}
	case 8:
		return heap.Watered{Litres: 40 * r.Float64()}
	case 9:
		return heap.Feel{Squeeze: pick(r, heap.Crumbles, heap.Holds, heap.Drops, heap.Drips, heap.Runs)}
	case 10:
		return heap.Smell{Smell: pick(r, heap.Smells...)}
	case 11:
		return randomTest(r)
	case 12:
		return heap.Rain{Mm: 30 * r.Float64()}
	}
	return heap.Covered{On: r.IntN(2) == 0}
}

// randomTest is a test by words as old records have it, or one with numbers.
func randomTest(r *rand.Rand) heap.Test {
	if r.IntN(2) == 0 {
		return heap.Test{Test: pick(r, "look", "jar", "bag", "radish", "lab"), Passed: r.IntN(2) == 0}
	}
	name, result := "lab", fmt.Sprintf("C:N %d, pH %d, respiration %d mg CO2-C/g OM/day, NH4-N %d ppm, NO3-N %d ppm", 5+r.IntN(40), 4+r.IntN(6), r.IntN(20), r.IntN(900), r.IntN(300))
	switch r.IntN(4) {
	case 0:
		name, result = "radish", fmt.Sprintf("%d of 20 sprouted and grew on", r.IntN(21))
	case 1:
		name, result = "germination", fmt.Sprintf("%d of 20, roots %d mm, control %d of 20, roots 30 mm", r.IntN(21), r.IntN(50), 10+r.IntN(11))
	case 2:
		name, result = "self-heating", fmt.Sprintf("rose %d", r.IntN(50))
	}
	t, _, err := maturity.ReadTest(name, result, measure.Measures{})
	if err != nil {
		panic(fmt.Sprintf("%s: %s: %v", name, result, err))
	}
	return t
}

func pick[T any](r *rand.Rand, from ...T) T { return from[r.IntN(len(from))] }

// Long is the state of a heap with n entries over a year, for benchmarks.
func Long(n int) heap.State {
	r := rand.New(rand.NewPCG(1, 1))
	h := heap.Heap{Name: "Long Bay", Container: heap.PalletBay, Aim: heap.Steady, SizeL: 1000, Started: Now.AddDate(-1, 0, 0)}
	entries := make([]heap.Entry, n)
	for i := range entries {
		at := h.Started.Add(time.Duration(i) * Now.Sub(h.Started) / time.Duration(n))
		entries[i] = heap.Entry{ID: heap.EntryID(i + 1), At: at, Logged: at, Payload: randomPayload(r)}
	}
	return heap.Read(h, entries, Now)
}
