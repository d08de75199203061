package heap_test

import (
	"fmt"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"heapside/calc/heap"
)

var began = time.Date(2026, 3, 1, 9, 0, 0, 0, time.UTC)

func day(n float64) time.Time { return began.Add(time.Duration(n * 24 * float64(time.Hour))) }

// answers are what a scenario can expect of a State, rounded as printed.
var answers = map[string]func(heap.State) string{
	"age":             func(s heap.State) string { return number(s.Age.Hours() / 24) },
	"entries":         func(s heap.State) string { return strconv.Itoa(len(s.Entries)) },
	"content":         func(s heap.State) string { return strconv.Itoa(len(s.Content)) },
	"added":           func(s heap.State) string { return number(s.AddedL) },
	"volume":          func(s heap.State) string { return number(s.VolumeL) },
	"how":             func(s heap.State) string { return s.VolumeHow.String() },
	"readings":        func(s heap.State) string { return strconv.Itoa(len(s.Readings)) },
	"last":            func(s heap.State) string { r, ok := s.LastReading(); return maybe(r.C, ok) },
	"air":             lastAir,
	"peak":            func(s heap.State) string { return number(s.PeakC) },
	"refilled":        func(s heap.State) string { return number(s.RefilledAt.Sub(began).Hours() / 24) },
	"turns":           func(s heap.State) string { return strconv.Itoa(len(s.Turns)) },
	"days-since-turn": func(s heap.State) string { return maybe(s.Now.Sub(s.LastTurn()).Hours()/24, !s.LastTurn().IsZero()) },
	"squeeze":         func(s heap.State) string { return word(string(s.Squeeze)) },
	"smell":           func(s heap.State) string { return word(s.Smell) },
	"rain":            func(s heap.State) string { return number(s.RainMm) },
	"covered":         func(s heap.State) string { return map[bool]string{true: "yes", false: "no"}[s.Covered] },
}

func number(v float64) string { return strconv.FormatFloat(v, 'f', 0, 64) }

func lastAir(s heap.State) string {
	if len(s.Air) == 0 {
		return "-"
	}
	return number(s.Air[len(s.Air)-1].C)
}

func maybe(v float64, ok bool) string {
	if !ok {
		return "-"
	}
	return number(v)
}

func word(s string) string {
	if s == "" {
		return "-"
	}
	return s
}

func TestScenarios(t *testing.T) {
	files, err := filepath.Glob("testdata/*.txt")
	require.NoError(t, err)
	require.NotEmpty(t, files)
	for _, file := range files {
		t.Run(strings.TrimSuffix(filepath.Base(file), ".txt"), func(t *testing.T) {
			text, err := os.ReadFile(file)
			require.NoError(t, err)
			play(t, strings.Split(string(text), "\n"))
		})
	}
}

// play reads a scenario: the heap, its entries by day, and what they say on
// some days. Entries are numbered from 1 in the order of the file.
func play(t *testing.T, lines []string) {
	h := heap.Heap{ID: 1, Name: "North Bay", Started: began}
	var entries []heap.Entry
	var now time.Time
	checked := 0
	for i, line := range lines {
		fields := strings.Fields(line)
		if len(fields) == 0 || fields[0] == "#" {
			continue
		}
		where := fmt.Sprintf("line %d: %s", i+1, line)
		switch fields[0] {
		case "heap":
			h = container(t, h, line)
		case "day":
			e := heap.Entry{ID: heap.EntryID(len(entries) + 1), Heap: h.ID, At: parseDay(t, fields[1])}
			_, data, _ := strings.Cut(line, "{")
			p, err := heap.Decode(heap.Kind(fields[2]), []byte("{"+data))
			require.NoError(t, err, where)
			e.Payload = p
			entries = append(entries, e)
		case "on":
			now = parseDay(t, fields[2])
		default:
			answer, ok := answers[fields[0]]
			require.True(t, ok, where)
			assert.Equal(t, strings.Join(fields[1:], " "), answer(heap.Read(h, entries, now)), where)
			checked++
		}
	}
	require.NotZero(t, checked)
}

func container(t *testing.T, h heap.Heap, line string) heap.Heap {
	t.Helper()
	parts := strings.Split(strings.TrimPrefix(line, "heap "), ", ")
	require.Len(t, parts, 3)
	h.Container = heap.Container(parts[0])
	h.SizeL = parse(t, strings.TrimSuffix(parts[1], " litres"))
	h.Cover = strings.TrimPrefix(parts[2], "cover ")
	return h
}

func parseDay(t *testing.T, text string) time.Time {
	t.Helper()
	return day(parse(t, text))
}

func parse(t *testing.T, text string) float64 {
	t.Helper()
	v, err := strconv.ParseFloat(text, 64)
	require.NoError(t, err)
	return v
}
