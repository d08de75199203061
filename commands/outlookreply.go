package commands

import (
	"fmt"
	"math"
	"time"

	"heapside/calc/heap"
	"heapside/calc/process"
)

// Days ahead that the headline and the table name. Own choice: what a group
// plans by.
var (
	headlineDays = []int{3, 7}
	tableDays    = []int{1, 3, 7, 14}
)

func (d *desk) outlookReply(v view, o process.Outlook, tally process.Tally) Reply {
	r := Reply{
		Headline: d.outlookHeadline(v.heap, o),
		Basis:    d.outlookBasis(v),
		Values:   d.outlookValues(o),
	}
	r.Body = []Block{
		{Title: d.in.Word("The next two weeks, left alone"), Lines: d.dayLines(o)},
		{Title: d.in.Word("When it is likely ready"), Lines: d.readyLines(o)},
		{Title: d.in.Word("Turning"), Lines: d.turnLines(o.Turning)},
		{Title: d.in.Word("Water"), Lines: d.waterLines(v, o)},
		{Title: d.in.Word("How sure"), Lines: d.sureLines(v, o, tally)},
	}
	if o.Now.HotShare >= 0.5 && o.Now.Reading.Mid >= tooHotC {
		r.Cautions = []string{"Above about 71 °C a heap can begin to smoulder: turn and wet it (NC DEQ)."}
	}
	return r
}

// tooHotC is where the reply brings the caution of fire, a little under the
// 160 F (71 C) of NC DEQ.
const tooHotC = 68

func (d *desk) outlookHeadline(h heap.Heap, o process.Outlook) string {
	said := d.in.Say("%s: about %s now", h.Name, d.m.SayTemperature(o.Now.Reading.Mid))
	days := d.daysAhead(o)
	for _, n := range headlineDays {
		if n <= len(days) {
			said = d.in.Say("%s, %s in %d days", said, d.m.SayTemperature(days[n-1].Reading.Mid), n)
		}
	}
	switch likely := soonest(o).Likely; {
	case likely.IsZero():
	case likely.Sub(o.At) < 24*time.Hour:
		said = d.in.Say("%s; likely ready by now", said)
	default:
		said = d.in.Say("%s; likely ready around %s", said, d.date(likely))
	}
	return said + "."
}

// daysAhead are the days of an outlook from tomorrow on: before noon its first is
// today's.
func (d *desk) daysAhead(o process.Outlook) []process.Day {
	if today := o.At.In(d.zone).YearDay(); len(o.Days) > 1 && o.Days[0].At.In(d.zone).YearDay() == today {
		return o.Days[1:]
	}
	return o.Days
}

// soonest is when the heap is ready if it is looked after, or left alone if
// that does no worse.
func soonest(o process.Outlook) process.Ready {
	if o.Cared.Likely.IsZero() || !o.Ready.Likely.IsZero() && o.Ready.Likely.Before(o.Cared.Likely) {
		return o.Ready
	}
	return o.Cared
}

// date prints a day of the garden's calendar, with the year when it is another.
func (d *desk) date(t time.Time) string {
	local := t.In(d.zone)
	if local.Year() == d.call.Now.In(d.zone).Year() {
		return d.in.LongDay(local)
	}
	return d.in.LongDate(local)
}

func (d *desk) dayLines(o process.Outlook) []string {
	lines := []string{d.in.Say("Now: %s, %s", d.bandC(o.Now.Reading), d.moistureText(o.Now.Moisture))}
	days := d.daysAhead(o)
	for _, n := range tableDays {
		day := days[min(n, len(days))-1]
		lines = append(lines, d.in.Say("%s: %s, %s", d.in.Day(day.At.In(d.zone)), d.bandC(day.Reading), d.moistureText(day.Moisture)))
	}
	last := days[len(days)-1]
	return append(lines, d.in.Say("Volume: about %s now, %s in two weeks.", d.local.SayBulk(o.Now.VolumeL.Mid), d.local.SayBulk(last.VolumeL.Mid)))
}

// bandC prints a temperature with the band that 8 of 10 readings should fall in.
func (d *desk) bandC(b process.Band) string {
	return d.in.Say("%s, likely %s to %s", d.m.SayTemperature(b.Mid), d.m.SayTemperature(b.Low), d.m.SayTemperature(b.High))
}

func (d *desk) moistureText(b process.Band) string { return d.in.Say("%.0f %% water", b.Mid*100) }

func (d *desk) readyLines(o process.Outlook) []string {
	alone, cared := d.readySpan(o, o.Ready), d.readySpan(o, o.Cared)
	if alone == cared {
		return []string{capital(alone)}
	}
	return []string{d.in.Say("Turned when it gains most and kept moist: %s", cared), d.in.Say("Left alone: %s", alone)}
}

func (d *desk) readySpan(o process.Outlook, r process.Ready) string {
	switch {
	case r.Likely.IsZero() && r.Early.IsZero():
		return d.in.Word("not within 300 days.")
	case r.Likely.IsZero():
		return d.in.Say("%s at the earliest, but more likely not within 300 days.", d.date(r.Early))
	case r.Late.Sub(o.At) < 24*time.Hour && !r.Late.IsZero():
		return d.in.Word("ready by now, by the model's rule; “ready” says what the record shows.")
	case r.Late.IsZero():
		return d.in.Say("around %s, %s at the earliest; it may well take longer than 300 days.", d.date(r.Likely), d.date(r.Early))
	}
	return d.in.Say("around %s, %s at the earliest, %s at the latest.", d.date(r.Likely), d.date(r.Early), d.date(r.Late))
}

