// Package mix computes what a blend of materials is and what to add to put it
// right, by mass balance on dry matter over uncertain properties.
package mix

import (
	"heapside/calc/feedstock"
	"heapside/calc/measure"
)

// Part is an amount of one material. Exactly one of Volume (litres) and Mass
// (kilograms, as it is) is given; the other follows from the loose density.
type Part struct {
	Feedstock feedstock.Feedstock
	Volume    measure.Range
	Mass      measure.Range
}

// Window is an accepted interval and the value aimed for inside it.
type Window struct{ Low, Aim, High float64 }

// Aim is what a good blend is: C:N, moisture in % wet basis, the highest bulk
// density in kg/m3 and the least free air space in % of volume.
type Aim struct {
	CN         Window
	Moisture   Window
	MaxDensity float64
	MinAir     float64
}

// Stat is a typical value with the 10 and 90 % points of the draws.
type Stat struct{ Typical, Low, High float64 }

// Profile describes a blend: C:N, moisture %, bulk density kg/m3, free air
// space %. Holds is the share of draws (0 to 1) inside the wider published
// bounds, C:N 20-40 and moisture 40-65 %.
type Profile struct {
	CN, Moisture, Density, Air Stat
	Holds                      float64
}

// Addition is one material of a recipe, already rounded to a whole measure.
type Addition struct {
	Feedstock feedstock.Feedstock
	VolumeL   float64
	MassKg    float64
}

// Recipe is a set of at most three additions plus water, and what the blend is
// with them. Feasible is true only when the rounded amounts meet the Aim at
// typical values.
type Recipe struct {
	Additions []Addition
	WaterL    float64
	After     Profile
	CarryKg   float64
	Feasible  bool
}

// Candidate is a material that may be added, with what is on hand in litres
// (0: no limit).
type Candidate struct {
	Feedstock feedstock.Feedstock
	MaxL      float64
}

// Request asks what to add to Inputs.
type Request struct {
	Inputs       []Part
	Candidates   []Candidate
	Everything   []feedstock.Feedstock // where to look for the one thing that would fix it
	Aim          Aim
	Measures     measure.Measures // whole measures to round to, and the language of Short
	Seed         uint64
	Draws        int // at least 500; 0 means the default
	Alternatives int // how many recipes at most; 0 means 3
}

// Input is a Part resolved to both mass (kg) and volume (litres).
type Input struct {
	Feedstock       feedstock.Feedstock
	VolumeL, MassKg float64
}

// Answer is what the inputs are and what to add. Recipes is empty when nothing
// works with the candidates; then Closest is the nearest miss, Short says in
// words what it still lacks, and Fix names the one further material that would
// mend it, with a recipe that uses it.
type Answer struct {
	Inputs  []Input
	Before  Profile
	Recipes []Recipe
	Closest *Recipe
	Short   string
	Fix     *Recipe
}
