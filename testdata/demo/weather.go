package demo

import (
	"context"
	"math"
	"time"

	"heapside/calc/fault"
	"heapside/calc/process"
	"heapside/commands"
)

// Weather is the invented weather over Millrace Lane, from before the record
// begins to a fortnight after now: mild days, a wet spell every week or so, and
// the two wet mornings that the record logs. It is the same for the same now.
type Weather struct{ Now time.Time }

// Days before now at which rain is logged in the script, with the millimetres.
var loggedRain = map[int]float64{31: 9, 12: 14}

// Sky is the weather of the garden, wherever it is said to be.
func (w Weather) Sky(_ context.Context, _, _ float64, zone *time.Location, since, until time.Time) commands.Sky {
	sky := commands.Sky{Hours: w, Rain: w.rain, AsOf: w.Now, Credits: []string{"invented weather of the demo"}}
	y, m, d := since.In(zone).Date()
	for n := 0; ; n++ {
		start := time.Date(y, m, d+n, 0, 0, 0, 0, zone)
		if !start.Before(until) {
			return sky
		}
		ago := w.daysAgo(start.Add(12 * time.Hour))
		sky.Days = append(sky.Days, commands.SkyDay{
			Start: start, RainMm: rain(ago), MeanC: mean(ago), Told: true, Ahead: start.AddDate(0, 0, 1).After(w.Now),
		})
	}
}

// Hour is the weather of the hour that holds t.
func (w Weather) Hour(t time.Time) (process.Hour, bool) {
	ago := w.daysAgo(t)
	sun := math.Sin(2 * math.Pi * (float64(t.UTC().Hour()) - 9) / 24) // highest at 15:00
	return process.Hour{
		AirC: mean(ago) + 4*sun, RH: 0.78 - 0.15*sun, RainMm: rain(ago) / 24,
		ET0Mm: 1.8 / 24 * max(0, 1+1.5*sun), WindMS: 1.8,
	}, ago > -16 && ago < 400
}

func (w Weather) rain(t time.Time) (mm float64, told bool) {
	h, told := w.Hour(t)
	return h.RainMm, told
}

// Places knows one place.
func (w Weather) Places(context.Context, string) ([]commands.Spot, error) {
	return nil, fault.New(fault.Unknown, "The demo looks up no places. Give coordinates instead, such as 51.75, -1.26.")
}

func (w Weather) daysAgo(t time.Time) int {
	return int(math.Floor(w.Now.Sub(t).Hours()/24 + 0.5))
}

// mean is the mean air temperature of a day: milder in the past, drifting.
func mean(ago int) float64 {
	return 13 + 2.5*math.Sin(float64(ago)/5.3) + 1.5*math.Sin(float64(ago)/2.1+1)
}

func rain(ago int) float64 {
	if mm, ok := loggedRain[ago]; ok {
		return mm
	}
	if wet := math.Sin(float64(ago)/1.3) + math.Sin(float64(ago)/4.1); wet > 1.2 {
		return 6 * (wet - 0.9)
	}
	return 0
}
