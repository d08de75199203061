package main

import (
	"encoding/json"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"heapside/calc/fault"
)

func TestOnceKeepsTheRecord(t *testing.T) {
	r := newRecord(t)
	r.once("-as", "Mirembe", "heap", "start", "North Bay", "container:pallet bay", "size:1 m3")
	r.once("-as", "Mirembe", "log", "temp", "58", "heap:North Bay", "depth:40cm")
	assert.Contains(t, r.once("history"), "Mirembe")
	assert.Contains(t, r.once("heap", "show", "North Bay"), "58")
}

func TestOnceTakesTheTimeItIsGiven(t *testing.T) {
	r := newRecord(t)
	r.once("-now", "2026-05-01T10:00:00Z", "heap", "start", "North Bay")
	r.once("-now", "2026-05-03T10:00:00Z", "log", "turn")
	a := r.ask("-now", "2026-05-11T10:00:00Z", "heap", "show")
	assert.InDelta(t, 10, a.Values["age_days"].Value, 1e-9)
	assert.InDelta(t, 8, a.Values["days_since_turn"].Value, 1e-9)
}

func TestOnceSaysHowToWriteATime(t *testing.T) {
	got := newRecord(t).try("-now", "garbage", "next")
	assert.NotZero(t, got.status)
	assert.Contains(t, got.err, "write a time as 2026-05-03T12:00:00Z")
	assert.NotContains(t, got.err, "parsing time")
}

func TestOnceJSONHoldsEveryKey(t *testing.T) {
	r := newRecord(t)
	for name, args := range map[string][]string{
		"answer":  {"mix", "2 buckets of grass clippings"},
		"refusal": {"mix", "2 buckets of unobtainium"},
	} {
		t.Run(name, func(t *testing.T) {
			got := r.try(append([]string{"-json"}, args...)...)
			var object map[string]json.RawMessage
			require.NoError(t, json.Unmarshal([]byte(got.out), &object))
			var keys []string
			for k, v := range object {
				keys = append(keys, k)
				if k != "error" {
					assert.NotEqual(t, "null", string(v), k)
				}
			}
			assert.ElementsMatch(t, []string{"headline", "body", "cautions", "basis", "actions", "private", "error", "values"}, keys)
		})
	}
}

func TestOnceMixValues(t *testing.T) {
	a := newRecord(t).ask("mix", "2 buckets of grass clippings and half a bucket of coffee grounds")
	require.Nil(t, a.Error)
	names := []string{"holds", "water.volume"}
	for _, n := range []string{"in.1.", "in.2."} {
		for _, v := range []string{"mass", "volume", "carbon", "cn", "moisture", "density"} {
			names = append(names, n+v)
		}
	}
	for _, n := range []string{"before.", "after."} {
		for _, v := range []string{"cn", "moisture", "density", "air"} {
			names = append(names, n+v, n+v+".low", n+v+".high")
		}
	}
	for _, n := range names {
		v, ok := a.Values[n]
		assert.True(t, ok, n)
		assert.IsType(t, 0.0, v.Value, n)
	}
	// The aims of the recipe: C:N 25 to 35 and 50 to 60 % moisture.
	assert.GreaterOrEqual(t, a.Values["after.cn"].Value, 25.0)
	assert.LessOrEqual(t, a.Values["after.cn"].Value, 35.0)
	assert.GreaterOrEqual(t, a.Values["after.moisture"].Value, 50.0)
	assert.LessOrEqual(t, a.Values["after.moisture"].Value, 60.0)
}

func TestOnceRefusesWithOneSentence(t *testing.T) {
	r := newRecord(t)
	got := r.try("mix", "2 buckets of unobtainium")
	assert.Equal(t, 1, got.status)
	assert.Empty(t, got.out)
	assert.Contains(t, got.err, "unobtainium")
	assert.Equal(t, fault.Unknown, r.ask("mix", "2 buckets of unobtainium").code())
}

