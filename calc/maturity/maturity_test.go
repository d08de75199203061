package maturity_test

import (
	"encoding/json"
	"math/rand/v2"
	"os"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"heapside/calc/heap"
	"heapside/calc/maturity"
	"heapside/calc/maturity/scenario"
	"heapside/calc/measure"
)

const day = 24 * time.Hour

func TestStories(t *testing.T) {
	text, err := os.ReadFile("testdata/stages.txt")
	require.NoError(t, err)
	stories, err := scenario.Parse(string(text))
	require.NoError(t, err)
	require.NotEmpty(t, stories)
	for _, story := range stories {
		t.Run(story.Title, func(t *testing.T) {
			require.NotEmpty(t, story.Expect)
			got := maturity.Assess(story.State, story.Measures)
			for _, line := range story.Expect {
				what, want, ok := strings.Cut(line, ": ")
				require.True(t, ok, line)
				check(t, got, what, want)
			}
			assertWhole(t, got)
		})
	}
}

func check(t *testing.T, got maturity.Assessment, what, want string) {
	switch what {
	case "stage":
		assert.Equal(t, want, string(got.Stage))
	case "says":
		assert.Contains(t, strings.Join(got.Because, "\n"), want)
	case "settle":
		assert.Contains(t, got.Settle, want)
	case "caution":
		assert.Contains(t, strings.Join(got.Cautions, "\n"), want)
	default:
		for _, u := range got.Uses {
			if u.Name == what {
				assert.Equal(t, want, string(u.Verdict), "%s: %s", u.Name, u.Why)
				return
			}
		}
		t.Errorf("no such use or expectation: %q", what)
	}
}

// assertWhole holds for every assessment, whatever the record says.
func assertWhole(t *testing.T, a maturity.Assessment) {
	require.Len(t, a.Uses, 5)
	require.NotEmpty(t, a.Because)
	require.NotEmpty(t, a.Basis)
	assert.LessOrEqual(t, len(a.Cautions), 1)
	for _, u := range a.Uses {
		assert.NotEmpty(t, u.Why, u.Name)
		if u.Verdict != maturity.Yes {
			assert.NotEmpty(t, u.Settle, u.Name)
		}
		if u.Verdict == maturity.Yes && u.Name != "mulch" {
			assert.Contains(t, []maturity.Stage{maturity.Curing, maturity.Ready}, a.Stage, u.Name)
		}
	}
	text := strings.Join(a.Because, " ") + a.Settle + strings.Join(a.Cautions, " ")
	assert.NotContains(t, strings.ToLower(text), "safe")
	assert.NotContains(t, text, "NaN")
	assert.NotContains(t, text, "%!")
}

// TestPublished runs the check values of testdata/published that speak of curing and tests.
func TestPublished(t *testing.T) {
	data, err := os.ReadFile("../../testdata/published/standards-checks.json")
	require.NoError(t, err)
	var checks []struct {
		ID, Source, Seen string
		Inputs, Expect   map[string]any
	}
	require.NoError(t, json.Unmarshal(data, &checks))
	run := map[string]func(t *testing.T, in, want map[string]any){
		"cure-start": func(t *testing.T, in, want map[string]any) {
			s := cured(10*day, in["temp_c_after_turning"].(float64))
			stage, _ := maturity.StageOf(s)
			assert.Equal(t, want["stage"], string(stage))
		},
		"cure-done": func(t *testing.T, in, want map[string]any) {
			s := cured(28*day, in["heap_c"].(float64))
			s.Air = []heap.Reading{{At: s.Now, C: in["ambient_c"].(float64)}}
			stage, _ := maturity.StageOf(s)
			assert.Equal(t, want["complete"], stage == maturity.Ready)
		},
		"radish-34": func(t *testing.T, in, want map[string]any) {
			s := cured(5*day, 25)
			share := in["grown"].(float64) / in["sown"].(float64)
			s.Tests = []heap.TestRecord{{At: s.Now, Test: heap.Test{Test: "radish", Passed: share >= 0.75}}}
			stage, _ := maturity.StageOf(s)
			assert.Equal(t, want["ready"], stage == maturity.Ready)
		},
	}
	for _, c := range checks {
		if f, ok := run[c.ID]; ok {
			t.Run(c.ID, func(t *testing.T) { f(t, c.Inputs, c.Expect) })
			delete(run, c.ID)
		}
	}
	assert.Empty(t, run, "every check was found in the file")
}

