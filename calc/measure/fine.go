package measure

import "math"

// fine is the share that an amount may be off when it is written in whole
// measures, where the amount itself was reckoned finer. Own choice.
const fine = 0.02

// SayFine writes litres of material as SayVolume does, but in parts of the
// measure ("5½ litres", "1¼ gallons") where whole ones would be more than a
// fiftieth off: what is added to a small load is reckoned finer than a group
// usually measures.
func (m Measures) SayFine(litres float64) string {
	if !(litres > 0) {
		return m.Style.word("nothing")
	}
	n, unit := m.carried(litres)
	if math.Abs(n*unit.Size.Typical-litres) <= fine*litres {
		return m.sayCarried(n, unit, litres)
	}
	unit = m.rungOf(litres).unit
	return m.sayCarried(litres/unit.Size.Typical, unit, litres)
}

// SayFineWater writes litres of water as SayWater does, but finer ("250 ml",
// "1 pint") where that would be more than a fiftieth off.
func (m Measures) SayFineWater(litres float64) string {
	if !(litres > 0) {
		return m.Style.word("nothing")
	}
	unit, _ := m.waterScale()
	size := unit.Size.Typical
	if math.Abs(roundTo(litres, m.WaterStep(litres))-litres) <= fine*litres {
		return m.SayWater(litres)
	}
	if litres < size {
		if unit = trueByID["ml"].unit(); m.System == US || m.System == Imperial {
			unit, _, _ = m.resolve("pint")
		}
		size = unit.Size.Typical
	}
	return m.Style.counted(litres/size, unit.One, unit.Many)
}
