package commands_test

import (
	"maps"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
	"unicode"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"heapside/commands"
)

// heard are the English conversations that TestLanguages holds again: between
// them they bring most of what the spoken commands say.
var heard = []string{"duty", "garden", "heap", "mix", "rights", "stock", "visit", "which"}

// spoken are the commands that answer nothing in English to who hears another
// language. A command joins them when the last of its sentences has words.
var spoken = []string{
	"duty away", "duty forget", "duty forget, refused", "duty join", "duty next", "duty off", "duty order", "duty pause",
	"duty quiet", "duty quiet, refused", "duty show", "duty swap", "duty swap, refused", "duty unneeded", "duty weekly", "duty when",
	"garden measure", "garden organiser", "garden organiser, refused", "garden place",
	"garden readonly", "garden readonly, refused", "garden show", "garden units", "garden zone", "garden zone, refused",
	"heap start", "heap list", "heap show", "heap change", "heap finish",
	"log add", "log cover", "log feel", "log height", "log move", "log move, refused", "log rain", "log smell", "log temp", "log test", "log turn", "log visit", "log water",
	"mix", "mix, refused", "next", "ready", "undo, refused", "words, refused",
	"stock list", "stock set", "stock weigh", "stock weigh, refused", "stock define", "stock define, refused",
}

// TestLanguages holds English conversations with somebody who hears German, and
// counts for each command the lines that stayed English, as a whole or in a
// part, refusals apart. A spoken command has none. That the other languages have
// words for the same, speech.TestEveryLanguageSaysTheSame holds.
func TestLanguages(t *testing.T) {
	notUnderRace(t)
	t.Parallel()
	said, english := map[string]int{}, map[string][]string{}
	commands := assistant(t).Commands()
	for _, name := range heard {
		script, err := os.ReadFile(filepath.Join("testdata", name+".chat"))
		require.NoError(t, err)
		first, again := strings.Split(string(script), "\n"), strings.Split(replay(t, string(script), "de"), "\n")
		require.Len(t, again, len(first), name)
		path := ""
		for i, line := range first {
			switch {
			case strings.HasPrefix(line, "> "):
				path = pathOf(line[2:], commands)
			case line == "% reminder":
				path = "reminder" // in the garden's language, not in that of whoever reads it
			case strings.HasPrefix(line, "  ! "):
				path += ", refused"
			}
			if !strings.HasPrefix(line, "  ") || strings.HasPrefix(line, "    caution: ") {
				continue // what was asked, and what stays English
			}
			said[path]++
			if again[i] == line && says(line) || inEnglish(again[i]) {
				english[path] = append(english[path], again[i])
			}
		}
	}
	for _, path := range slices.Sorted(maps.Keys(said)) {
		t.Logf("%-22s %3d of %3d English", path, len(english[path]), said[path])
		if slices.Contains(spoken, path) {
			assert.Empty(t, english[path], path)
		}
	}
	for _, path := range spoken {
		assert.NotZero(t, said[path], "nobody asked: "+path)
	}
}

// pathOf is the command that a typed line begins with; "words" of a plain sentence.
func pathOf(line string, all []commands.Command) string {
	for _, c := range all {
		rest, found := strings.CutPrefix(line+" ", c.Name+" ")
		if !found {
			continue
		}
		for _, sub := range c.Subs {
			if strings.HasPrefix(rest, sub.Name+" ") {
				return c.Name + " " + sub.Name
			}
		}
		return c.Name
	}
	return "words"
}

// given is what stays English in an answer: lines and examples to type, what
// people wrote, their names and those of their heaps, and codes of faults.
var given = regexp.MustCompile(`\b(?:log|mix|heap|stock|history|duty|undo|garden|trouble|spread|ready|outlook|guide) (?:\w+[ :]|"|\d).*|from:\w+|“[^”]*”|„[^“]*“|^  ! \w+:|^    form |^      \w+:|` +
	`20 litres, 2 cans| at 40 cm|Odalys|Tobias|Wren|Mirembe|Tamsy|smells of earth|only the top half|the whole heap|(?:North|Old|South) Bay|(?:Kitchen|Back) Bin`)

// says reports whether a line has words of its own.
func says(line string) bool {
	return strings.ContainsFunc(given.ReplaceAllString(line, ""), unicode.IsLetter)
}

// englishWord is one that sentences are made with and that German has not.
var englishWord = regexp.MustCompile(`(?i)\b(?:the|of|and|with|is|are|it|from|about|your|or|to|by|just|ago|on|at|has|taken|back)\b`)

// inEnglish reports whether a part of a line is English.
func inEnglish(line string) bool { return englishWord.MatchString(given.ReplaceAllString(line, "")) }
