// Command heapside is a chat assistant for a garden group that shares compost
// heaps: in a local chat, from a script, or on Discord.
package main

import (
	"context"
	"errors"
	"flag"
	"fmt"
	"io"
	"log/slog"
	"net/http"
	"os"
	"os/signal"
	"slices"
	"syscall"
	"time"
	_ "time/tzdata" // a bare machine may know no time zones

	"heapside/bot/discord"
	"heapside/bot/terminal"
	"heapside/calc/fault"
	"heapside/commands"
	"heapside/reminders"
	"heapside/storage"
)

func main() {
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt, syscall.SIGTERM)
	context.AfterFunc(ctx, stop) // a second signal ends a stop that hangs
	os.Exit(NewMain().Main(ctx, os.Args[1:]))
}

// Main is one run of the program. Its fields are what the run touches of the
// world, so that a test can start the same wiring.
type Main struct {
	In       io.Reader
	Out, Err io.Writer
	Getenv   func(string) string
	HTTP     http.RoundTripper // how serve reaches the platform; nil: the usual transport
	Now      func() time.Time  // nil: the clock

	configured   map[string]string // by the file of settings
	settingsFile string            // that was read
	unread       error             // why it was not, for the doctor to say

	run     func(ctx context.Context) error // set by ParseFlags
	closers []func() error
}

// NewMain returns a Main on the process's own streams and environment.
func NewMain() *Main {
	return &Main{In: os.Stdin, Out: os.Stdout, Err: os.Stderr, Getenv: os.Getenv}
}

// Main parses, runs and closes, and returns the exit status: 0 when all went
// well, 2 for a command line or a setting that was not understood, 3 when the
// platform refused the token, so that trying again is of no use, 1 for
// everything else.
func (m *Main) Main(ctx context.Context, args []string) int {
	err := m.ParseFlags(args)
	if err == nil {
		err = m.Run(ctx)
		if closeErr := m.Close(); err == nil {
			err = closeErr
		}
	}
	return m.report(err)
}

// usageError is a command line that was not understood.
type usageError struct{ message string }

func (e *usageError) Error() string { return e.message }

// subcommand is one thing the program can be started as. flags declares its
// flags and returns what runs it with the arguments after them.
type subcommand struct {
	name, args, summary string
	example             string // what may follow the name; for those that need words
	flags               func(m *Main, fs *flag.FlagSet) func(ctx context.Context, args []string) error
}

func subcommands() []subcommand {
	return []subcommand{
		{"chat", "", "talk with the assistant here", "", chatFlags},
		{"once", "WORDS...", "answer one line and leave, for scripts", "next", onceFlags},
		{"serve", "", "serve the commands on Discord", "", serveFlags},
		{"backup", "FILE", "copy the record while it is in use", "garden-backup.db", backupFlags},
		{"restore", "FILE", "put a backup in the place of the record, which is kept aside", "garden-backup.db", restoreFlags},
		{"export", "DIR", "write a group's record as CSV and JSON", "garden-export", exportFlags},
		{"forget", "user|guild ID", "take a person out of the record, or a whole group", "user 42", forgetFlags},
		{"doctor", "", "look for what is wrong with this installation", "", doctorFlags},
		{"version", "", "print the version", "", versionFlags},
		{"help", "[settings]", "print this list, or the settings", "", helpFlags},
	}
}