// cured is a heap that was hot, was turned some time ago and reads c now.
func cured(since time.Duration, c float64) heap.State {
	now := scenario.Now
	turned := now.Add(-since)
	return heap.State{
		Now: now, Age: since + 30*day, PeakC: 60,
		Content: []heap.Added{{Material: "grass-clippings", VolumeL: 600, MassKg: 150}}, AddedL: 600,
		LastAdded: turned.Add(-30 * day),
		Readings:  []heap.Reading{{At: turned.Add(-20 * day), C: 60}, {At: now, C: c}},
		Turns:     []time.Time{turned},
	}
}

func TestLimits(t *testing.T) {
	rows := []struct {
		name   string
		state  heap.State
		want   maturity.Stage
		source string
	}{
		{"44.9 after turning is curing", cured(4*day, 44.9), maturity.Curing, "AgriFutures, Curing: below 45 C"},
		{"45 is not", cured(4*day, 45), maturity.Hot, "AgriFutures, Curing: below 45 C"},
		{"read less than three days after turning", cured(3*day-time.Hour, 30), maturity.Cooling, "own choice"},
		{"read three days after turning", cured(3*day, 30), maturity.Curing, "own choice"},
		{"5 C above the air after 21 days", withAir(cured(21*day, 20), 15), maturity.Ready, "AgriFutures: 3 weeks, within about 5 C"},
		{"5.1 C above the air", withAir(cured(21*day, 20.1), 15), maturity.Curing, "AgriFutures: within about 5 C"},
		{"20 days", withAir(cured(20*day, 20), 15), maturity.Curing, "AgriFutures: 3 weeks"},
		{"colder than the air", withAir(cured(21*day, 10), 25), maturity.Ready, "AgriFutures: within about 5 C"},
	}
	for _, r := range rows {
		t.Run(r.name, func(t *testing.T) {
			got, why := maturity.StageOf(r.state)
			assert.Equal(t, r.want, got, "%s (%s)", why, r.source)
		})
	}
}

func withAir(s heap.State, c float64) heap.State {
	s.Air = []heap.Reading{{At: s.Now, C: c}}
	return s
}

// TestAnyRecord assesses random records: the answer is whole, the same twice,
// and never calls anything ready against heat, a foul smell or a failed test of today.
func TestAnyRecord(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	for range 3000 {
		s := scenario.Random(r)
		m := measure.Measures{Fahrenheit: r.IntN(2) == 0}
		a := maturity.Assess(s, m)
		assertWhole(t, a)
		assert.Equal(t, a, maturity.Assess(s, m))
		if a.Stage == maturity.Ready {
			last, ok := s.LastReading()
			assert.False(t, ok && last.C >= maturity.HotC && s.Now.Sub(last.At) <= maturity.SpentHot)
			assert.False(t, maturity.BadSmell(s))
		}
		if t.Failed() {
			return
		}
	}
}

// TestMoreHeatNeverRiper raises the last reading and expects no riper stage.
func TestMoreHeatNeverRiper(t *testing.T) {
	rank := map[maturity.Stage]int{maturity.Curing: 1, maturity.Ready: 2}
	r := rand.New(rand.NewPCG(3, 4))
	for range 2000 {
		s := scenario.Random(r)
		if len(s.Readings) == 0 {
			continue
		}
		cool, _ := maturity.StageOf(s)
		last := &s.Readings[len(s.Readings)-1]
		last.C += 30 * r.Float64()
		warm, _ := maturity.StageOf(s)
		if last.C < maturity.HotC || s.Now.Sub(last.At) <= maturity.SpentHot {
			require.LessOrEqual(t, rank[warm], rank[cool])
		}
	}
}

func BenchmarkAssess2000(b *testing.B) {
	s := scenario.Long(2000)
	for b.Loop() {
		maturity.Assess(s, measure.Measures{})
	}
}
