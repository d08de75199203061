package chart

import (
	"math"
	"slices"
	"time"

	"heapside/calc/fault"
	"heapside/calc/measure"
)

// What can be drawn; anything else is a slip or a broken sensor. Own choices.
const (
	coldestC  = -60
	hottestC  = 120
	maxRainMm = 2000
	maxYears  = 10 // before or after now
	firstYear = 2000
	lastYear  = 2099
)

// A heap changes over days: minSpan is the shortest time a chart covers, and
// now is shown when it is minSlack from the data or nearer. Own choices.
const (
	minSpan  = 24 * time.Hour
	minSlack = 3 * 24 * time.Hour
)

// noTemperatures stands where the course would be.
const noTemperatures = "no temperatures yet"

// view is the data as it is drawn: checked, in order of time, in the group's
// zone, with the window of time that the axis covers.
type view struct {
	name       string
	zone       *time.Location
	m          measure.Measures
	now        time.Time // zero when it is not marked
	from, to   time.Time
	readings   []Reading
	band       []BandPoint
	marks      []Mark
	rain       []RainBar  // Day is the first instant of the day
	air        []AirPoint // of a long window, the mean of each day
	thresholdC float64
}

// look checks the data, or says that there is nothing to draw.
func look(d Data) (view, error) {
	if !plausible(d.Now) {
		d.Now = time.Time{} // a clock that was never set must not hide the record
	}
	v := view{name: cleanName(d.Heap), zone: d.Zone, now: d.Now, thresholdC: d.ThresholdC}
	if v.zone == nil {
		v.zone = time.UTC
	}
	v.m.Fahrenheit = d.Fahrenheit
	if d.Inches {
		v.m.System = measure.US
	}
	if !degrees(v.thresholdC) {
		v.thresholdC = 0
	}
	v.readings = pick(d, d.Readings, func(r Reading) (time.Time, bool) { return r.At, degrees(r.C) })
	v.band = pick(d, d.Band, func(b BandPoint) (time.Time, bool) {
		return b.At, degrees(b.Low) && degrees(b.Mid) && degrees(b.High)
	})
	for i, b := range v.band {
		v.band[i].Low, v.band[i].High = min(b.Low, b.Mid, b.High), max(b.Low, b.Mid, b.High)
	}
	v.marks = pick(d, d.Marks, func(m Mark) (time.Time, bool) { return m.At, m.Kind <= Covered })
	v.rain = pick(d, d.Rain, func(r RainBar) (time.Time, bool) { return r.Day, r.Mm >= 0 && r.Mm <= maxRainMm })
	for i, r := range v.rain {
		v.rain[i].Day = midnight(r.Day.In(v.zone), 0)
	}
	v.air = pick(d, d.Air, func(a AirPoint) (time.Time, bool) { return a.At, degrees(a.C) })
	if !v.frame() {
		return view{}, fault.New(fault.Missing,
			"There is nothing to draw for “%s” yet. Log a temperature, such as “log temp 55”, and there will be.", v.name)
	}
	if v.longAir() {
		v.air = v.dailyAir()
	}
	return v, nil
}

func degrees(c float64) bool { return c >= coldestC && c <= hottestC }

// pick keeps the items that can be drawn, oldest first.
func pick[T any](d Data, items []T, read func(T) (time.Time, bool)) []T {
	kept := make([]T, 0, len(items))
	for _, item := range items {
		if at, ok := read(item); ok && d.near(at) {
			kept = append(kept, item)
		}
	}
	slices.SortStableFunc(kept, func(a, b T) int {
		atA, _ := read(a)
		atB, _ := read(b)
		return atA.Compare(atB)
	})
	return kept
}

// near reports whether a time can belong to a heap of today.
func (d Data) near(at time.Time) bool {
	if d.Now.IsZero() {
		return plausible(at)
	}
	return at.After(d.Now.AddDate(-maxYears, 0, 0)) && at.Before(d.Now.AddDate(maxYears, 0, 0))
}

