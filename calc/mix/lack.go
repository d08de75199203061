package mix

import (
	"fmt"
	"math"
	"strings"
)

// lacks says in plain words what of the aim the blend misses, as in "still too
// wet: 66 %, aim 50 to 60 %"; empty when nothing.
func (a Aim) lacks(b Blend) string {
	table := []struct {
		value, low, high float64
		below, above     string
		format, accepted string
	}{
		{b.Moisture(), a.Moisture.Low, a.Moisture.High, "too dry", "too wet", "%s %%", fmt.Sprintf("aim %g to %g %%", a.Moisture.Low, a.Moisture.High)},
		{b.CN(), a.CN.Low, a.CN.High, "too green", "too brown", "C:N %s", fmt.Sprintf("aim %g to %g", a.CN.Low, a.CN.High)},
		{b.Density(), 0, a.MaxDensity, "", "too dense", "%s kg/m³", fmt.Sprintf("at most %.0f kg/m³", a.MaxDensity)},
		{b.Air(), a.MinAir, 100, "too short of air", "", "%s %% air", fmt.Sprintf("at least %g %%", a.MinAir)},
	}
	var out []string
	for _, row := range table {
		word, end := row.below, row.low
		if row.value > row.high {
			word, end = row.above, row.high
		}
		if row.value < row.low-tolerance || row.value > row.high+tolerance {
			out = append(out, fmt.Sprintf("still %s: "+row.format+", %s", word, beside(row.value, end), row.accepted))
		}
	}
	return strings.Join(out, "; ")
}

// beside prints v in whole numbers unless that would make it look like end.
func beside(v, end float64) string {
	if math.Round(v) == math.Round(end) {
		return fmt.Sprintf("%.1f", v)
	}
	return fmt.Sprintf("%.0f", v)
}
