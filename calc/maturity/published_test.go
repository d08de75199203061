package maturity_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"heapside/calc/heap"
	"heapside/calc/maturity"
	"heapside/calc/maturity/scenario"
	"heapside/calc/measure"
	"heapside/testdata/published"
)

// checkOf runs one published check.
type checkOf func(t *testing.T, c published.StandardCheck)

// published checks by id; "rotte-I" and the like share one.
var checks = map[string]checkOf{
	"gi-formula-control": gi, "gi-half": gi,
	"gi-50": toxic, "gi-50-not-below": toxic,
	"gi-lowest-group": func(t *testing.T, c published.StandardCheck) {
		for _, v := range list(c, "gi_pct") {
			assert.Contains(t, lines(judge(t, "germination", "GI %g", v)), "lowest group")
		}
	},
	"gi-60": beds, "gi-80": beds,
	"emerge-80": emerges, "emerge-79": emerges, "emerge-vigour": emerges, "emerge-lab": emerges,
	"radish-34": radish, "radish-34-short": radish,
	"resp-fine-5": breathes, "resp-fine-over": breathes, "resp-coarse-8": breathes, "resp-coarse-over": breathes,
	"resp-mn-8": breathes, "resp-mn-below": breathes,
	"resp-lab-85": selected, "resp-lab-70": selected,
	"resp-pas100": func(t *testing.T, c published.StandardCheck) {
		f := judge(t, "lab", "respiration %g mg CO2/g OM/day", in(c, "mg_co2_g_om_day"))
		assert.InDelta(t, c.Expect["mg_co2c_g_om_day"], f.Values[0].Value, c.Tolerance)
	},
	"co2-carbon": func(t *testing.T, c published.StandardCheck) {
		assert.InDelta(t, c.Expect["mg_co2c"], maturity.CarbonOfDioxide(in(c, "mg_co2")), c.Tolerance)
	},
	"resp-cmc3": func(t *testing.T, c published.StandardCheck) {
		limit(t, "respiration %g mmol O2/kg OM/h", in(c, "mmol_o2_kg_om_h"), c.Expect["ok"])
	},
	"resp-at4": func(t *testing.T, c published.StandardCheck) {
		limit(t, "respiration %g mg O2/g DM", in(c, "mg_o2_g_dm"), c.Expect["ok"])
	},
	"nh4no3-ratio": nitrogen, "nh4no3-vmature": nitrogen, "nh4no3-mature": nitrogen, "nh4no3-immature": nitrogen,
	"cn-immobilise": soil, "cn-release": soil,
	"cn-end-13": carbon("below every published end"), "cn-end-band": carbon("published ends disagree"), "cn-end-over": carbon("above every published end"),
	"cure-start": cureStage, "cure-hot": cureStage,
	"cure-done": cureDone, "cure-3-weeks": cureDone, "cure-warm": cureDone,
	"rotte-I": class, "rotte-II": class, "rotte-III": class, "rotte-IV": class, "rotte-V": class,
	"rotte-weeks": func(t *testing.T, c published.StandardCheck) {
		for _, degree := range c.Expect["degrees"].([]any) {
			assert.Equal(t, c.Expect["finished"], judge(t, "self-heating", "class %s", degree).Outcome == maturity.Finished)
		}
	},
	"rotte-finished": func(t *testing.T, c published.StandardCheck) {
		assert.Equal(t, c.Expect["finished"], judge(t, "self-heating", "class %s", c.Inputs["degree"]).Outcome == maturity.Finished)
	},
	"ccme-rise": ccme("self-heating", "rose %g", "rise_c"), "rotte-rise-8": ccme("self-heating", "rose %g", "rise_c"), "ccme-cured": ccme("self-heating", "rose %g", "rise_c"),
	"ccme-carbon":  ccme("lab", "respiration %g mg CO2-C/g OM/day", "mg_co2c_g_om_day"),
	"ccme-oxygen":  ccme("lab", "respiration %g mg O2/kg OM/h", "mg_o2_kg_om_h"),
	"volume-usual": volume, "volume-little": volume, "volume-month": shrunk,
	"time-active-180": func(t *testing.T, c published.StandardCheck) {
		s := heap.State{Now: scenario.Now, Content: cured(0, 0).Content, Age: days(c, "active_days"), LastAdded: scenario.Now.Add(-days(c, "active_days"))}
		stage, _ := maturity.StageOf(s)
		assert.Equal(t, c.Expect["stage"], string(stage))
		s.LastAdded = s.LastAdded.Add(day)
		stage, _ = maturity.StageOf(s)
		assert.NotEqual(t, c.Expect["stage"], string(stage), "a day less")
	},
	"time-managed":   times("looked after, heaps take 90 to 120 days"),
	"time-unmanaged": times("otherwise six months to a year"),
	"time-old":       old,
	"reheat-none": func(t *testing.T, _ published.StandardCheck) {
		assert.Contains(t, evidence(maturity.Assess(cured(10*day, 30), measure.Measures{})), "it does not heat again")
	},
	"jar-earthy": jar, "jar-bad": jar,
	"finish-moisture": finish, "finish-ph": finish, "finish-salts": finish, "finish-organic": finish,
}

