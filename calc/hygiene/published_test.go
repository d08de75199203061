package hygiene

import (
	"encoding/json"
	"os"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"heapside/calc/heap"
	"heapside/calc/measure"
)

// check is one published value; Seen says how its source was read.
type check struct {
	ID, Source, Locator, Seen string
	Inputs, Expect            map[string]any
	Tolerance                 float64
}

func (c check) in(name string) float64   { return c.Inputs[name].(float64) }
func (c check) want(name string) float64 { return c.Expect[name].(float64) }

// days is a length of time of the inputs, in days.
func (c check) days(name string) time.Duration { return time.Duration(c.in(name) * float64(day)) }

// leftOut are the checks of heat, weeds and diseases that are not run here, and why.
var leftOut = map[string]string{
	"manure-soil": "an interval before harvest, no time at heat",
}

// elsewhere is what checks of other things begin with: ripeness, the running of
// a heap, cautions.
var elsewhere = []string{"gi-", "emerge-", "radish-", "resp-", "nh4no3-", "cn-", "cure-", "rotte-", "turn-", "band-", "moist-",
	"size-", "ash-", "urine-", "rat-", "ccme-", "nrcs-watch", "co2-", "volume-", "time-", "reheat-", "jar-", "finish-"}

// TestPublished runs every check value that speaks of heat, weeds and diseases.
func TestPublished(t *testing.T) {
	data, err := os.ReadFile("../../testdata/published/standards-checks.json")
	require.NoError(t, err)
	var checks []check
	require.NoError(t, json.Unmarshal(data, &checks))
	left := 0
	for _, c := range checks {
		run, ok := runs[c.ID]
		switch {
		case ok:
			t.Run(c.ID, func(t *testing.T) { run(t, c) })
		case leftOut[c.ID] != "":
			left++
		default:
			assert.True(t, startsWithAny(c.ID, elsewhere), "no test for %s (%s)", c.ID, c.Source)
		}
	}
	assert.Equal(t, len(leftOut), left, "every check left out is in the file")
}

func startsWithAny(s string, heads []string) bool {
	for _, h := range heads {
		if strings.HasPrefix(s, h) {
			return true
		}
	}
	return false
}

type run = func(t *testing.T, c check)