func (d *desk) turnLines(t process.Turning) []string {
	if !t.Worth || len(t.Ranges) == 0 {
		return []string{d.in.Word("Turning in the next two weeks would gain little by itself; the rules of “next” still hold.")}
	}
	var lines []string
	for i, days := range t.Ranges {
		line := d.in.Say("%s: about %s sooner", capital(d.daySpan(days)), d.daysText(days.GainDays.Mid))
		if days.GainC.Mid >= 1 {
			line = d.in.Say("%s, and %s hotter than without", line, d.gainC(days.GainC.Mid))
		}
		if i == 0 && t.Flat {
			line = d.in.Say("%s; any of these days is about as good", line)
		}
		lines = append(lines, line+".")
	}
	if t.CalledFor >= 0 && t.Why != "" {
		lines = append(lines, d.in.Say("It asks for it %s: %s.", d.onDay(t.CalledFor), d.in.Word(t.Why)))
	}
	return lines
}

func (d *desk) gainC(c float64) string {
	if d.m.Fahrenheit {
		return fmt.Sprintf("%.0f °F", c*9/5)
	}
	return fmt.Sprintf("%.0f °C", c)
}

func (d *desk) daysText(v float64) string {
	if n := int(math.Round(v)); n > 1 {
		return d.in.Say("%d days", n)
	}
	return d.in.Word("a day")
}

func (d *desk) daySpan(t process.TurnDays) string {
	if t.From == t.To {
		return d.in.Say("turned %s", d.onDay(t.From))
	}
	return d.in.Say("turned between %s and %s", d.dayAhead(t.From), d.dayAhead(t.To))
}

func (d *desk) onDay(n int) string {
	if n > 1 {
		return d.in.Say("on %s", d.dayAhead(n))
	}
	return d.dayAhead(n)
}

func (d *desk) dayAhead(n int) string {
	switch n {
	case 0:
		return d.in.Word("today")
	case 1:
		return d.in.Word("tomorrow")
	}
	return d.in.Day(d.call.Now.In(d.zone).AddDate(0, 0, n))
}

func (d *desk) sureLines(v view, o process.Outlook, tally process.Tally) []string {
	lines := []string{d.in.Word("“Likely” should hold 8 times in 10.") + " " + d.heldBefore(tally)}
	if tally.Outlooks > 1 && !math.IsNaN(tally.PersistErr) {
		lines = append(lines, d.in.Say("They missed by %s on average; taking the last reading again would have missed by %s.",
			d.gainC(tally.MeanErr), d.gainC(tally.PersistErr)))
	}
	if len(v.state.Readings) == 0 {
		lines = append(lines, d.in.Word("No temperature is on record yet: one reading narrows this more than anything."))
	}
	return appendNew(lines, d.skyLine(v.sky, o.Unknown))
}

// heldBefore says how earlier outlooks fared.
func (d *desk) heldBefore(t process.Tally) string {
	if t.Outlooks > 1 {
		return d.in.Say("Of %d earlier outlooks, %d held; about %d should.", t.Outlooks, t.Held, t.Should())
	}
	return d.in.Word(t.String())
}

func (d *desk) outlookBasis(v view) []string {
	basis := []string{
		fmt.Sprintf("%d temperature %s, %d %s, %d %s on record", len(v.state.Readings), plural(len(v.state.Readings), "reading", "readings"),
			len(v.state.Turns), plural(len(v.state.Turns), "turning", "turnings"), len(v.state.Waterings), plural(len(v.state.Waterings), "watering", "waterings")),
		"own two-zone heap model after Haug 1993, Rosso et al. 1995 and others, 256 members; not yet tested on many garden heaps",
	}
	for _, credit := range v.sky.Credits {
		basis = appendNew(basis, credit)
	}
	return basis
}

func (d *desk) outlookValues(o process.Outlook) map[string]Value {
	values := map[string]Value{
		"phase": {string(o.Now.Phase), ""},
		"dry":   {round(o.Now.Dry), "1"},
		"water": {round(o.Now.WaterL.Mid), "l"},
	}
	band := func(name, unit string, b process.Band, scale float64) {
		values[name] = Value{round(b.Mid * scale), unit}
		values[name+".low"] = Value{round(b.Low * scale), unit}
		values[name+".high"] = Value{round(b.High * scale), unit}
	}
	band("temp.now", "Cel", o.Now.Reading, 1)
	band("moisture.now", "%", o.Now.Moisture, 100)
	band("volume.now", "l", o.Now.VolumeL, 1)
	for i, day := range d.daysAhead(o) {
		band(fmt.Sprintf("temp.day.%d", i+1), "Cel", day.Reading, 1)
		band(fmt.Sprintf("moisture.day.%d", i+1), "%", day.Moisture, 100)
	}
	for name, r := range map[string]process.Ready{"ready": o.Ready, "cared": o.Cared} {
		for key, t := range map[string]time.Time{"early": r.Early, "likely": r.Likely, "late": r.Late} {
			if !t.IsZero() {
				values[name+"."+key] = Value{t.UTC().Format(time.DateOnly), ""}
			}
		}
	}
	return values
}
