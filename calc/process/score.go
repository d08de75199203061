package process

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"time"
)

// Forecast is one thing an outlook said: what a thermometer would read some
// hours after the moment it was made, in Celsius, and the last reading on
// record then.
type Forecast struct {
	At    time.Time     // when it was made
	Ahead time.Duration // how far it looked
	Band  Band
	LastC float64 // NaN when there was no reading
}

// Score is how a Forecast did once the reading came, errors in Celsius.
type Score struct {
	Ahead      time.Duration
	In80       bool    // the reading lay between Low and High
	AbsErr     float64 // against Mid
	PersistErr float64 // against "same as the last reading"; NaN without one
	Stretch    float64 // how much wider the band had to be to reach it: 1 at its edge
}

// Score compares the forecast with a reading taken at about its time.
func (f Forecast) Score(readC float64) Score {
	s := Score{
		Ahead: f.Ahead, In80: readC >= f.Band.Low && readC <= f.Band.High,
		AbsErr: math.Abs(readC - f.Band.Mid), PersistErr: math.Abs(readC - f.LastC),
	}
	side := f.Band.High - f.Band.Mid
	if readC < f.Band.Mid {
		side = f.Band.Mid - f.Band.Low
	}
	s.Stretch = s.AbsErr / max(side, leastSideC)
	return s
}

// leastSideC is the narrowest half of a band that counts: no thermometer in a
// heap says better (own choice).
const leastSideC = 1.0

// How a group's own scores widen its bands (own choice). priorScores are scores
// that are taken to have held exactly as they should, so that the first few
// real ones do not swing the bands.
const (
	aimedShare  = 0.80
	priorScores = 10
	leastWiden  = 0.8
	mostWiden   = 3.0
)

// Widening is the factor by which to stretch the bands so that four in five of
// the group's outlooks would have held: the 80 % point of the stretches that
// its scores needed, together with ten invented ones of a band that is right.
// It lies between 0.8 and 3, and is 1 without scores.
func Widening(scores []Score) float64 {
	stretches := make([]point, 0, len(scores)+priorScores)
	for _, s := range scores {
		if !math.IsNaN(s.Stretch) && !math.IsInf(s.Stretch, 0) {
			stretches = append(stretches, point{s.Stretch, 1})
		}
	}
	if len(stretches) == 0 {
		return 1
	}
	for i := range priorScores {
		stretches = append(stretches, point{rightStretch((float64(i) + 0.5) / priorScores), 1})
	}
	slices.SortFunc(stretches, func(a, b point) int { return cmp.Compare(a.value, b.value) })
	return min(mostWiden, max(leastWiden, quantile(stretches, aimedShare)))
}

// rightStretch is the stretch that a share p of readings stays under when they
// are normal and the band is right: 1 at 80 %.
func rightStretch(p float64) float64 { return math.Erfinv(p) / math.Erfinv(aimedShare) }

// Widened is the band with both sides stretched by a factor.
func (b Band) Widened(factor float64) Band {
	return Band{b.Mid - factor*(b.Mid-b.Low), b.Mid, b.Mid + factor*(b.High-b.Mid)}
}

// Tally sums up scores, for people.
type Tally struct {
	Outlooks, Held      int
	MeanErr, PersistErr float64 // Celsius; NaN when there is none
}

// Count is the tally of scores.
func Count(scores []Score) Tally {
	t := Tally{Outlooks: len(scores)}
	var err, persist, persisted float64
	for _, s := range scores {
		if s.In80 {
			t.Held++
		}
		err += s.AbsErr
		if !math.IsNaN(s.PersistErr) {
			persist += s.PersistErr
			persisted++
		}
	}
	t.MeanErr, t.PersistErr = err/float64(len(scores)), persist/persisted
	return t
}

// String says how earlier outlooks did, in one sentence without degrees.
func (t Tally) String() string {
	switch t.Outlooks {
	case 0:
		return "No earlier outlook has met its reading yet."
	case 1:
		if t.Held == 1 {
			return "The one earlier outlook that met its reading held."
		}
		return "The one earlier outlook that met its reading missed."
	}
	return fmt.Sprintf("Of %d earlier outlooks, %d held; about %d should.", t.Outlooks, t.Held, t.Should())
}

// Should is how many of the outlooks are meant to hold.
func (t Tally) Should() int { return int(math.Round(aimedShare * float64(t.Outlooks))) }
