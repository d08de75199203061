package heap

import "time"

// Reading is a thermometer entry that still stands.
type Reading struct {
	At      time.Time
	C       float64
	DepthCm float64
	Spot    string
}

// State is what the standing entries of one heap say at a moment. Times are
// zero when there is no such entry.
type State struct {
	Heap      Heap
	Now       time.Time
	Entries   []Entry // standing ones only, oldest first
	Age       time.Duration
	Content   []Added   // what was put in, oldest first (moved-in content is logged as Added entries, see Read)
	AddedL    float64   // loose litres of Content
	LeftShare float64   // of AddedL, what the usual shrinking leaves of it by now; 0 when nothing was put in
	LastAdded time.Time // when the newest of it was put on, here or in the heap it came from
	VolumeL   float64   // best guess of today's volume; VolumeHow says from what
	VolumeHow How
	HeightAt  time.Time // when the height was measured that VolumeL rests on; zero when it is only counted
	Readings  []Reading // in the heap, oldest first
	Air       []Reading // readings logged with the spot "air", oldest first
	// RefilledAt is the last start, emptying or large addition (the additions of
	// one day, a quarter of what was there or more); PeakC is the highest reading
	// since then, 0 when there is none.
	RefilledAt time.Time
	PeakC      float64
	Turns      []time.Time
	Waterings  []time.Time
	Squeeze    Squeeze
	SqueezeAt  time.Time
	Smell      string
	SmellAt    time.Time
	Covered    bool
	RainMm     float64 // logged since the last squeeze test
	Tests      []TestRecord
}

// TestRecord is a logged test with its time.
type TestRecord struct {
	Test
	At time.Time
}

// Number is the number of that name; false when the result has none.
func (t Test) Number(name string) (Number, bool) {
	for _, n := range t.Numbers {
		if n.Name == name {
			return n, true
		}
	}
	return Number{}, false
}

// LastReading is the newest reading; false when there is none.
func (s State) LastReading() (Reading, bool) {
	if len(s.Readings) == 0 {
		return Reading{}, false
	}
	return s.Readings[len(s.Readings)-1], true
}

// LastTurn is when the heap was last turned, zero when never.
func (s State) LastTurn() time.Time {
	if len(s.Turns) == 0 {
		return time.Time{}
	}
	return s.Turns[len(s.Turns)-1]
}
