package reminders

import (
	"cmp"
	"fmt"
	"maps"
	"slices"
	"strings"

	"heapside/calc/heap"
	"heapside/calc/maturity"
)

// What one summary names at most: more is not read on a phone (own choice).
const (
	weekPeople = 6
	weekHeaps  = 8
	weekLoads  = 6
)

// deeds are what people did, as the week's summary counts it.
var deeds = []struct {
	one, many string
	kinds     []heap.Kind
}{
	{"turning", "turnings", []heap.Kind{heap.KindTurned}},
	{"watering", "waterings", []heap.Kind{heap.KindWatered}},
	{"load put in", "loads put in", []heap.Kind{heap.KindAdded}},
	{"move", "moves", []heap.Kind{heap.KindMoved}},
	{"check", "checks", []heap.Kind{heap.KindTemp, heap.KindFeel, heap.KindSmell, heap.KindHeight, heap.KindTest}},
	{"other thing", "other things", []heap.Kind{heap.KindCovered, heap.KindRain, heap.KindNote, heap.KindFinished}},
}

// week are the lines of the week's summary: who did what and how often, what
// went in, and how far the heaps are. A week in which nothing happened has none.
func (s scene) week(latest []heap.Entry) []string {
	since := s.now.AddDate(0, 0, -7)
	var entries []heap.Entry
	for _, entry := range latest {
		if entry.VoidedBy == 0 && entry.At.After(since) && !entry.At.After(s.now) {
			entries = append(entries, entry)
		}
	}
	lines := append(whoDidWhat(entries), s.wentIn(entries)...)
	if len(lines) == 0 {
		return nil
	}
	return append(lines, s.stages()...)
}

// whoDidWhat is a line for each person, the busiest first.
func whoDidWhat(entries []heap.Entry) []string {
	type deed struct {
		who   heap.Person
		which int
	}
	type once struct {
		deed
		leader heap.EntryID
	}
	counted, did, all := map[once]bool{}, map[deed]int{}, map[heap.Person]int{}
	for _, entry := range entries {
		for which, d := range deeds {
			key := once{deed{entry.By, which}, entry.Leader} // what was logged in one go is one deed
			if slices.Contains(d.kinds, entry.Payload.Kind()) && !counted[key] {
				counted[key] = true
				did[key.deed]++
				all[entry.By]++
			}
		}
	}
	people := slices.SortedFunc(maps.Keys(all), func(a, b heap.Person) int {
		return cmp.Or(cmp.Compare(all[b], all[a]), cmp.Compare(a.Name, b.Name), cmp.Compare(a.ID, b.ID))
	})
	var lines []string
	for _, who := range people[:min(len(people), weekPeople)] {
		var parts []string
		for which, d := range deeds {
			if n := did[deed{who, which}]; n > 0 {
				parts = append(parts, plural(n, d.one, d.many))
			}
		}
		lines = append(lines, who.Name+": "+strings.Join(parts, ", "))
	}
	if more := len(people) - weekPeople; more > 0 {
		lines = append(lines, "and "+plural(more, "other person", "other people"))
	}
	return lines
}

// wentIn is a line about what was put in, the largest amount first.
func (s scene) wentIn(entries []heap.Entry) []string {
	litres := map[string]float64{}
	for _, entry := range entries {
		// What is older than its entry came out of another heap.
		if a, ok := entry.Payload.(heap.Added); ok && a.AgeDays == 0 {
			litres[a.Name] += a.VolumeL
		}
	}
	names := slices.SortedFunc(maps.Keys(litres), func(a, b string) int {
		return cmp.Or(cmp.Compare(litres[b], litres[a]), cmp.Compare(a, b))
	})
	var parts []string
	for _, name := range names[:min(len(names), weekLoads)] {
		parts = append(parts, name+" ("+s.garden.Measures.SayBulk(litres[name])+")")
	}
	if len(parts) == 0 {
		return nil
	}
	if more := len(names) - weekLoads; more > 0 {
		parts = append(parts, plural(more, "other material", "other materials"))
	}
	return []string{"Went in: " + strings.Join(parts, ", ")}
}

// stages is a line about how far each heap is.
func (s scene) stages() []string {
	var parts []string
	for _, h := range s.heaps {
		if h.Heap.Finished.IsZero() {
			stage, _ := maturity.StageOf(h)
			parts = append(parts, h.Heap.Name+" "+string(stage))
		}
	}
	if more := len(parts) - weekHeaps; more > 0 {
		parts = append(parts[:weekHeaps], plural(more, "other heap", "other heaps"))
	}
	if len(parts) == 0 {
		return nil
	}
	return []string{"Heaps: " + strings.Join(parts, ", ")}
}

func plural(n int, one, many string) string {
	if n == 1 {
		return "1 " + one
	}
	return fmt.Sprintf("%d %s", n, many)
}