// ParseFlags chooses the subcommand and reads its flags. Asking for help is
// a run like any other.
func (m *Main) ParseFlags(args []string) error {
	args, err := m.globalFlags(args)
	if err != nil {
		if len(args) == 0 || args[0] != "doctor" {
			return err
		}
		m.unread = err
	}
	name := "help"
	if len(args) > 0 {
		name, args = args[0], args[1:]
	}
	i := slices.IndexFunc(subcommands(), func(s subcommand) bool { return s.name == name })
	if i < 0 {
		return &usageError{fmt.Sprintf("There is no subcommand “%s”; heapside help lists them.", name)}
	}
	sub := subcommands()[i]
	fs := flag.NewFlagSet("heapside "+name, flag.ContinueOnError)
	fs.SetOutput(io.Discard)
	run := sub.flags(m, fs)
	switch err := fs.Parse(args); {
	case errors.Is(err, flag.ErrHelp):
		m.run = func(context.Context) error { return printUsage(m.Out, sub, fs) }
		return nil
	case err != nil:
		return &usageError{fmt.Sprintf("heapside %s: %v; heapside %s -h lists its flags.", name, err, name)}
	case sub.args == "" && fs.NArg() > 0:
		return &usageError{fmt.Sprintf("heapside %s takes no further words, but got “%s”.", name, fs.Arg(0))}
	case sub.example != "" && fs.NArg() == 0:
		return &usageError{fmt.Sprintf("heapside %s needs %s, for example: heapside %[1]s %[3]s", name, sub.args, sub.example)}
	}
	m.run = func(ctx context.Context) error { return run(ctx, fs.Args()) }
	return nil
}

// globalFlags reads what may stand before the subcommand, and with it the file
// of settings.
func (m *Main) globalFlags(args []string) ([]string, error) {
	fs := flag.NewFlagSet("heapside", flag.ContinueOnError)
	fs.SetOutput(io.Discard)
	config := fs.String("config", "", "")
	switch err := fs.Parse(args); {
	case errors.Is(err, flag.ErrHelp):
		return nil, nil
	case err != nil:
		return nil, &usageError{fmt.Sprintf("heapside: %v; heapside help lists what there is.", err)}
	}
	return fs.Args(), m.configure(*config)
}

// Run does what ParseFlags chose.
func (m *Main) Run(ctx context.Context) error { return m.run(ctx) }

// Close gives back what Run opened, last opened first.
func (m *Main) Close() error {
	var errs []error
	for _, c := range slices.Backward(m.closers) {
		errs = append(errs, c())
	}
	m.closers = nil
	return errors.Join(errs...)
}

// report prints what went wrong as one sentence and returns the exit status.
func (m *Main) report(err error) int {
	if err == nil {
		return 0
	}
	fmt.Fprintln(m.Err, terminal.Clean(sentence(err)))
	if usage := (*usageError)(nil); errors.As(err, &usage) {
		return 2
	}
	if errors.Is(err, discord.ErrToken) || errors.Is(err, reminders.ErrToken) {
		return 3
	}
	return 1
}

func sentence(err error) string {
	if e, ok := fault.As(err); ok {
		return e.Message
	}
	return err.Error()
}

// office is a record with the commands on top of it.
type office struct {
	db        *storage.DB
	assistant *commands.Assistant
	sky       commands.Weather // nil: it is switched off
	now       func() time.Time
}

// office opens the record at path and puts the commands on top of it, under
// the given weather or, when it is nil, that of the services.
func (m *Main) office(ctx context.Context, path string, log *slog.Logger, sky commands.Weather, more ...commands.Setting) (office, error) {
	db, err := storage.Open(ctx, path)
	if err != nil {
		return office{}, err
	}
	m.closers = append(m.closers, db.Close)
	if sky == nil {
		if sky, err = m.station(db, log); err != nil {
			return office{}, err
		}
	}
	return office{db, commands.New(db, log, append(more, commands.Under(sky))...), sky, m.now}, nil
}

// logger writes to standard error, or nowhere when nobody asked: a
// conversation is no place for log lines.
func (m *Main) logger(verbose bool) *slog.Logger {
	if !verbose {
		return slog.New(slog.DiscardHandler)
	}
	return slog.New(slog.NewTextHandler(m.Err, &slog.HandlerOptions{Level: slog.LevelDebug}))
}

// now is the time in whole milliseconds, as the record keeps it.
func (m *Main) now() time.Time {
	clock := m.Now
	if clock == nil {
		clock = time.Now
	}
	return clock().Truncate(time.Millisecond)
}
