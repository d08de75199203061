package process

import (
	"encoding/binary"
	"hash/fnv"
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"time"

	"heapside/calc/heap"
)

// Members is how many heaps a Track carries. It starts with more, since the
// first readings of a heap leave few standing: whether it heats at all is
// decided early.
const (
	Members     = 256
	wideMembers = 4 * Members
	wideUntil   = 2       // readings, thinned on the midnight after
	wideMostH   = 10 * 24 // since the start
)

// Track is what a heap probably is by now: members that went through the
// weather and the events of its record and were weighed by its readings. The
// same record gives the same members, whether from nothing or going on.
type Track struct {
	base, now stage
	story     *story
	sky       sky
	settings  settings // as they are now
}

// stage is the members at the beginning of an hour, before its events.
type stage struct {
	hour    int64
	digest  uint64
	members []member
	weight  []float64
	past    []Mark
}

// settings are what events leave standing.
type settings struct {
	attributes
	setup     Setup
	lastTurn  int64 // 0: never
	lastStir  int64 // hour of the last event that changes the heap
	readings  int
	lastC     float64 // last reading inside, NaN without one
	lastReadC int64
}

// Learn follows a record from the first addition to now. It fails with
// fault.Missing when nothing is on record as put in.
func Learn(rec Record, now time.Time) (*Track, error) {
	s, err := tell(rec, now)
	if err != nil {
		return nil, err
	}
	t := &Track{base: begin(s)}
	t.follow(s)
	return t, nil
}

// Advance brings a track to now. What it knows already is not computed again
// unless an entry before its base was taken back or added; then it learns from
// nothing. The record is the whole of it, as for Learn.
func (t *Track) Advance(rec Record, now time.Time) error {
	s, err := tell(rec, now)
	if err != nil {
		return err
	}
	if !t.fits(s) {
		t.base = begin(s)
	}
	t.follow(s)
	return nil
}

// Knows reports whether the track can go on with a record: it has a base, and
// nothing that the base rests on was added or taken back. A heap has a base from
// a day or two after its second reading on, or else from its tenth day.
func (t *Track) Knows(rec Record, now time.Time) bool {
	s, err := tell(rec, now)
	return err == nil && t.fits(s)
}

func (t *Track) fits(s *story) bool {
	return t.base.members != nil && t.base.hour >= s.start && t.base.hour <= baseHour(s) &&
		t.base.digest == s.digest(t.base.hour)
}

// seed makes the members of one heap differ from those of another.
func (s *story) seed() uint64 {
	d := fnv.New64a()
	_ = binary.Write(d, binary.LittleEndian, int64(s.record.Heap.ID))
	_ = binary.Write(d, binary.LittleEndian, s.start)
	return d.Sum64()
}

// chance is the randomness of one event of an hour: it does not depend on what
// was drawn before, so that going on gives what starting over gives.
func (s *story) chance(hour int64, event int) *rand.Rand {
	return rand.New(rand.NewPCG(s.seed(), uint64(hour)<<10|uint64(event&1023)))
}

// Numbers of the draws that are no entry's.
const (
	drawnAtStart = 1023
	drawnDaily   = 1022
	drawnAhead   = 1021
)

func begin(s *story) stage {
	r := s.chance(s.start, drawnAtStart)
	b := stage{hour: s.start, members: make([]member, wideMembers), weight: make([]float64, wideMembers)}
	for i := range b.members {
		m := &b.members[i]
		m.P = Draw(r)
		m.AirC = s.record.Climate.spreadC() * r.NormFloat64()
		b.weight[i] = 1.0 / wideMembers
	}
	b.round()
	b.digest = s.digest(b.hour)
	return b
}

// round brings everything to the precision of a snapshot.
func (b *stage) round() {
	for i := range b.members {
		b.members[i].round()
		b.weight[i] = float64(float32(b.weight[i]))
	}
}

// baseLagH is how far behind now the base stays at least, so that what is
// logged a day late does not undo it.
const baseLagH = 24

// baseHour is the midnight (UTC) that the base should stand at.
func baseHour(s *story) int64 {
	h := s.now - baseLagH
	h -= (h%24 + 24) % 24
	return max(h, s.start)
}

// follow carries the members from the base to now, moving the base up.
func (t *Track) follow(s *story) {
	t.story = s
	t.sky = sky{weather: s.record.Weather, climate: s.record.Climate, now: s.now, rain: s.rain}
	c := newCloud(slices.Clone(t.base.members), newShake(Learned, pull, push))
	copy(c.weight, t.base.weight)
	w := walk{story: s, cloud: c, sky: &t.sky, settings: s.settings(), past: slices.Clone(t.base.past)}
	w.skip(t.base.hour)
	if to := baseHour(s); to > t.base.hour {
		w.run(t.base.hour, to)
		if len(c.members) == Members {
			t.base = stage{hour: to, digest: s.digest(to), members: slices.Clone(c.members), weight: slices.Clone(c.weight), past: slices.Clone(w.past)}
		}
	}
	w.run(max(t.base.hour, baseHour(s)), s.now)
	w.events(s.now)
	t.now = stage{hour: s.now, members: c.members, weight: c.weight, past: w.past}
	t.settings = w.settings
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
			w.cloud.update(l, w.story.chance(hour, n))
		}
	}
}

// freshSpreadC is how far material lies from halfway between the air of the day
// before and the usual 15 C: heaped grass comes warm, leaves come cold (own
// choice).
const freshSpreadC = 4.0

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
		if l := w.story.litresAt(e); l > 0 {
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
func (s *story) litresAt(e heap.Entry) float64 {
	h := s.record.Heap
	if h.SizeL <= 0 || h.Container == heap.Tumbler {
		return 0
	}
	return heap.Read(h, []heap.Entry{e}, e.At).VolumeL
}

// take follows what an entry leaves standing.
func (s *settings) take(e heap.Entry) {
	hour := hourOf(e.At)
	switch p := e.Payload.(type) {
	case heap.Added, heap.Watered, heap.Moved:
		s.lastStir = hour
	case heap.Turned:
		s.lastStir, s.lastTurn = hour, hour
	case heap.Covered:
		s.covered, s.cover, s.lastStir = p.On, coverWord(p.With), hour
		s.setUp()
	case heap.Changed:
		switch p.Field {
		case "container":
			s.container = heap.Container(p.To)
		case "cover":
			s.covered, s.cover = covering(p.To), coverWord(p.To)
		}
		s.setUp()
	case heap.Temp:
		if inside(p) {
			s.readings, s.lastC, s.lastReadC = s.readings+1, p.C, hour
		}
	}
}

// reading is the band of what a thermometer should show in the heap.
// The members' answers are spread by the error of a reading (three nodes of the
// Gauss-Hermite rule), so that four in five readings should lie in the band.
func (b *stage) reading(depthCm float64) Band {
	const node, middle, side = 1.7320508 * thermometerC, 2.0 / 3, 1.0 / 6
	points := make([]point, 0, 3*len(b.members))
	for i := range b.members {
		m := &b.members[i]
		at, w := m.S.Reading(&m.P, depthCm), b.weight[i]
		points = append(points, point{at - node, w * side}, point{at, w * middle}, point{at + node, w * side})
	}
	return band(points)
}

// thermometerC is the standard deviation of one reading around the mean of many
// in the same core: probe, spot and hour (own choice).
const thermometerC = 2.0

func (b *stage) band(of func(*member) float64) Band {
	points := make([]point, len(b.members))
	for i := range b.members {
		points[i] = point{of(&b.members[i]), b.weight[i]}
	}
	return band(points)
}
