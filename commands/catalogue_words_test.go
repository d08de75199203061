package commands_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"

	"heapside/commands"
	"heapside/commands/speech"
)

// catalogueTexts are what a platform shows of the commands, as keys.
func catalogueTexts(t *testing.T) map[string]bool {
	texts := map[string]bool{}
	add := func(text string) { texts[strings.ReplaceAll(text, "%", "%%")] = true }
	var visit func(c commands.Command)
	visit = func(c commands.Command) {
		add(c.Summary)
		for _, o := range c.Options {
			add(o.Summary)
			for _, choice := range o.Choices {
				named := speech.Of(choice.Value).Code() == choice.Value        // a language calls itself the same everywhere, as C and F are
				if o.Kind == commands.Pick && len(choice.Name) > 1 && !named { // the others are words to type
					add(choice.Name)
				}
			}
		}
		for _, sub := range c.Subs {
			visit(sub)
		}
	}
	for _, c := range assistant(t).Commands() {
		visit(c)
	}
	return texts
}

// TestEveryCommandIsDescribedInEveryLanguage lists what is still English.
func TestEveryCommandIsDescribedInEveryLanguage(t *testing.T) {
	for _, code := range []string{"de", "fr", "es", "nl"} {
		for text := range catalogueTexts(t) {
			assert.True(t, speech.Of(code).Knows(text), "%s has no words for: %s", code, text)
		}
	}
}
