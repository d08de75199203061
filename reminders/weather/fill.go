package weather

import (
	"math"
	"time"

	"heapside/calc/water"
)

// enoughHours of a day must have a temperature for its lowest and highest to
// be taken from them (own choice).
const enoughHours = 18

// FillET0 computes the evapotranspiration that no service gave, by day of the
// sun at the place, from that day's temperatures, humidity and wind. Hours that
// have a value keep it. The hours are in order and are changed.
func FillET0(hours []Hour, at Place, elevationM float64) {
	ahead := time.Duration(math.Round(at.Lon/15)) * time.Hour // solar time over UTC
	for from := 0; from < len(hours); {
		date := hours[from].At.Add(ahead).Truncate(day)
		to := from
		for to < len(hours) && hours[to].At.Add(ahead).Truncate(day).Equal(date) {
			to++
		}
		fillDay(hours[from:to], date, ahead, at, elevationM)
		from = to
	}
}

func fillDay(hours []Hour, date time.Time, ahead time.Duration, at Place, elevationM float64) {
	d := water.Day{OfYear: date.YearDay(), MinC: math.Inf(1), MaxC: math.Inf(-1)}
	known, wet, wind, lacking := 0, mean{}, mean{}, false
	for i := range hours {
		h := &hours[i]
		if h.AirC != nil {
			known++
			d.MinC, d.MaxC = min(d.MinC, *h.AirC), max(d.MaxC, *h.AirC)
		}
		wet.add(h.RH)
		wind.add(h.WindMS)
		lacking = lacking || h.ET0Mm == nil
	}
	if known < enoughHours || !lacking {
		return
	}
	if d.RHMean = wet.value(); d.RHMean != nil {
		d.RHMean = new(100 * *d.RHMean)
	}
	if d.WindMS = wind.value(); d.WindMS != nil {
		d.WindMS = new(water.WindAt2m(*d.WindMS, 10))
	}
	mm, _, err := water.ET0(d, at.Lat, elevationM)
	if err != nil {
		return // stays unknown
	}
	spread := water.Hours(d.MinC, d.MaxC, mm, water.SunOn(at.Lat, d.OfYear).DaylightH())
	for i := range hours {
		if hours[i].ET0Mm == nil {
			hours[i].ET0Mm = new(spread[hours[i].At.Add(ahead).Hour()].ET0Mm)
		}
	}
}

// mean is the mean of what is known.
type mean struct {
	sum float64
	n   int
}

func (m *mean) add(v *float64) {
	if v != nil {
		m.sum += *v
		m.n++
	}
}

func (m *mean) value() *float64 {
	if m.n == 0 {
		return nil
	}
	return new(m.sum / float64(m.n))
}
