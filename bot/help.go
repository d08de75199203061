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
	return func(context.Context, []string) error {
		var b strings.Builder
		b.WriteString("heapside keeps the shared record of a garden group's compost heaps and says what to do next.\n\n")
		for _, s := range subcommands() {
			fmt.Fprintf(&b, "  heapside %-14s %s\n", strings.TrimSpace(s.name+" "+s.args), s.summary)
		}
		b.WriteString("\nheapside SUBCOMMAND -h lists the flags. heapside chat -demo shows what can be asked.\n")
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
		version := "(unknown)"
		if info, ok := debug.ReadBuildInfo(); ok {
			version = info.Main.Version
			for _, s := range info.Settings {
				if s.Key == "vcs.revision" {
					version += " " + s.Value
				}
			}
		}
		_, err := fmt.Fprintf(m.Out, "heapside %s, built with %s\n", version, runtime.Version())
		return err
	}
}
