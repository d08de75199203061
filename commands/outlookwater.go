package commands

import (
	"math"
	"time"

	"heapside/calc/heap"
	"heapside/calc/measure"
	"heapside/calc/process"
	"heapside/calc/water"
)

// What forecast rain is weighed by. Own choice.
const (
	rainHours   = 3 * 24 // ahead: a dry heap should not wait longer
	rainTold    = 2 * 24 // of them, to say that none is expected
	leastRainMm = 1.0    // less is not worth a word
)

// rainDoubt is how far forecast rain may be off, as a factor. Own choice.
var rainDoubt = measure.Range{Low: 0.5, Typical: 1, High: 1.5}

// waterLines say whether the heap wants water, how much, and what the rain to
// come would do instead.
func (d *desk) waterLines(v view, o process.Outlook) []string {
	odds := d.local.SayOdds(o.Now.Dry)
	if !o.Now.WantsWater {
		return []string{d.in.Say("None needed now: the middle is too dry (under 48 %% water) with a chance of %s.", odds)}
	}
	line := d.in.Say("About %s would bring it to 58 %%: the middle is too dry (under 48 %% water) with a chance of %s.", d.local.SayWater(o.Now.WaterL.Mid), odds)
	return appendNew([]string{line}, d.rainLine(v, o.Now))
}

// rainLine is what the rain to come would do to a heap that wants water; empty
// when too little is told, or when it changes nothing.
func (d *desk) rainLine(v view, now process.Condition) string {
	ahead, told := rainAhead(v.sky, d.call.Now)
	if ahead.RainMm.Typical < leastRainMm {
		if told < rainTold {
			return ""
		}
		return d.in.Word("No rain worth waiting for is expected within three days.")
	}
	holds, ok := content(now)
	if !ok {
		return ""
	}
	does, ok := water.ForecastDoes(holds, topOf(v, now, v.state.Covered), ahead)
	if !ok || does.InL.High == 0 {
		return ""
	}
	line := d.in.Say("The %s of rain expected within three days would let in about %s and leave it at about %.0f %% by itself: %s.",
		d.local.SayRain(ahead.RainMm.Typical), d.local.SayWater(does.InL.Typical), does.Moisture.Typical*100, d.in.Word(rainVerdict(does, now.WaterL.Mid)))
	if !v.state.Covered {
		return line
	}
	open, ok := water.ForecastDoes(holds, topOf(v, now, false), ahead)
	if !ok || open.InL.Typical < 2*does.InL.Typical {
		return line
	}
	return line + " " + d.in.Say("With the cover off it would be about %s.", d.local.SayWater(open.InL.Typical))
}

// rainVerdict says whether the rain does what the can should.
func rainVerdict(does water.Outcome, wantedL float64) string {
	switch left := func(in, drained float64) float64 { return in - drained - does.DriedL }; {
	case left(does.InL.Low, does.DrainedL.Low) >= wantedL:
		return "enough, so wait for it and squeeze a handful afterwards"
	case left(does.InL.Typical, does.DrainedL.Typical) >= wantedL/2:
		return "a good part of what it wants; squeeze a handful after it before pouring"
	}
	return "too little to wait for"
}

// rainAhead is the weather of the next hours, and of how many of them somebody
// told the rain.
func rainAhead(sky Sky, now time.Time) (ahead water.Sky, told int) {
	if sky.Rain == nil {
		return ahead, 0
	}
	mm := 0.0
	first := now.Truncate(time.Hour).Add(time.Hour)
	for i := range rainHours {
		at := first.Add(time.Duration(i) * time.Hour)
		if rain, ok := sky.Rain(at); ok {
			mm += rain
			told++
		}
		if h, ok := sky.Hours.Hour(at); ok {
			ahead.ET0Mm += h.ET0Mm
		}
	}
	ahead.RainMm = rainDoubt.Scale(mm)
	return ahead, told
}

// content is what a heap holds by the middle of its bands: what it lacks to a
// known moisture tells how much dry matter there is. It is false for a heap that
// lacks nothing.
func content(now process.Condition) (water.Content, bool) {
	perDry := func(wet float64) float64 { return wet / (1 - wet) } // kg of water per kg dry
	holds := perDry(now.Moisture.Mid)
	dryKg := now.WaterL.Mid / (perDry(process.WaterTo) - holds)
	if !(dryKg > 0) || math.IsInf(dryKg, 0) {
		return water.Content{}, false
	}
	return water.Content{DryKg: dryKg, WaterKg: dryKg * holds}, true
}

// topOf is how the heap meets the sky, covered as it is now or open.
func topOf(v view, now process.Condition, covered bool) water.Top {
	return water.Top{
		CatchM2: water.CatchM2(v.heap.Container, v.heap.SizeL, now.VolumeL.Mid),
		RainIn:  water.RainIn(v.heap.Container, covered, coverOf(v.state)),
		Wetness: min(1, now.Moisture.Mid/process.WaterTo), // own choice: as wet as the heap
	}
}

// coverOf is what the heap was covered with last, in anyone's words.
func coverOf(s heap.State) string {
	with := s.Heap.Cover
	for _, e := range s.Entries {
		switch p := e.Payload.(type) {
		case heap.Covered:
			with = p.With
		case heap.Changed:
			if p.Field == "cover" {
				with = p.To
			}
		}
	}
	return with
}
