package main

import (
	"os"
	"path/filepath"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// answers cuts a piped conversation into what was answered to each line.
func answers(t *testing.T, out string, lines ...string) []string {
	t.Helper()
	var got []string
	for i, line := range lines {
		_, after, ok := strings.Cut(out, "millrace-lane> "+line+"\n")
		require.True(t, ok, "line %d, %q, is missing in:\n%s", i+1, line, out)
		answer, _, _ := strings.Cut(after, "millrace-lane> ")
		got = append(got, answer)
		out = after
	}
	return got
}

func TestChatDemoHoldsTheConversation(t *testing.T) {
	tmp := t.TempDir()
	t.Setenv("TMPDIR", tmp)
	lines := []string{
		"mix 2 buckets of grass clippings and half a bucket coffee grounds",
		`log temp 58 heap:"North Bay" depth:40cm`,
		"ready",
		"next",
		"history",
		"heap list",
		"stock list",
		"garden show",
	}
	got := heapside(t, nil, strings.Join(lines, "\n")+"\n", "chat", "-demo")
	require.Equal(t, 0, got.status, got.err)
	assert.Empty(t, got.err)
	said := answers(t, got.out, lines...)
	for i, want := range [][]string{
		{"Add", "C:N", "water"},
		{"North Bay", "58", "[1] "},
		{"North Bay", "Kitchen Bin", "Old Bay"},
		{"North Bay"},
		{"Odalys", "Tobias", "Mirembe", "Wren"},
		{"North Bay", "Kitchen Bin", "Old Bay"},
		{"leaves"},
		{"Europe/London"},
	} {
		for _, w := range want {
			assert.Contains(t, said[i], w, lines[i])
		}
	}
	left, err := os.ReadDir(tmp)
	require.NoError(t, err)
	assert.Empty(t, left, "the demo's file is gone")
}

func TestChatDemoKeepsANamedFileAndNeverLoadsIntoAnOldOne(t *testing.T) {
	r := newRecord(t)
	require.Equal(t, 0, heapside(t, nil, "", "chat", "-demo", "-db", r.db).status)
	assert.Contains(t, r.once("heap", "list"), "Kitchen Bin")
	got := heapside(t, nil, "", "chat", "-demo", "-db", r.db)
	assert.Equal(t, 1, got.status)
	assert.Contains(t, got.err, "fresh file")
}

func TestChatButtonTakesTheEntryBack(t *testing.T) {
	r := newRecord(t)
	got := heapside(t, nil, "heap start North Bay\nlog temp 58\n1\n", "chat", "-db", r.db)
	require.Equal(t, 0, got.status, got.err)
	assert.NotContains(t, r.ask("heap", "show").Values, "last_temp")
}

func TestChatsAtOnceShareOneRecord(t *testing.T) {
	r := newRecord(t)
	const each = 8
	channels := []string{"plots", "orchard"}
	for _, c := range channels {
		r.once("-channel", c, "heap", "start", "Bay of "+c)
	}
	var all sync.WaitGroup
	for _, c := range channels {
		for range 2 {
			all.Go(func() {
				got := heapside(t, nil, strings.Repeat("log temp 51\n", each), "chat", "-db", r.db, "-channel", c)
				assert.Equal(t, 0, got.status, got.err)
				assert.Equal(t, each, strings.Count(got.out, "Logged"), got.out)
			})
		}
	}
	all.Wait()
	for _, c := range channels {
		dir := t.TempDir()
		require.Equal(t, 0, r.try("-channel", c, "-out", dir, "history", "csv:yes").status)
		files, err := filepath.Glob(filepath.Join(dir, "*.csv"))
		require.NoError(t, err)
		require.Len(t, files, 1)
		data, err := os.ReadFile(files[0])
		require.NoError(t, err)
		assert.Equal(t, 2*each, strings.Count(string(data), "temperature"), "every reading of two people is there")
	}
}

func TestChatSaysWhatIsDue(t *testing.T) {
	r := newRecord(t)
	for _, line := range []string{
		"heap start North Bay", "log add 10 barrows of grass clippings and 12 barrows of dry leaves", "duty quiet off", "duty when daily 00:05", "log temp 66",
	} {
		r.once("-now", "2026-06-10T00:00:00Z", line)
	}
	at := time.Date(2026, 6, 10, 0, 6, 0, 0, time.UTC)
	var out, errs strings.Builder
	m := &Main{In: strings.NewReader("1\nduty show\n"), Out: &out, Err: &errs, Getenv: func(string) string { return "" }, Now: func() time.Time { return at }}
	require.Equal(t, 0, m.Main(t.Context(), []string{"chat", "-db", r.db, "-as", "Odalys"}), errs.String())
	assert.Contains(t, out.String(), "For today: turn North Bay, and 1 more.")
	assert.Contains(t, out.String(), "Odalys did it, 00:06")
	assert.Equal(t, 1, strings.Count(out.String(), "For today: turn North Bay"), "once")
	assert.Contains(t, r.once("-now", "2026-06-10T00:07:00Z", "history"), "Odalys: turned")
	assert.Contains(t, r.once("-channel", "plots", "duty", "show"), "off")
}