// ripeness is what the ids of checks of ripeness begin with.
var ripeness = []string{"gi-", "emerge-", "radish-", "resp-", "co2-", "nh4no3-", "cn-", "cure-", "rotte-", "ccme-", "volume-", "time-", "reheat-", "jar-", "finish-"}

// TestPublished runs every check value that speaks of ripeness.
func TestPublished(t *testing.T) {
	all := published.Standards()
	for id, check := range checks {
		c, ok := all[id]
		require.True(t, ok, id)
		t.Run(id, func(t *testing.T) { check(t, c) })
	}
	for id := range all {
		of := slices.ContainsFunc(ripeness, func(head string) bool { return strings.HasPrefix(id, head) })
		assert.Equal(t, of, checks[id] != nil, "no test for %s", id)
	}
}

func in(c published.StandardCheck, name string) float64 { return c.Inputs[name].(float64) }

func days(c published.StandardCheck, name string) (d duration) { return duration(in(c, name)) * day }

func list(c published.StandardCheck, name string) []float64 {
	var values []float64
	for _, v := range c.Inputs[name].([]any) {
		values = append(values, v.(float64))
	}
	return values
}

// judge is what a result says, written with its values.
func judge(t *testing.T, test, format string, values ...any) maturity.Finding {
	t.Helper()
	read, _, err := maturity.ReadTest(test, fmt.Sprintf(format, values...), measure.Measures{})
	require.NoError(t, err)
	return maturity.Judge(read, measure.Measures{})
}

func lines(f maturity.Finding) string { return strings.Join(f.Lines, "\n") }

func evidence(a maturity.Assessment) string { return strings.Join(append(a.Because, a.Also...), "\n") }

func gi(t *testing.T, c published.StandardCheck) {
	assert.InDelta(t, c.Expect["gi_pct"], maturity.GerminationIndex(in(c, "g"), in(c, "g0"), in(c, "l_mm"), in(c, "l0_mm")), c.Tolerance)
	f := judge(t, "germination", "%g of 20, roots %g mm; control %g of 20, roots %g mm", in(c, "g"), in(c, "l_mm"), in(c, "g0"), in(c, "l0_mm"))
	assert.InDelta(t, c.Expect["gi_pct"], f.Values[0].Value, 1e-9)
}

func toxic(t *testing.T, c published.StandardCheck) {
	assert.Equal(t, c.Expect["toxic"], judge(t, "germination", "GI %g", in(c, "gi_pct")).Outcome == maturity.Against)
}

func beds(t *testing.T, c published.StandardCheck) {
	f := judge(t, "germination", "GI %g", in(c, "gi_pct"))
	assert.True(t, f.Plants)
	assert.Equal(t, c.Expect["seedlings"], f.Seedlings)
}

