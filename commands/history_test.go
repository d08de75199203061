package commands_test

import (
	"context"
	"encoding/csv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"heapside/calc/heap"
	"heapside/commands"
)

// TestChangesAsATable: the changes have a file of their own, so that the record
// has one entry in each row as before.
func TestChangesAsATable(t *testing.T) {
	a := assistant(t)
	call := commands.Call{Place: millrace, By: heap.Person{ID: "wren", Name: "=Wren"}, Organiser: true, Now: summer}
	files := func(line string) map[string][][]string {
		r := a.Line(context.Background(), call, line)
		require.Nil(t, r.Err)
		read := map[string][][]string{}
		for _, f := range r.Files {
			rows, err := csv.NewReader(strings.NewReader(string(f.Data))).ReadAll()
			require.NoError(t, err)
			read[f.Name] = rows
		}
		return read
	}
	require.Empty(t, files("history csv:yes"))
	for _, line := range []string{"heap start North Bay", "garden measure our bucket holds 14 l", "garden zone Europe/London", "stock set 1 bale of straw", "garden measure our bucket holds 14 l"} {
		require.Nil(t, a.Line(context.Background(), call, line).Err, line)
	}
	both := files("history csv:yes")
	require.Len(t, both["record.csv"], 1+1)
	assert.Equal(t, [][]string{
		{"changed", "topic", "person", "thing", "of", "heap", "people", "from", "to", "what"},
		{"2026-06-14T19:20:00+01:00", "settings", "'=Wren", "measure", "bucket", "", "", "", "14", "bucket 12 l (as usual) → 14 l"},
		{"2026-06-14T19:20:00+01:00", "settings", "'=Wren", "zone", "", "", "", "", "Europe/London", "time zone UTC → Europe/London"},
	}, both["changes.csv"][:3])
	assert.Len(t, both["changes.csv"], 1+3)
	assert.NotContains(t, files("history csv:yes kind:settings"), "record.csv")
	assert.NotContains(t, files("history csv:yes kind:log"), "changes.csv")
}

// TestRefusedAttemptsAreNoChanges: what was not done is not on record.
func TestRefusedAttemptsAreNoChanges(t *testing.T) {
	a := assistant(t)
	call := commands.Call{Place: millrace, By: person("Wren"), Organiser: true, Now: summer}
	require.Nil(t, a.Line(context.Background(), call, "garden organiser Wren").Err)
	call.By, call.Organiser = person("Odalys"), false
	for _, line := range []string{
		"garden measure our bucket holds 1 l", "garden zone UTC", "garden units us", "garden language de", "garden place 51, 1", "garden organiser Odalys", "garden readonly Wren",
		"duty when daily", "duty quiet off", "duty swap Wren", "duty away tomorrow", "stock define x cn:20", "stock set 3 sacks of nonsuch", "stock weigh a bucket of grass is 300 kg",
	} {
		require.NotNil(t, a.Line(context.Background(), call, line).Err, line)
	}
	r := a.Line(context.Background(), call, "history kind:changes")
	assert.Equal(t, 1.0, r.Values["changes"].Value, "that an organiser was appointed")
}
