package process

import (
	"math"
	"math/rand/v2"
	"strings"

	"heapside/calc/heap"
)

// settings are what events leave standing.
type settings struct {
	attributes
	setup    Setup
	lastStir int64   // hour of the last event that changes the heap
	readings int     // taken inside
	lastC    float64 // the last of them, NaN without one
	depthCm  float64 // at which the middle was last read, 0 when nobody said
}

// settings are those before any entry.
func (s *story) settings() settings {
	out := settings{attributes: s.first, lastC: math.NaN(), lastStir: s.start}
	out.setUp()
	return out
}

func (s *settings) setUp() { s.setup = SetupOf(s.container, s.covered, s.cover) }

// walk goes through the hours of a story.
type walk struct {
	story    *story
	cloud    *cloud[member]
	sky      *sky
	settings settings
	next     int // entry
	past     []Mark
}

// skip takes the settings from what happened before an hour.
func (w *walk) skip(hour int64) {
	for w.next < len(w.story.entries) && hourOf(w.story.entries[w.next].At) < hour {
		w.settings.take(w.story.entries[w.next])
		w.next++
	}
}

// run goes from one hour to another, which is not past now.
func (w *walk) run(from, to int64) {
	for hour := from; hour < to; {
		w.events(hour)
		w.mark(hour)
		stop := to
		if w.next < len(w.story.entries) {
			stop = min(stop, hourOf(w.story.entries[w.next].At))
		}
		if rest := resting(hour, hour-w.settings.lastStir); rest > 0 {
			hour = min(hour+rest, stop)
			continue
		}
		hours := stride(hour, hour-w.settings.lastStir, stop)
		w.sky.load(hour, int(hours))
		for i := range w.cloud.members {
			m := &w.cloud.members[i]
			m.step(&w.settings.setup, w.sky.of(m))
		}
		if hour += hours; hour%24 == 0 {
			w.daily(hour)
		}
	}
}

// daily draws the slow disturbances, rounds to the precision of a snapshot, and
// thins members that were many at first.
func (w *walk) daily(hour int64) {
	r := w.story.chance(hour, drawnDaily)
	if len(w.cloud.members) > Members && (w.settings.readings >= wideUntil || hour-w.story.start >= wideMostH) {
		w.cloud.thin(Members, r)
	}
	for i := range w.cloud.members {
		m := &w.cloud.members[i]
		m.disturb(w.story.record.Climate.spreadC(), r)
		m.round()
		w.cloud.weight[i] = float64(float32(w.cloud.weight[i]))
	}
}

// strides are how many hours one piece of weather covers after a heap has been
// left alone for so many days (own choice).
var strides = []struct{ quietDays, hours int64 }{{120, 24}, {45, 6}}

// stride is how far to go from an hour in one piece: not past stop, and never
// across a midnight.
func stride(hour, quietH, stop int64) int64 {
	for _, s := range strides {
		if quietH >= 24*s.quietDays {
			return min(s.hours-((hour%s.hours)+s.hours)%s.hours, stop-hour)
		}
	}
	return 1
}

// A heap left alone for restDays is at rest: one day of each restBlockH is
// enough to follow the seasons (own choice).
const (
	restDays   = 400
	restBlockH = 30 * 24
)

// resting is how many hours from hour on need no steps.
func resting(hour, quietH int64) int64 {
	into := (hour%restBlockH + restBlockH) % restBlockH
	if quietH < 24*restDays || into < 24 {
		return 0
	}
	return restBlockH - into
}

// events lets happen what is on record for an hour.
func (w *walk) events(hour int64) {
	for n := 0; w.next < len(w.story.entries); n++ {
		e := w.story.entries[w.next]
		if hourOf(e.At) > hour {
			return
		}
		w.next++
		w.settings.take(e)
		w.happen(e, hour, n)
	}
}

// happen applies one entry to the members or weighs them by it.
func (w *walk) happen(e heap.Entry, hour int64, n int) {
	switch p := e.Payload.(type) {
	case heap.Added:
		m, r := w.story.material(p), w.story.chance(hour, n)
		if m.DryKg < leastDryKg {
			return
		}
		w.each(hour-24, 24, func(k *member, airC float64) {
			m.TempC = max(0, (airC+usualTempC)/2+freshSpreadC*r.NormFloat64())
			k.S.Add(&k.P, m)
			k.SinceH = 0
		})
	case heap.Turned:
		w.each(hour, 1, func(k *member, airC float64) { k.turn(airC) })
	case heap.Watered:
		w.each(hour, 1, func(k *member, _ float64) { k.S.Wet(&k.P, poured(p), usualTempC) })
	case heap.Moved:
		if !p.In {
			w.each(hour, 1, func(k *member, _ float64) { k.leave(1 - p.Share) })
		}
	default:
		if l := w.evidence(e); l != nil {
			r := w.story.chance(hour, n)
			switch p := p.(type) {
			case heap.Temp:
				w.kindle(p, r)
			case heap.Feel:
				w.wring(p.Squeeze, r)
			}
			w.cloud.update(l, r)
		}
	}
}

