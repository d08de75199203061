package water

import (
	"math"

	"heapside/calc/measure"
)

// Content is how much dry matter and water a heap holds, in kilograms.
type Content struct{ DryKg, WaterKg float64 }

// Moisture is the share of water by wet weight, 0 to 1; 0 of nothing.
func (c Content) Moisture() float64 {
	if !(c.DryKg+c.WaterKg > 0) {
		return 0
	}
	return c.WaterKg / (c.DryKg + c.WaterKg)
}

// Wanted is the litres of water that take a heap to a moisture of aimWet (wet
// basis, 0 up to but not 1): 0 when it is that wet already, and for an aim or
// content that cannot be.
func Wanted(dryKg, waterKg, aimWet float64) (litres float64) {
	if !(dryKg > 0 && waterKg >= 0 && aimWet > 0 && aimWet < 1) {
		return 0
	}
	return max(0, dryKg*aimWet/(1-aimWet)-waterKg)
}

// Sky is what a forecast brings over its whole span.
type Sky struct {
	RainMm measure.Range
	ET0Mm  float64
}

// Top is how a heap meets the sky.
type Top struct {
	CatchM2 float64
	RainIn  measure.Range // share let in
	Wetness float64       // of the outer layer, 0 to 1
}

// Outcome is what a forecast would do to a heap left alone.
type Outcome struct {
	InL      measure.Range // litres of rain that get in
	DriedL   float64       // litres the top gives off
	Moisture measure.Range // wet basis, after what drains has drained
	DrainedL measure.Range // litres that run out again
}

// ForecastDoes is what a forecast would do to a heap by itself: the litres its
// rain brings and the moisture after. What the heap's own heat dries is not in
// it (calc/process has that). It is false when a value is negative, infinite or
// not a number.
func ForecastDoes(c Content, top Top, sky Sky) (Outcome, bool) {
	for _, v := range []float64{c.DryKg, c.WaterKg, top.CatchM2, top.RainIn.Low, top.RainIn.Typical, top.RainIn.High,
		top.Wetness, sky.RainMm.Low, sky.RainMm.Typical, sky.RainMm.High, sky.ET0Mm} {
		if !(v >= 0 && v <= math.MaxFloat32) {
			return Outcome{}, false
		}
	}
	o := Outcome{
		InL:    sky.RainMm.Times(top.RainIn).Scale(top.CatchM2), // 1 mm on 1 m2 is 1 litre
		DriedL: min(c.WaterKg, SurfaceDrying(sky.ET0Mm, top.CatchM2, top.Wetness, top.RainIn.Typical)),
	}
	after := func(in float64) (moisture, drained float64) {
		wet := c.WaterKg + in - o.DriedL
		drained = Drained(c.DryKg, wet)
		return Content{c.DryKg, wet - drained}.Moisture(), drained
	}
	o.Moisture.Low, o.DrainedL.Low = after(o.InL.Low)
	o.Moisture.Typical, o.DrainedL.Typical = after(o.InL.Typical)
	o.Moisture.High, o.DrainedL.High = after(o.InL.High)
	return o, true
}