var runs = map[string]run{
	"tt-ge7-50": equation(Solids7), "tt-ge7-55": equation(Solids7), "tt-ge7-65": equation(Solids7), "tt-ge7-70": equation(Solids7),
	"tt-lt7-50": equation(SolidsThin), "tt-lt7-60": equation(SolidsThin), "tt-lt7-65": equation(SolidsThin), "tt-lt7-67": equation(SolidsThin),
	"tt-floor20-temp": floor(Solids7), "tt-floor30-temp": floor(SolidsThin),
	"tt-below50": func(t *testing.T, c check) {
		_, ok := D(c.in("temp_c"), Solids7)
		assert.False(t, ok, c.Expect["error"])
	},
	"tt-z": func(t *testing.T, c check) {
		d1, _ := D(55, Solids7)
		d2, _ := D(55+c.want("delta_c"), Solids7)
		assert.InDelta(t, c.in("ratio"), d1/d2, 1e-4)
	},
	"tt-not-composting": func(t *testing.T, c check) {
		assert.Equal(t, false, c.Expect["alternative_1_applies"])
		assert.Contains(t, Severity{1, 1}.Say(), "does not stand for composting")
		for _, f := range Evaluate(kept(70, day, 5), nil).Findings {
			assert.NotContains(t, f.Rule.Source, "503.32", "no finding rests on the equations")
		}
	},
	"psrp-ok": lesser, "psrp-short40": lesser,
	"pfrp-static":      keeps("pfrp-static", 55, "days_at_or_above_55c", "turnings"),
	"pfrp-windrow-ok":  keeps("pfrp-windrow", 55, "days_at_or_above_55c", "turnings_while_at_or_above_55c"),
	"pfrp-windrow-14d": keeps("pfrp-windrow", 55, "days_at_or_above_55c", "turnings_while_at_or_above_55c"),
	"pfrp-f":           converts, "f170": converts, "nrcs-110": converts, "nrcs-165": converts, "nrcs-185": converts,
	"nop-cn-lo": startCN, "nop-cn-hi": startCN, "nop-cn-out": startCN,
	"nop-vessel": func(t *testing.T, c check) {
		r, _ := RuleByCode("nop-static")
		assert.Equal(t, celsius(c.in("temp_f_min")), r.Hold.C)
		assert.Equal(t, celsius(c.in("temp_f_max")), r.Hold.MostC)
		keeps("nop-static", r.Hold.C, "days", "")(t, c)
		keeps("nop-static", r.Hold.MostC, "days", "")(t, c)
		over := Evaluate(kept(r.Hold.MostC+0.1, c.days("days"), 0), nil)
		assert.Equal(t, NotYet, finding(over, "nop-static").Status, "above 170 F is outside the band")
	},
	"nop-windrow":      keeps("nop-windrow", 60, "days_in_band", "turnings"),
	"bioabfv-55":       keeps("bioabfv-55", 55, "days", ""),
	"bioabfv-55-short": keeps("bioabfv-55", 55, "days", ""),
	"bioabfv-60":       keeps("bioabfv-60", 60, "days", ""),
	"bioabfv-65":       keeps("bioabfv-65", 65, "days", ""),
	"bioabfv-65-short": keeps("bioabfv-65", 65, "days", ""),
	"bioabfv-dry": func(t *testing.T, c check) {
		r, _ := RuleByCode("bioabfv-55")
		pct := c.in("moisture_pct")
		assert.Equal(t, c.Expect["moisture_ok"], moisture(r.MoistPct, [2]float64{pct, pct}) == MoistEnough)
		assert.Equal(t, MoistEnough, moisture(r.MoistPct, [2]float64{pct + 1, pct + 1}))
	},
	"bioabfv-scope": func(t *testing.T, c check) {
		for _, code := range []string{"bioabfv-55", "bioabfv-60", "bioabfv-65", "bioabfv-70"} {
			r, ok := RuleByCode(code)
			require.True(t, ok)
			assert.Equal(t, c.Expect["applies"], !r.NotGardens)
			assert.Contains(t, r.Scope, "allotment")
		}
	},
	"bioabfv-seeds": seeds, "bioabfv-seeds-over": seeds,
	"uk-windrow": func(t *testing.T, c check) {
		r, _ := RuleByCode("uk-windrow")
		assert.Equal(t, c.days("min_gap_days"), r.Apart)
		assert.Equal(t, c.in("particle_cm")*10, r.PieceMm)
		keeps("uk-windrow", c.in("temp_c"), "days", "turnings")(t, c)
	},
	"uk-reactor60": reactor("uk-reactor-60"),
	"uk-reactor70": reactor("uk-reactor-70"),
	"uk-storage": func(t *testing.T, c check) {
		r, _ := RuleByCode("uk-windrow")
		assert.Equal(t, c.Expect["met"], c.days("days") >= r.Store)
	},
	"egg-roundworm-55": func(t *testing.T, c check) {
		one := at(Germs("roundworm eggs"), c.in("temp_c"))
		require.Len(t, one, 1)
		assert.Equal(t, c.want("minutes"), one[0].For.Minutes())
	},
	"egg-roundworm-60": func(t *testing.T, c check) {
		one := at(Germs("roundworm eggs"), c.in("temp_c"))
		require.Len(t, one, 1)
		assert.Equal(t, c.want("seconds"), one[0].For.Seconds())
	},
	"dahlquist-common-purslane": weed, "dahlquist-common-purslane-50": weed,
	"dahlquist-tumble-pigweed": weed, "dahlquist-tumble-pigweed-50": weed, "dahlquist-barnyardgrass-50": weed,
	"dahlquist-black-nightshade": weed, "dahlquist-black-nightshade-50": weed,
	"egley-purslane-60": survival, "egley-pigweed-70": survival, "egley-cocklebur-50": survival,
	"lt-redroot-pigweed-30": lethal, "lt-yellow-foxtail-30": lethal, "lt-yellow-foxtail-90": lethal,
	"clubroot-backyard": func(t *testing.T, c check) {
		for _, trial := range Diseases(c.Inputs["pathogen"].(string)) {
			if trial.Source == srcBackyard {
				assert.Equal(t, c.Expect["survives"], trial.Effect != Killed)
				assert.Equal(t, c.in("months")*30, trial.For.Hours()/24)
				assert.Contains(t, trial.In, "200 litres")
				return
			}
		}
		t.Error("the trial in garden vessels is missing")
	},
	// From memory: the rules are marked so, and these rows prove only that the table has what is remembered.
	"cmc3-70": remembered("cmc3-70"), "cmc3-65": remembered("cmc3-65"), "cmc3-60": remembered("cmc3-60"), "cmc3-55": remembered("cmc3-55"),
	"pas100": func(t *testing.T, c check) {
		r, _ := RuleByCode("pas100")
		assert.Equal(t, c.in("moisture_pct"), r.MoistPct)
		remembered("pas100")(t, c)
	},
	"as4454": func(t *testing.T, c check) {
		r, _ := RuleByCode("as4454")
		assert.Equal(t, FromMemory, r.Seen)
		keeps("as4454", c.in("temp_c"), "consecutive_days", "turnings")(t, c)
	},
}

func equation(s Solids) run {
	return func(t *testing.T, c check) {
		assert.Equal(t, s == Solids7, c.in("total_solids_pct") >= 7)
		d, ok := D(c.in("temp_c"), s)
		require.True(t, ok)
		assert.InDelta(t, c.want("days"), d, c.Tolerance, c.Source)
	}
}

// floor expects the least time from the given temperature up, and more below.
func floor(s Solids) run {
	return func(t *testing.T, c check) {
		at, below := c.want("temp_c")+c.Tolerance, c.want("temp_c")-c.Tolerance
		d, _ := D(at, s)
		assert.Equal(t, c.in("days"), d)
		d, _ = D(below, s)
		assert.Greater(t, d, c.in("days"))
	}
}

