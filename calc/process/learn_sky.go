package process

import (
	"math"
	"time"
)

// Members run on air that differs by up to four steps of airStepC either way,
// so that the weather of an hour is worked out nine times and not once for each.
const (
	airSteps = 4
	airStepC = 2.0
)

// sky gives members the weather of a stretch of time: what is known, the
// climate where nothing is, and what is forecast with growing doubt.
type sky struct {
	weather Weather // nil: none
	climate Climate
	now     int64 // hour from which weather is a forecast
	rain    gauge // what was measured in the garden
	airs    [2*airSteps + 1]Air
}

// doubtDays is the lead at which a forecast says no more than the climate does
// (own choice; the doubt grows evenly up to there).
const doubtDays = 10

// load works out the weather of hours from a full hour on, in one piece.
func (k *sky) load(from int64, hours int) {
	var mean Hour
	doubt := 0.0
	for i := range hours {
		h, d := k.hour(from + int64(i))
		mean.AirC += h.AirC
		mean.RH += h.RH
		mean.RainMm += h.RainMm
		mean.ET0Mm += h.ET0Mm
		mean.WindMS += h.WindMS
		doubt += d
	}
	n := float64(hours)
	mean = Hour{mean.AirC / n, mean.RH / n, mean.RainMm / n, mean.ET0Mm / n, mean.WindMS / n}
	doubt /= n
	for i := range k.airs {
		h := mean
		h.AirC += doubt * airStepC * float64(i-airSteps)
		k.airs[i] = h.Air()
		k.airs[i].Seconds *= n
	}
}

// hour is the weather of one hour and how far to trust it: 0 as measured, 1 no
// more than the climate.
func (k *sky) hour(at int64) (h Hour, doubt float64) {
	h, known := k.told(at)
	if !known {
		h, doubt = k.climate.Hour(moment(at)), 1
	} else if at > k.now {
		doubt = min(1, float64(at-k.now)/(24*doubtDays))
	}
	if mm, measured := k.rain.at(at); measured {
		h.RainMm = mm
	}
	return h, doubt
}

// told is what the weather source says, unless it cannot be.
func (k *sky) told(at int64) (Hour, bool) {
	if k.weather == nil {
		return Hour{}, false
	}
	h, ok := k.weather.Hour(moment(at))
	return h, ok && !math.IsNaN(h.AirC) && !math.IsInf(h.AirC, 0)
}

// of is the air that a member gets.
func (k *sky) of(m *member) *Air {
	i := airSteps + int(math.Round(within(m.AirC/airStepC, -airSteps, airSteps)))
	return &k.airs[i]
}

// hourOf counts hours since 1970, moment is their beginning.
func hourOf(t time.Time) int64 {
	s := t.Unix()
	h := s / 3600
	if s%3600 < 0 {
		h--
	}
	return h
}

func moment(hour int64) time.Time { return time.Unix(hour*3600, 0).UTC() }
