package main

import (
	"encoding/csv"
	"encoding/json"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"heapside/storage"
)

// filled is a record with a heap and a few entries by Wren.
func filled(t *testing.T) record {
	t.Helper()
	r := newRecord(t)
	for _, line := range []string{`heap start "North Bay" size:"1 m3"`, "log temp 58", `log note "=1+1"`, "garden zone Europe/London", "stock set 2 barrows of straw", "duty when daily 18:00"} {
		if got := r.try("-as", "Wren", "-organiser", line); got.status != 0 {
			t.Fatal(line, got.err)
		}
	}
	return r
}

func (r record) run(args ...string) outcome {
	r.t.Helper()
	return heapside(r.t, []string{"HEAPSIDE_DB=" + r.db}, "", args...)
}

func TestABackupComesBack(t *testing.T) {
	r := filled(t)
	file := filepath.Join(t.TempDir(), "copy.db")
	got := r.run("backup", file)
	require.Equal(t, 0, got.status, got.err)
	assert.Regexp(t, `^Backed up to .*copy.db: 1 heap, 3 entries, \d+ kB, checked\.\n$`, got.out)
	again := r.run("backup", file)
	assert.Equal(t, 1, again.status)
	assert.Contains(t, again.err, "-force")
	assert.Equal(t, 0, r.run("backup", file, "-force").status, "flags may follow")

	r.once("-as", "Wren", "log turn")
	got = r.run("restore", file)
	require.Equal(t, 0, got.status, got.err)
	assert.Regexp(t, `Restored .*: 1 heap, 3 entries, .* is now .*\.replaced-`, got.out)
	assert.NotContains(t, r.once("history"), "turned")

	other := newRecord(t)
	got = other.run("restore", file)
	require.Equal(t, 0, got.status, got.err)
	assert.Contains(t, got.out, "There was no record before.")
	assert.Equal(t, r.once("history"), other.once("history"))
}

func TestBackupAndItsLikeRefuse(t *testing.T) {
	r := filled(t)
	full := t.TempDir()
	require.NoError(t, os.WriteFile(filepath.Join(full, "mine"), nil, 0o600))
	for _, tt := range []struct {
		name   string
		args   []string
		status int
		err    string
	}{
		{"no file", []string{"backup"}, 2, "needs FILE"},
		{"two files", []string{"backup", "a", "b"}, 2, "takes FILE, but got 2"},
		{"a backup that is none", []string{"restore", "absent.db"}, 1, "There is no file"},
		{"into a full folder", []string{"export", full}, 1, "not empty"},
		{"an unknown group", []string{"export", "-guild", "nowhere", filepath.Join(t.TempDir(), "x")}, 1, "nothing of the group"},
		{"no record", []string{"export", "-db", filepath.Join(t.TempDir(), "absent.db"), full}, 1, "There is no record"},
		{"forget without yes", []string{"forget", "user", "wren"}, 1, "Nothing was done"},
		{"forget whom", []string{"forget", "heap", "3", "-yes"}, 2, "user ID or guild ID"},
		{"forget a stranger", []string{"forget", "user", "nobody", "-yes"}, 1, "nothing of user"},
	} {
		t.Run(tt.name, func(t *testing.T) {
			got := r.run(tt.args...)
			assert.Equal(t, tt.status, got.status, got.err)
			assert.Contains(t, got.err, tt.err)
			assert.Empty(t, got.out)
		})
	}
	assert.Contains(t, r.once("history"), "Wren", "nothing was forgotten")
	assert.NoFileExists(t, filepath.Join(t.TempDir(), "absent.db"))
}

func TestForget(t *testing.T) {
	r := filled(t)
	got := r.run("forget", "user", "wren", "-yes")
	require.Equal(t, 0, got.status, got.err)
	assert.Equal(t, "Rows changed for user wren: entries 3, changes 3.\n", got.out)
	said := r.once("history")
	assert.NotContains(t, said, "Wren")
	assert.Contains(t, said, "somebody")
	assert.Contains(t, said, "58")

	got = r.run("forget", "-yes", "guild", localGuild)
	require.Equal(t, 0, got.status, got.err)
	assert.Equal(t, "Rows removed for guild local: changes 3, plans 1, entries 3, heaps 1, stock 1, gardens 1.\n", got.out)
	assert.Contains(t, r.once("history"), "Nothing is on record")
}

func TestExportHoldsTheWholeRecordOfAGroup(t *testing.T) {
	r := filled(t)
	r.once("-guild", "other", "-channel", "secret", "heap start", "Hidden")
	dir := filepath.Join(t.TempDir(), "out")
	got := r.run("export", dir)
	require.Equal(t, 0, got.status, got.err)
	assert.Contains(t, got.out, "heaps 1, entries 3, settings 1, materials 0, stock 1, plans 1, posts 0, items 0, changes 3.")

	documented := map[string][]string{}
	for _, row := range readCSV(t, filepath.Join(dir, "columns.csv"))[1:] {
		assert.NotEmpty(t, row[2])
		documented[row[0]] = append(documented[row[0]], row[1])
	}
	files, err := os.ReadDir(dir)
	require.NoError(t, err)
	require.Len(t, files, 2*len(documented)+1)
	for table, columns := range documented {
		rows := readCSV(t, filepath.Join(dir, table+".csv"))
		assert.Equal(t, columns, rows[0], table)
		data, err := os.ReadFile(filepath.Join(dir, table+".json"))
		require.NoError(t, err)
		var objects []map[string]any
		require.NoError(t, json.Unmarshal(data, &objects), table)
		assert.Len(t, objects, len(rows)-1, table)
		for _, o := range objects {
			assert.Len(t, o, len(columns), table)
		}
		assert.NotContains(t, string(data), "Hidden", "another group's")
	}
	entries := readCSV(t, filepath.Join(dir, "entries.csv"))
	at := func(row int, column string) string { return entries[row][slices.Index(entries[0], column)] }
	assert.Equal(t, "Wren", at(2, "person"))
	assert.Equal(t, "temperature", at(2, "kind"))
	assert.Contains(t, at(2, "data"), `"c":58`)

	narrow := filepath.Join(t.TempDir(), "narrow")
	got = r.run("export", "-channel", "nowhere", narrow)
	assert.Equal(t, 1, got.status)
	assert.NoDirExists(t, narrow)
}

func readCSV(t *testing.T, path string) [][]string {
	t.Helper()
	f, err := os.Open(path)
	require.NoError(t, err)
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	require.NoError(t, err)
	return rows
}

func TestNoCellIsAFormula(t *testing.T) {
	for _, said := range []string{"=1+1", "+1", "-1", "@sum", "\tx", "\rx"} {
		assert.Equal(t, "'"+said, cell(said))
	}
	table := storage.Table{Columns: []storage.Column{{Name: "a"}}, Rows: [][]any{{int64(-3)}, {-2.5}, {nil}, {json.RawMessage(`{"a":"=1"}`)}}}
	data, err := tableCSV(table)
	require.NoError(t, err)
	assert.Equal(t, "a\n-3\n-2.5\n\"\"\n\"{\"\"a\"\":\"\"=1\"\"}\"\n", strings.ReplaceAll(string(data), "\n\n", "\n\"\"\n"), "numbers stay numbers")
}
