package storage_test

import (
	"context"
	"database/sql"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"heapside/calc/fault"
	"heapside/calc/heap"
	"heapside/storage"
)

func TestAnyFileNameCanHoldTheRecord(t *testing.T) {
	for _, name := range []string{
		"plain.db", "with space.db", "what?.db", "a#b.db", "100%.db", "%41.db", "a&b=c;d.db", "mode=memory", "?mode=memory",
		"κομπόστ 🌱.db", "file:x.db", ":memory:", "a+b.db", "quote'\".db", "semi;colon,comma", "back\\slash.db",
	} {
		t.Run(name, func(t *testing.T) {
			dir := t.TempDir()
			path := filepath.Join(dir, name)
			db, err := storage.Open(t.Context(), path)
			require.NoError(t, err)
			started(t, db)
			require.NoError(t, db.Close())
			files, err := os.ReadDir(dir)
			require.NoError(t, err)
			require.Len(t, files, 2, "one file of that name, and its lock")
			assert.Equal(t, name, files[0].Name())
			assert.Equal(t, name+".lock", files[1].Name())
			heaps, err := open(t, path).Heaps(t.Context(), here)
			require.NoError(t, err)
			assert.Len(t, heaps, 1)
		})
	}
}

func TestARelativeNameIsAFileOfTheWorkingDirectory(t *testing.T) {
	t.Chdir(t.TempDir())
	open(t, "garden.db")
	assert.FileExists(t, "garden.db")
}

func TestOnlyTheOwnerCanReadANewFile(t *testing.T) {
	path := filepath.Join(t.TempDir(), "garden.db")
	started(t, open(t, path))
	for _, name := range []string{path, path + "-wal"} {
		info, err := os.Stat(name)
		require.NoError(t, err)
		assert.Equal(t, os.FileMode(0o600), info.Mode().Perm(), name)
	}
}

// write makes a file that is not a record and returns its path.
func write(t *testing.T, data string) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), "other.db")
	require.NoError(t, os.WriteFile(path, []byte(data), 0o600))
	return path
}

func TestWhatCannotBeOpenedSaysWhy(t *testing.T) {
	for _, row := range []struct {
		name string
		path func(t *testing.T) string
		says string
	}{
		{"no name", func(*testing.T) string { return " " }, "name of a file"},
		{"a directory", func(t *testing.T) string { return t.TempDir() }, "is a directory"},
		{"no such directory", func(t *testing.T) string { return filepath.Join(t.TempDir(), "none", "garden.db") }, "no such file or directory"},
		{"a file for a directory", func(t *testing.T) string { return filepath.Join(write(t, ""), "garden.db") }, "not a directory"},
		{"a text", func(t *testing.T) string { return write(t, strings.Repeat("Dear diary, ", 500)) }, "not a record of this program"},
		{"a short text", func(t *testing.T) string { return write(t, "hello") }, "not a record of this program"},
		{"a cut file", cut, "damaged"},
		{"another program's database", foreign, "another program"},
		{"another program's mark", marked, "another program"},
		{"a newer version", newer, "newer version"},
	} {
		t.Run(row.name, func(t *testing.T) {
			path := row.path(t)
			before, _ := os.ReadFile(path)
			_, err := storage.Open(t.Context(), path)
			require.Error(t, err)
			f, ok := fault.As(err)
			require.True(t, ok, "not for people: %v", err)
			assert.Contains(t, f.Message, row.says)
			after, _ := os.ReadFile(path)
			assert.Equal(t, len(before), len(after), "the file is left alone")
		})
	}
}

func foreign(t *testing.T) string { return altered(t, "CREATE TABLE songs (title TEXT)") }

func marked(t *testing.T) string { return altered(t, "PRAGMA application_id = 7") }

// altered is a database of another program.
func altered(t *testing.T, statement string) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), "other.db")
	db := raw(t, path)
	_, err := db.Exec(statement)
	require.NoError(t, err)
	require.NoError(t, db.Close())
	return path
}

func newer(t *testing.T) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), "garden.db")
	require.NoError(t, open(t, path).Close())
	db := raw(t, path)
	_, err := db.Exec("INSERT INTO goose_db_version (version_id, is_applied) VALUES (99, 1)")
	require.NoError(t, err)
	require.NoError(t, db.Close())
	return path
}

// cut is a record that lost its second half.
func cut(t *testing.T) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), "garden.db")
	require.NoError(t, open(t, path).Close())
	info, err := os.Stat(path)
	require.NoError(t, err)
	require.NoError(t, os.Truncate(path, info.Size()/8))
	return path
}

func TestADirectoryThatCannotBeWrittenSaysSo(t *testing.T) {
	if os.Geteuid() == 0 {
		t.Skip("the superuser can write anywhere")
	}
	dir := t.TempDir()
	require.NoError(t, os.Chmod(dir, 0o500))
	_, err := storage.Open(t.Context(), filepath.Join(dir, "garden.db"))
	f, ok := fault.As(err)
	require.True(t, ok, "not for people: %v", err)
	assert.Contains(t, f.Message, "permission denied")
}

func TestAfterCloseEverythingSaysClosed(t *testing.T) {
	db := fresh(t)
	h := started(t, db)
	require.NoError(t, db.Close())
	require.NoError(t, db.Close(), "closing twice is fine")
	for name, call := range map[string]func() error{
		"heaps":   func() error { _, err := db.Heaps(t.Context(), here); return err },
		"entries": func() error { _, err := db.Entries(t.Context(), here, h.ID); return err },
		"append":  func() error { _, err := db.Append(t.Context(), here, hot(h, 0)); return err },
		"void":    func() error { _, err := db.Void(t.Context(), here, wren, noon, 2); return err },
		"garden":  func() error { return db.SaveGarden(t.Context(), heap.Garden{Place: here}, wren, noon) },
	} {
		assert.ErrorIs(t, call(), storage.ErrClosed, name)
	}
}

func TestAnOpenThatWasGivenUpFails(t *testing.T) {
	ctx, cancel := context.WithCancel(t.Context())
	cancel()
	_, err := storage.Open(ctx, filepath.Join(t.TempDir(), "garden.db"))
	require.ErrorIs(t, err, context.Canceled)
}

// The driver's own defaults are weaker; a slip in the options would go unseen.
func TestCommitsAreDurableAndReadersOnlyRead(t *testing.T) {
	db := fresh(t)
	for _, row := range []struct {
		name, pragma string
		pool         *sql.DB
		want         string
	}{
		{"write-ahead log", "journal_mode", db.Writer(), "wal"},
		{"synced at each commit", "synchronous", db.Writer(), "2"},
		{"references hold", "foreign_keys", db.Writer(), "1"},
		{"writer waits its turn", "busy_timeout", db.Writer(), "5000"},
		{"reader waits its turn", "busy_timeout", db.Reader(), "5000"},
		{"reader only reads", "query_only", db.Reader(), "1"},
	} {
		var got string
		require.NoError(t, row.pool.QueryRow("PRAGMA "+row.pragma).Scan(&got))
		assert.Equal(t, row.want, got, row.name)
	}
	_, err := db.Reader().Exec("DELETE FROM heaps")
	assert.Error(t, err)
}
