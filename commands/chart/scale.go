package chart

import "math"

// scale is an axis of temperature: its ends, and the degrees that are labelled.
type scale struct {
	low, high float64
	labels    []float64
}

// degreeScales are the degrees that every chart covers, so that two heaps
// look alike, and the step its ends are rounded to. Own choice.
var degreeScales = map[bool]struct{ low, high, step float64 }{
	false: {0, 70, 10},   // Celsius
	true:  {20, 160, 20}, // Fahrenheit
}

// maxDegreeLabels is how many labels an axis carries. Own choice.
const maxDegreeLabels = 8

// degreeScale is the axis of temperature that holds everything drawn.
func (v *view) degreeScale() scale {
	rule := degreeScales[v.m.Fahrenheit]
	s := scale{low: rule.low, high: rule.high}
	if low, high, ok := v.temperatures(); ok {
		s.low = min(s.low, math.Floor(low/rule.step)*rule.step)
		s.high = max(s.high, math.Ceil(high/rule.step)*rule.step)
	}
	step := rule.step
	for (s.high-s.low)/step >= maxDegreeLabels {
		step *= 2
	}
	for degree := math.Ceil(s.low/step) * step; degree <= s.high; degree += step {
		s.labels = append(s.labels, degree)
	}
	return s
}

// share is where a degree lies on the axis: 0 at its foot, 1 at its top.
func (s scale) share(degree float64) float64 { return (degree - s.low) / (s.high - s.low) }

// rainSteps are the tops a scale of rain may have, in either unit. Own choice.
var rainSteps = []float64{0.1, 0.2, 0.5, 1, 2, 3, 5, 10, 15, 20, 30, 50, 100, 200, 500, 1000, 2000}

// inchMm is exact: the international inch of 1959.
const inchMm = 25.4

// rainTop is the top of the scale of rain, in the group's unit: the smallest
// round number that holds every day, and at least half a centimetre.
func (v *view) rainTop() float64 {
	top := 5.0
	if v.inches() {
		top = 0.2
	}
	for _, r := range v.rain {
		top = max(top, v.depth(r.Mm))
	}
	for _, step := range rainSteps {
		if step >= top {
			return step
		}
	}
	return top
}
