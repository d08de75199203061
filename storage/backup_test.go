package storage_test

import (
	"context"
	"crypto/sha256"
	"database/sql"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"heapside/calc/fault"
	"heapside/calc/heap"
	"heapside/storage"
)

// content is a checksum over every row of every table of a record, in order.
func content(t *testing.T, path string) string {
	t.Helper()
	db, err := sql.Open("sqlite3", "file:"+path+"?mode=ro")
	require.NoError(t, err)
	defer db.Close()
	sum := sha256.New()
	for _, table := range tables(t, db) {
		rows, err := db.Query("SELECT * FROM " + table)
		require.NoError(t, err)
		columns, err := rows.Columns()
		require.NoError(t, err)
		values, into := make([]any, len(columns)), make([]any, len(columns))
		for i := range values {
			into[i] = &values[i]
		}
		for rows.Next() {
			require.NoError(t, rows.Scan(into...))
			fmt.Fprintf(sum, "%s %q\n", table, values)
		}
		require.NoError(t, rows.Err())
		rows.Close()
	}
	return fmt.Sprintf("%x", sum.Sum(nil))
}

// tables are all tables but SQLite's own.
func tables(t *testing.T, db *sql.DB) []string {
	t.Helper()
	rows, err := db.Query("SELECT name FROM sqlite_master WHERE type = 'table' AND name NOT LIKE 'sqlite_stat%' ORDER BY name")
	require.NoError(t, err)
	defer rows.Close()
	var all []string
	for rows.Next() {
		var one string
		require.NoError(t, rows.Scan(&one))
		all = append(all, one)
	}
	return all
}

// kept makes a record with one heap and n readings, and closes it.
func kept(t *testing.T, n int) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), "garden.db")
	db, err := storage.Open(t.Context(), path)
	require.NoError(t, err)
	h := started(t, db)
	for i := range n {
		_, err := db.Append(t.Context(), here, hot(h, time.Duration(i)*time.Hour))
		require.NoError(t, err)
	}
	require.NoError(t, db.Close())
	return path
}

func refused(t *testing.T, code fault.Code, err error) {
	t.Helper()
	require.Error(t, err)
	f, ok := fault.As(err)
	require.True(t, ok, "not an error for people: %v", err)
	assert.Equal(t, code, f.Code, f.Message)
}

// names lists what lies beside a record.
func names(t *testing.T, path string) []string {
	t.Helper()
	found, err := filepath.Glob(filepath.Join(filepath.Dir(path), "*"))
	require.NoError(t, err)
	for i, f := range found {
		found[i] = filepath.Base(f)
	}
	return found
}

// TestARecordBackedUpWhileItIsWrittenComesBackWhole is the drill: copies are
// taken under a steady writer, each is a prefix of the log, and what is restored
// from the last has the same content to the last row.
func TestARecordBackedUpWhileItIsWrittenComesBackWhole(t *testing.T) {
	path, dir := kept(t, 0), t.TempDir()
	db := open(t, path)
	ctx, stop := context.WithCancel(t.Context())
	written := make(chan error, 1)
	begun := make(chan struct{})
	go func() {
		var err error
		for first := true; err == nil && ctx.Err() == nil; first = false {
			_, err = db.Append(context.WithoutCancel(ctx), here, hot(heap.Heap{ID: 1}, 0), hot(heap.Heap{ID: 1}, 0))
			if first {
				close(begun)
			}
		}
		written <- err
	}()
	<-begun
	var last string
	counts := 0
	for i := range 10 {
		last = filepath.Join(dir, fmt.Sprintf("backup%d.db", i))
		found, err := storage.Backup(t.Context(), path, last, false)
		require.NoError(t, err)
		require.Empty(t, found.Damage)
		require.Equal(t, 1, found.Entries%2, "the start and whole pairs")
		require.GreaterOrEqual(t, found.Entries, counts)
		counts = found.Entries
		info, err := os.Stat(last)
		require.NoError(t, err)
		assert.Equal(t, fs.FileMode(0o600), info.Mode().Perm())
	}
	stop()
	require.NoError(t, <-written)
	assert.Len(t, names(t, last), 10, "nothing else is left: %v", names(t, last))

	all, err := db.Entries(t.Context(), here, 1)
	require.NoError(t, err)
	to := filepath.Join(t.TempDir(), "other.db")
	done, err := storage.Restore(t.Context(), last, to, noon)
	require.NoError(t, err)
	assert.Empty(t, done.Aside)
	assert.Equal(t, content(t, last), content(t, to))
	again, err := open(t, to).Latest(t.Context(), here, len(all))
	require.NoError(t, err)
	assert.Len(t, again, counts)
	byID := map[heap.EntryID]heap.Entry{}
	for _, e := range all {
		byID[e.ID] = e
	}
	for _, e := range again {
		require.Equal(t, byID[e.ID], e)
		require.LessOrEqual(t, int(e.ID), counts, "a prefix of the log")
	}
}

