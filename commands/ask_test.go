package commands

import (
	"bufio"
	"fmt"
	"os"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"heapside/calc/feedstock"
)

// millrace is what the invented garden of the tests has.
var millrace = Known{Heaps: []string{"North Bay", "Old Bay", "Shed Tumbler"}, Table: feedstock.Default()}

// spoken is the typed line for what a sentence was understood as, "?" for nothing.
func spoken(a *Assistant, said string, k Known) string {
	path, args, ok := route(said, k)
	if !ok {
		return "?"
	}
	return typed(path, args, a.byPath[path].Options)
}

// rowsOf reads sentence<TAB>expected lines.
func rowsOf(t testing.TB, file string) [][2]string {
	f, err := os.Open(file)
	require.NoError(t, err)
	defer f.Close()
	var rows [][2]string
	for lines := bufio.NewScanner(f); lines.Scan(); {
		said, want, ok := strings.Cut(lines.Text(), "\t")
		if ok && !strings.HasPrefix(said, "#") {
			rows = append(rows, [2]string{said, want})
		}
	}
	return rows
}

// optionsSorted makes two typed lines comparable whatever the order of options.
func optionsSorted(a *Assistant, line string) string {
	path, args, err := a.parse(line, millrace.Heaps)
	if err != nil || line == "?" {
		return line
	}
	keys := make([]string, 0, len(args))
	for k, v := range args {
		keys = append(keys, k+"="+v)
	}
	slices.Sort(keys)
	return fmt.Sprint(path, keys)
}

func TestEverySentenceOfTheListIsUnderstood(t *testing.T) {
	a := New(nil, nil)
	rows := rowsOf(t, "testdata/ask.txt")
	require.GreaterOrEqual(t, len(rows), 120)
	for _, row := range rows {
		t.Run(row[0], func(t *testing.T) {
			got := spoken(a, row[0], millrace)
			assert.Equal(t, optionsSorted(a, row[1]), optionsSorted(a, got), "understood as %s", got)
		})
	}
}

func TestQuestionsPlansAndJokesNeverChangeTheRecord(t *testing.T) {
	writing := map[string]bool{}
	for _, in := range intents {
		writing[in.path] = writing[in.path] || in.writes
	}
	for _, said := range linesOf(t, "testdata/ask-not-logged.txt") {
		t.Run(said, func(t *testing.T) {
			path, args, ok := route(said, millrace)
			assert.False(t, ok && writing[path], "became %s %v", path, args)
		})
	}
}

func linesOf(t testing.TB, file string) []string {
	data, err := os.ReadFile(file)
	require.NoError(t, err)
	var lines []string
	for line := range strings.Lines(string(data)) {
		if line = strings.TrimSpace(line); line != "" && !strings.HasPrefix(line, "#") {
			lines = append(lines, line)
		}
	}
	return lines
}
