// Package demo is the invented Millrace Lane Community Garden: a record of
// three heaps to try things on, its dates counted back from now.
package demo

import (
	"context"
	_ "embed"
	"fmt"
	"strings"
	"time"

	"heapside/calc/heap"
	"heapside/commands"
)

//go:embed millrace-lane.txt
var script string

// Assistant is what the record is typed into.
type Assistant interface {
	Line(ctx context.Context, call commands.Call, line string) commands.Reply
}

// event is one line of the script.
type event struct {
	line         int
	days         int // before now
	hour, minute int
	who          string
	typed        string
}

// garden is the script, read.
type garden struct {
	zone    *time.Location
	members map[string]bool // by name; true for the organiser
	events  []event
}

// Load types the whole script into the assistant for one place, each line at
// its own time before now. person turns a member's name into a person. It
// stops at the first line that is refused and names it.
func Load(ctx context.Context, a Assistant, place heap.Place, now time.Time, person func(name string) heap.Person) error {
	g, err := read(script)
	if err != nil {
		return err
	}
	for _, e := range g.events {
		reply := a.Line(ctx, commands.Call{
			Place:     place,
			By:        person(e.who),
			Organiser: g.members[e.who],
			Now:       e.at(now.In(g.zone)),
		}, e.typed)
		if reply.Err != nil {
			return fmt.Errorf("demo line %d, %q: %s", e.line, e.typed, reply.Err.Message)
		}
	}
	return nil
}

// at is the event's moment, counted in calendar days of now's zone.
func (e event) at(now time.Time) time.Time {
	return time.Date(now.Year(), now.Month(), now.Day()-e.days, e.hour, e.minute, 0, 0, now.Location())
}

func read(text string) (garden, error) {
	g := garden{zone: time.UTC, members: map[string]bool{}}
	n := 0
	for line := range strings.Lines(text) {
		n++
		line = strings.TrimSpace(line)
		if line == "" || line[0] == '#' {
			continue
		}
		if err := g.readLine(n, line); err != nil {
			return garden{}, fmt.Errorf("demo line %d, %q: %w", n, line, err)
		}
	}
	return g, nil
}

func (g *garden) readLine(n int, line string) error {
	if zone, ok := strings.CutPrefix(line, "zone: "); ok {
		loc, err := time.LoadLocation(zone)
		g.zone = loc
		return err
	}
	if members, ok := strings.CutPrefix(line, "members: "); ok {
		for m := range strings.SplitSeq(members, ", ") {
			name, organiser := strings.CutSuffix(m, " (organiser)")
			g.members[name] = organiser
		}
		return nil
	}
	e := event{line: n}
	if _, err := fmt.Sscanf(line, "-%dd %d:%d %s", &e.days, &e.hour, &e.minute, &e.who); err != nil {
		return fmt.Errorf("an event reads -3d 18:20 Name words: %w", err)
	}
	if _, ok := g.members[e.who]; !ok {
		return fmt.Errorf("%s is no member", e.who)
	}
	_, rest, _ := strings.Cut(line, " "+e.who+" ")
	e.typed = strings.TrimSpace(rest)
	g.events = append(g.events, e)
	return nil
}
