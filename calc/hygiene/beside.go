package hygiene

import (
	"math"
	"time"

	"heapside/calc/heap"
)

// Tells is what a trial tells of the heat that a heap held.
type Tells string

// What a trial tells. Where it can be taken in two ways, the one that promises
// less counts.
const (
	NoneLeft         Tells = "none left"          // as much heat as was read killed it
	NoneLeftProbably Tells = "none left probably" // as much heat as there probably was
	Outlived         Tells = "outlived"           // some of it outlived as much heat or more
	NeedsMore        Tells = "needs more"         // what killed it was more heat than there was
	TimeUntold       Tells = "time untold"        // the temperature that killed it was reached; for how long it takes is not known
	HeatUntold       Tells = "heat untold"        // the trial gives no temperature
	Milder           Tells = "milder"             // it outlived less heat, which says nothing
)

// Beside is a trial beside the heat of one heap: how long its middle stood at
// the temperature of the trial, as close readings show and probably.
type Beside struct {
	Trial
	Certain, Probable time.Duration
	Tells             Tells
}

// hotterBy is by how much a heap is hotter than a trial that gives no time, for
// the trial to say nothing of it (own choice: a thermometer's error).
const hotterBy = 1.0

// Compare puts trials beside the heat that a heap held since it was last filled.
func Compare(trials []Trial, s heap.State, curve Curve) []Beside {
	var all []Beside
	for _, t := range trials {
		b := Beside{Trial: t}
		at := max(t.C, t.MostC)
		if t.Over {
			at = math.Nextafter(at, math.Inf(1))
		}
		if at > 0 {
			b.Certain, b.Probable = Held(s, curve, at)
		}
		_, hotter := Held(s, curve, at+hotterBy)
		b.Tells = b.tells(at, hotter > 0)
		all = append(all, b)
	}
	return all
}

// tells judges the trial; hotter says that the heap was hotter than it.
func (b Beside) tells(at float64, hotter bool) Tells {
	switch {
	case at == 0:
		return HeatUntold
	case b.Effect != Killed:
		if (b.Below || b.For == 0) && (hotter || b.Below && b.Probable > 0) || !b.Bears(max(b.C, b.MostC), b.Probable) {
			return Milder
		}
		return Outlived
	case b.Probable == 0 && b.Certain == 0:
		return NeedsMore
	case b.For == 0:
		return TimeUntold
	case b.Bears(at, b.Certain):
		return NoneLeft
	case b.Bears(at, b.Probable):
		return NoneLeftProbably
	}
	return NeedsMore
}
