package commands

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// What a pattern is found to need is in every text that it fits.
func TestNoPatternIsRuledOutWrongly(t *testing.T) {
	var texts []string
	for i, row := range rowsOf(t, "testdata/ask-voices.txt") {
		if s, _ := readSentence(row[0], millrace); i%5 == 0 {
			texts = append(texts, s.text)
		}
	}
	for _, in := range intents {
		for _, cue := range in.cues {
			c := cue.pattern.compiled()
			for _, text := range texts {
				if c.Regexp.MatchString(text) {
					assert.True(t, c.mayMatch(text), "%q needs one of %q to fit %s", text, c.needs, c.Regexp)
				}
			}
		}
	}
}

func TestWhatAPatternNeeds(t *testing.T) {
	for p, want := range map[string][]string{
		`\bturned (?:over )?it\b`: {"turned "},
		`^(?:cat|dogs) .*\d`:      {"cat", "dogs"},
		`(?:over )?\w+`:           nil,
		`(?i)turned`:              nil,
		`(?:a|turned) it`:         {" it"},
	} {
		assert.ElementsMatch(t, want, needsOf(p), p)
	}
}
