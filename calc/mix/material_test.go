package mix

import (
	"fmt"
	"math"
	"math/rand/v2"

	"heapside/calc/feedstock"
	"heapside/calc/measure"
)

// stuff is a material of exact properties: C %, C:N, moisture %, kg/m3.
func stuff(id string, carbon, cn, moisture, density float64) feedstock.Feedstock {
	exact := func(v float64) feedstock.Property { return feedstock.Property{Range: measure.Exact(v)} }
	return feedstock.Feedstock{
		ID: id, Name: id, Carbon: exact(carbon), CN: exact(cn), Moisture: exact(moisture),
		Density: exact(density), Volatile: exact(90), Degradable: exact(0.5), Everyday: 3,
	}
}

// ranged widens every property of f by share on either side.
func ranged(f feedstock.Feedstock, share float64) feedstock.Feedstock {
	for _, p := range []*feedstock.Property{&f.Carbon, &f.CN, &f.Moisture, &f.Density, &f.Volatile} {
		p.Low, p.High = p.Typical*(1-share), p.Typical*(1+share)
	}
	f.Moisture.High, f.Volatile.High = math.Min(99, f.Moisture.High), math.Min(100, f.Volatile.High)
	f.Moisture.Typical, f.Volatile.Typical = math.Min(99, f.Moisture.Typical), math.Min(100, f.Volatile.Typical)
	return f
}

// Round typical values, chosen between NRCS, SWOLF and memory: fit for laws, not
// for checks of the table.
var (
	grass     = ranged(stuff("grass", 45, 17, 80, 250), 0.2)
	leaves    = ranged(stuff("leaves", 44, 54, 30, 90), 0.2)
	straw     = ranged(stuff("straw", 46, 80, 12, 40), 0.2)
	cardboard = ranged(stuff("cardboard", 41, 450, 8, 59), 0.1)
	scraps    = ranged(stuff("scraps", 48, 18, 76, 320), 0.2)
	muck      = ranged(stuff("muck", 43, 19, 79, 850), 0.1)
	shells    = feedstock.Feedstock{ID: "shells", Name: "egg shells", Mineral: true,
		Moisture: feedstock.Property{Range: measure.Exact(5)}, Density: feedstock.Property{Range: measure.Exact(400)},
		Volatile: feedstock.Property{Range: measure.Exact(5)}}
)

func litres(f feedstock.Feedstock, l float64) Part {
	return Part{Feedstock: f, Volume: measure.Exact(l)}
}

// mixed is the blend of l litres of f at typical values.
func mixed(f feedstock.Feedstock, l float64) Blend { return Blend{}.Add(litres(f, l)) }

// around is the window five either side of v.
func around(v float64) Window { return Window{v - 5, v, v + 5} }

func kilos(f feedstock.Feedstock, kg float64) Part {
	return Part{Feedstock: f, Mass: measure.Exact(kg)}
}

func offered(fs ...feedstock.Feedstock) []Candidate {
	out := make([]Candidate, len(fs))
	for i, f := range fs {
		out[i].Feedstock = f
	}
	return out
}

// anyMaterial is a random material within what gardens bring.
func anyMaterial(r *rand.Rand, id int) feedstock.Feedstock {
	f := stuff(fmt.Sprintf("m%03d-x", id), 30+20*r.Float64(), math.Exp(math.Log(6)+math.Log(100)*r.Float64()),
		5+85*r.Float64(), math.Exp(math.Log(30)+math.Log(25)*r.Float64()))
	f.Volatile.Range = measure.Exact(50 + 49*r.Float64())
	f.Everyday = 1 + r.IntN(3)
	f.Mineral = r.IntN(12) == 0
	return ranged(f, 0.15*r.Float64())
}

// anyAim is the default three times in four, else random windows.
func anyAim(r *rand.Rand) Aim {
	aim := DefaultAim()
	if r.IntN(4) == 0 {
		aim.CN = around(18 + 25*r.Float64())
		aim.Moisture = around(40 + 25*r.Float64())
		aim.MaxDensity = 250 + 600*r.Float64()
	}
	return aim
}

// anyRequest has one to three inputs and up to most candidates.
func anyRequest(r *rand.Rand, most int) Request {
	req := Request{Aim: anyAim(r), Draws: minDraws, Seed: r.Uint64()}
	for i := range 1 + r.IntN(3) {
		req.Inputs = append(req.Inputs, litres(anyMaterial(r, i), 5+200*r.Float64()))
	}
	for i := range r.IntN(most + 1) {
		c := Candidate{Feedstock: anyMaterial(r, 100+i)}
		if r.IntN(3) == 0 {
			c.MaxL = 1 + 150*r.Float64()
		}
		req.Candidates = append(req.Candidates, c)
	}
	return req
}
