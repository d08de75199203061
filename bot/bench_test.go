package main

import (
	"log/slog"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"heapside/bot/terminal"
	"heapside/calc/heap"
	"heapside/commands"
	"heapside/storage"
	"heapside/testdata/demo"
)

// demoRecord is a record with the demo in it and the call of its organiser.
func demoRecord(b *testing.B) (path string, a *commands.Assistant, call commands.Call) {
	b.Helper()
	path = filepath.Join(b.TempDir(), "garden.db")
	db, err := storage.Open(b.Context(), path)
	require.NoError(b, err)
	b.Cleanup(func() { require.NoError(b, db.Close()) })
	a = commands.New(db, slog.New(slog.DiscardHandler))
	call = commands.Call{Place: heap.Place{Guild: localGuild, Channel: localChannel}, By: terminal.Person(demoHost), Organiser: true, Now: time.Now()}
	require.NoError(b, demo.Load(b.Context(), a, call.Place, call.Now, terminal.Person))
	return path, a, call
}

func BenchmarkDemoLoad(b *testing.B) {
	for b.Loop() {
		demoRecord(b)
	}
}

// BenchmarkLine is one typed line over the demo's record, to the answer; that
// of log is durable by then.
func BenchmarkLine(b *testing.B) {
	for name, line := range map[string]string{
		"log": `log temp 58 heap:"North Bay"`, "mix": "mix 2 buckets of grass clippings and half a bucket coffee grounds",
		"next": "next", "ready": "ready", "history": "history", "ask": "is the old bay ready?",
	} {
		b.Run(name, func(b *testing.B) {
			_, a, call := demoRecord(b)
			b.ReportAllocs()
			var took []time.Duration
			for b.Loop() {
				began := time.Now()
				r := a.Line(b.Context(), call, line)
				took = append(took, time.Since(began))
				require.Nil(b, r.Err)
			}
			reportQuantile(b, took, 0.5, "p50-ms")
		})
	}
}

// BenchmarkOnceColdStart is a whole process: start, open the demo's record,
// answer, end.
func BenchmarkOnceColdStart(b *testing.B) {
	path, _, _ := demoRecord(b)
	binary := filepath.Join(b.TempDir(), "heapside")
	out, err := exec.CommandContext(b.Context(), "go", "build", "-o", binary, ".").CombinedOutput()
	require.NoError(b, err, string(out))
	for _, words := range []string{"heap list", "mix 2 buckets of grass clippings"} {
		b.Run(strings.Fields(words)[0], func(b *testing.B) {
			for b.Loop() {
				out, err := exec.CommandContext(b.Context(), binary, "once", "-db", path, words).CombinedOutput()
				require.NoError(b, err, string(out))
			}
		})
	}
}

// reportQuantile reports a quantile of durations in milliseconds.
func reportQuantile(b *testing.B, took []time.Duration, q float64, unit string) {
	slices.Sort(took)
	at := took[int(q*float64(len(took)-1))]
	b.ReportMetric(float64(at.Microseconds())/1000, unit)
}
