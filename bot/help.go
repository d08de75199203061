package main

import (
	"context"
	"flag"
	"fmt"
	"io"
	"runtime"
	"runtime/debug"
	"strings"
)

func helpFlags(m *Main, _ *flag.FlagSet) func(context.Context, []string) error {
	return func(_ context.Context, args []string) error {
		if len(args) == 1 && args[0] == "settings" {
			return helpSettings(m.Out)
		}
		if len(args) > 0 {
			return &usageError{fmt.Sprintf("heapside help takes settings or nothing, not “%s”.", args[0])}
		}
		var b strings.Builder
		b.WriteString("heapside keeps the shared record of a garden group's compost heaps and says what to do next.\n\n")
		for _, s := range subcommands() {
			fmt.Fprintf(&b, "  heapside %-20s %s\n", strings.TrimSpace(s.name+" "+s.args), s.summary)
		}
		b.WriteString("\nheapside SUBCOMMAND -h lists the flags. heapside chat -demo shows what can be asked.\n" +
			"heapside -config FILE SUBCOMMAND reads settings from a file; heapside help settings lists them.\n" +
			"The exit status is 0 when all went well, 2 for a command line or a setting that is not understood, 3 for a token\n" +
			"that is refused, 1 for everything else.\n")
		_, err := io.WriteString(m.Out, b.String())
		return err
	}
}

// printUsage prints one subcommand and its flags.
func printUsage(w io.Writer, s subcommand, fs *flag.FlagSet) error {
	line := "heapside " + s.name
	if s.args != "" {
		line += " [flags] " + s.args
	} else {
		line += " [flags]"
	}
	if _, err := fmt.Fprintf(w, "%s: %s\n\n", line, s.summary); err != nil {
		return err
	}
	fs.SetOutput(w)
	fs.PrintDefaults()
	return nil
}

func versionFlags(m *Main, _ *flag.FlagSet) func(context.Context, []string) error {
	return func(context.Context, []string) error {
		_, err := fmt.Fprintf(m.Out, "heapside %s, built with %s\n", programVersion(), runtime.Version())
		return err
	}
}

// programVersion is the version this program was built from, as far as it knows.
func programVersion() string {
	info, ok := debug.ReadBuildInfo()
	if !ok {
		return "(unknown)"
	}
	version := info.Main.Version
	for _, s := range info.Settings {
		if s.Key == "vcs.revision" {
			version += " " + s.Value
		}
	}
	return version
}
