package advice

import (
	"time"

	"heapside/calc/heap"
	"heapside/calc/maturity"
	"heapside/calc/measure"
	"heapside/calc/process"
)

const day = 24 * time.Hour

// Ages past which an observation no longer speaks of today, and the rest a
// turned heap is given. All own choice.
const (
	freshReading = 7 * day
	freshSign    = 14 * day // squeeze and smell
	turnRest     = 3 * day
)

// look is a heap's state with what several rules ask of it, worked out once.
type look struct {
	heap.State
	say        measure.Measures
	pace       pace
	model      *process.Condition // nil without one
	sky        Sky
	supply     Supply
	stage      maturity.Stage
	last       heap.Reading
	hasLast    bool
	fresh      bool // the last reading is at most a week old and nobody turned since
	lastAge    time.Duration
	wasHot     bool
	lastHot    heap.Reading
	unturned   time.Duration // since the last turning, or since the start
	rested     bool          // not turned within the last three days
	curing     bool
	curedFor   time.Duration
	sinceFresh time.Duration // since material was last added
	squeeze    heap.Squeeze  // "" when not known of today
	smell      string        // "" when not known of today
	rain       shower        // to come
	hasRain    bool
	cold       Day // the coldest night to come
	frosty     bool
}

func inspect(c Case) *look {
	s := maturity.Core(c.State)
	l := &look{State: s, say: c.Measures, pace: paceOf(s.Heap.Aim), model: c.Condition, sky: c.Sky, supply: c.Supply}
	l.rain, l.hasRain = c.Sky.coming(s.Now)
	l.cold, l.frosty = c.Sky.frost(s.Now)
	l.stage, _ = maturity.StageOf(s)
	l.last, l.hasLast = s.LastReading()
	if l.hasLast {
		l.lastAge = s.Now.Sub(l.last.At)
	}
	turned := s.LastTurn()
	l.fresh = l.hasLast && l.lastAge <= freshReading && !turned.After(l.last.At)
	l.lastHot, l.wasHot = maturity.LastHot(s)
	l.unturned, l.rested = s.Age, true
	if !turned.IsZero() {
		l.unturned = s.Now.Sub(turned)
		l.rested = l.unturned >= turnRest
	}
	if from, ok := maturity.CuringSince(s); ok {
		l.curing, l.curedFor = true, s.Now.Sub(from)
	}
	l.sinceFresh = s.Now.Sub(s.LastAdded)
	if s.Squeeze != "" && s.Now.Sub(s.SqueezeAt) <= freshSign && !l.squeezeOutdated() {
		l.squeeze = s.Squeeze
	}
	if s.Now.Sub(s.SmellAt) <= freshSign && !turned.After(s.SmellAt) {
		l.smell = s.Smell
	}
	return l
}

// squeezeOutdated says that something was done since the squeeze test that
// changes how wet the heap is: turning a wet one, watering any other, or rain
// on any other that lies open.
func (l *look) squeezeOutdated() bool {
	if l.SqueezeAt.IsZero() {
		return false
	}
	if wet(l.Squeeze) {
		return l.LastTurn().After(l.SqueezeAt)
	}
	return l.soaked() || l.lastWatering().After(l.SqueezeAt)
}

// rainSince is the rain since the squeeze test in mm: from the gauge, or else
// from what the weather service told.
func (l *look) rainSince() float64 {
	if l.RainMm > 0 {
		return l.RainMm
	}
	return l.sky.fell(l.SqueezeAt)
}

// soaked says that enough rain fell on the heap since the squeeze test to make
// that out of date.
func (l *look) soaked() bool { return !l.Covered && l.rainSince() >= soakingMm }

// bare says that rain falls into the heap. Bins and tumblers have a lid.
func (l *look) bare() bool { return !l.Covered && l.open() }

func (l *look) open() bool {
	return l.Heap.Container == heap.OpenHeap || l.Heap.Container == heap.PalletBay
}

// working says that the heap is hot or on its way there or back.
func (l *look) working() bool {
	filled := l.stage == maturity.Filling && len(l.Content) > 0
	return filled || l.stage == maturity.Hot || l.stage == maturity.Cooling
}

func (l *look) lastWatering() time.Time {
	if len(l.Waterings) == 0 {
		return time.Time{}
	}
	return l.Waterings[len(l.Waterings)-1]
}

func wet(s heap.Squeeze) bool { return s == heap.Drips || s == heap.Runs }

// ago prints how long ago t was, "3 days ago".
func (l *look) ago(t time.Time) string { return l.say.SayAgo(l.Now.Sub(t)) }

// reads prints the last reading, "58 °C 2 hours ago".
func (l *look) reads() string { return l.say.SayTemperature(l.last.C) + " " + l.ago(l.last.At) }

// trust is how far the last reading can be relied on today (own choice: it
// moves by several degrees a day while a heap works).
func (l *look) trust() string {
	switch {
	case l.lastAge <= day:
		return sure
	case l.lastAge <= 3*day:
		return likely
	}
	return guess
}

// The confidences.
const (
	sure   = "sure"
	likely = "likely"
	guess  = "a guess"
)
