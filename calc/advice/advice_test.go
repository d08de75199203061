package advice

import (
	"encoding/json"
	"math/rand/v2"
	"os"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"heapside/calc/heap"
	"heapside/calc/maturity/scenario"
	"heapside/calc/measure"
	"heapside/calc/mix"
	"heapside/calc/process"
)

// assertSound holds for the jobs of any heap.
func assertSound(t *testing.T, c Case, jobs []Job) {
	kinds := map[string]bool{}
	for i, j := range jobs {
		require.False(t, kinds[j.Kind], "two jobs of kind %s", j.Kind)
		kinds[j.Kind] = true
		_, known := kindOf(j.Kind)
		require.True(t, known, j.Kind)
		for _, text := range []string{j.Title, j.Reason, j.Source} {
			require.NotEmpty(t, text, j.Kind)
			require.NotContains(t, text, "%!")
			require.NotContains(t, text, "NaN")
			require.NotContains(t, strings.ToLower(text), "safe")
		}
		require.Contains(t, []string{sure, likely, guess}, j.Confidence)
		require.GreaterOrEqual(t, j.WaterL, 0.0)
		if strings.Contains(strings.ToLower(j.Title+j.Reason), "water it: about") {
			require.Positive(t, j.WaterL, "the litres that are named")
		}
		if i > 0 {
			require.LessOrEqual(t, j.Urgency, jobs[i-1].Urgency)
		}
		if amount, ok := strings.CutPrefix(j.Done, "log water "); ok {
			got, err := c.Measures.ParseAmount(amount)
			require.NoError(t, err)
			litres, _ := got.Volume()
			require.InEpsilon(t, j.WaterL, litres.Typical, 1e-6)
		}
	}
	for _, c := range conflicts {
		require.False(t, c.way != after && kinds[c.wins] && kinds[c.loses], "%s and %s", c.wins, c.loses)
	}
	if wet(inspect(c).squeeze) {
		require.False(t, kinds[Water], "water on a soggy heap")
		for _, j := range jobs {
			require.Zero(t, j.WaterL, j.Kind)
			require.NotContains(t, j.Title, "wet", "wetting a soggy heap")
		}
	}
}

func TestAnyRecord(t *testing.T) {
	r := rand.New(rand.NewPCG(5, 6))
	for range 4000 {
		s := scenario.Random(r)
		m := measure.Measures{Fahrenheit: r.IntN(2) == 0}
		if r.IntN(3) == 0 {
			m.System = measure.US
		}
		c := Case{State: s, Measures: m, Sky: randomSky(r, s.Now)}
		if r.IntN(2) == 0 {
			c.Condition = &process.Condition{WantsWater: r.IntN(2) == 0, Dry: r.Float64(), WaterL: process.Band{Mid: 60 * r.Float64()}, Airless: r.Float64()}
		}
		jobs := Find(c)
		assertSound(t, c, jobs)
		require.Equal(t, jobs, Find(c), "the same record gives the same jobs")
	}
}

// randomSky is weather of any sort, known in parts.
func randomSky(r *rand.Rand, now time.Time) Sky {
	var s Sky
	for n := range r.IntN(12) {
		d := Day{Start: now.Truncate(day).AddDate(0, 0, n-4), RainMm: 30*r.Float64() - 5, Told: r.IntN(3) > 0, MinC: -10 + 30*r.Float64(), Ahead: n >= 4}
		d.MeanC = d.MinC + 6
		s.Days = append(s.Days, d)
	}
	return s
}

func TestFinishedHeapNeedsNothing(t *testing.T) {
	r := rand.New(rand.NewPCG(7, 8))
	for range 100 {
		s := scenario.Random(r)
		s.Heap.Finished = s.Now
		assert.Empty(t, Find(Case{State: s}))
	}
}

// TestConflictsAreOneWay: a pair that stood in both orders, or a kind that no
// rule uses, would make the table's order matter where nobody looks.
func TestConflictsAreOneWay(t *testing.T) {
	for i, c := range conflicts {
		for _, d := range conflicts[i+1:] {
			assert.False(t, c.wins == d.wins && c.loses == d.loses, "%v twice", c)
			assert.False(t, c.wins == d.loses && c.loses == d.wins, "%v both ways", c)
		}
	}
}

func TestThresholds(t *testing.T) {
	rows := []struct {
		typed  string
		aim    heap.Aim
		want   string
		source string
	}{
		{"60", heap.Steady, "", "Cornell fact sheet 1: above 140 F"},
		{"140F", heap.Steady, "", "Cornell fact sheet 1: above 140 F"},
		{"141F", heap.Steady, Turn, "Cornell fact sheet 1: above 140 F"},
		{"159F", heap.Steady, Turn, "NC DEQ: at 160 F"},
		{"160F", heap.Steady, Cool, "NC DEQ: at 160 F"},
		{"185F", heap.Steady, Cool, "NRCS job sheet 317: act at once"},
		{"64", heap.Hygienic, Turn, "40 CFR 257 App. II: five turnings in 15 days at 55 C"},
		{"54", heap.Hygienic, "", "40 CFR 257 App. II: 55 C"},
	}
	for _, r := range rows {
		t.Run(r.typed+" "+string(r.aim), func(t *testing.T) {
			typed, err := measure.Measures{}.ParseTemperature(r.typed)
			require.NoError(t, err)
			s := reading(typed)
			s.Heap.Aim = r.aim
			job, ok := only(t, s)
			assert.Equal(t, r.want != "", ok, r.source)
			assert.Equal(t, r.want, job.Kind, r.source)
			assert.Equal(t, job.Kind == Cool, job.Caution != "", "fire caution")
		})
	}
}

