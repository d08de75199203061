package advice

import (
	"math"

	"heapside/calc/feedstock"
)

// What the estimate of water rests on.
const (
	dryMoisture  = 0.35     // wet basis: a handful that crumbles is below about 40 %, seldom below 30 (own choice)
	goalMoisture = 0.55     // the middle of 50-60 % (AgriFutures, Water, seen)
	guessedWater = 0.60     // of a material that the table does not know (own choice)
	lostShare    = 0.5      // of the dry matter gone after lostAfter: "about 50 % of mass in 90 days" (Embrapa, seen second-hand)
	lostAfter    = 90 * day // and nothing more after it (own choice)
	mostPerLitre = 0.099    // litres of water per litre of heap: 20 US gal per cubic yard of leaves (NJDEP Table 2 note 3, seen)
)

// litresToAdd estimates the water that takes a dry heap to goalMoisture, in
// whole measures; 0 when nothing is known of what went in.
//
// It is W = Q (G - M) / (100 - G) with Q written as dry matter / (1 - M), so
// that material put in wet and dried out since is not counted as it was.
func litresToAdd(l *look) float64 {
	dry := dryMatter(l) * (1 - lostShare*min(1, float64(max(l.Age, 0))/float64(lostAfter)))
	litres := dry * (perDry(goalMoisture) - perDry(dryMoisture))
	if l.VolumeL > 0 {
		litres = min(litres, l.VolumeL*mostPerLitre)
	}
	if !(litres > 0) || math.IsInf(litres, 0) {
		return 0
	}
	step := l.say.WaterStep(litres)
	return max(step, math.Round(litres/step)*step)
}

// dryMatter is the dry mass of what was put in, in kg.
func dryMatter(l *look) float64 {
	table := feedstock.Default()
	var kg float64
	for _, a := range l.Content {
		water := guessedWater
		if f, ok := table.ByID(a.Material); ok {
			water = f.Moisture.Typical / 100
		}
		kg += a.MassKg * (1 - water)
	}
	return kg
}

// perDry is the kg of water beside each kg of dry matter at a moisture on wet basis.
func perDry(moisture float64) float64 { return moisture / (1 - moisture) }
