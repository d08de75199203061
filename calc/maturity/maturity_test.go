package maturity_test

import (
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

type duration = time.Duration

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
		assert.Contains(t, strings.Join(append(got.Because, got.Also...), "\n"), want)
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
	assert.LessOrEqual(t, len(a.Because), 3)
	for _, u := range a.Uses {
		assert.NotEmpty(t, u.Why, u.Name)
		if u.Verdict != maturity.Yes {
			assert.NotEmpty(t, u.Settle, u.Name)
		}
		if u.Verdict == maturity.Yes && u.Name != "mulch" {
			assert.Contains(t, []maturity.Stage{maturity.Curing, maturity.Ready}, a.Stage, u.Name)
		}
	}
	text := strings.Join(append(a.Because, a.Also...), " ") + a.Settle + strings.Join(a.Cautions, " ")
	assert.NotContains(t, strings.ToLower(text), "safe")
	assert.NotContains(t, text, "NaN")
	assert.NotContains(t, text, "%!")
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
		model := maturity.Model{}
		if r.IntN(2) == 0 {
			model.Lost = measure.Range{Low: 0.2, Typical: 0.4, High: 0.5}
		}
		a := maturity.AssessWith(s, m, model)
		assertWhole(t, a)
		assert.Equal(t, a, maturity.AssessWith(s, m, model))
		assertSame(t, a, maturity.Assess(s, m))
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

// assertSame holds that the model decides nothing.
func assertSame(t *testing.T, with, without maturity.Assessment) {
	assert.Equal(t, without.Stage, with.Stage)
	assert.Equal(t, without.Uses, with.Uses)
	assert.Equal(t, without.Settle, with.Settle)
}

// TestAssessmentLosesNothing holds that every test on record is named.
func TestAssessmentLosesNothing(t *testing.T) {
	r := rand.New(rand.NewPCG(5, 6))
	for range 500 {
		s := scenario.Random(r)
		said := evidence(maturity.Assess(s, measure.Measures{}))
		for _, test := range s.Tests {
			require.Contains(t, said, test.Test.Test)
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

// BenchmarkReady2000 is the record of 2,000 entries read and assessed.
func BenchmarkReady2000(b *testing.B) {
	s := scenario.Long(2000)
	b.ReportAllocs()
	for b.Loop() {
		maturity.Assess(heap.Read(s.Heap, s.Entries, s.Now), measure.Measures{})
	}
}
