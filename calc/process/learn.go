package process

import (
	"encoding/binary"
	"hash/fnv"
	"math/rand/v2"
	"slices"
	"time"
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
// same record gives the same members, whether from nothing or going on. Asking it
// changes nothing; Advance and UnmarshalBinary do, and want it for themselves.
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
	told    int64 // hours up to here whose weather was known when they were learned
	members []member
	weight  []float64
	past    []Mark
}

// Advance brings a track to now, the zero Track from the first addition on. What
// it knows already is not computed again unless an entry before its base was
// taken back or added; then it learns from nothing. The record is the whole of
// it. It fails with fault.Missing when nothing is on record as put in.
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
	b := &t.base
	return b.members != nil && b.hour >= s.start && b.hour <= baseHour(s) && b.digest == s.digest(b.hour) &&
		s.told(s.start, b.hour)-b.told <= toldLateH
}

// toldLateH is how many hours may become known after they were learned on the
// climate before the heap is learned anew (own choice: what a service that was
// down for an evening leaves behind).
const toldLateH = 12

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
		m.Drift = driftSpread * r.NormFloat64()
		m.Spot = spotSpread * r.NormFloat64()
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
			t.base = stage{hour: to, digest: s.digest(to), told: t.base.told + s.told(t.base.hour, to), members: slices.Clone(c.members), weight: slices.Clone(c.weight), past: slices.Clone(w.past)}
		}
	}
	w.run(max(t.base.hour, baseHour(s)), s.now)
	w.events(s.now)
	t.now = stage{hour: s.now, members: c.members, weight: c.weight, past: w.past}
	t.settings = w.settings
}

// reading is the band of what a thermometer should show in the heap.
// The members' answers are spread by the error of a reading (three nodes of the
// Gauss-Hermite rule), so that four in five readings should lie in the band.
func (b *stage) reading(depthCm float64) Band {
	const node, middle, side = 1.7320508 * thermometerC, 2.0 / 3, 1.0 / 6
	points := make([]point, 0, 3*len(b.members))
	for i := range b.members {
		m := &b.members[i]
		at, w := m.reading(depthCm), b.weight[i]
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