// freshSpreadC is how far material lies from halfway between the air of the day
// before and the usual 15 C: heaped grass comes warm, leaves come cold (own
// choice).
const freshSpreadC = 4.0

// When a reading counts as inexplicable (own choice): hardly a member is within
// reach of it, all others are colder. Heaps do heat up in a day against all
// expectation; they do not cool down in one, so a reading that is too cold for
// all has been taken in the wrong place.
const (
	reachC       = 10.0
	reachLeast   = 0.05
	kindledOneIn = 8
)

// kindle heats one member in eight when a reading is hotter than any could be.
func (w *walk) kindle(read heap.Temp, r *rand.Rand) {
	if read.C > kindleMostC {
		return
	}
	now := stage{members: w.cloud.members, weight: w.cloud.weight}
	if now.share(func(m *member) bool { return m.reading(read.DepthCm) > read.C-reachC }) >= reachLeast {
		return
	}
	for i := range w.cloud.members {
		if i%kindledOneIn == 0 {
			w.cloud.members[i].kindle(read.C, read.DepthCm, r)
		}
	}
}

// wringOneIn members are set to what a hand felt where hardly one agrees with it
// (own choice): a hand knows the moisture of a heap better than a balance of
// what was poured, rained and blown away over weeks.
const wringOneIn = 4

func (w *walk) wring(felt heap.Squeeze, r *rand.Rand) {
	low, high := squeezeRange(felt)
	now := stage{members: w.cloud.members, weight: w.cloud.weight}
	if now.share(func(m *member) bool { return m.S.Moisture() >= low && m.S.Moisture() <= high }) >= reachLeast {
		return
	}
	for i := range w.cloud.members {
		if i%wringOneIn == 0 {
			w.cloud.members[i].wring(low + (high-low)*r.Float64())
		}
	}
}

// poured is the litres of a watering; one that was not measured counts as a can
// of ten litres (own choice).
func poured(p heap.Watered) float64 {
	if p.Litres > 0 {
		return p.Litres
	}
	return 10
}

// each does something to every member under the mean air of some hours.
func (w *walk) each(from int64, hours int, do func(m *member, airC float64)) {
	w.sky.load(from, hours)
	for i := range w.cloud.members {
		m := &w.cloud.members[i]
		do(m, w.sky.of(m).C)
	}
}

// evidence is the log likelihood of an entry, nil when it says nothing of the
// members or there is nothing yet to say it of.
func (w *walk) evidence(e heap.Entry) func(*member) float64 {
	if w.cloud.members[0].S.Empty() {
		return nil
	}
	switch p := e.Payload.(type) {
	case heap.Temp:
		if !inside(p) || p.C < minC || p.C > maxC {
			return nil
		}
		return readingLogLik(p)
	case heap.Feel:
		return squeezeLogLik(p.Squeeze)
	case heap.Smell:
		return smellLogLik(p.Smell)
	case heap.Height:
		if l := w.settings.litresAt(e); l > 0 {
			return volumeLogLik(l)
		}
	}
	return nil
}

// inside reports whether a temperature was taken in the heap.
func inside(t heap.Temp) bool {
	return !strings.EqualFold(strings.TrimSpace(t.Spot), heap.SpotAir)
}

// litresAt is the volume that a height stands for, 0 where it stands for none.
func (s *settings) litresAt(height heap.Entry) float64 {
	if s.sizeL <= 0 || s.container == heap.Tumbler {
		return 0
	}
	return heap.Read(heap.Heap{Container: s.container, SizeL: s.sizeL}, []heap.Entry{height}, height.At).VolumeL
}

// take follows what an entry leaves standing.
func (s *settings) take(e heap.Entry) {
	hour := hourOf(e.At)
	switch p := e.Payload.(type) {
	case heap.Added, heap.Watered, heap.Moved, heap.Turned:
		s.lastStir = hour
	case heap.Covered:
		s.covered, s.cover, s.lastStir = p.On, coverWord(p.With), hour
		s.setUp()
	case heap.Changed:
		if p.Field == "cover" {
			s.covered, s.cover = covering(p.To), coverWord(p.To)
		} else if h, err := (heap.Heap{Container: s.container, SizeL: s.sizeL}).WithAttribute(p.Field, p.To); err == nil {
			s.container, s.sizeL = h.Container, h.SizeL
		}
		s.setUp()
	case heap.Temp:
		if inside(p) {
			s.readings, s.lastC = s.readings+1, p.C
			if p.DepthCm > 0 && !atEdge(p.Spot) {
				s.depthCm = p.DepthCm
			}
		}
	}
}
