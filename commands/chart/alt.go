package chart

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
	"time"
)

// maxAlt is how many characters of alternative text are written. Own choice:
// chats cut it at about a thousand.
const maxAlt = 900

// Alt says in words what the picture of the same data shows, in the group's
// units, in at most 900 characters. With nothing to draw it says so.
func Alt(d Data) string {
	v, err := look(d)
	if err != nil {
		return nothing
	}
	said := []string{v.sayWindow()}
	said = append(said, v.sayReadings()...)
	said = append(said, v.sayBand()...)
	said = append(said, v.sayMarks()...)
	said = append(said, v.sayWeather()...)
	return clip(strings.Join(said, " "), maxAlt)
}

const nothing = "Nothing to draw yet."

func (v *view) sayWindow() string {
	from := v.from.In(v.zone)
	start := from.Format("2 January")
	if from.Year() != v.to.In(v.zone).Year() {
		start = from.Format("2 January 2006")
	}
	return fmt.Sprintf("%s, chart from %s to %s.", v.name, start, v.to.In(v.zone).Format("2 January 2006"))
}

func (v *view) sayReadings() []string {
	core := v.core()
	said := []string{v.sayCore(core)}
	if len(core) > 0 && v.thresholdC != 0 {
		said = append(said, v.sayThreshold(core))
	}
	if n := len(v.readings) - len(core); n > 0 {
		said = append(said, count(n, "reading", "readings")+" of the air.")
	}
	return said
}

func (v *view) sayCore(core []Reading) string {
	if len(core) == 0 {
		return "No reading of the heap."
	}
	last := core[len(core)-1]
	if len(core) == 1 {
		return fmt.Sprintf("One reading: %s on %s.", v.m.SayTemperature(last.C), v.date(last.At))
	}
	byDegree := func(a, b Reading) int { return cmp.Compare(a.C, b.C) }
	low, high := slices.MinFunc(core, byDegree), slices.MaxFunc(core, byDegree)
	return fmt.Sprintf("%d readings from %s to %s, the highest on %s; the latest is %s on %s.", len(core),
		v.m.SayTemperature(low.C), v.m.SayTemperature(high.C), v.date(high.At), v.m.SayTemperature(last.C), v.date(last.At))
}

func (v *view) sayThreshold(core []Reading) string {
	n := 0
	for _, r := range core {
		if r.C >= v.thresholdC {
			n++
		}
	}
	reached := "No reading reached"
	if n > 0 {
		reached = count(n, "reading", "readings") + " reached"
	}
	return fmt.Sprintf("%s the hygiene line at %s.", reached, v.m.SayTemperature(v.thresholdC))
}

// sayBand tells where the heap probably is, and where the outlook ends.
func (v *view) sayBand() []string {
	var said []string
	var estimate, outlook []BandPoint
	for _, b := range v.band {
		if b.Forecast {
			outlook = append(outlook, b)
		} else {
			estimate = append(estimate, b)
		}
	}
	if n := len(estimate); n > 0 {
		said = append(said, v.sayPoint("The estimate", estimate[n-1]))
	}
	if n := len(outlook); n > 0 {
		said = append(said, v.sayPoint("The outlook", outlook[n-1]))
	}
	return said
}

func (v *view) sayPoint(what string, b BandPoint) string {
	return fmt.Sprintf("%s for %s is %s, 8 times in 10 between %s and %s.", what, v.date(b.At),
		v.m.SayTemperature(b.Mid), v.m.SayTemperature(b.Low), v.m.SayTemperature(b.High))
}

func (v *view) sayMarks() []string {
	var said []string
	for kind, style := range markStyles {
		n, last := 0, time.Time{}
		for _, m := range v.marks {
			if m.Kind == MarkKind(kind) {
				n, last = n+1, m.At
			}
		}
		switch {
		case n == 1:
			said = append(said, fmt.Sprintf("%s on %s.", style.said, v.date(last)))
		case n > 1:
			said = append(said, fmt.Sprintf("%s %s, last on %s.", style.said, times(n), v.date(last)))
		}
	}
	return said
}

func (v *view) sayWeather() []string {
	var said []string
	var fallen, coming float64
	var past, ahead int
	for _, r := range v.rain {
		if r.Forecast {
			coming, ahead = coming+r.Mm, ahead+1
		} else {
			fallen, past = fallen+r.Mm, past+1
		}
	}
	if past > 0 {
		said = append(said, fmt.Sprintf("Rain so far: %s.", v.m.SayRain(fallen)))
	}
	if ahead > 0 {
		said = append(said, fmt.Sprintf("Rain to come: %s.", v.m.SayRain(coming)))
	}
	if len(v.air) > 0 {
		byDegree := func(a, b AirPoint) int { return cmp.Compare(a.C, b.C) }
		low, high := v.m.SayTemperature(slices.MinFunc(v.air, byDegree).C), v.m.SayTemperature(slices.MaxFunc(v.air, byDegree).C)
		what := "Air"
		if v.longAir() {
			what = "Air, as the mean of each day,"
		}
		said = append(said, fmt.Sprintf("%s from %s to %s.", what, low, high))
	}
	return said
}

func count(n int, one, many string) string {
	if n == 1 {
		return "One " + one
	}
	return fmt.Sprintf("%d %s", n, many)
}

func times(n int) string {
	if n == 2 {
		return "twice"
	}
	return fmt.Sprintf("%d times", n)
}
