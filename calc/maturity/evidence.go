package maturity

import (
	"cmp"
	"math"
	"slices"
	"strings"
	"time"

	"heapside/calc/heap"
	"heapside/calc/measure"
)

// evidence is what the record says about ripeness, worked out once.
type evidence struct {
	heap.State
	say   measure.Measures
	model Model
	all   []heap.Reading // with those that Core leaves out

	last, lastHot    heap.Reading
	hasLast, wasHot  bool
	sinceFresh       time.Duration // since material was last added, or since the start
	curing           bool
	curedFor         time.Duration
	fedSinceTurn     bool // curing counts from the last addition, not from the turning
	air              heap.Reading
	hasAir           bool // an air reading close in time to the last one in the heap, both recent
	tests                 // what the tests of the heap as it is now say
	badSmell         bool
	readingAge       time.Duration
	provenByAgeAlone bool
}

func weigh(s heap.State, m measure.Measures) evidence {
	e := evidence{say: m, all: s.Readings}
	s = Core(s)
	e.State = s
	e.last, e.hasLast = s.LastReading()
	if e.hasLast {
		e.readingAge = s.Now.Sub(e.last.At)
	}
	e.lastHot, e.wasHot = LastHot(s)
	e.sinceFresh = s.Age
	if !s.LastAdded.IsZero() {
		e.sinceFresh = s.Now.Sub(s.LastAdded)
	}
	if from, ok := CuringSince(s); ok {
		e.curing, e.curedFor, e.fedSinceTurn = true, s.Now.Sub(from), from.Equal(s.LastAdded)
	}
	e.air, e.hasAir = AirBeside(s)
	e.tests = sortTests(s, m)
	e.badSmell = BadSmell(s)
	e.provenByAgeAlone = !e.curing && e.sinceFresh >= ActiveAge && len(s.Content) > 0
	return e
}

// LastHot is the newest reading at or above HotC; false when there is none
// since the heap was last started, emptied or refilled.
func LastHot(s heap.State) (heap.Reading, bool) {
	for _, r := range slices.Backward(s.Readings) {
		if r.C >= HotC {
			return r, !r.At.Before(s.RefilledAt)
		}
	}
	return heap.Reading{}, false
}

// CuringSince is when curing began: the first turning after the last hot
// reading, or the last addition if that came later. It is false until a
// reading at least Settled afterwards shows that the heap stayed below HotC.
func CuringSince(s heap.State) (time.Time, bool) {
	hot, wasHot := LastHot(s)
	last, ok := s.LastReading()
	if !wasHot || !ok || last.C >= HotC {
		return time.Time{}, false
	}
	i := slices.IndexFunc(s.Turns, func(t time.Time) bool { return t.After(hot.At) })
	if i < 0 {
		return time.Time{}, false
	}
	from := s.Turns[i]
	if s.LastAdded.After(from) {
		from = s.LastAdded
	}
	return from, last.At.Sub(from) >= Settled
}

// AirBeside is the air reading to compare with the last one in the heap: the
// nearest to it in time, within two days of it, and both within StaleSign of now.
func AirBeside(s heap.State) (heap.Reading, bool) {
	last, ok := s.LastReading()
	if !ok || len(s.Air) == 0 {
		return heap.Reading{}, false
	}
	apart := func(r heap.Reading) time.Duration { return r.At.Sub(last.At).Abs() }
	air := slices.MinFunc(s.Air, func(a, b heap.Reading) int { return cmp.Compare(apart(a), apart(b)) })
	return air, apart(air) <= pairWithin && s.Now.Sub(last.At) <= StaleSign && s.Now.Sub(air.At) <= StaleSign
}

// BadSmell says that the last smell is foul, recent and not turned away since.
func BadSmell(s heap.State) bool {
	foul := s.Smell == "ammonia" || s.Smell == "rotten" || s.Smell == "sour"
	return foul && s.Now.Sub(s.SmellAt) <= StaleSign && !s.LastTurn().After(s.SmellAt)
}

// gap is how much warmer the heap is than the air, in Celsius; NaN when not known.
func (e evidence) gap() float64 {
	if !e.hasAir {
		return math.NaN()
	}
	return e.last.C - e.air.C
}

// warm says that the heap is known to be more than AirGapC above the air.
func (e evidence) warm() bool { return e.gap() > AirGapC }

// objection is what speaks against calling the compost ready, or "".
func (e evidence) objection() string {
	switch f := e.foul(); {
	case f != "":
		return f
	case len(e.fresh) > 0:
		return e.say.Say("the %s says that it is still fresh", e.name(e.fresh[0]))
	case e.warm():
		return e.say.Say("it is still %s warmer than the air", e.sayGap(e.gap()))
	}
	return ""
}

// foul is a sign that something is wrong with the compost, or "".
func (e evidence) foul() string {
	switch {
	case e.badSmell:
		return e.say.Say("it smelled %s %s", e.smellWord(), e.ago(e.SmellAt))
	case len(e.failed) > 0:
		return e.say.Say("the %s failed %s", e.name(e.failed[0]), e.ago(e.failed[0].At))
	}
	return ""
}

// smelledOf say a smell after "it smelled".
var smelledOf = map[string]string{"ammonia": "of ammonia", "earthy": "earthy", "rotten": "rotten", "sour": "sour"}

func (e evidence) smellWord() string { return e.say.Word(cmp.Or(smelledOf[e.Smell], e.Smell)) }

// name is a test as a sentence calls it: "bag test".
func (e evidence) name(t told) string { return e.say.Word(t.Test.Test + " test") }

// short is a test as a list calls it: "bag".
func (e evidence) short(t told) string { return strings.TrimSuffix(e.name(t), " test") }
