// Package spread says how far compost goes: from area and depth to volume and
// back, what a heap gives, and what to mind before it goes on a bed.
package spread

// litresPerM2Cm is a layer of a centimetre on a square metre. The trade's
// yd3 = ft2 x in / 324 is the same; Cornell's formula page prints 0.0031 for
// 1/324, which is 0.44 % more.
const litresPerM2Cm = 10

// Litres is what a layer of depthCm on areaM2 takes.
func Litres(areaM2, depthCm float64) float64 { return areaM2 * depthCm * litresPerM2Cm }

// AreaM2 is what that many litres cover at depthCm > 0.
func AreaM2(litres, depthCm float64) float64 { return litres / (depthCm * litresPerM2Cm) }

// DepthCm is how thick that many litres lie on areaM2 > 0.
func DepthCm(litres, areaM2 float64) float64 { return litres / (areaM2 * litresPerM2Cm) }

// BedM2 is the bed that is reckoned with where none was said (own choice: 3 by 1 m).
const BedM2 = 3

// Marks for what has no published source.
const (
	CommonPractice = "common practice, no source"
	OwnChoice      = "own choice"
)
