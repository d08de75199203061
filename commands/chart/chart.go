// Package chart draws what one heap did and what to expect of it: as a PNG, as
// words that say what the picture shows, and as a few lines for a terminal. It
// knows no store and no chat platform: data comes in, bytes go out, and the
// same data always gives the same bytes.
package chart

import "time"

// Data is everything one chart shows. Every part may be empty and in any
// order. Temperatures are degrees Celsius and rain millimetres, whatever the
// group reads; what is not a number, or too far off to be drawn, is left out.
type Data struct {
	Heap       string         // as people named it
	Zone       *time.Location // days start at its midnights; nil is UTC
	Now        time.Time      // parts the estimate from the outlook; zero: not marked
	Fahrenheit bool           // print degrees Fahrenheit
	Inches     bool           // print rain in inches
	Readings   []Reading
	Band       []BandPoint
	Marks      []Mark
	Rain       []RainBar
	Air        []AirPoint
	ThresholdC float64 // the hygiene threshold; 0: none
}

// Reading is one thermometer reading, of the air when Air is set.
type Reading struct {
	At  time.Time
	C   float64
	Air bool
}

// BandPoint is the core temperature computed for one time, at 10, 50 and 90 %
// of the plausible courses. Forecast tells the outlook from the estimate.
type BandPoint struct {
	At             time.Time
	Low, Mid, High float64
	Forecast       bool
}

// MarkKind is what somebody did to the heap.
type MarkKind uint8

// The kinds of marks, in the order they are drawn from the top.
const (
	Turned MarkKind = iota
	Watered
	Added
	Covered
)

// Mark is one thing done to the heap.
type Mark struct {
	At   time.Time
	Kind MarkKind
}

// RainBar is the rain of the local day that Day lies in.
type RainBar struct {
	Day      time.Time
	Mm       float64
	Forecast bool
}

// AirPoint is the air temperature at one time.
type AirPoint struct {
	At time.Time
	C  float64
}
