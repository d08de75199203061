package advice

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// marker is a language that puts what it says in brackets.
type marker struct{}

func (marker) Say(format string, args ...any) string { return "[" + fmt.Sprintf(format, args...) + "]" }
func (marker) Word(text string) string               { return "[" + text + "]" }

// TestALanguageChangesNoJob: in any language a heap has the same jobs, with what
// is typed as it is read, and no reason is said twice over or left out.
func TestALanguageChangesNoJob(t *testing.T) {
	asked := 0
	for _, story := range stories(t) {
		english := append(Find(caseOf(story)), Supplies(yardOf(story))...)
		story.Measures.Style.Speaker = marker{}
		said := append(Find(caseOf(story)), Supplies(yardOf(story))...)
		require.Len(t, said, len(english), story.Title)
		for i, job := range said {
			assert.Equal(t, english[i].Kind, job.Kind)
			assert.Equal(t, english[i].Done, job.Done, "what is typed")
			assert.Contains(t, job.Reason, "[", "%s: %s", story.Title, job.Title)
			plain := strings.NewReplacer("[", "", "]", "")
			same := func(want, got string) { // a bracket begins no sentence
				assert.Equal(t, strings.ToLower(want), strings.ToLower(plain.Replace(got)))
			}
			same(english[i].Reason, job.Reason)
			same(english[i].Title, job.Title)
			same(english[i].Note, job.Note)
			asked++
		}
	}
	assert.Positive(t, asked)
}
