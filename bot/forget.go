package main

import (
	"context"
	"flag"
	"fmt"
	"strings"

	"heapside/bot/terminal"
	"heapside/calc/fault"
	"heapside/storage"
)

func forgetFlags(m *Main, flags *flag.FlagSet) func(context.Context, []string) error {
	var db string
	var yes bool
	dbFlag(m, flags, &db)
	flags.BoolVar(&yes, "yes", false, "do it; it cannot be taken back")
	return func(ctx context.Context, args []string) error {
		args, err := positional(flags, args, "user|guild", "ID")
		if err != nil {
			return err
		}
		return m.forget(ctx, db, args[0], args[1], yes)
	}
}

// leavings are what can be forgotten: how, and what that means to those who are asked.
var leavings = map[string]struct {
	means  string
	did    string
	forget func(*storage.DB, context.Context, string) ([]storage.Removed, error)
}{
	"user": {
		"The name and number of user %s become “somebody” in the log, and leave rotas and organisers. What they did stays. Texts that people typed are not searched.",
		"changed", (*storage.DB).ForgetPerson,
	},
	"guild": {
		"All heaps, entries, settings, stock and reminders of the group %s are removed.",
		"removed", (*storage.DB).ForgetGuild,
	},
}

func (m *Main) forget(ctx context.Context, db, what, id string, yes bool) error {
	leaving, ok := leavings[what]
	if !ok {
		return &usageError{fmt.Sprintf("heapside forget takes user ID or guild ID, not “%s”.", what)}
	}
	if err := there(db); err != nil {
		return err
	}
	if !yes {
		return fault.New(fault.NotSaved, "Nothing was done. "+leaving.means+" It cannot be taken back, and earlier backups still hold it; say -yes to do it.", id)
	}
	record, err := storage.Open(ctx, db)
	if err != nil {
		return err
	}
	m.closers = append(m.closers, record.Close)
	done, err := leaving.forget(record, ctx, id)
	var parts []string
	for _, r := range done {
		if r.Rows > 0 {
			parts = append(parts, fmt.Sprintf("%s %d", r.Table, r.Rows))
		}
	}
	if len(parts) == 0 && err == nil {
		return fault.New(fault.Unknown, "There is nothing of %s “%s” in the record. What heapside export writes has the IDs beside the names.", what, id)
	}
	if len(parts) > 0 {
		if said := m.sayf("Rows %s for %s %s: %s.\n", leaving.did, what, terminal.Clean(id), strings.Join(parts, ", ")); said != nil {
			return said
		}
	}
	return err
}