func plausible(at time.Time) bool { return at.Year() >= firstYear && at.Year() <= lastYear }

// frame sets the window that the axis covers, or reports that it would be
// empty. Now is in it unless it lies days away and the data would be left less
// than two thirds.
func (v *view) frame() bool {
	var ends []time.Time
	for _, r := range v.readings {
		ends = append(ends, r.At)
	}
	for _, b := range v.band {
		ends = append(ends, b.At)
	}
	for _, m := range v.marks {
		ends = append(ends, m.At)
	}
	for _, r := range v.rain {
		ends = append(ends, r.Day, midnight(r.Day.In(v.zone), 1))
	}
	for _, a := range v.air {
		ends = append(ends, a.At)
	}
	if len(ends) == 0 {
		return false
	}
	v.from, v.to = slices.MinFunc(ends, time.Time.Compare), slices.MaxFunc(ends, time.Time.Compare)
	span := v.to.Sub(v.from)
	early, late := v.from.Sub(v.now), v.now.Sub(v.to)
	switch slack := max(span/2, minSlack); {
	case early > slack || late > slack || v.now.IsZero():
		v.now = time.Time{}
	case early > 0:
		v.from = v.now
	case late > 0:
		v.to = v.now
	}
	if short := minSpan - v.to.Sub(v.from); short > 0 {
		v.from, v.to = v.from.Add(-short/2), v.to.Add(short/2)
	}
	return true
}

// share is where a time lies in the window: 0 at its start, 1 at its end.
func (v *view) share(at time.Time) float64 {
	return float64(at.Sub(v.from)) / float64(v.to.Sub(v.from))
}

// core are the readings of the heap itself.
func (v *view) core() []Reading {
	return slices.DeleteFunc(slices.Clone(v.readings), func(r Reading) bool { return r.Air })
}

// degree converts to what the group's thermometer shows.
func (v *view) degree(c float64) float64 {
	if v.m.Fahrenheit {
		return c*9/5 + 32
	}
	return c
}

func (v *view) degreeUnit() string {
	if v.m.Fahrenheit {
		return "°F"
	}
	return "°C"
}

// temperatures is the lowest and highest degree drawn, as the group reads
// them; false when there is none.
func (v *view) temperatures() (low, high float64, ok bool) {
	low, high = math.Inf(1), math.Inf(-1)
	span := func(c ...float64) {
		low, high = min(low, slices.Min(c)), max(high, slices.Max(c))
	}
	for _, r := range v.readings {
		span(r.C)
	}
	for _, b := range v.band {
		span(b.Low, b.High)
	}
	for _, a := range v.air {
		span(a.C)
	}
	if low > high {
		return 0, 0, false
	}
	if v.thresholdC != 0 {
		span(v.thresholdC)
	}
	return v.degree(low), v.degree(high), true
}

func (v *view) inches() bool { return v.m.System == measure.US }

// depth converts rain to the group's unit.
func (v *view) depth(mm float64) float64 {
	if v.inches() {
		return mm / inchMm
	}
	return mm
}

// date writes the local day of a time, with the year where it is not the one
// the chart ends in.
func (v *view) date(at time.Time) string {
	at = at.In(v.zone)
	if at.Year() != v.to.In(v.zone).Year() {
		return at.Format("2 Jan 2006")
	}
	return at.Format("2 Jan")
}

// hasThreshold reports whether the threshold is drawn: without any temperature
// there is nothing to hold against it.
func (v *view) hasThreshold() bool {
	_, _, ok := v.temperatures()
	return ok && v.thresholdC != 0
}

// bandCounts counts the points of the estimate and of the outlook.
func (v *view) bandCounts() (estimate, outlook int) {
	for _, b := range v.band {
		if b.Forecast {
			outlook++
		} else {
			estimate++
		}
	}
	return estimate, outlook
}
