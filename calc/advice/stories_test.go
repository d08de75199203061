package advice

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"heapside/calc/heap"
	"heapside/calc/maturity/scenario"
	"heapside/calc/process"
)

var urgencies = map[Urgency]string{WhenYouCan: "when you can", Soon: "soon", Today: "today", Now: "now"}

func stories(t testing.TB) []scenario.Story {
	files, err := filepath.Glob("testdata/*.txt")
	require.NoError(t, err)
	var all []scenario.Story
	for _, file := range files {
		text, err := os.ReadFile(file)
		require.NoError(t, err)
		some, err := scenario.Parse(string(text))
		require.NoError(t, err, file)
		all = append(all, some...)
	}
	require.NotEmpty(t, all)
	return all
}

// caseOf is a story as the rules see it.
func caseOf(s scenario.Story) Case {
	c := Case{State: s.State, Measures: s.Measures, Sky: Sky{Located: s.Located, Lat: s.Lat}, Supply: Supply{Stock: s.Stock}}
	for _, d := range s.Days {
		y, m, n := s.Now.Date()
		c.Sky.Days = append(c.Sky.Days, Day{
			Start: time.Date(y, m, n+d.In, 0, 0, 0, 0, time.UTC), RainMm: d.RainMm, Told: true, MeanC: d.MeanC, MinC: d.NightC, Ahead: d.In >= 0,
		})
	}
	if m := s.Model; m != nil {
		c.Condition = &process.Condition{Dry: m.Dry, WantsWater: m.Dry > 0.5, WaterL: process.Band{Mid: m.WaterL}, Airless: m.Airless}
	}
	return c
}

// yardOf is the garden of a story, with its one heap.
func yardOf(s scenario.Story) Yard {
	return Yard{Now: s.Now, Measures: s.Measures, Located: s.Located, Lat: s.Lat, Supply: Supply{Stock: s.Stock}, Heaps: []heap.State{s.State}}
}

func TestStories(t *testing.T) {
	for _, story := range stories(t) {
		t.Run(story.Title, func(t *testing.T) {
			require.NotEmpty(t, story.Expect)
			jobs := append(Find(caseOf(story)), Supplies(yardOf(story))...)
			var kinds, want []string
			for _, j := range jobs {
				kinds = append(kinds, j.Kind+", "+urgencies[j.Urgency])
			}
			for _, line := range story.Expect {
				if line != "nothing" {
					head, _, _ := strings.Cut(line, ": ")
					want = append(want, head)
				}
			}
			require.Equal(t, want, kinds, "%+v", jobs)
			for i, j := range jobs {
				_, words, _ := strings.Cut(story.Expect[i], ": ")
				assert.Contains(t, j.Title+" "+j.Reason+" "+j.Note, words)
			}
			assertSound(t, caseOf(story), jobs)
		})
	}
}

// TestEveryRuleHasItsStory finds each rule at work in a story, also where a
// conflict dropped its job afterwards.
func TestEveryRuleHasItsStory(t *testing.T) {
	idle := map[string]bool{}
	for _, r := range Rules() {
		assert.False(t, idle[r.Code], "two rules are called %s", r.Code)
		assert.NotEmpty(t, r.Source, r.Code)
		assert.NotEmpty(t, r.Text, r.Code)
		idle[r.Code] = true
	}
	for _, story := range stories(t) {
		l := inspect(caseOf(story))
		for _, r := range heapRules {
			if r.when(l) {
				delete(idle, r.Code)
			}
		}
		for _, r := range supplyRules {
			if _, ok := r.find(yardOf(story)); ok {
				delete(idle, r.Code)
			}
		}
	}
	assert.Empty(t, idle)
}
