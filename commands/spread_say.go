package commands

import (
	"math"

	"heapside/calc/spread"
)

// volumeBasis is what area, depth and volume rest on.
const volumeBasis = "volume: area times depth, held to worked examples of Cornell Waste Management Institute and Deschutes County"

// spreadNeed answers how much compost beds need.
func (d *desk) spreadNeed(s spreading) Reply {
	litres := spread.Litres(s.areaM2(), s.layerCm())
	loads := spread.Loads(litres, d.m)
	where, deep := d.bedsText(s), d.local.SayDepth(s.layerCm())
	what := d.in.Say("For %s at %s.", where, deep)
	if s.beds > 1 {
		what = d.in.Say("For %s, at %s.", where, deep)
	}
	r := Reply{
		Headline: d.in.Say("About %s.", d.fetched(litres, loads)),
		Body:     []Block{{Lines: []string{what}}},
		Basis:    []string{volumeBasis},
		Values:   d.layerValues(s),
	}
	r.Values["need"] = Value{round(litres), "l"}
	for _, l := range loads {
		r.Values["need."+l.Unit.ID+"s"] = Value{l.N, "1"}
		r.Basis = appendNew(r.Basis, l.Unit.One+": "+l.Unit.Source)
	}
	return r
}

// fetched is a volume and what it is carried in: "150 litres: 13 buckets or 2 barrows".
func (d *desk) fetched(litres float64, loads []spread.Load) string {
	said := d.local.SayLoose(litres)
	if len(loads) == 0 {
		if carried := d.local.SayVolume(litres); carried != said && litres < bigLitres {
			return said + ", " + carried
		}
		return said
	}
	return d.in.Say("%s: %s", said, d.waysText(loads))
}

func (d *desk) waysText(loads []spread.Load) string {
	ways := make([]string, len(loads))
	for i, l := range loads {
		ways[i] = l.Say(d.local)
	}
	return d.in.List(ways, "or")
}

// bigLitres is where counting in buckets and barrows ends: own choice.
const bigLitres = 1000

// bedsText is the area as it was meant: "3 m²", "4 beds of 3½ m², 14 m² in all".
func (d *desk) bedsText(s spreading) string {
	if s.beds == 0 {
		return d.local.SayArea(s.areaM2())
	}
	if s.beds <= 1 {
		return d.in.Say("1 bed of %s", d.local.SayArea(s.oneBedM2()))
	}
	return d.in.Say("%s beds of %s, %s in all", d.local.SayNumber(s.beds), d.local.SayArea(s.oneBedM2()), d.local.SayArea(s.areaM2()))
}

// spreadCover answers how far an amount goes.
func (d *desk) spreadCover(s spreading) Reply {
	m2 := spread.AreaM2(s.litres, s.layerCm())
	r := Reply{
		Headline: d.in.Say("%s at %s: about %s, %s.", capital(d.said(s)), d.local.SayDepth(s.layerCm()), d.local.SayArea(m2), d.served(m2, m2, s)),
		Basis:    []string{volumeBasis},
		Values:   d.layerValues(s),
	}
	r.Values["have"] = Value{round(s.litres), "l"}
	r.Values["covers"] = Value{round(m2), "m2"}
	r.Values["covers.beds"] = Value{round(m2 / s.oneBedM2()), "1"}
	if need := spread.Litres(s.areaM2(), s.layerCm()); need > 0 {
		there, deep, enough := capital(d.said(s)), d.local.SayDepth(s.layerCm()), d.enough(s.litres, need)
		r.Headline = d.in.Say("%s for %s at %s: %s.", there, d.bedsText(s), deep, enough)
		if s.beds > 1 {
			r.Headline = d.in.Say("%s for %s, at %s: %s.", there, d.bedsText(s), deep, enough)
		}
		r.Values["need"] = Value{round(need), "l"}
	}
	return r
}

// said is the amount in the person's words, with litres where those tell nothing.
func (d *desk) said(s spreading) string {
	said := quote(s.amount.Said)
	if d.m.SayLoose(s.litres) != said && s.amount.Unit.Container {
		return d.in.Say("%s (about %s)", said, d.local.SayLoose(s.litres))
	}
	return said
}

// enough compares what there is with what is needed.
func (d *desk) enough(have, need float64) string {
	switch spare := have - need; {
	case math.Abs(spare) <= need*nearEnough:
		return d.in.Word("just about right")
	case spare > 0:
		return d.in.Say("enough, about %s to spare", d.local.SayLoose(spare))
	default:
		return d.in.Say("about %s short of %s", d.local.SayLoose(-spare), d.local.SayLoose(need))
	}
}

// nearEnough is how far off a need an amount may be and still be about right: own choice.
const nearEnough = 0.05

// spreadDepth answers how thick an amount lies on an area.
func (d *desk) spreadDepth(s spreading) Reply {
	s.depthCm = spread.DepthCm(s.litres, s.areaM2())
	r := Reply{
		Headline: d.in.Say("%s on %s: a layer of about %s.", capital(d.said(s)), d.bedsText(s), d.local.SayDepth(s.depthCm)),
		Basis:    []string{volumeBasis},
		Values:   d.layerValues(s),
	}
	if s.crop.TooThick(s.depthCm) {
		r.Body = []Block{{Lines: d.layerLines(s)[:1]}}
	}
	r.Values["have"] = Value{round(s.litres), "l"}
	return r
}

// served says how many beds areas from low to high are, in halves and never more than they do.
func (d *desk) served(lowM2, highM2 float64, s spreading) string {
	bed := s.oneBedM2()
	low, high := halves(lowM2/bed), halves(highM2/bed)
	of := d.local.SayArea(bed)
	switch {
	case high == 0:
		return d.in.Say("less than half a bed of %s", of)
	case low == 0:
		return d.in.Say("up to %s", d.bedCount(high, of))
	case low == high:
		return d.bedCount(low, of)
	}
	return d.in.Say("%s to %s", d.local.SayNumber(low), d.bedCount(high, of))
}

func halves(v float64) float64 {
	if v >= 10 {
		return math.Floor(v)
	}
	return math.Floor(v*2*(1+1e-9)) / 2
}

func (d *desk) bedCount(n float64, of string) string {
	switch n {
	case 0.5:
		return d.in.Say("half a bed of %s", of)
	case 1:
		return d.in.Say("1 bed of %s", of)
	}
	return d.in.Say("%s beds of %s", d.local.SayNumber(n), of)
}

func (d *desk) layerValues(s spreading) map[string]Value {
	values := map[string]Value{"depth": {round(s.layerCm()), "cm"}, "crop": {s.crop.Name, ""}}
	if m2 := s.areaM2(); m2 > 0 {
		values["area"] = Value{round(m2), "m2"}
	}
	return values
}
