package terminal

import (
	"flag"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"heapside/calc/fault"
	"heapside/commands"
)

var update = flag.Bool("update", false, "rewrite the golden files")

// golden compares text with a file in testdata.
func golden(t *testing.T, name, got string) {
	t.Helper()
	path := filepath.Join("testdata", name+".txt")
	if *update {
		require.NoError(t, os.WriteFile(path, []byte(got), 0o644))
	}
	want, err := os.ReadFile(path)
	require.NoError(t, err)
	assert.Equal(t, string(want), got)
}

var replies = map[string]commands.Reply{
	"everything": {
		Headline: "Add about 3 buckets of dry leaves and 4 litres of water, in layers no thicker than a hand.",
		Body: []commands.Block{
			{Title: "before -> after", Lines: []string{
				"C:N        18 -> 29",
				"moisture   74 -> 58 %",
				"air        31 -> 44 %",
			}},
			{Lines: []string{"This holds in about 8 of 10 loads; the moisture of the grass decides most of it, so squeeze a handful before you water."}},
		},
		Cautions: []string{"Wear gloves, and keep dust down when the leaves are dry (an invented publisher, for this test)."},
		Basis:    []string{"table of the trade, page 7", "your bucket of 14 l."},
		Actions:  []commands.Action{{Label: "Log it for North Bay", Line: "log add 2 buckets of grass"}, {Label: "Other leaves", Line: "mix"}},
		Files:    []commands.File{{Name: "north-bay.csv", Alt: "The record of North Bay, 41 rows.", Data: make([]byte, 3100)}},
	},
	"headline_only": {Headline: "Taken back: entry 12."},
	"refusal": {
		Headline: "“buckits” is not a measure I know; say it in buckets, barrows, litres or kilograms.",
		Err:      fault.New(fault.Unknown, "“buckits” is not a measure I know; say it in buckets, barrows, litres or kilograms."),
	},
	"hostile": {
		Headline: "Note kept: \x1b]0;owned\x07 \u202Etxet desrever @everyone",
		Body:     []commands.Block{{Lines: []string{strings.Repeat("aaaaaaaaaa", 12), "line one\nline two"}}},
	},
}

func TestRenderGolden(t *testing.T) {
	for name, r := range replies {
		t.Run(name, func(t *testing.T) {
			golden(t, name, Render(r))
		})
	}
}

func TestRenderNeverLeavesTheScreen(t *testing.T) {
	for name, r := range replies {
		t.Run(name, func(t *testing.T) {
			for line := range strings.Lines(Render(r)) {
				line = strings.TrimSuffix(line, "\n")
				assert.LessOrEqual(t, columns.StringWidth(line), Width, "%q", line)
				assert.Equal(t, Clean(line), line, "no control character gets through")
			}
		})
	}
}