func TestOnceSaysWhenTheRecordCannotBeOpened(t *testing.T) {
	dir := t.TempDir()
	got := heapside(t, nil, "", "once", "-db", dir, "-json", "next")
	assert.Equal(t, 1, got.status)
	assert.Contains(t, got.err, "directory")
	var a answer
	require.NoError(t, json.Unmarshal([]byte(got.out), &a))
	require.NotNil(t, a.Error)
	assert.Equal(t, a.Error.Message+"\n", got.err)
}

func TestOnceTakesItsFileFromTheEnvironment(t *testing.T) {
	db := filepath.Join(t.TempDir(), "elsewhere.db")
	got := heapside(t, []string{"HEAPSIDE_DB=" + db}, "", "once", "heap", "start", "North Bay")
	require.Equal(t, 0, got.status, got.err)
	assert.FileExists(t, db)
}

func TestOnceSavesAttachments(t *testing.T) {
	r := newRecord(t)
	r.once("heap", "start", "North Bay")
	r.once("log", "temp", "58")
	dir := t.TempDir()
	got := r.try("-out", dir, "history", "csv:yes")
	require.Equal(t, 0, got.status, got.err)
	files, err := os.ReadDir(dir)
	require.NoError(t, err)
	require.Len(t, files, 1)
	assert.Contains(t, got.err, "Saved "+filepath.Join(dir, files[0].Name()))
	data, err := os.ReadFile(filepath.Join(dir, files[0].Name()))
	require.NoError(t, err)
	assert.Contains(t, string(data), "58")
}

func TestOnePlaceNeverSeesAnother(t *testing.T) {
	r := newRecord(t)
	r.once("-channel", "plots", "heap", "start", "North Bay")
	r.once("-channel", "plots", "log", "temp", "58")
	r.once("-channel", "orchard", "heap", "start", "Windfall Bin")
	r.once("-guild", "neighbours", "-channel", "plots", "heap", "start", "Their Bay")
	tests := []struct {
		name  string
		seat  []string
		own   string
		other []string
	}{
		{"plots", []string{"-channel", "plots"}, "North Bay", []string{"Windfall", "Their Bay"}},
		{"orchard", []string{"-channel", "orchard"}, "Windfall", []string{"North Bay", "Their Bay", "58"}},
		{"the neighbours' plots", []string{"-guild", "neighbours", "-channel", "plots"}, "Their Bay", []string{"North Bay", "Windfall", "58"}},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			for _, line := range []string{"heap list", "history", "next"} {
				out := r.once(append(tt.seat, line)...)
				if line != "history" { // which names no heap where there is one
					assert.Contains(t, out, tt.own, line)
				}
				for _, other := range tt.other {
					assert.NotContains(t, out, other, line)
				}
			}
		})
	}
	assert.Equal(t, 1, r.try("-channel", "orchard", "log", "temp", "60", "heap:North Bay").status)
	assert.Equal(t, 1, r.try("-channel", "orchard", "-organiser", "undo", "2").status, "an entry of another channel")
}

func TestOnceDueSaysWhatWouldBeSent(t *testing.T) {
	r := newRecord(t)
	r.once("-now", "2026-06-10T08:00:00Z", "heap", "start", "North Bay")
	r.once("-now", "2026-06-10T08:00:00Z", "log", "add", "10 barrows of grass clippings and 12 barrows of dry leaves")
	r.once("-now", "2026-06-10T09:00:00Z", "-as", "Odalys", "duty", "join")
	r.once("-now", "2026-06-10T09:00:00Z", "duty", "when", "daily", "18:00")
	r.once("-now", "2026-06-10T17:00:00Z", "log", "temp", "66")
	before := r.once("history")
	said := r.once("due", "-now", "2026-06-10T18:00:00Z")
	assert.Contains(t, said, "Odalys: it is your turn: turn North Bay, and 1 more.")
	assert.Contains(t, said, "66 °C 1 hour ago")
	assert.Equal(t, said, r.once("due", "-now", "2026-06-10T18:00:00Z"), "asking writes nothing down")
	assert.Equal(t, before, r.once("history"))
	assert.Contains(t, r.once("-channel", "plots", "due"), "Nothing would be said")
	assert.Equal(t, 2, r.try("due", "-colour").status)
}
