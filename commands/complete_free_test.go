package commands_test

import (
	"maps"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"

	"heapside/commands"
)

// free are the options that suggest nothing, and why: whatever is not among
// them completes or is picked.
var free = map[string]string{
	"mix cn": "a number", "mix moisture": "a number",
	"log temp reading": "read off a thermometer", "log visit temp": "read off a thermometer", "duty done reading": "read off a thermometer",
	"ready air": "read off a thermometer", "log height height": "read off a rule", "log rain rain": "read off a gauge",
	"log turn note": "a note", "log note text": "a note", "log visit note": "a note", "log test result": "what a test showed",
	"heap start name": "a new name", "heap change name": "a new name", "heap finish yield": "what was dug out",
	"spread what": "a bed and a layer in one", "spread area": "a measure of a bed", "spread beds": "a number",
	"stock weigh what": "read off a scale", "garden measure what": "a measure of the group's own", "stock define name": "a new name",
	"stock define cn": "a number", "stock define nitrogen": "a number", "stock define carbon": "a number", "stock define ash": "a number",
	"stock define moisture": "a number", "stock define density": "a number",
	"garden place place": "any town", "ask words": "a sentence",
}

// TestEveryOptionCompletesOrIsFree: an option that is new is listed above, or it
// completes.
func TestEveryOptionCompletesOrIsFree(t *testing.T) {
	var found []string
	var visit func(prefix string, c commands.Command)
	visit = func(prefix string, c commands.Command) {
		path := strings.TrimSpace(prefix + " " + c.Name)
		for _, o := range c.Options {
			if o.Kind == commands.Text {
				found = append(found, path+" "+o.Name)
			}
			if o.Kind == commands.Pick || o.Kind == commands.Hint {
				assert.NotEmpty(t, o.Choices, "%s %s", path, o.Name)
			}
		}
		for _, s := range c.Subs {
			visit(path, s)
		}
	}
	for _, c := range assistant(t).Commands() {
		visit("", c)
	}
	assert.ElementsMatch(t, slices.Collect(maps.Keys(free)), found)
}
