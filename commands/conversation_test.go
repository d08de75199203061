package commands_test

import (
	"bufio"
	"context"
	"flag"
	"fmt"
	"io"
	"log/slog"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"heapside/calc/heap"
	"heapside/commands"
	"heapside/storage"
)

var update = flag.Bool("update", false, "write the conversations as they are now")

// modelled are the conversations in which the model learns whole heaps.
var modelled = []string{"ready", "ready_heat", "trouble", "next", "spread", "visit", "german", "french", "dutch", "spanish", "heap", "newcomers"}

// notUnderRace passes over a test in which the model learns and nothing runs at once.
func notUnderRace(t *testing.T) {
	t.Helper()
	if underRace {
		t.Skip("the model learns in it")
	}
}

// TestConversations replays the written conversations in testdata/*.chat: a
// line that begins with "> " is typed, one that begins with "@ " sets the time,
// the person and whether they organise, "% reminder" is a reminder that comes
// now, "= " fills in the form of the last answer ("temp: 58 | note: wet"), and the
// lines below are the answer.
func TestConversations(t *testing.T) {
	files, err := filepath.Glob("testdata/*.chat")
	require.NoError(t, err)
	require.NotEmpty(t, files)
	for _, file := range files {
		name := strings.TrimSuffix(filepath.Base(file), ".chat")
		t.Run(name, func(t *testing.T) {
			if slices.Contains(modelled, name) {
				notUnderRace(t)
			}
			t.Parallel()
			want, err := os.ReadFile(file)
			require.NoError(t, err)
			got := replay(t, string(want), "")
			if *update {
				require.NoError(t, os.WriteFile(file, []byte(got), 0o644))
				return
			}
			require.Equal(t, string(want), got)
		})
	}
}

// replay holds a conversation with people whose screens are in a language.
func replay(t *testing.T, script, locale string) string {
	t.Helper()
	db := record(t)
	a := assistantOver(db)
	call := commands.Call{Place: millrace, By: person("Wren"), Now: summer, Locale: locale}
	var out strings.Builder
	var last commands.Reply
	lines := bufio.NewScanner(strings.NewReader(script))
	lines.Buffer(nil, 1<<20)
	for lines.Scan() {
		line := lines.Text()
		switch {
		case strings.HasPrefix(line, "#"):
			fmt.Fprintln(&out, line)
		case strings.HasPrefix(line, "@ "):
			fmt.Fprintln(&out, line)
			call = setScene(t, call, line[2:])
		case line == "% reminder":
			fmt.Fprintln(&out, line)
			fmt.Fprint(&out, show(remind(t, db, call)))
		case strings.HasPrefix(line, "> "):
			fmt.Fprintln(&out, line)
			last = a.Line(context.Background(), call, line[2:])
			fmt.Fprint(&out, show(last))
		case strings.HasPrefix(line, "= "):
			fmt.Fprintln(&out, line)
			require.NotNil(t, last.Form, line)
			fmt.Fprint(&out, show(a.Fill(context.Background(), call, last.Form.Line, fields(line[2:]))))
		}
	}
	return out.String()
}

// fields reads "temp: 58 | note: wet".
func fields(said string) map[string]string {
	filled := map[string]string{}
	for _, field := range strings.Split(said, "|") {
		option, value, _ := strings.Cut(field, ":")
		filled[strings.TrimSpace(option)] = strings.TrimSpace(value)
	}
	return filled
}

// setScene reads "2026-06-14T18:20:00Z Wren organiser #channel".
func setScene(t *testing.T, call commands.Call, scene string) commands.Call {
	t.Helper()
	words := strings.Fields(scene)
	now, err := time.Parse(time.RFC3339, words[0])
	require.NoError(t, err)
	call.Now, call.Organiser, call.Place = now, false, millrace
	for _, word := range words[1:] {
		switch {
		case word == "organiser":
			call.Organiser = true
		case strings.HasPrefix(word, "#"):
			call.Place.Channel = word[1:]
		default:
			call.By = person(word)
		}
	}
	return call
}

// show prints a reply plainly, indented under the question.
func show(r commands.Reply) string {
	var b strings.Builder
	if r.Err != nil {
		fmt.Fprintf(&b, "  ! %s: %s\n", r.Err.Code, r.Err.Message)
		r.Headline = ""
	}
	if r.To.ID != "" {
		r.Headline = r.To.Name + ": " + r.Headline
	}
	if r.Headline != "" {
		fmt.Fprintf(&b, "  %s\n", r.Headline)
	}
	for _, block := range r.Body {
		if block.Title != "" {
			fmt.Fprintf(&b, "    %s\n", block.Title)
		}
		for _, line := range block.Lines {
			fmt.Fprintf(&b, "    - %s\n", line)
		}
	}
	for _, c := range r.Cautions {
		fmt.Fprintf(&b, "    caution: %s\n", c)
	}
	for _, a := range r.Actions {
		fmt.Fprintf(&b, "    [%s: %s]\n", a.Label, a.Line)
	}
	if r.Form != nil {
		fmt.Fprintf(&b, "    form %s: %s\n", r.Form.Title, r.Form.Line)
		for _, f := range r.Form.Fields {
			fmt.Fprintf(&b, "      %s: %s (%s)\n", f.Option, f.Label, f.Example)
		}
	}
	return b.String()
}

var (
	millrace = heap.Place{Guild: "millrace", Channel: "compost"}
	summer   = time.Date(2026, 6, 14, 18, 20, 0, 0, time.UTC)
)

func person(name string) heap.Person { return heap.Person{ID: strings.ToLower(name), Name: name} }

func assistant(t testing.TB, settings ...commands.Setting) *commands.Assistant {
	t.Helper()
	return assistantOver(record(t), settings...)
}

func record(t testing.TB) *storage.DB {
	t.Helper()
	db, err := storage.Open(context.Background(), filepath.Join(t.TempDir(), "record.db"))
	require.NoError(t, err)
	t.Cleanup(func() { require.NoError(t, db.Close()) })
	return db
}

func assistantOver(db *storage.DB, settings ...commands.Setting) *commands.Assistant {
	return commands.New(db, slog.New(slog.NewTextHandler(io.Discard, nil)), settings...)
}
