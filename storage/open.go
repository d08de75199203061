package storage

import (
	"context"
	"database/sql"
	"embed"
	"errors"
	"fmt"
	"io/fs"
	"net/url"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"sync"
	"time"

	"github.com/mattn/go-sqlite3"
	"github.com/pressly/goose/v3"

	"heapside/calc/fault"
)

// applicationID marks our files ("HEAP"); the first migration writes it.
const applicationID = 0x48454150

//go:embed migrations/*.sql
var embedded embed.FS

// creating keeps a new file from being opened by SQLite here before it is
// closed as a plain file: closing one drops every lock this process holds on it.
var creating sync.Mutex

// place makes the path absolute and makes the file, readable by its owner
// only (SQLite gives its companions the same mode).
func place(path string) (string, error) {
	if strings.TrimSpace(path) == "" {
		return "", fault.New(fault.Missing, "The record needs the name of a file, for example garden.db.")
	}
	abs, err := filepath.Abs(path)
	if err != nil {
		return "", fmt.Errorf("open record %q: %w", path, err)
	}
	info, err := os.Stat(abs)
	switch {
	case err == nil && info.IsDir():
		return "", fault.New(fault.NotUnderstood, "“%s” is a directory. Name a file in it, for example %s.", path, filepath.Join(path, "garden.db"))
	case err == nil:
		return abs, nil
	case !errors.Is(err, fs.ErrNotExist):
		return "", unopened(path, err)
	}
	creating.Lock()
	defer creating.Unlock()
	f, err := os.OpenFile(abs, os.O_CREATE|os.O_EXCL|os.O_WRONLY, 0o600)
	if errors.Is(err, fs.ErrExist) {
		return abs, nil
	}
	if err != nil {
		return "", unopened(path, err)
	}
	return abs, f.Close()
}

func unopened(path string, cause error) error {
	var pathErr *fs.PathError
	if errors.As(cause, &pathErr) {
		cause = pathErr.Err
	}
	return fault.New(fault.NotSaved, "The record “%s” cannot be opened (%v). Name a file in a directory that exists and can be written to.", path, cause)
}

// writerDSN asks for a durable commit each time (the driver's own default for
// WAL is weaker) and takes the write lock at BEGIN: a transaction that reads
// first and writes later would otherwise fail when another one came between. Like
// a reader it keeps its statements prepared.
func writerDSN(abs string) string {
	return dsn(abs, url.Values{
		"_journal_mode": {"WAL"}, "_synchronous": {"FULL"}, "_foreign_keys": {"on"},
		"_busy_timeout": {"5000"}, "_txlock": {"immediate"}, "_stmt_cache_size": {statements},
	})
}

// statements is how many a connection keeps prepared, so that reading their SQL
// is paid for once: more than there are of either kind.
const statements = "100"

func readerDSN(abs string) string {
	return dsn(abs, url.Values{"mode": {"ro"}, "_query_only": {"1"}, "_busy_timeout": {"5000"}, "_stmt_cache_size": {statements}})
}

func dsn(abs string, options url.Values) string {
	return "file:" + (&url.URL{Path: filepath.ToSlash(abs)}).EscapedPath() + "?" + options.Encode()
}

// explain turns what SQLite says of a file into a sentence.
func explain(err error, path string) error {
	var refused sqlite3.Error
	if !errors.As(err, &refused) {
		return err
	}
	switch refused.Code {
	case sqlite3.ErrNotADB, sqlite3.ErrCorrupt:
		return fault.New(fault.NotUnderstood, "“%s” is not a record of this program, or it is damaged (%v). Name another file, or put a backup in its place.", path, refused)
	case sqlite3.ErrCantOpen, sqlite3.ErrReadonly, sqlite3.ErrPerm:
		return unopened(path, refused)
	}
	return err
}

// connect makes the first connection. While another process turns a new file
// to WAL, SQLite refuses at once instead of waiting its usual time.
func connect(ctx context.Context, db *sql.DB) error {
	const tries, pause = 100, 20 * time.Millisecond
	for try := 1; ; try++ {
		err := db.PingContext(ctx)
		var refused sqlite3.Error
		if !errors.As(err, &refused) || refused.Code != sqlite3.ErrBusy || try == tries {
			return err
		}
		select {
		case <-time.After(pause):
		case <-ctx.Done():
			return ctx.Err()
		}
	}
}

// prepare makes sure that the file is ours and its tables are of this version.
func prepare(ctx context.Context, db *sql.DB, path string) error {
	newest, err := newestVersion()
	if err != nil {
		return err
	}
	if err := connect(ctx, db); err != nil {
		return fmt.Errorf("open record: %w", err)
	}
	have, err := version(ctx, db, path)
	// A step can fail because another process took it meanwhile: look again, as
	// often as there are steps.
	var failed error
	for step := int64(0); err == nil && have < newest && step < newest; step++ {
		failed = migrate(ctx, db)
		have, err = version(ctx, db, path)
	}
	switch {
	case err != nil:
		return err
	case have < newest:
		return fmt.Errorf("bring record up to date: %w", failed)
	case have > newest:
		return newer(path, have, newest)
	}
	return nil
}

func migrate(ctx context.Context, db *sql.DB) error {
	p, err := provider(db)
	if err != nil {
		return err
	}
	// Like every write, a migration is not cut short.
	_, err = p.Up(context.WithoutCancel(ctx))
	return err
}

func provider(db *sql.DB) (*goose.Provider, error) {
	dir, err := fs.Sub(embedded, "migrations")
	if err != nil {
		return nil, err
	}
	return goose.NewProvider(goose.DialectSQLite3, db, dir, goose.WithDisableGlobalRegistry(true))
}

// version is the version of the tables, 0 for a new file.
func version(ctx context.Context, db *sql.DB, path string) (int64, error) {
	// In one statement, so that another process that is just making the tables
	// is seen before or after it, not between.
	const look = `SELECT (SELECT application_id FROM pragma_application_id), count(*), coalesce(sum(name = 'goose_db_version'), 0)
		FROM sqlite_master WHERE type = 'table' AND name NOT LIKE 'sqlite_%'`
	var id, tables, versioned, at int64
	if err := db.QueryRowContext(ctx, look).Scan(&id, &tables, &versioned); err != nil {
		return 0, fmt.Errorf("open record: %w", err)
	}
	if id != applicationID && (id != 0 || tables > versioned) {
		return 0, fault.New(fault.NotUnderstood, "“%s” is the database of another program. Name another file for the record.", path)
	}
	if versioned == 0 {
		return 0, nil
	}
	err := db.QueryRowContext(ctx, "SELECT coalesce(max(version_id), 0) FROM goose_db_version").Scan(&at)
	if err != nil {
		return 0, fmt.Errorf("read version of record: %w", err)
	}
	return at, nil
}

// newestVersion is the highest number in the names of the migrations.
func newestVersion() (int64, error) {
	names, err := fs.Glob(embedded, "migrations/*.sql")
	if err != nil {
		return 0, err
	}
	var newest int64
	for _, name := range names {
		digits, _, _ := strings.Cut(filepath.Base(name), "_")
		n, err := strconv.ParseInt(digits, 10, 64)
		if err != nil {
			return 0, fmt.Errorf("migration %q has no number: %w", name, err)
		}
		newest = max(newest, n)
	}
	return newest, nil
}
