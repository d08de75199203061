package process

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"

	"heapside/testdata/published"
)

func list(v any) []float64 {
	var out []float64
	for _, e := range v.([]any) {
		out = append(out, e.(float64))
	}
	return out
}

// curves are the published values that one function of one input gives.
var curves = []struct {
	id, input, expect string
	of                func(float64) float64
}{
	{"kin-moisture", "w", "f", MoistureFactor},
	{"kin-fas", "FAS", "f", AirSpaceFactor},
	{"kin-oxygen", "O2_pct", "f", func(pct float64) float64 { return OxygenFactor(pct/100, 0.02) }},
	{"kin-ctmi-meso", "T_C", "f", func(c float64) float64 { return Cardinal(c, 5, 37, 55) }},
	{"kin-ctmi-thermo", "T_C", "f", func(c float64) float64 { return Cardinal(c, 30, 55, 70) }},
	{"kin-ctmi-heap", "T_C", "f", func(c float64) float64 { return Cardinal(c, 0, 56, 73) }},
	{"air-moist", "T_C", "w_sat_kg_kg", HumidityRatio},
}

func TestPublishedCurves(t *testing.T) {
	all := published.Process()
	for _, row := range curves {
		t.Run(row.id, func(t *testing.T) {
			c := all[row.id]
			want := list(c.Expect[row.expect])
			for i, x := range list(c.Inputs[row.input]) {
				// Values are printed to four or five places.
				assert.InDelta(t, want[i], row.of(x), c.Tolerance.(float64), "at %v: %s, %s", x, c.Source, c.Locator)
			}
		})
	}
}

func TestPublishedPoints(t *testing.T) {
	all := published.Process()
	const bulk = 500.0 // kg/m3 of dry solids, of which 85 % organic: what is no air space is solids
	solids := bulk / (1 - (&Zone{Ash: 0.15}).airSpace(1, bulk))
	for _, row := range []struct {
		id        string
		got, want float64
		tol       float64
	}{
		{"gs-haug", solids / 1000, all["gs-haug"].Expect["Gs"].(float64), 1e-4},
		{"air-moist", Enthalpy(60, HumidityRatio(60)), all["air-moist"].Expect["h60_kJ_kg"].(float64), 0.05}, // printed to one place
		{"air-density", AirDensity(15, 0.75), list(all["air-density"].Expect["rho_kg_m3"])[0], 2e-4},
		{"air-density", AirDensity(60, 1), list(all["air-density"].Expect["rho_kg_m3"])[1], 2e-4},
		{"kin-ctmi-heap", Cardinal(56, 0, 56, 73) / Cardinal(20, 0, 56, 73), all["kin-ctmi-heap"].Expect["f56_over_f20"].(float64), 1e-4},
	} {
		assert.InDelta(t, row.want, row.got, row.tol, row.id)
	}
	// 96 h of carbon dioxide were highest at 56-60 C and lower at 64 C (feat-96h-optimum, abstract seen).
	p := DefaultParams()
	assert.GreaterOrEqual(t, p.TOpt, 56.0)
	assert.LessOrEqual(t, p.TOpt, 60.0)
	assert.Less(t, Cardinal(64, p.TMin, p.TOpt, p.TMax), Cardinal(58, p.TMin, p.TOpt, p.TMax))
}

// The core of the model as it was recorded at substeps of five minutes, turned in
// the eleventh hour of day 14 (a regression, not a published value).
func TestRecordedSteps(t *testing.T) {
	c := published.Process()["reg-steps"]
	want := list(c.Expect["core_C_12"])
	p, set := plain(), OpenGround()
	weather := airs(weatherOf(t, "weather-150-4"))
	var s State
	s.Add(&p, garden(1, 18))
	days := []int{1, 2, 3, 7, 14, 16, 20}
	for i := range weather[:20*24+1] {
		if i == 14*24+10 {
			s.Turn(&p, weather[i].C)
		}
		s.StepAir(&p, &set, &weather[i], 3600, nil)
		if day := days[0]; i == day*24 {
			assert.InDelta(t, want[0], s.Core.T, c.Tolerance.(float64), "day %d", day)
			days, want = days[1:], want[1:]
			if len(days) == 0 {
				return
			}
		}
	}
	t.Fatal("not all days were reached")
}

// elsewhere are the checks that other code answers, or that are of a form that
// is not used here, with the reason.
var elsewhere = map[string]string{
	"kin-haug-temp":          "the curve was tried and left for cardinal temperatures: the core sat at 70 C or collapsed",
	"kin-haug-temp-shape":    "as kin-haug-temp",
	"kin-variant-10-50":      "as kin-haug-temp",
	"air-darcy":              "grain size is not known of a garden heap; the form is kept relative to air space 0.5",
	"sim-reactor-A":          "a vessel with forced air and one pool, another model",
	"sim-reactor-B":          "as sim-reactor-A",
	"sim-reactor-B-measured": "as sim-reactor-A",
	"nile-kalman":            "the filter's test",
	"nile-particle":          "the filter's test",
	"reg-reheat":             "another hour of turning; the recorded runs with turns cover it",
	"feat-runoff":            "calc/water",
	"feat-heat-recovery":     "recovered by pipes and fans; no bound that could fail here",
}

func TestEveryPublishedCheckHasItsPlace(t *testing.T) {
	placed := map[string]bool{
		"gs-haug": true, "air-density": true, "feat-96h-optimum": true, // TestPublishedPoints
		"reg-steps": true, "reg-balance-water": true, // TestRecordedSteps, TestBooksClose
	}
	for _, c := range curves {
		placed[c.id] = true
	}
	for _, f := range features {
		placed[f.check] = true
	}
	for id := range published.Process() {
		if strings.HasPrefix(id, "fao-") { // calc/water
			continue
		}
		_, other := elsewhere[id]
		assert.True(t, placed[id] || other, "%s is not checked", id)
	}
}
