package main

import (
	"context"
	"encoding/json"
	"errors"
	"flag"
	"fmt"
	"io/fs"
	"net/http"
	"os"
	"path/filepath"
	"syscall"
	"time"

	"heapside/bot/terminal"
	"heapside/storage"
)

// Own choices: a record grows by a few megabytes a year, and reminders count minutes.
const (
	littleDisk = 100 << 20 // bytes
	clockOff   = time.Minute
	askIn      = 10 * time.Second
)

// whoami is the platform's address that answers whose a token is (discord-api-docs
// c98d64bc, resources/user.mdx).
const whoami = "https://discord.com/api/v9/users/@me"

// finding is one thing that the doctor looked at.
type finding struct {
	Is  string `json:"is"` // ok, warn or bad
	Of  string `json:"of"`
	Say string `json:"say"` // what is so, and how to mend it
}

var errSick = errors.New("Something is bad; the lines above say how to mend it.") //lint:ignore ST1005 people read it as a sentence

func doctorFlags(m *Main, flags *flag.FlagSet) func(context.Context, []string) error {
	var db string
	var offline, asJSON bool
	dbFlag(m, flags, &db)
	flags.BoolVar(&offline, "offline", false, "leave out what needs the network")
	flags.BoolVar(&asJSON, "json", false, "print a list of findings as JSON")
	return func(ctx context.Context, _ []string) error {
		found := m.examine(ctx, db, offline)
		if err := m.tell(found, asJSON); err != nil {
			return err
		}
		for _, f := range found {
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

func (m *Main) examine(ctx context.Context, db string, offline bool) []finding {
	found := []finding{{"ok", "version", programVersion()}}
	found = append(found, examineRecord(ctx, db)...)
	found = append(found, examineDisk(db))
	token, err := m.token()
	switch {
	case err != nil:
		found = append(found, finding{"bad", "token", sentence(err)})
	case offline:
		found = append(found, finding{"ok", "token", "There is one; whether the platform accepts it was not asked."})
	default:
		found = append(found, m.examinePlatform(ctx, token)...)
	}
	return found
}

func examineRecord(ctx context.Context, db string) []finding {
	if _, err := os.Stat(db); errors.Is(err, fs.ErrNotExist) {
		return []finding{{"warn", "record", fmt.Sprintf("There is no record “%s” yet; the first start makes it. If there should be one, say where with HEAPSIDE_DB.", db)}}
	}
	f, err := storage.Inspect(ctx, db)
	switch {
	case err != nil:
		return []finding{{"bad", "record", sentence(err)}}
	case f.Damage != "":
		return []finding{{"bad", "record", fmt.Sprintf("“%s” is damaged (%s). Stop the server and put a backup back: heapside restore FILE.", db, f.Damage)}}
	}
	found := []finding{{"ok", "record", fmt.Sprintf("%s, tables of version %d.", contents(f), f.Version)}}
	if f.Version < f.Newest {
		found[0] = finding{"warn", "record", fmt.Sprintf("%s; its tables are of version %d, the next start brings them to %d. Make a backup first.", contents(f), f.Version, f.Newest)}
	}
	for _, zone := range f.Zones {
		if _, err := time.LoadLocation(zone); err != nil {
			found = append(found, finding{"bad", "zone", fmt.Sprintf("The time zone “%s” of a garden is not known here; set another with the command garden.", zone)})
		}
	}
	if len(found) == 1 {
		found = append(found, finding{"ok", "zone", counted(len(f.Zones), "time zone", "time zones") + " in use, all known."})
	}
	return found
}

func examineDisk(db string) finding {
	var s syscall.Statfs_t
	if err := syscall.Statfs(filepath.Dir(db), &s); err != nil {
		return finding{"bad", "disk", fmt.Sprintf("The folder of the record cannot be looked at (%v). Name one that is there with HEAPSIDE_DB.", err)}
	}
	free := uint64(s.Bavail) * uint64(s.Bsize)
	if free < littleDisk {
		return finding{"bad", "disk", fmt.Sprintf("Only %d MB are free beside the record. Make room.", free>>20)}
	}
	return finding{"ok", "disk", fmt.Sprintf("%d MB are free.", free>>20)}
}

// examinePlatform asks the platform whose the token is; its answer tells the time too.
func (m *Main) examinePlatform(ctx context.Context, token string) []finding {
	ctx, cancel := context.WithTimeout(ctx, askIn)
	defer cancel()
	req, err := http.NewRequestWithContext(ctx, http.MethodGet, whoami, nil)
	if err != nil {
		return []finding{{"bad", "token", "The platform could not be asked."}}
	}
	req.Header.Set("Authorization", "Bot "+token)
	req.Header.Set("User-Agent", "DiscordBot (heapside, 1)")
	by := m.HTTP
	if by == nil {
		by = http.DefaultTransport
	}
	resp, err := by.RoundTrip(req)
	if err != nil {
		return []finding{{"bad", "platform", fmt.Sprintf("It does not answer (%v). Look at the network.", err)}}
	}
	resp.Body.Close()
	return []finding{examineAnswer(resp.StatusCode), m.examineClock(resp.Header.Get("Date"))}
}

func examineAnswer(status int) finding {
	switch status {
	case http.StatusOK:
		return finding{"ok", "token", "The platform accepts it."}
	case http.StatusUnauthorized:
		return finding{"bad", "token", "The platform refuses it. Make a new one on the bot's page and put it in the place of the old."}
	}
	return finding{"warn", "token", fmt.Sprintf("The platform answered with status %d; try again later.", status)}
}

func (m *Main) examineClock(date string) finding {
	theirs, err := http.ParseTime(date)
	if err != nil {
		return finding{"warn", "clock", "The platform did not tell the time to compare with."}
	}
	off := m.now().Sub(theirs).Round(time.Second)
	if off.Abs() > clockOff {
		return finding{"bad", "clock", fmt.Sprintf("The clock here is %s off that of the platform. Set it, best by a time service.", off)}
	}
	return finding{"ok", "clock", fmt.Sprintf("It differs by %s from that of the platform.", off)}
}