func TestABackupNeverDestroysAnything(t *testing.T) {
	path := kept(t, 1)
	there := filepath.Join(t.TempDir(), "there.db")
	require.NoError(t, os.WriteFile(there, []byte("mine"), 0o600))
	link := filepath.Join(t.TempDir(), "link.db")
	require.NoError(t, os.Symlink(path, link))
	newer := kept(t, 1)
	_, err := raw(t, newer).Exec("INSERT INTO goose_db_version (version_id, is_applied) VALUES (999, 1)")
	require.NoError(t, err)
	foreign := filepath.Join(t.TempDir(), "foreign.db")
	_, err = raw(t, foreign).Exec("CREATE TABLE songs (name TEXT)")
	require.NoError(t, err)
	empty := filepath.Join(t.TempDir(), "empty.db")
	require.NoError(t, os.WriteFile(empty, nil, 0o600))
	for _, tt := range []struct {
		name, from, to string
		force          bool
		code           fault.Code
	}{
		{"a file that is there", path, there, false, fault.Taken},
		{"the record itself", path, path, true, fault.Refused},
		{"the record by another name", path, link, true, fault.Refused},
		{"a folder", path, t.TempDir(), true, fault.NotUnderstood},
		{"into no folder", path, filepath.Join(t.TempDir(), "absent", "b.db"), false, fault.NotSaved},
		{"of no record", filepath.Join(t.TempDir(), "absent.db"), filepath.Join(t.TempDir(), "b.db"), false, fault.Unknown},
		{"of another program's file", foreign, there, true, fault.NotUnderstood},
		{"of a newer record", newer, there, true, fault.NotUnderstood},
		{"of an empty file", empty, there, true, fault.NotUnderstood},
		{"of no database", there, filepath.Join(t.TempDir(), "b.db"), true, fault.NotUnderstood},
	} {
		t.Run(tt.name, func(t *testing.T) {
			_, err := storage.Backup(t.Context(), tt.from, tt.to, tt.force)
			refused(t, tt.code, err)
			data, err := os.ReadFile(there)
			require.NoError(t, err)
			assert.Equal(t, "mine", string(data))
			assert.Len(t, names(t, there), 1, "nothing half written is left")
			assert.NoFileExists(t, filepath.Join(t.TempDir(), "absent.db"))
		})
	}
	_, err = storage.Backup(t.Context(), path, there, true)
	require.NoError(t, err, "unless told so")
	assert.Equal(t, content(t, path), content(t, there))
}

// backUpForever writes and copies in turns, and says a line for each copy.
func backUpForever(db *storage.DB) error {
	ctx, path := context.Background(), os.Getenv(crashFile)
	for {
		if _, err := db.Append(ctx, here, hot(heap.Heap{ID: 1}, 0), hot(heap.Heap{ID: 1}, 0)); err != nil {
			return err
		}
		f, err := storage.Backup(ctx, path, path+".copy", true)
		if err != nil {
			return err
		}
		fmt.Println(f.Entries)
	}
}

func TestABackupThatIsKilledLeavesTheOneBefore(t *testing.T) {
	const rounds = 8
	path := kept(t, 0)
	for n := range rounds {
		said := killed(t, path, "back up", 1+n)
		found, err := storage.Inspect(t.Context(), path+".copy")
		require.NoError(t, err)
		assert.Empty(t, found.Damage)
		var acknowledged int
		_, err = fmt.Sscan(said[len(said)-1], &acknowledged)
		require.NoError(t, err)
		assert.GreaterOrEqual(t, found.Entries, acknowledged, "an acknowledged backup is lost")
	}
}