func emerges(t *testing.T, c published.StandardCheck) {
	f := judge(t, "lab", "emergence %g %%, vigour %g %%", in(c, "emergence_pct"), in(c, "vigour_pct"))
	assert.Equal(t, c.Expect["mature"], f.Outcome == maturity.Finished && f.Seedlings)
}

func radish(t *testing.T, c published.StandardCheck) {
	s := cured(5*day, 25)
	read, _, err := maturity.ReadTest("radish", fmt.Sprintf("%g of %g sprouted and grew on", in(c, "grown"), in(c, "sown")), measure.Measures{})
	require.NoError(t, err)
	s.Tests = []heap.TestRecord{{At: s.Now, Test: read}}
	for _, use := range maturity.Assess(s, measure.Measures{}).Uses {
		if use.Name != "mulch" { // curing serves that
			assert.Equal(t, c.Expect["ready"], use.Verdict == maturity.Yes, use.Name)
		}
	}
}

// breathes holds the limits of California by grade, and that of Minnesota.
func breathes(t *testing.T, c published.StandardCheck) {
	f := judge(t, "lab", "respiration %g mg CO2-C/g OM/day", in(c, "mg_co2c_g_om_day"))
	switch c.Inputs["grade"] {
	case "fine":
		assert.Equal(t, c.Expect["ok"], strings.Contains(lines(f), "within 5, the limit for fine"))
	case "coarse":
		assert.Equal(t, c.Expect["ok"], strings.Contains(lines(f), "within 8") || strings.Contains(lines(f), "California takes 8"))
	default:
		assert.Equal(t, c.Expect["ok"], f.Outcome == maturity.Finished)
	}
}

// selected holds that what laboratories call moderate is not called fit for fine uses.
func selected(t *testing.T, c published.StandardCheck) {
	said := lines(judge(t, "lab", "respiration %g mg CO2-C/g OM/day", in(c, "mg_co2c_g_om_day")))
	assert.True(t, strings.Contains(said, "selected uses") || strings.Contains(said, "above the 5 for fine"), said)
}

func limit(t *testing.T, format string, at float64, ok any) {
	assert.Equal(t, ok, judge(t, "lab", format, at).Outcome == maturity.Finished)
	assert.NotEqual(t, ok, judge(t, "lab", format, at+0.1).Outcome == maturity.Finished)
}

func nitrogen(t *testing.T, c published.StandardCheck) {
	f := judge(t, "lab", "NH4-N %g ppm, NO3-N %g ppm", in(c, "nh4n_ppm"), in(c, "no3n_ppm"))
	assert.InDelta(t, c.Expect["ratio"], f.Values[0].Value, max(c.Tolerance, 1e-9))
	assert.Contains(t, lines(f), "is "+c.Expect["label"].(string))
	assert.Equal(t, c.Expect["label"] == "immature", f.Outcome == maturity.Fresh)
}

func soil(t *testing.T, c published.StandardCheck) {
	assert.Equal(t, c.Expect["soil_n"], maturity.SoilNitrogen(in(c, "cn")))
	assert.Equal(t, c.Expect["soil_n"] == "immobilises", judge(t, "lab", "C:N %g", in(c, "cn")).Unfit != "")
}

func carbon(says string) checkOf {
	return func(t *testing.T, c published.StandardCheck) {
		values := []float64{}
		if v, one := c.Inputs["cn"].(float64); one {
			values = append(values, v)
		} else {
			values = list(c, "cn")
		}
		for _, v := range values {
			f := judge(t, "lab", "C:N %g", v)
			assert.Contains(t, lines(f), says)
			assert.Equal(t, maturity.Silent, f.Outcome, "no C:N alone speaks for compost")
		}
	}
}

func cureStage(t *testing.T, c published.StandardCheck) {
	stage, _ := maturity.StageOf(cured(10*day, in(c, "temp_c_after_turning")))
	assert.Equal(t, c.Expect["stage"], string(stage))
}

