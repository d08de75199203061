package main

import (
	"context"
	"encoding/json"
	"errors"
	"flag"
	"fmt"
	"strings"

	"heapside/bot/terminal"
	"heapside/storage"
)

// finding is one thing that the doctor looked at.
type finding struct {
	Is  string `json:"is"` // ok, warn or bad
	Of  string `json:"of"`
	Say string `json:"say"` // what is so, and how to mend it
}

var errSick = errors.New("Something is bad; the lines above say how to mend it.") //lint:ignore ST1005 people read it as a sentence

// doctor looks at an installation. It changes nothing but, when told to mend,
// which commands are registered.
type doctor struct {
	*Main
	db            string
	offline, mend bool
	record        storage.Findings // as far as it could be read
	found         []finding
}

func doctorFlags(m *Main, flags *flag.FlagSet) func(context.Context, []string) error {
	d := &doctor{Main: m}
	var asJSON bool
	dbFlag(m, flags, &d.db)
	flags.BoolVar(&d.offline, "offline", false, "leave out what needs the network")
	flags.BoolVar(&d.mend, "mend", false, "register the commands anew where that is wrong, and clear those that a trial left")
	flags.BoolVar(&asJSON, "json", false, "print a list of findings as JSON")
	return func(ctx context.Context, _ []string) error {
		if d.offline && d.mend {
			return &usageError{"heapside doctor -mend needs the network; leave out -offline."}
		}
		d.examine(ctx)
		if err := m.tell(d.found, asJSON); err != nil {
			return err
		}
		for _, f := range d.found {
			if f.Is == "bad" {
				return errSick
			}
		}
		return nil
	}
}

func (m *Main) tell(found []finding, asJSON bool) error {
	if asJSON {
		enc := json.NewEncoder(m.Out)
		enc.SetEscapeHTML(false)
		enc.SetIndent("", "  ")
		return enc.Encode(found)
	}
	for _, f := range found {
		if err := m.sayf("%-4s  %-9s  %s\n", f.Is, f.Of, terminal.Clean(f.Say)); err != nil {
			return err
		}
	}
	return nil
}

// examine looks at everything, what needs no network first.
func (d *doctor) examine(ctx context.Context) {
	d.ok("version", "%s", programVersion())
	d.lookAtSettings(ctx)
	d.lookAtRecord(ctx)
	d.lookAtDisk()
	d.lookAtReminders()
	d.lookAtPlatform(ctx)
	d.lookAtWeather(ctx)
}

func (d *doctor) ok(of, format string, args ...any)   { d.say("ok", of, format, args...) }
func (d *doctor) warn(of, format string, args ...any) { d.say("warn", of, format, args...) }
func (d *doctor) bad(of, format string, args ...any)  { d.say("bad", of, format, args...) }

func (d *doctor) say(is, of, format string, args ...any) {
	d.found = append(d.found, finding{is, of, fmt.Sprintf(format, args...)})
}

// maxListed is how many of a kind one line names (own choice).
const maxListed = 6

// listed names the first few of many.
func listed(names []string) string {
	if more := len(names) - maxListed; more > 0 {
		return strings.Join(names[:maxListed], ", ") + fmt.Sprintf(" and %d more", more)
	}
	if n := len(names); n > 1 {
		return strings.Join(names[:n-1], ", ") + " and " + names[n-1]
	}
	return strings.Join(names, "")
}

// cause is as much of an error as a line holds.
func cause(err error) string {
	const longest = 160
	return shortened(sentence(err), longest)
}
