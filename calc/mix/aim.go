package mix

import (
	"math"

	"heapside/calc/fault"
)

// Bounds of what a good blend is.
const (
	// maxDensity is 1,200 lb/yd3 in kg/m3, the upper end of LSU AgCenter pub.
	// 3838-D "adapted from NRAES-54". Its lower end, 800 lb/yd3, describes a
	// settled windrow; our densities are loose in a bucket, so it does not bind.
	maxDensity = 1200 * 0.45359237 / 0.764554857984
	minAir     = 40 // % of volume, LSU AgCenter pub. 3838-D: porosity above 40 %
)

// The wider published bounds that a draw is counted against in Profile.Holds:
// C:N and moisture acceptable in Cooperband 2002 and LSU AgCenter pub. 3838-D.
const (
	WideCNLow, WideCNHigh             = 20, 40
	WideMoistureLow, WideMoistureHigh = 40, 65
)

// The aims a person may set (own choice): outside them no published rule that
// we read calls a blend a compost heap. The widths are what buckets can hit.
const (
	minCN, maxCN             = 10, 100
	minMoisture, maxMoisture = 30, 80
	minCNWidth               = 2
	minMoistureWidth         = 3
)

// DefaultAim is C:N 25 to 35 aiming at 30 (Cooperband 2002, ideal; inside the
// 25-40 of 7 CFR 205.203), moisture 50 to 60 % aiming at 55 (Manitoba
// Agriculture; AgriFutures), density and air as LSU AgCenter pub. 3838-D.
func DefaultAim() Aim {
	return Aim{
		CN:         Window{25, 30, 35},
		Moisture:   Window{50, 55, 60},
		MaxDensity: maxDensity,
		MinAir:     minAir,
	}
}

// filled replaces what the caller left zero by the default.
func (a Aim) filled() Aim {
	d := DefaultAim()
	if a.CN == (Window{}) {
		a.CN = d.CN
	}
	if a.Moisture == (Window{}) {
		a.Moisture = d.Moisture
	}
	if a.MaxDensity == 0 {
		a.MaxDensity = d.MaxDensity
	}
	if a.MinAir == 0 {
		a.MinAir = d.MinAir
	}
	return a
}

// Check reports an aim that contradicts itself or that no heap can have.
func (a Aim) Check() error {
	if err := a.CN.check("C:N", minCN, maxCN, minCNWidth); err != nil {
		return err
	}
	if err := a.Moisture.check("moisture", minMoisture, maxMoisture, minMoistureWidth); err != nil {
		return err
	}
	if !(a.MaxDensity >= 50 && a.MaxDensity <= 2000) {
		return fault.New(fault.OutOfRange, "A highest density of %g kg/m³ is not a heap's; use 50 to 2000.", a.MaxDensity)
	}
	if !(a.MinAir > 0 && a.MinAir <= 90) {
		return fault.New(fault.OutOfRange, "A least air space of %g %% is not a heap's; use up to 90.", a.MinAir)
	}
	return nil
}

func (w Window) check(what string, low, high, width float64) error {
	for _, v := range []float64{w.Low, w.Aim, w.High} {
		if math.IsNaN(v) || v < low || v > high {
			return fault.New(fault.OutOfRange, "A %s of %g is not one to aim for; give %g to %g.", what, v, low, high)
		}
	}
	if w.Low > w.Aim || w.Aim > w.High {
		return fault.New(fault.OutOfRange, "The %s %g to %g with aim %g contradicts itself; the aim lies between the ends.", what, w.Low, w.High, w.Aim)
	}
	if w.High-w.Low < width {
		return fault.New(fault.OutOfRange, "A %s of %g to %g is finer than buckets can hit; leave at least %g between the ends.", what, w.Low, w.High, width)
	}
	return nil
}

// One step of violation: what counts as equally far off (own choice).
const (
	cnStep       = 5.0
	moistureStep = 5.0
	airStep      = 5.0
	densityStep  = 0.1 // share of the highest density
)

// limits are an Aim as the linear program takes it; shares instead of %.
type limits struct {
	cnLow, cnHigh   float64
	wetLow, wetHigh float64
	kgPerL          float64 // highest density
	fill            float64 // highest share of volume that is not air
}

// at loosens the aim by t steps for t > 0; for t in [-1, 0] it tightens it, up
// to the aimed-for values themselves.
func (a Aim) at(t float64) limits {
	out, in := max(t, 0), max(-t, 0)
	return limits{
		cnLow:   a.CN.Low + in*(a.CN.Aim-a.CN.Low) - out*cnStep,
		cnHigh:  a.CN.High - in*(a.CN.High-a.CN.Aim) + out*cnStep,
		wetLow:  max(0, a.Moisture.Low+in*(a.Moisture.Aim-a.Moisture.Low)-out*moistureStep) / 100,
		wetHigh: min(99.9, a.Moisture.High-in*(a.Moisture.High-a.Moisture.Aim)+out*moistureStep) / 100,
		kgPerL:  a.MaxDensity / 1000 * (1 + out*densityStep),
		fill:    1 - (a.MinAir-out*airStep)/100,
	}
}

// tolerance of a check at typical values, against rounding of sums only.
const tolerance = 1e-9

// Meets reports whether the blend is inside the aim.
func (a Aim) Meets(b Blend) bool { return a.violation(b) <= tolerance }

// violation is how many steps the worst of the measures lies outside the aim;
// zero or less is inside.
func (a Aim) violation(b Blend) float64 {
	worst := math.Inf(-1)
	for _, v := range a.outside(b) {
		worst = max(worst, v)
	}
	return worst
}

// missed is the sum of the steps outside the aim; zero is inside.
func (a Aim) missed(b Blend) float64 {
	sum := 0.0
	for _, v := range a.outside(b) {
		sum += max(0, v)
	}
	return sum
}

// outside is how many steps each measure lies outside the aim.
func (a Aim) outside(b Blend) [4]float64 {
	cn, wet := b.CN(), b.Moisture()
	return [4]float64{
		max(a.CN.Low-cn, cn-a.CN.High) / cnStep,
		max(a.Moisture.Low-wet, wet-a.Moisture.High) / moistureStep,
		(b.Density() - a.MaxDensity) / (densityStep * a.MaxDensity),
		(a.MinAir - b.Air()) / airStep,
	}
}

// offCentre is how far C:N and moisture are from the aimed-for values, 0 at
// them and 1 at the window's nearer end.
func (a Aim) offCentre(b Blend) float64 {
	return max(a.CN.offCentre(b.CN()), a.Moisture.offCentre(b.Moisture()))
}

func (w Window) offCentre(v float64) float64 {
	side := w.High - w.Aim
	if v < w.Aim {
		side = w.Aim - w.Low
	}
	if side <= 0 {
		return 1
	}
	return math.Abs(v-w.Aim) / side
}