// keeps holds a heap kept at c for the given days against a rule, and the same
// heap a degree cooler, which must not do.
func keeps(code string, c float64, days, turns string) run {
	return func(t *testing.T, row check) {
		n := 0
		if turns != "" {
			n = int(row.in(turns))
		}
		met := row.Expect["met"].(bool)
		f := finding(Evaluate(kept(c, row.days(days), n), nil), code)
		assert.Equal(t, met, f.Status == Reached, "%s: %s", row.Source, f.SayMissing(measure.Measures{}))
		f = finding(Evaluate(kept(f.Rule.Hold.C-1, row.days(days), n), nil), code)
		assert.Equal(t, NotYet, f.Status)
		if n > 0 && met {
			f = finding(Evaluate(kept(c, row.days(days), n-1), nil), code)
			assert.Equal(t, Lack{Turns: 1}, f.Missing, "one turning fewer")
		}
	}
}

func remembered(code string) run {
	return func(t *testing.T, c check) {
		assert.Equal(t, "from memory", c.Seen)
		f := finding(Evaluate(kept(c.in("temp_c"), c.days("days"), 2), nil), code)
		assert.Equal(t, FromMemory, f.Rule.Seen)
		assert.Equal(t, c.Expect["met"], f.Status == Reached)
		assert.Contains(t, f.Say(measure.Measures{}), "from memory")
	}
}

// reactor takes readings at both ends only.
func reactor(code string) run {
	return func(t *testing.T, c check) {
		held := time.Duration(c.in("hours") * float64(time.Hour))
		f := finding(Evaluate(kept(c.in("temp_c"), held, 0), nil), code)
		assert.Equal(t, c.Expect["met"], f.Status == Reached)
		assert.Equal(t, c.in("particle_cm")*10, f.Rule.PieceMm)
		f = finding(Evaluate(kept(c.in("temp_c"), held-time.Minute, 0), nil), code)
		assert.Equal(t, time.Minute, f.Missing.Hot)
	}
}

// lesser is a heap above 55 °C for some hours and then at 45 °C.
func lesser(t *testing.T, c check) {
	hours := func(name string) time.Duration { return time.Duration(c.in(name) * float64(time.Hour)) }
	s := kept(45, hours("hours_at_or_above_40c"), 0)
	s.Readings[0].C = 56
	s.Readings = append(s.Readings, heap.Reading{At: s.RefilledAt.Add(hours("hours_above_55c")), C: 56})
	f := finding(Evaluate(s, nil), "psrp")
	assert.Equal(t, c.Expect["met"], f.Status == Reached)
	assert.Equal(t, hours("hours_above_55c"), f.Certain.Peak)
}

func converts(t *testing.T, c check) {
	assert.InDelta(t, c.want("temp_c"), celsius(c.in("temp_f")), c.Tolerance)
}

func startCN(t *testing.T, c check) {
	for _, code := range []string{"nop-static", "nop-windrow"} {
		r, _ := RuleByCode(code)
		cn := c.in("cn")
		assert.Equal(t, c.Expect["in_range"], cn >= r.StartCN[0] && cn <= r.StartCN[1])
	}
}

func seeds(t *testing.T, c check) {
	r, _ := RuleByCode("bioabfv-55")
	assert.Equal(t, c.Expect["ok"], c.in("germinable_per_litre") <= r.SeedsPerLitre)
}

// at keeps the trials at exactly c.
func at(trials []Trial, c float64) []Trial {
	var out []Trial
	for _, t := range trials {
		if t.C == c {
			out = append(out, t)
		}
	}
	return out
}

func of(c check, source string) []Trial {
	var out []Trial
	for _, t := range Weeds(c.Inputs["species"].(string)) {
		if t.Source == source {
			out = append(out, t)
		}
	}
	return out
}

func weed(t *testing.T, c check) {
	found := at(of(c, srcDahlquist), c.in("temp_c"))
	require.Len(t, found, 1)
	assert.Equal(t, c.Expect["effect"], map[Effect]string{Unharmed: "none", Killed: "lethal"}[found[0].Effect])
}

func survival(t *testing.T, c check) {
	for _, trial := range at(of(c, srcEgley), c.in("temp_c")) {
		if trial.In != inMoistSoil || trial.For != c.days("days") {
			continue
		}
		want, ok := c.Expect["survival_pct_range"].([]any)
		if !ok {
			assert.Equal(t, c.want("survival_pct"), 0.0)
			assert.Equal(t, Killed, trial.Effect)
			return
		}
		assert.Equal(t, [2]float64{want[0].(float64), want[1].(float64)}, trial.LeftPct)
		assert.Equal(t, Survived, trial.Effect)
		return
	}
	t.Error("no such trial")
}

func lethal(t *testing.T, c check) {
	byLeft := map[float64]float64{}
	for _, trial := range of(c, srcSostarcic) {
		if trial.For == time.Duration(c.in("minutes")*float64(time.Minute)) {
			byLeft[trial.LeftPct[0]] = trial.C
		}
	}
	assert.InDelta(t, c.want("lt50_c"), byLeft[50], c.Tolerance)
	assert.InDelta(t, c.want("lt90_c"), byLeft[10], c.Tolerance)
}
