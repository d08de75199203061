package storage

import (
	"context"
	"database/sql"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"

	"heapside/calc/fault"
)

// Backup copies the record in from to a file of its own, as it stands at one
// moment, while others go on reading and writing. The copy gets its name only
// when it is written, checked and on the disk: whoever stops before leaves
// either no such file or the one that was there, and at most one called
// *.partial. An existing file is replaced only when told so.
func Backup(ctx context.Context, from, to string, replace bool) (Findings, error) {
	abs, err := filepath.Abs(to)
	if err != nil {
		return Findings{}, fmt.Errorf("back up to %q: %w", to, err)
	}
	if err := vacant(from, abs, replace); err != nil {
		return Findings{}, err
	}
	part, f, err := copied(ctx, from, abs)
	if err != nil {
		return f, err
	}
	defer os.Remove(part) // gone already when all went well
	if err := os.Rename(part, abs); err != nil {
		return f, unwritten(to, err)
	}
	return f, syncDir(filepath.Dir(abs))
}

// vacant refuses a target that would destroy something.
func vacant(from, to string, replace bool) error {
	target, err := os.Stat(to)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return nil
	case err != nil:
		return unwritten(to, err)
	case !target.Mode().IsRegular():
		return fault.New(fault.NotUnderstood, "“%s” is no plain file. Name a file for the backup.", to)
	}
	if record, err := os.Stat(from); err == nil && os.SameFile(record, target) {
		return fault.New(fault.Refused, "“%s” is the record itself. Name another file for the backup.", to)
	}
	if !replace {
		return fault.New(fault.Taken, "“%s” is there already. Name another file, or say -force to replace it.", to)
	}
	return nil
}

// copied writes what a record holds to a checked file beside to, readable by
// its owner only, and returns its name.
func copied(ctx context.Context, from, to string) (part string, f Findings, err error) {
	out, err := os.CreateTemp(filepath.Dir(to), filepath.Base(to)+".*.partial")
	if err != nil {
		return "", f, unwritten(to, err)
	}
	part = out.Name()
	defer func() {
		if err != nil {
			err = errors.Join(err, os.Remove(part))
		}
	}()
	if err := out.Close(); err != nil {
		return "", f, unwritten(to, err)
	}
	// One statement reads as of one moment. Unlike a copy page by page it need
	// not begin anew when another process writes, and what was removed from the
	// record is not in it.
	err = look(ctx, from, func(db *sql.DB) error {
		if _, _, err := known(ctx, db, from); err != nil {
			return err
		}
		conn, err := db.Conn(ctx)
		if err != nil {
			return err
		}
		defer conn.Close()
		if _, err := conn.ExecContext(ctx, "PRAGMA query_only = 0"); err != nil { // the copy is a write, though to another file
			return err
		}
		_, err = conn.ExecContext(ctx, "VACUUM INTO $1", part)
		return err
	})
	if err != nil {
		return part, f, err
	}
	if f, err = whole(ctx, part); err != nil {
		return part, f, err
	}
	return part, f, syncFile(part)
}

func unwritten(path string, cause error) error {
	var pathErr *fs.PathError
	if errors.As(cause, &pathErr) {
		cause = pathErr.Err
	}
	return fault.New(fault.NotSaved, "“%s” cannot be written (%v). Name a file in a directory that exists and can be written to.", path, cause)
}

func syncFile(path string) error {
	f, err := os.OpenFile(path, os.O_RDWR, 0)
	if err != nil {
		return err
	}
	return errors.Join(f.Sync(), f.Close())
}

// syncDir puts the names in a directory on the disk.
func syncDir(path string) error {
	d, err := os.Open(path)
	if err != nil {
		return err
	}
	return errors.Join(d.Sync(), d.Close())
}
