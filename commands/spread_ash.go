package commands

import (
	"math"

	"heapside/calc/measure"
	"heapside/calc/spread"
)

// spreadAsh answers how much wood ash an area takes, or what area an amount needs.
func (d *desk) spreadAsh(s spreading) Reply {
	r := Reply{Basis: []string{spread.AshSource}, Cautions: spread.AshCautions, Values: map[string]Value{"crop": {s.crop.Name, ""}}}
	ash, _ := d.table.ByID(ashID)
	perLitre := ash.Density.Typical / 1000
	kg := 0.0
	if mass, ok := s.amount.Mass(); ok {
		kg = mass.Typical
	} else if volume, ok := s.amount.Volume(); ok {
		kg = volume.Typical * perLitre
	}
	what := d.in.Say("%s of wood ash", quote(s.amount.Said))
	if s.amount.Unit.Dim == measure.Volume {
		what = d.in.Say("%s of wood ash, about %s,", quote(s.amount.Said), d.local.SayMass(kg))
	}
	low, high := spread.Ash(s.areaM2())
	switch area := s.areaM2(); {
	case s.crop.Name == spread.AcidLovers:
		r.Headline, r.Cautions = d.in.Word("No wood ash on acid lovers: it is limy."), nil
		return r
	case kg > 0 && area == 0:
		from, to := spread.AshM2(kg)
		r.Headline = d.in.Say("%s on %s at least, better %s.", capital(what), d.local.SayArea(from), d.local.SayArea(to))
		r.Values["ash"], r.Values["area.least"], r.Values["area.better"] = Value{round(kg), "kg"}, Value{round(from), "m2"}, Value{round(to), "m2"}
	case area == 0:
		from, to := spread.Ash(100)
		r.Headline = d.in.Say("At most %s of wood ash on %s. Say the area: spread ash 20 m2.", d.ashSpan(from, to), d.local.SayArea(100))
	case kg > 0:
		r.Headline = d.in.Say("%s on %s: %s; at most %s.", capital(what), d.bedsText(s), d.in.Word(ashVerdict(kg, low, high)), d.ashSpan(low, high))
	default:
		r.Headline = d.in.Say("At most %s of wood ash on %s.", d.ashSpan(low, high), d.bedsText(s))
	}
	if low > 0 {
		r.Values["ash.most.low"], r.Values["ash.most.high"], r.Values["area"] = Value{round(low), "kg"}, Value{round(high), "kg"}, Value{round(s.areaM2()), "m2"}
	}
	r.Body = []Block{{Lines: d.ashLines(s, low, high, perLitre)}}
	return r
}

// ashSpan is a span of limits in the group's units, rounded down: a limit is not
// rounded past.
func (d *desk) ashSpan(lowKg, highKg float64) string {
	return d.spanOf(d.massDown(lowKg), d.massDown(highKg))
}

// massDown writes kilograms or pounds rounded down, below one in grams or ounces.
func (d *desk) massDown(kg float64) string {
	unit, _ := d.m.Unit("kg")
	small, _ := d.m.Unit("g")
	step := 10.0
	if d.m.System == measure.US || d.m.System == measure.Imperial {
		unit, _ = d.m.Unit("lb")
		small, _ = d.m.Unit("oz")
		step = 0.25
	}
	switch n := kg / unit.Size.Typical; {
	case n >= 10*(1-1e-9):
		return d.local.SayNumber(down(n, 1)) + " " + unit.Many
	case n >= 1:
		return d.local.SayNumber(down(n, 0.1)) + " " + unit.Many
	}
	return d.local.SayNumber(down(kg/small.Size.Typical, step)) + " " + small.Many
}

func (d *desk) volumeDown(litres float64) string {
	return d.local.SayVolume(down(litres, d.m.Step(litres)))
}

// down rounds down to a whole number of steps, at least one.
func down(v, step float64) float64 { return max(1, math.Floor(v/step+1e-9)) * step }

func ashVerdict(kg, low, high float64) string {
	switch {
	case kg > high:
		return "too much"
	case kg > low:
		return "as much as it takes"
	}
	return "within the limit"
}

func (d *desk) ashLines(s spreading, low, high, perLitre float64) []string {
	var lines []string
	if low > 0 && perLitre > 0 {
		lines = append(lines, d.in.Say("That is about %s; how heavy ash lies is from memory, so weigh it.", d.spanOf(d.volumeDown(low/perLitre), d.volumeDown(high/perLitre))))
	}
	if s.crop.Name != spread.Lawn {
		lines = append(lines, d.in.Word("The limit is for lawns; no source was found for beds."))
	}
	if s.depthCm > 0 {
		lines = append(lines, d.in.Word("Ash goes by weight, not by depth."))
	}
	return append(lines, d.in.Say("Or mix it in as a heap is built: %s", "log add 1 litre of wood ash"))
}

// spreadLime answers that no figure can be given without a test of the soil.
func (d *desk) spreadLime(s spreading) Reply {
	r := Reply{
		Headline: d.in.Word("How much lime depends on the soil's pH: test it first, then go by the packet."),
		Cautions: spread.LimeCautions,
		Basis:    []string{"lime by a soil test: " + spread.CommonPractice},
		Values:   map[string]Value{"crop": {s.crop.Name, ""}},
	}
	if s.crop.Name == spread.AcidLovers {
		r.Headline = d.in.Word("No lime on acid lovers.")
	}
	return r
}