func TestARestoreThatStopsAnywhereCanBeginAgain(t *testing.T) {
	for _, old := range []string{"an old record", "one that was killed", "a damaged one", "none"} {
		for steps := range storage.RestoreSteps + 1 {
			t.Run(fmt.Sprintf("%s, stopped after %d steps", old, steps), func(t *testing.T) {
				backup, path := kept(t, 5), filepath.Join(t.TempDir(), "garden.db")
				switch old {
				case "an old record":
					require.NoError(t, os.Rename(kept(t, 2), path))
				case "one that was killed":
					require.NoError(t, os.Rename(kept(t, 0), path))
					killed(t, path, "append", 3)
				case "a damaged one":
					require.NoError(t, os.WriteFile(path, []byte(strings.Repeat("mud ", 2000)), 0o600))
					require.NoError(t, os.WriteFile(path+"-wal", []byte("more mud"), 0o600))
				}
				before := sumOf(t, old, path)
				require.NoError(t, storage.RestoreUntil(t.Context(), backup, path, noon, steps))
				if now := sumOf(t, old, path); now != content(t, backup) {
					assert.Equal(t, before, now, "the old record or the new one")
				}
				done, err := storage.Restore(t.Context(), backup, path, noon)
				require.NoError(t, err)
				assert.Equal(t, content(t, backup), content(t, path))
				assert.Equal(t, 6, done.Entries)
				assert.NoFileExists(t, path+"-wal")
				if old == "none" || old == "a damaged one" {
					return
				}
				kept := false
				for _, name := range names(t, path) {
					if strings.Contains(name, ".replaced-") && !strings.HasSuffix(name, "-wal") && !strings.HasSuffix(name, "-shm") {
						kept = kept || content(t, filepath.Join(filepath.Dir(path), name)) == before
					}
				}
				assert.True(t, kept, "the old record is kept aside: %v", names(t, path))
			})
		}
	}
}

// sumOf is the content of a record that may be none.
func sumOf(t *testing.T, old, path string) string {
	t.Helper()
	if found, err := storage.Inspect(t.Context(), path); err != nil || found.Damage != "" {
		return old
	}
	return content(t, path)
}

func TestRestoreRefuses(t *testing.T) {
	damaged := kept(t, 400)
	data, err := os.ReadFile(damaged)
	require.NoError(t, err)
	copy(data[len(data)/2:], strings.Repeat("mud ", 2000))
	require.NoError(t, os.WriteFile(damaged, data, 0o600))
	newer := kept(t, 1)
	_, err = raw(t, newer).Exec("INSERT INTO goose_db_version (version_id, is_applied) VALUES (999, 1)")
	require.NoError(t, err)
	for name, from := range map[string]string{"a damaged backup": damaged, "one of a newer program": newer, "no backup": "absent"} {
		t.Run(name, func(t *testing.T) {
			path := kept(t, 2)
			before := content(t, path)
			_, err := storage.Restore(t.Context(), from, path, noon)
			require.Error(t, err)
			_, forPeople := fault.As(err)
			assert.True(t, forPeople, "%v", err)
			assert.Equal(t, before, content(t, path))
			for _, n := range names(t, path) {
				assert.NotContains(t, n, "partial")
				assert.NotContains(t, n, "replaced")
			}
		})
	}
	t.Run("while the record is open", func(t *testing.T) {
		path := kept(t, 2)
		db, err := storage.Open(t.Context(), path)
		require.NoError(t, err)
		_, err = storage.Restore(t.Context(), kept(t, 1), path, noon)
		refused(t, fault.NotSaved, err)
		require.NoError(t, db.Close())
		_, err = storage.Restore(t.Context(), kept(t, 1), path, noon)
		require.NoError(t, err)
	})
}

func TestOneProcessServesARecord(t *testing.T) {
	path := kept(t, 0)
	first, err := storage.Serve(path)
	require.NoError(t, err)
	_, err = storage.Serve(path)
	refused(t, fault.Taken, err)
	assert.ErrorContains(t, err, fmt.Sprintf("process %d ", os.Getpid()))
	db := open(t, path)
	_, err = storage.Restore(t.Context(), kept(t, 1), path, noon)
	assert.ErrorContains(t, err, fmt.Sprintf("process %d,", os.Getpid()))
	_, err = db.Heaps(t.Context(), here)
	require.NoError(t, err, "others may open it beside the server")
	require.NoError(t, first.Release())
	require.NoError(t, first.Release(), "once is enough")
	second, err := storage.Serve(path)
	require.NoError(t, err)
	require.NoError(t, second.Release())
}
