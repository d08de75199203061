//go:build unix

package storage

import (
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"
	"syscall"

	"heapside/calc/fault"
)

// What lies beside a record: a file that everybody who has it open shares, and
// one that the single server of it has to itself. Only their locks say
// something; the files may stay, and a process that ends leaves none locked.
const (
	useSuffix   = ".lock"
	serveSuffix = ".serving"
)

// A Hold keeps others from doing what cannot be done beside its holder. Its lock
// is that of the open file, not of the process: it ends with the process, and
// closing the record elsewhere in the process does not end it.
type Hold struct{ file *os.File }

// Release ends the hold. Releasing twice is fine.
func (h *Hold) Release() error {
	if h == nil || h.file == nil {
		return nil
	}
	f := h.file
	h.file = nil
	return f.Close()
}

var errHeld = errors.New("somebody holds it")

// hold locks a file, making it when there is none; errHeld when another has it.
func hold(path string, how int) (*Hold, error) {
	f, err := os.OpenFile(path, os.O_CREATE|os.O_RDWR, 0o600)
	if err != nil {
		return nil, err
	}
	for {
		err = syscall.Flock(int(f.Fd()), how|syscall.LOCK_NB)
		if !errors.Is(err, syscall.EINTR) {
			break
		}
	}
	if errors.Is(err, syscall.EWOULDBLOCK) {
		err = errHeld
	}
	if err != nil {
		return nil, errors.Join(err, f.Close())
	}
	return &Hold{f}, nil
}

// inUse says that this process has the record open, as others may besides.
func inUse(abs string) (*Hold, error) {
	h, err := hold(abs+useSuffix, syscall.LOCK_SH)
	switch {
	case errors.Is(err, errHeld):
		return nil, fault.New(fault.Unavailable, "The record “%s” is just being put back from a backup. Try again in a moment.", abs)
	case err != nil:
		return nil, unopened(abs, err)
	}
	return h, nil
}

// alone makes sure that no process has the record open, until it is released.
func alone(abs string) (*Hold, error) {
	h, err := hold(abs+useSuffix, syscall.LOCK_EX)
	switch {
	case errors.Is(err, errHeld):
		return nil, fault.New(fault.NotSaved, "The record “%s” is in use%s. Stop that first, then try again.", abs, by(abs))
	case err != nil:
		return nil, unopened(abs, err)
	}
	return h, nil
}

// by names the process that serves a record, if one does.
func by(abs string) string {
	if pid := server(abs); pid != "" {
		return " by the process " + pid + ", which serves it"
	}
	return " by another heapside, a chat perhaps"
}

// server is the process that serves a record as it wrote itself down; empty
// when none does.
func server(abs string) string {
	h, err := hold(abs+serveSuffix, syscall.LOCK_SH)
	if err == nil {
		_ = h.Release()
		return ""
	}
	data, err := os.ReadFile(abs + serveSuffix)
	if err != nil {
		return ""
	}
	return strings.TrimSpace(string(data))
}

// Serve makes this process the only one that serves the record, until it is
// released or the process ends. Others may open the record beside it. When
// another process serves it, the *fault.Error names that.
func Serve(path string) (*Hold, error) {
	abs, err := filepath.Abs(path)
	if err != nil {
		return nil, fmt.Errorf("serve record %q: %w", path, err)
	}
	h, err := hold(abs+serveSuffix, syscall.LOCK_EX)
	switch {
	case errors.Is(err, errHeld):
		return nil, fault.New(fault.Taken, "The process %s serves the record “%s” already, and two would say everything twice. Stop that one first, or name another record.",
			orUnknown(server(abs)), path)
	case err != nil:
		return nil, unopened(path, err)
	}
	if err := h.sign(); err != nil {
		return nil, errors.Join(fmt.Errorf("serve record %q: %w", path, err), h.Release())
	}
	return h, nil
}

func orUnknown(pid string) string {
	if pid == "" {
		return "of an unknown number"
	}
	return pid
}

// sign writes down which process holds it.
func (h *Hold) sign() error {
	if err := h.file.Truncate(0); err != nil {
		return err
	}
	if _, err := h.file.Seek(0, io.SeekStart); err != nil {
		return err
	}
	_, err := fmt.Fprintln(h.file, os.Getpid())
	return err
}
