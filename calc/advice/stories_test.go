package advice

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"heapside/calc/maturity/scenario"
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

func TestStories(t *testing.T) {
	for _, story := range stories(t) {
		t.Run(story.Title, func(t *testing.T) {
			require.NotEmpty(t, story.Expect)
			jobs := Jobs(story.State, story.Measures)
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
				assert.Contains(t, j.Title+" "+j.Reason, words)
			}
			assertSound(t, story.State, story.Measures, jobs)
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
		l := inspect(story.State, story.Measures)
		for _, r := range Rules() {
			if _, ok := r.find(l); ok {
				delete(idle, r.Code)
			}
		}
	}
	assert.Empty(t, idle)
}
