package maturity

import (
	"slices"
	"strings"

	"heapside/calc/heap"
	"heapside/calc/measure"
)

// plantTests are the tests whose passing in words speaks for any use (radish:
// UF/IFAS; emergence and vigour of 80 % in a laboratory: CalRecycle and Minnesota).
var plantTests = []string{"radish", "germination", "lab"}

// told is a test on record with what it says.
type told struct {
	heap.TestRecord
	Finding
}

// tests are what the tests of a heap say, newest first: the newest of each kind
// made since material was last added, sorted by outcome. Replaced are older ones
// that a newer one speaks against, outdated those from before the last addition.
type tests struct {
	passed, fresh, failed, silent []told
	replaced, outdated            []told

	plantTest, seedlings bool // plants did well in it as it is now, for beds and for seed mixes
	stable, looked       bool
	unfit                string // why plants would suffer, however ripe it is
}

func sortTests(s heap.State, m measure.Measures) tests {
	var sorted tests
	newest := map[string]Outcome{}
	for _, record := range slices.Backward(s.Tests) {
		name := strings.ToLower(record.Test.Test)
		t := told{record, Judge(record.Test, m)}
		last, seen := newest[name]
		switch {
		case t.At.Before(s.LastAdded):
			if !seen {
				sorted.outdated = append(sorted.outdated, t)
			}
		case !seen:
			sorted.count(t, name)
		case last != t.Outcome && t.Outcome != Silent:
			sorted.replaced = append(sorted.replaced, t)
		}
		if !seen {
			newest[name] = t.Outcome
		}
	}
	sorted.supersede()
	return sorted
}

// supersede lets newer tests win over older ones of another kind (own choice):
// what was fresh goes on curing, so any test passed Settled or more later
// replaces that; what failed is replaced only by plants that did well.
func (s *tests) supersede() {
	newer := func(old told, by func(told) bool) bool {
		return slices.ContainsFunc(s.passed, func(t told) bool { return by(t) && t.At.Sub(old.At) >= Settled })
	}
	split := func(list []told, by func(told) bool) (kept []told) {
		for _, t := range list {
			if newer(t, by) {
				s.replaced = append(s.replaced, t)
			} else {
				kept = append(kept, t)
			}
		}
		return kept
	}
	s.fresh = split(s.fresh, func(told) bool { return true })
	s.failed = split(s.failed, func(t told) bool { return t.Plants })
}

// count takes a test that speaks of the heap as it is now.
func (s *tests) count(t told, name string) {
	switch t.Outcome {
	case Finished:
		s.passed = append(s.passed, t)
		s.looked = s.looked || name == "look"
	case Fresh:
		s.fresh = append(s.fresh, t)
	case Against:
		s.failed = append(s.failed, t)
	default:
		s.silent = append(s.silent, t)
	}
	s.plantTest, s.seedlings, s.stable = s.plantTest || t.Plants, s.seedlings || t.Seedlings, s.stable || t.Stable
	if s.unfit == "" {
		s.unfit = t.Unfit
	}
}

// objecting is the test whose repeat would lift what speaks against the compost.
func (s tests) objecting() (told, bool) {
	for _, list := range [][]told{s.failed, s.fresh} {
		if len(list) > 0 {
			return list[0], true
		}
	}
	return told{}, false
}
