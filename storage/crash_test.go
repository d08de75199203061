package storage_test

import (
	"bufio"
	"context"
	"fmt"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"heapside/calc/heap"
	"heapside/storage"
)

// What tells a child process which record to write to, and what.
const (
	crashFile = "HEAPSIDE_TEST_CRASH_FILE"
	crashWork = "HEAPSIDE_TEST_CRASH_WORK"
)

// works are what a child does until it is killed. It prints a line each time
// something is acknowledged.
var works = map[string]func(*storage.DB) error{"append": appendForever, "remind": remindForever, "back up": backUpForever}

func TestMain(m *testing.M) {
	if path := os.Getenv(crashFile); path != "" {
		if err := work(path, works[os.Getenv(crashWork)]); err != nil {
			fmt.Fprintln(os.Stderr, err)
			os.Exit(1)
		}
	}
	os.Exit(m.Run())
}

func work(path string, forever func(*storage.DB) error) error {
	db, err := storage.Open(context.Background(), path)
	if err != nil {
		return err
	}
	return forever(db)
}

// appendForever writes pairs of entries and prints the number of the second
// one when they are stored.
func appendForever(db *storage.DB) error {
	ctx := context.Background()
	heaps, err := db.Heaps(ctx, here)
	if err != nil {
		return err
	}
	for {
		stored, err := db.Append(ctx, here, hot(heaps[0], 0), hot(heaps[0], 0))
		if err != nil {
			return err
		}
		fmt.Println(stored[1].ID)
	}
}

func TestNothingAcknowledgedIsLostWhenTheProgramIsKilled(t *testing.T) {
	const rounds = 20
	path := filepath.Join(t.TempDir(), "garden.db")
	db, err := storage.Open(t.Context(), path)
	require.NoError(t, err)
	h := started(t, db)
	require.NoError(t, db.Close())

	random := rand.New(rand.NewPCG(1, 2))
	acknowledged := map[heap.EntryID]bool{}
	for range rounds {
		for _, line := range killed(t, path, "append", 1+random.IntN(60)) {
			id, err := strconv.ParseInt(line, 10, 64)
			require.NoError(t, err)
			acknowledged[heap.EntryID(id)] = true
		}
		intact(t, path, h, acknowledged)
	}
	t.Logf("%d acknowledged entries after %d kills", len(acknowledged), rounds)
}

// killed lets a child work, kills it without warning after so many lines, and
// returns those and what it still said.
func killed(t *testing.T, path, work string, after int) []string {
	t.Helper()
	child := exec.Command(os.Args[0])
	child.Env = append(os.Environ(), crashFile+"="+path, crashWork+"="+work)
	child.Stderr = os.Stderr
	out, err := child.StdoutPipe()
	require.NoError(t, err)
	require.NoError(t, child.Start())
	var said []string
	lines := bufio.NewScanner(out)
	for lines.Scan() {
		if said = append(said, lines.Text()); len(said) == after {
			require.NoError(t, child.Process.Kill())
		}
	}
	require.GreaterOrEqual(t, len(said), after, "the child stopped by itself")
	require.Error(t, child.Wait(), "the child was killed")
	return said
}

func intact(t *testing.T, path string, h heap.Heap, acknowledged map[heap.EntryID]bool) {
	t.Helper()
	db, err := storage.Open(t.Context(), path)
	require.NoError(t, err)
	entries, err := db.Entries(t.Context(), here, h.ID)
	require.NoError(t, err)
	present := map[heap.EntryID]bool{}
	for _, e := range entries {
		present[e.ID] = true
	}
	for id := range acknowledged {
		require.True(t, present[id], "entry %d was acknowledged and is lost", id)
	}
	assert.Equal(t, 1, len(entries)%2, "the start and whole pairs")
	var verdict string
	require.NoError(t, db.Writer().QueryRow("PRAGMA integrity_check").Scan(&verdict))
	assert.Equal(t, "ok", verdict)
	require.NoError(t, db.Close())
}
