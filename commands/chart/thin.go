package chart

import (
	"maps"
	"math"
	"slices"
	"time"
)

// What two things drawn apart need between them, as shares of the window: a
// third of a dot, two pixels of a band, the width of a mark. Own choices.
const (
	dotShare  = 1.0 / 300
	bandShare = 1.0 / 350
	markShare = 1.0 / 38
)

// longAir is the window from which the air is drawn as the mean of each day:
// the swing of day and night would cover the picture. Own choice.
const longAir = 10 * 24 * time.Hour

func (v *view) longAir() bool { return v.to.Sub(v.from) >= longAir }

// runs groups items whose times fall into the same slice of the window.
func runs[T any](v *view, items []T, share float64, at func(T) time.Time) [][]T {
	var out [][]T
	last := math.Inf(-1)
	for _, item := range items {
		slice := math.Floor(v.share(at(item)) / share)
		if slice != last {
			out = append(out, nil)
		}
		last = slice
		out[len(out)-1] = append(out[len(out)-1], item)
	}
	return out
}

// dots are the readings that can be told apart: of those that would lie on
// each other only the lowest and the highest.
func (v *view) dots(readings []Reading) []Reading {
	var out []Reading
	for _, run := range runs(v, readings, dotShare, func(r Reading) time.Time { return r.At }) {
		low, high := run[0], run[0]
		for _, r := range run {
			if r.C < low.C {
				low = r
			}
			if r.C > high.C {
				high = r
			}
		}
		out = append(out, low)
		if high != low {
			out = append(out, high)
		}
	}
	return out
}

// ribbons are the stretches of the band that are all estimate or all outlook,
// thinned. Each starts where the one before ends.
func (v *view) ribbons() [][]BandPoint {
	var out [][]BandPoint
	for _, run := range runs(v, v.band, bandShare, func(b BandPoint) time.Time { return b.At }) {
		p := mean(run)
		switch n := len(out); {
		case n == 0:
			out = append(out, []BandPoint{p})
		case out[n-1][0].Forecast == p.Forecast:
			out[n-1] = append(out[n-1], p)
		default:
			last := out[n-1][len(out[n-1])-1]
			last.Forecast = p.Forecast
			out = append(out, []BandPoint{last, p})
		}
	}
	return out
}

// mean is the point in the middle of a run of the band, so that a thinned edge
// stays smooth. It is outlook when the run ends in one.
func mean(run []BandPoint) BandPoint {
	last := run[len(run)-1]
	p := BandPoint{At: run[0].At.Add(last.At.Sub(run[0].At) / 2), Forecast: last.Forecast}
	for _, b := range run {
		p.Low, p.Mid, p.High = p.Low+b.Low, p.Mid+b.Mid, p.High+b.High
	}
	n := float64(len(run))
	p.Low, p.Mid, p.High = p.Low/n, p.Mid/n, p.High/n
	return p
}

// dailyAir is the mean of each day's air, at its noon. A day of which less
// than half is known has none.
func (v *view) dailyAir() []AirPoint {
	days := map[time.Time][]AirPoint{}
	most := 0
	for _, a := range v.air {
		start := midnight(a.At.In(v.zone), 0)
		days[start] = append(days[start], a)
		most = max(most, len(days[start]))
	}
	var out []AirPoint
	for _, start := range slices.SortedFunc(maps.Keys(days), time.Time.Compare) {
		if 2*len(days[start]) < most {
			continue
		}
		sum := 0.0
		for _, a := range days[start] {
			sum += a.C
		}
		noon := later(v.from, earlier(v.to, start.Add(12*time.Hour)))
		out = append(out, AirPoint{At: noon, C: sum / float64(len(days[start]))})
	}
	return out
}

func later(a, b time.Time) time.Time {
	if a.After(b) {
		return a
	}
	return b
}

func earlier(a, b time.Time) time.Time {
	if a.Before(b) {
		return a
	}
	return b
}

// lane are the marks of one kind that can be told apart.
func (v *view) lane(kind MarkKind) []Mark {
	var out []Mark
	for _, m := range v.marks {
		if m.Kind == kind && (len(out) == 0 || v.share(m.At)-v.share(out[len(out)-1].At) >= markShare) {
			out = append(out, m)
		}
	}
	return out
}