// TestPublished runs the check values of testdata/published that speak of turning and heat.
func TestPublished(t *testing.T) {
	data, err := os.ReadFile("../../testdata/published/standards-checks.json")
	require.NoError(t, err)
	var checks []struct {
		ID             string
		Inputs, Expect map[string]any
	}
	require.NoError(t, json.Unmarshal(data, &checks))
	ran := 0
	for _, c := range checks {
		f, _ := c.Inputs["temp_f"].(float64)
		switch c.ID {
		case "turn-140":
			job, ok := only(t, reading((f-32)/1.8))
			assert.Equal(t, c.Expect["turn"], ok && job.Kind == Turn, c.ID)
		case "nrcs-watch":
			job, ok := only(t, reading((f-32)/1.8))
			assert.True(t, ok && job.Kind == Cool, c.ID)
			assert.Contains(t, job.Reason, "every day", c.Expect["level"])
		case "nrcs-165":
			assert.InDelta(t, c.Expect["temp_c"], watchC, 0.0001, c.ID)
		case "nrcs-185":
			assert.InDelta(t, c.Expect["temp_c"], actC, 0.0001, c.ID)
		case "size-yd3":
			assert.InDelta(t, c.Expect["m3"].(float64)*1000, mix.MinHeatL, 0.001, c.ID)
		default:
			continue
		}
		ran++
	}
	assert.Equal(t, 5, ran)
}

// reading is a damp heap, six days old, that reads c now.
func reading(c float64) heap.State {
	now := scenario.Now
	return heap.State{
		Now: now, Age: 6 * day, Heap: heap.Heap{Aim: heap.Steady},
		Content: []heap.Added{{Material: "grass-clippings", MassKg: 300}}, LastAdded: now.Add(-6 * day),
		Readings: []heap.Reading{{At: now, C: c}}, Squeeze: heap.Drops, SqueezeAt: now,
	}
}

func only(t *testing.T, s heap.State) (Job, bool) {
	jobs := Find(Case{State: s})
	if len(jobs) == 0 {
		return Job{}, false
	}
	require.Len(t, jobs, 1)
	return jobs[0], true
}

func TestLitresToAdd(t *testing.T) {
	known := []heap.Added{{Material: "unheard-of", MassKg: 100}} // 40 kg dry at the guessed 60 %
	rows := []struct {
		name    string
		content []heap.Added
		ageDays float64
		volumeL float64
		want    float64
		source  string
	}{
		// 40 x (0.55/0.45 - 0.35/0.65) = 27.35
		{"as put in", known, 0, 0, 27, "W = Q (G - M) / (100 - G), own arithmetic with Q = 40 / 0.65 = 61.5 kg"},
		{"half of it gone", known, 90, 0, 14, "Embrapa: about 50 % of mass in 90 days"},
		{"never more gone", known, 900, 0, 14, "own choice"},
		{"no more than leaves take on forming", known, 0, 100, 10, "NJDEP: 20 gal per cubic yard = 99 L/m3; 9.9 L to the whole litre"},
		{"nothing known", nil, 10, 500, 0, ""},
		{"nothing weighed", []heap.Added{{Material: "grass-clippings"}}, 10, 500, 0, ""},
	}
	for _, r := range rows {
		t.Run(r.name, func(t *testing.T) {
			l := &look{}
			l.Content, l.VolumeL = r.content, r.volumeL
			l.Age = time.Duration(r.ageDays * float64(day))
			assert.InDelta(t, r.want, litresToAdd(l), 0.51, r.source)
		})
	}
}

func TestDustCautionOnlyWhenDry(t *testing.T) {
	for _, story := range stories(t) {
		l := inspect(caseOf(story))
		for _, j := range Find(caseOf(story)) {
			dusty := strings.Contains(j.Caution, dustCaution)
			assert.False(t, dusty && l.squeeze != heap.Crumbles, story.Title)
			assert.False(t, j.Kind == Turn && l.squeeze == heap.Crumbles && !dusty, story.Title)
		}
	}
}

func TestRulesAreGivenAsACopy(t *testing.T) {
	rules := Rules()
	rules[0].Code = "changed"
	assert.False(t, slices.ContainsFunc(Rules(), func(r Rule) bool { return r.Code == "changed" }))
}

func BenchmarkFind2000(b *testing.B) {
	s := scenario.Long(2000)
	for b.Loop() {
		Find(Case{State: s})
	}
}