func cureDone(t *testing.T, c published.StandardCheck) {
	since := 28 * day
	if _, said := c.Inputs["cured_days"]; said {
		since = days(c, "cured_days")
	}
	stage, _ := maturity.StageOf(withAir(cured(since, in(c, "heap_c")), in(c, "ambient_c")))
	assert.Equal(t, c.Expect["complete"], stage == maturity.Ready)
}

// class holds the classes by the temperature reached in a room of 20 C.
func class(t *testing.T, c published.StandardCheck) {
	assert.Equal(t, c.Expect["degree"], maturity.SelfHeating(in(c, "tmax_c")-20))
	assert.Contains(t, lines(judge(t, "self-heating", "reached %g", in(c, "tmax_c"))), "class "+c.Expect["degree"].(string)+" ")
}

// ccme holds that curing with one test of stability counts as ready, without an
// air reading.
func ccme(test, format, value string) checkOf {
	return func(t *testing.T, c published.StandardCheck) {
		read, _, err := maturity.ReadTest(test, fmt.Sprintf(format, in(c, value)), measure.Measures{})
		require.NoError(t, err)
		s := cured(days(c, "cured_days"), 19)
		s.Tests = []heap.TestRecord{{At: s.Now, Test: read}}
		stage, _ := maturity.StageOf(s)
		assert.Equal(t, c.Expect["mature"], stage == maturity.Ready)
	}
}

func volume(t *testing.T, c published.StandardCheck) {
	for _, lost := range list(c, "lost_pct") {
		s := cured(10*day, 30)
		s.HeightAt, s.VolumeL = s.Now, s.AddedL*(1-lost/100)
		said := evidence(maturity.Assess(s, measure.Measures{}))
		assert.Contains(t, said, fmt.Sprintf("About %.0f %% of the volume", lost))
		assert.Equal(t, c.Expect["usual"], !strings.Contains(said, "less than the 30 to 50 %") && !strings.Contains(said, "more than the 30 to 50 %"))
	}
}

func shrunk(t *testing.T, c published.StandardCheck) {
	at := scenario.Now.Add(-days(c, "days"))
	s := heap.Read(heap.Heap{Started: at}, []heap.Entry{{ID: 1, At: at, Payload: heap.Added{VolumeL: 1000, MassKg: 200}}}, scenario.Now)
	assert.InDelta(t, c.Expect["left_share"], s.VolumeL/s.AddedL, c.Tolerance)
}

func times(says string) checkOf {
	return func(t *testing.T, _ published.StandardCheck) {
		assert.Contains(t, evidence(maturity.Assess(cured(10*day, 30), measure.Measures{})), says)
	}
}

// old holds that the first age serves beds and the last every use.
func old(t *testing.T, c published.StandardCheck) {
	years := list(c, "years")
	for _, y := range years {
		at := scenario.Now.Add(-duration(y) * 365 * day)
		s := heap.State{Now: scenario.Now, Content: cured(0, 0).Content, Age: scenario.Now.Sub(at), LastAdded: at}
		for _, use := range maturity.Assess(s, measure.Measures{}).Uses {
			all := y == slices.Max(years) || use.Name != "seed and potting mixes"
			assert.Equal(t, all, use.Verdict == maturity.Yes, "%s after %g years", use.Name, y)
		}
	}
}

func jar(t *testing.T, c published.StandardCheck) {
	assert.Equal(t, c.Expect["done"], judge(t, "jar", "after %g days, %s", in(c, "days"), c.Inputs["smell"]).Outcome == maturity.Finished)
}

func finish(t *testing.T, c published.StandardCheck) {
	for kind, wanted := range map[string]bool{"inside": false, "outside": true} {
		for _, v := range list(c, kind) {
			f := judge(t, "lab", "%s %g", c.Inputs["name"], v)
			assert.Equal(t, wanted, strings.Contains(lines(f), "is outside the"), "%s %g", c.Inputs["name"], v)
		}
	}
}
