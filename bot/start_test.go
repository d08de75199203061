package main

import (
	"context"
	"encoding/json"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"heapside/calc/fault"
)

// outcome is what a shell sees of a run.
type outcome struct {
	status   int
	out, err string
}

// heapside runs the program as a shell would: same wiring, own streams.
// env is name=value pairs.
func heapside(t testing.TB, env []string, input string, args ...string) outcome {
	t.Helper()
	var out, errs strings.Builder
	m := &Main{
		In: strings.NewReader(input), Out: &out, Err: &errs,
		Getenv: getenv(env),
	}
	status := m.Main(t.Context(), args)
	return outcome{status, out.String(), errs.String()}
}

// getenv is an environment of name=value pairs.
func getenv(env []string) func(string) string {
	return func(name string) string {
		for _, e := range env {
			if value, ok := strings.CutPrefix(e, name+"="); ok {
				return value
			}
		}
		return ""
	}
}

// record is a file that one test keeps its record in.
type record struct {
	t  testing.TB
	db string
}

func newRecord(t testing.TB) record {
	return record{t, filepath.Join(t.TempDir(), "garden.db")}
}

// once runs one line that must succeed and returns what was printed.
func (r record) once(args ...string) string {
	r.t.Helper()
	got := r.try(args...)
	require.Equal(r.t, 0, got.status, got.err)
	require.Empty(r.t, got.err)
	return got.out
}

func (r record) try(args ...string) outcome {
	r.t.Helper()
	return heapside(r.t, nil, "", append([]string{"once", "-db", r.db}, args...)...)
}

// ask runs one line and reads the object it prints.
func (r record) ask(args ...string) answer {
	r.t.Helper()
	got := r.try(append([]string{"-json"}, args...)...)
	var a answer
	dec := json.NewDecoder(strings.NewReader(got.out))
	dec.DisallowUnknownFields()
	require.NoError(r.t, dec.Decode(&a), got.out)
	if a.Error != nil {
		assert.Equal(r.t, 1, got.status)
		assert.Equal(r.t, a.Error.Message+"\n", got.err, "the same sentence is on standard error")
	} else {
		assert.Equal(r.t, 0, got.status, got.err)
	}
	return a
}

func (a answer) code() fault.Code {
	if a.Error == nil {
		return ""
	}
	return a.Error.Code
}

func TestCommandLine(t *testing.T) {
	tests := []struct {
		name   string
		args   []string
		status int
		out    string // is part of standard output
		err    string // is part of standard error
	}{
		{"nothing prints help", nil, 0, "heapside once WORDS...", ""},
		{"help", []string{"help"}, 0, "heapside chat", ""},
		{"--help", []string{"--help"}, 0, "heapside chat", ""},
		{"version", []string{"version"}, 0, "built with go", ""},
		{"flags of a subcommand", []string{"once", "-h"}, 0, "-now TIME", ""},
		{"unknown subcommand", []string{"dance"}, 2, "", `There is no subcommand “dance”`},
		{"unknown flag", []string{"chat", "-colour"}, 2, "", "-colour"},
		{"the token is no flag", []string{"serve", "-token", "x"}, 2, "", "-token"},
		{"a time that is none", []string{"once", "-now", "noon", "next"}, 2, "", `"noon"`},
		{"once without words", []string{"once"}, 2, "", "needs WORDS..., for example: heapside once next\n"},
		{"chat with words", []string{"chat", "next"}, 2, "", `“next”`},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			got := heapside(t, nil, "", tt.args...)
			assert.Equal(t, tt.status, got.status)
			assert.Contains(t, got.out, tt.out)
			assert.Contains(t, got.err, tt.err)
			if tt.err != "" {
				assert.Empty(t, got.out)
				assert.Equal(t, 1, strings.Count(got.err, "\n"), "one line")
			}
		})
	}
}

func TestMainClosesWhatItOpened(t *testing.T) {
	m := &Main{}
	var order []int
	for i := range 3 {
		m.closers = append(m.closers, func() error { order = append(order, i); return nil })
	}
	require.NoError(t, m.Close())
	assert.Equal(t, []int{2, 1, 0}, order)
	require.NoError(t, m.Close(), "once is enough")
	assert.Len(t, order, 3)
}

func TestChatEndsWithItsContext(t *testing.T) {
	ctx, cancel := context.WithCancel(t.Context())
	var out, errs strings.Builder
	m := &Main{In: interrupted{cancel}, Out: &out, Err: &errs, Getenv: func(string) string { return "" }}
	assert.Equal(t, 0, m.Main(ctx, []string{"chat", "-db", filepath.Join(t.TempDir(), "garden.db")}), errs.String())
}

// interrupted is an input that nobody types into: they press Ctrl-C.
type interrupted struct{ press func() }

func (i interrupted) Read([]byte) (int, error) {
	i.press()
	select {}
}
