package mix

import "heapside/calc/measure"

// Rotted is what is left of a heap's content (see Content) in a volume of
// litres, after a share (0 to 1) of its degradable solids was breathed away. Its
// nitrogen stays, so its C:N falls; what leaves as ammonia is not counted (own
// choice). The moisture is what content says it is.
func Rotted(content Part, lost measure.Range, litres float64) Part {
	f := content.Feedstock
	left := func(d, l float64) float64 { return 1 - d*min(1, max(0, l)) }
	share := f.Degradable.Typical
	organic := measure.Range{Low: left(share, lost.High), Typical: left(share, lost.Typical), High: left(share, lost.Low)}
	volatile := f.Volatile.Typical / 100
	solids := 1 - volatile*(1-organic.Typical)
	if !(litres > 0) || !(solids > 0) || !(organic.Typical > 0) || content.Volume.Typical <= 0 {
		return content
	}
	denser := solids * content.Volume.Typical / litres
	f.CN.Range = measure.Range{Low: f.CN.Low * organic.Low, Typical: f.CN.Typical * organic.Typical, High: f.CN.High * organic.High}
	f.Carbon.Range = f.Carbon.Scale(organic.Typical / solids)
	f.Volatile.Range = f.Volatile.Scale(organic.Typical / solids)
	f.Degradable.Range = f.Degradable.Scale((1 - min(1, lost.Typical)) / organic.Typical)
	f.Density.Range = f.Density.Scale(denser)
	content.Feedstock, content.Volume = f, content.Volume.Scale(litres/content.Volume.Typical)
	return content
}
