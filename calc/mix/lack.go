package mix

import (
	"math"

	"heapside/calc/measure"
)

// lacks says in plain words what of the aim the blend misses, as in "still too
// wet: 66 %, aim 50 to 60 %"; empty when nothing.
func (a Aim) lacks(b Blend, m measure.Measures) string {
	table := []struct {
		value, low, high float64
		below, above     string
		aim              []any
	}{
		{b.Moisture(), a.Moisture.Low, a.Moisture.High, "still too dry: %s %%, aim %g to %g %%", "still too wet: %s %%, aim %g to %g %%", []any{a.Moisture.Low, a.Moisture.High}},
		{b.CN(), a.CN.Low, a.CN.High, "still too green: C:N %s, aim %g to %g", "still too brown: C:N %s, aim %g to %g", []any{a.CN.Low, a.CN.High}},
		{b.Density(), 0, a.MaxDensity, "", "still too dense: %s kg/m³, at most %.0f kg/m³", []any{a.MaxDensity}},
		{b.Air(), a.MinAir, 100, "still too short of air: %s %% air, at least %g %%", "", []any{a.MinAir}},
	}
	said := ""
	for _, row := range table {
		sentence, end := row.below, row.low
		if row.value > row.high {
			sentence, end = row.above, row.high
		}
		if row.value >= row.low-tolerance && row.value <= row.high+tolerance {
			continue
		}
		lack := m.Say(sentence, append([]any{beside(row.value, end, m)}, row.aim...)...)
		if said != "" {
			lack = m.Say("%s; %s", said, lack)
		}
		said = lack
	}
	return said
}

// beside prints v in whole numbers unless that would make it look like end.
func beside(v, end float64, m measure.Measures) string {
	if math.Round(v) == math.Round(end) {
		return m.SayPlaces(v, 1)
	}
	return m.SayPlaces(v, 0)
}
