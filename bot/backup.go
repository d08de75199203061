package main

import (
	"context"
	"errors"
	"flag"
	"fmt"
	"io/fs"
	"os"
	"strings"

	"heapside/bot/terminal"
	"heapside/calc/fault"
	"heapside/storage"
)

func backupFlags(m *Main, flags *flag.FlagSet) func(context.Context, []string) error {
	var db string
	var force bool
	dbFlag(m, flags, &db)
	flags.BoolVar(&force, "force", false, "replace a file that is there")
	return func(ctx context.Context, args []string) error {
		args, err := positional(flags, args, "FILE")
		if err != nil {
			return err
		}
		f, err := storage.Backup(ctx, db, args[0], force)
		if err != nil {
			return err
		}
		return m.sayf("Backed up to %s: %s.\n", terminal.Clean(args[0]), contents(f))
	}
}

func restoreFlags(m *Main, flags *flag.FlagSet) func(context.Context, []string) error {
	var db string
	dbFlag(m, flags, &db)
	return func(ctx context.Context, args []string) error {
		args, err := positional(flags, args, "FILE")
		if err != nil {
			return err
		}
		r, err := storage.Restore(ctx, args[0], db, m.now())
		if err != nil {
			return err
		}
		aside := "There was no record before."
		if r.Aside != "" {
			aside = "The record that was there is now " + terminal.Clean(r.Aside) + "."
		}
		return m.sayf("Restored %s from %s: %s. %s\n", terminal.Clean(db), terminal.Clean(args[0]), contents(r.Findings), aside)
	}
}

// contents tells what a record holds.
func contents(f storage.Findings) string {
	return fmt.Sprintf("%s, %s, %d kB, checked", counted(f.Heaps, "heap", "heaps"), counted(f.Entries, "entry", "entries"), (f.Bytes+1023)/1024)
}

func counted(n int, one, many string) string {
	if n == 1 {
		return "1 " + one
	}
	return fmt.Sprintf("%d %s", n, many)
}

// positional are the words of a command line that takes exactly those named;
// flags may stand between and after them.
func positional(flags *flag.FlagSet, args []string, names ...string) ([]string, error) {
	var words []string
	for len(args) > 0 {
		words = append(words, args[0])
		if err := flags.Parse(args[1:]); err != nil {
			return nil, &usageError{fmt.Sprintf("%s: %v; %[1]s -h lists its flags.", flags.Name(), err)}
		}
		args = flags.Args()
	}
	if len(words) != len(names) {
		return nil, &usageError{fmt.Sprintf("%s takes %s, but got %d; %[1]s -h tells more.", flags.Name(), strings.Join(names, " "), len(words))}
	}
	return words, nil
}

// there refuses to make a record where one is only to be read or cleared.
func there(db string) error {
	if _, err := os.Stat(db); errors.Is(err, fs.ErrNotExist) {
		return fault.New(fault.Unknown, "There is no record “%s”. Name one with -db.", db)
	}
	return nil
}

func (m *Main) sayf(format string, args ...any) error {
	_, err := fmt.Fprintf(m.Out, format, args...)
	return err
}
