package heap

import (
	"cmp"
	"slices"
	"strings"
	"time"
)

// SpotAir is the spot of a reading taken beside the heap, not in it.
const SpotAir = "air"

// refillShare is how large the additions of one day must be, against what was
// there before, to count as a refill (own choice): less is feeding.
const refillShare = 0.25

// Order returns the entries by the time they happened, then by id.
func Order(entries []Entry) []Entry {
	ordered := slices.Clone(entries)
	slices.SortStableFunc(ordered, func(a, b Entry) int {
		return cmp.Or(a.At.Compare(b.At), cmp.Compare(a.ID, b.ID))
	})
	return ordered
}

// Read is what one heap's entries say at a moment. Entries that were taken
// back, the entries that took them back and those after now do not count.
//
// Moving all of the content out (Share 1) begins the heap anew: Age, Content
// and every observation count from there, except the air and the cover; a
// smaller share scales the content. A Moved entry that brings content in adds
// nothing by itself: whoever logs it logs State.Portion of the other heap as
// Added entries beside it.
func Read(h Heap, entries []Entry, now time.Time) State {
	t := tally{state: State{Heap: h, Now: now, Covered: covers(h.Cover)}}
	t.state.Entries = standing(entries, now)
	begun := h.Started
	if len(t.state.Entries) > 0 && (begun.IsZero() || t.state.Entries[0].At.Before(begun)) {
		begun = t.state.Entries[0].At // a heap is at least as old as what was done to it
	}
	t.begin(begun)
	for _, e := range t.state.Entries {
		t.take(e)
	}
	t.finish()
	return t.state
}

func standing(entries []Entry, now time.Time) []Entry {
	voided := map[EntryID]bool{}
	for _, e := range entries {
		if v, ok := e.Payload.(Voided); ok {
			voided[v.Entry] = true
		}
	}
	var stand []Entry
	for _, e := range Order(entries) {
		_, voids := e.Payload.(Voided)
		if !voids && e.VoidedBy == 0 && !voided[e.ID] && !e.At.After(now) {
			stand = append(stand, e)
		}
	}
	return stand
}

// lot is one addition with the share of it that is still in the heap. Born is
// when it began to rot, on the scale of day.
type lot struct {
	Added
	at    time.Time
	born  float64
	share float64
}

// tally folds entries, oldest first, into a State.
type tally struct {
	state  State
	begun  time.Time
	lots   []lot
	height measured
}

// begin forgets what was said of content that is no longer there.
func (t *tally) begin(at time.Time) {
	old := t.state
	t.state = State{
		Heap: old.Heap, Now: old.Now, Entries: old.Entries,
		Air: old.Air, Covered: old.Covered,
		RefilledAt: at,
	}
	t.begun, t.lots, t.height = at, nil, measured{}
}

func (t *tally) take(e Entry) {
	s := &t.state
	switch p := e.Payload.(type) {
	case Added:
		t.add(p, e.At)
	case Temp:
		t.reading(p, e.At)
	case Feel:
		s.Squeeze, s.SqueezeAt, s.RainMm = p.Squeeze, e.At, 0
	case Smell:
		s.Smell, s.SmellAt = p.Smell, e.At
	case Turned:
		s.Turns = append(s.Turns, e.At)
	case Watered:
		s.Waterings = append(s.Waterings, e.At)
	case Covered:
		s.Covered = p.On
	case Changed:
		if p.Field == "cover" {
			s.Covered = covers(p.To)
		}
	case Height:
		t.measure(p.Cm, e.At)
	case Rain:
		s.RainMm += p.Mm
	case Test:
		s.Tests = append(s.Tests, TestRecord{Test: p, At: e.At})
	case Moved:
		t.moved(p, e.At)
	}
}

func (t *tally) reading(p Temp, at time.Time) {
	r := Reading{At: at, C: p.C, DepthCm: p.DepthCm, Spot: p.Spot}
	if strings.EqualFold(strings.TrimSpace(p.Spot), SpotAir) {
		t.state.Air = append(t.state.Air, r)
		return
	}
	t.state.Readings = append(t.state.Readings, r)
}

func (t *tally) add(p Added, at time.Time) {
	t.lots = append(t.lots, lot{Added: p, at: at, born: day(at) - p.AgeDays, share: 1})
	today := len(t.lots) - 1
	for today > 0 && at.Sub(t.lots[today-1].at) < 24*time.Hour {
		today--
	}
	before, load := litres(t.lots[:today], at), litres(t.lots[today:], at)
	if load >= refillShare*before {
		t.state.RefilledAt = at
	}
}

func (t *tally) moved(p Moved, at time.Time) {
	if p.In {
		return
	}
	if p.Share >= 1 {
		t.begin(at)
		return
	}
	for i := range t.lots {
		t.lots[i].share *= 1 - p.Share
	}
	t.height.litres *= 1 - p.Share
}

// finish computes what depends on all entries.
func (t *tally) finish() {
	s := &t.state
	if !t.begun.IsZero() {
		s.Age = max(0, s.Now.Sub(t.begun))
	}
	for _, l := range t.lots {
		s.Content = append(s.Content, l.content(l.share))
		s.AddedL += l.VolumeL * l.share
		if put := l.put(); put.After(s.LastAdded) {
			s.LastAdded = put
		}
	}
	if s.AddedL > 0 {
		s.LeftShare = litres(t.lots, s.Now) / s.AddedL
	}
	s.PeakC = peak(s.Readings, s.RefilledAt)
	s.VolumeL, s.VolumeHow = t.volume()
	s.HeightAt = t.height.at
}

// content is a share of the addition, with the words as they were said.
func (l lot) content(share float64) Added {
	a := l.Added
	a.VolumeL *= share
	a.MassKg *= share
	return a
}

// put is when the material began to rot, here or in the heap it came from.
func (l lot) put() time.Time {
	return l.at.Add(-time.Duration(l.AgeDays * 24 * float64(time.Hour)))
}

func peak(readings []Reading, since time.Time) float64 {
	var highest float64
	first := true
	for _, r := range readings {
		if !r.At.Before(since) && (first || r.C > highest) {
			highest, first = r.C, false
		}
	}
	return highest
}

// covers tells whether a cover as people name it keeps rain out.
func covers(name string) bool {
	name = NameKey(name)
	return name != "" && name != NameKey("none")
}
