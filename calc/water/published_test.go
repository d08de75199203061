package water

import (
	"encoding/json"
	"os"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// check is one published value; the file says what was seen of its source.
type check struct {
	ID, Source, Locator, Seen string
	Inputs, Expect            map[string]any
	Tolerance                 any // one number, or one by name
}

func checks(t *testing.T) []check {
	t.Helper()
	data, err := os.ReadFile("../../testdata/published/process-checks.json")
	require.NoError(t, err)
	var all []check
	require.NoError(t, json.Unmarshal(data, &all))
	return all
}

func (c check) in(name string) float64 { return c.Inputs[name].(float64) }

func numbers(v any) []float64 {
	if f, ok := v.(float64); ok {
		return []float64{f}
	}
	var out []float64
	for _, e := range v.([]any) {
		out = append(out, e.(float64))
	}
	return out
}

func (c check) tolerance(name string) float64 {
	byName, ok := c.Tolerance.(map[string]any)
	if !ok {
		return c.Tolerance.(float64)
	}
	if v, ok := byName[name]; ok {
		return v.(float64)
	}
	return byName["default"].(float64)
}

func one(v float64) []float64 { return []float64{v} }

func each(temps []float64, f func(float64) float64) (out []float64) {
	for _, c := range temps {
		out = append(out, f(c))
	}
	return out
}

// computed is how each published example is computed here, by check id.
var computed = map[string]func(c check) map[string][]float64{
	"fao-ex2-pressure": func(c check) map[string][]float64 {
		p := Pressure(c.in("z_m"))
		return map[string][]float64{"P_kPa": one(p), "gamma_kPa_per_C": one(Psychrometric(p))}
	},
	"fao-ex3-es": func(c check) map[string][]float64 {
		return map[string][]float64{"es_kPa": one(MeanVapourPressure(c.in("tmin_C"), c.in("tmax_C")))}
	},
	"fao-svp-table": func(c check) map[string][]float64 {
		return map[string][]float64{"e0_kPa": each(numbers(c.Inputs["T_C"]), VapourPressure)}
	},
	"fao-svp-table-more": func(c check) map[string][]float64 {
		return map[string][]float64{"e0_kPa": each(numbers(c.Inputs["T_C"]), VapourPressure)}
	},
	"fao-ex5-ea-rh": func(c check) map[string][]float64 {
		low, high := c.in("rhmin_pct"), c.in("rhmax_pct")
		return map[string][]float64{
			"ea_eq17_kPa": one(ActualFromRange(c.in("tmin_C"), c.in("tmax_C"), low, high)),
			"ea_eq19_kPa": one(ActualFromMean(c.in("tmin_C"), c.in("tmax_C"), (low+high)/2)),
		}
	},
	"fao-ex8-ra": func(c check) map[string][]float64 {
		s := SunOn(c.in("lat_deg"), int(c.in("day_of_year")))
		return map[string][]float64{
			"dr": one(s.Distance), "declination_rad": one(s.Declination),
			"sunset_angle_rad": one(s.Sunset), "Ra_MJ_m2_d": one(s.TopMJ),
		}
	},
	"fao-ex9-daylight": func(c check) map[string][]float64 {
		return map[string][]float64{"N_h": one(Sun{Sunset: c.in("sunset_angle_rad")}.DaylightH())}
	},
	"fao-ex14-wind": func(c check) map[string][]float64 {
		return map[string][]float64{"u2_m_s": one(WindAt2m(c.in("u_m_s"), c.in("z_m")))}
	},
	"fao-ex15-rs-temp": func(c check) map[string][]float64 {
		s := Sun{TopMJ: c.in("Ra")}
		return map[string][]float64{"Rs_MJ_m2_d": one(s.FromTemperatures(c.in("tmin_C"), c.in("tmax_C"), false))}
	},
	"fao-ex17-pm-month": func(c check) map[string][]float64 {
		p := Penman{
			MeanC: c.in("tmean_C"), NetMJ: c.in("Rn"), SoilMJ: c.in("G"), WindMS: c.in("u2_m_s"),
			SaturatedKPa: MeanVapourPressure(c.in("tmin_C"), c.in("tmax_C")), ActualKPa: c.in("ea_kPa"), ElevationM: 2,
		}
		return map[string][]float64{"ETo_mm_d": one(p.ET0Mm())}
	},
	"fao-ex18-pm-day": func(c check) map[string][]float64 {
		day, latitude, elevation := uccle(c)
		sun := SunOn(latitude, day.OfYear)
		actual, _ := day.actual()
		rs, clear := sun.FromSunshine(*day.SunshineH), sun.ClearMJ(elevation)
		mm, _, _ := ET0(day, latitude, elevation)
		return map[string][]float64{
			"ea_kPa": one(actual), "es_kPa": one(MeanVapourPressure(day.MinC, day.MaxC)),
			"delta": one(Slope((day.MinC + day.MaxC) / 2)), "gamma": one(Psychrometric(Pressure(elevation))),
			"u2_m_s": one(*day.WindMS), "Ra": one(sun.TopMJ), "Rso": one(clear), "Rs": one(rs),
			"Rn":       one(Net(NetShort(rs), NetLong(day.MinC, day.MaxC, actual, rs, clear))),
			"ETo_mm_d": one(mm), "ETo_printed_mm_d": nil, // the same, rounded to one decimal
		}
	},
	"fao-ex20-hargreaves": func(c check) map[string][]float64 {
		s := SunOn(c.in("lat_deg"), int(c.in("day_of_year")))
		return map[string][]float64{
			"Ra_MJ_m2_d":          one(s.TopMJ),
			"ETo_hargreaves_mm_d": one(Hargreaves(c.in("tmin_C"), c.in("tmax_C"), s.TopMJ)), "ETo_printed_mm_d": nil,
		}
	},
	"fao-hargreaves-trap": func(c check) map[string][]float64 {
		return map[string][]float64{"ETo_mm_d": one(Hargreaves(c.in("tmin_C"), c.in("tmax_C"), c.in("Ra_MJ_m2_d")))}
	},
}

func uccle(c check) (d Day, latitude, elevation float64) {
	return Day{
		OfYear: int(c.in("day_of_year")), MinC: c.in("tmin_C"), MaxC: c.in("tmax_C"),
		RHMin: new(c.in("rhmin_pct")), RHMax: new(c.in("rhmax_pct")),
		WindMS: new(WindAt2m(c.in("u10_km_h")/3.6, 10)), SunshineH: new(c.in("n_h")),
	}, c.in("lat_deg"), c.in("z_m")
}

func TestPublishedExamples(t *testing.T) {
	all := checks(t)
	for id, compute := range computed {
		t.Run(id, func(t *testing.T) {
			at := slices.IndexFunc(all, func(c check) bool { return c.ID == id })
			require.GreaterOrEqual(t, at, 0, "the file has no such check")
			c := all[at]
			got := compute(c)
			for name, want := range c.Expect {
				require.Contains(t, got, name)
				if got[name] == nil {
					continue
				}
				assert.InDeltaSlice(t, numbers(want), got[name], c.tolerance(name), "%s, %s, %s", name, c.Source, c.Locator)
			}
		})
	}
}

// TestExamplesOutsideTheFile are examples that the file of checks does not
// hold. Inputs of the FAO-56 ones are from memory unless the row says otherwise.
func TestExamplesOutsideTheFile(t *testing.T) {
	rio, alice, lyon := SunOn(-22.9, 135), SunOn(-23.7951, 202), SunOn(45.72, 196)
	lyonMJ := lyon.FromTemperatures(14.8, 26.6, false)
	lyonDay := Day{OfYear: 196, MinC: 14.8, MaxC: 26.6}
	for _, row := range []struct {
		name, source    string
		want, got, near float64
	}{
		{"psychrometer", "FAO-56 example 4, p. 71 (eq. 15), from memory", 1.91, VapourPressure(19.5) - 0.000662*Pressure(1200)*(25.6-19.5), 0.005},
		{"sunshine", "FAO-56 example 10, p. 84 (eq. 35), Rio de Janeiro, May, from memory", 14.5, rio.FromSunshine(220.0 / 31), 0.05},
		{"heat radiation", "FAO-56 example 11, p. 87 (eq. 39), Rio de Janeiro, May, from memory", 3.5, NetLong(19.1, 25.1, 2.1, 14.5, 18.8), 0.05},
		{"missing data", "FAO-56 example 20, p. 121, Lyon, July: 4.6 (4.56), seen second-hand", 4.56,
			lyonDay.penman(VapourPressure(14.8), 2, lyonMJ, lyon.ClearMJ(200), 200).ET0Mm(), 0.005},
		{"top of the atmosphere", "McMahon et al. 2013, Alice Springs, 20 July: seen second-hand; latitude and day from memory", 23.6182, alice.TopMJ, 0.0001},
		{"saturated", "McMahon et al. 2013, Alice Springs: seen second-hand; 2 and 21 C from memory", 1.5963, MeanVapourPressure(2, 21), 0.0001},
		{"actual", "McMahon et al. 2013, Alice Springs: seen second-hand; 25 and 71 % from memory", 0.5614, ActualFromRange(2, 21, 25, 71), 0.0001},
	} {
		t.Run(row.name, func(t *testing.T) { assert.InDelta(t, row.want, row.got, row.near, row.source) })
	}
}
