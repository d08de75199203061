package commands

import (
	"context"
	"fmt"
	"time"

	"heapside/calc/fault"
	"heapside/calc/feedstock"
	"heapside/calc/heap"
	"heapside/calc/measure"
	"heapside/commands/speech"
)

// desk is what a handler works with: one call, and what its place has on record.
type desk struct {
	ctx     context.Context
	store   Store
	weather Weather
	recall  *recall
	call    *Call
	garden  heap.Garden
	m       measure.Measures
	in      *speech.Speech   // the garden's language, else the caller's
	local   measure.Measures // m as it is said in that language
	zone    *time.Location
	table   *feedstock.Table
	parse   func(line string, heaps []string) (path string, args map[string]string, err error)
	keep    func(entries ...heap.Entry) ([]heap.Entry, error) // stores what a log command records
}

// with turns a method of desk into a command's Run, for those who have the right.
func (a *Assistant) with(answer func(*desk) (Reply, error)) func(context.Context, *Call) (Reply, error) {
	return func(ctx context.Context, call *Call) (Reply, error) {
		d, err := a.open(ctx, call)
		if err != nil {
			return Reply{}, err
		}
		if err := d.permit(call.Path, call.Args); err != nil {
			return Reply{}, err
		}
		r, err := answer(d)
		r.Language = d.in.Code()
		return r, err
	}
}

func (a *Assistant) open(ctx context.Context, call *Call) (*desk, error) {
	if call.Place.Guild == "" || call.Place.Channel == "" {
		return nil, fault.New(fault.NotAllowed, "Please ask me in a channel of your group: that is where its heaps are kept.")
	}
	garden, err := a.store.Garden(ctx, call.Place)
	if err != nil {
		return nil, fmt.Errorf("read the garden's settings: %w", err)
	}
	own, err := a.store.Materials(ctx, call.Place)
	if err != nil {
		return nil, fmt.Errorf("read the garden's materials: %w", err)
	}
	zone, err := time.LoadLocation(garden.Zone)
	if err != nil {
		zone = time.UTC // a zone this machine no longer knows must not stop the answers
	}
	in := speech.Of(garden.Language, call.Locale)
	local := garden.Measures
	local.Style = in.Style()
	keep := func(entries ...heap.Entry) ([]heap.Entry, error) { return a.store.Append(ctx, call.Place, entries...) }
	return &desk{ctx: ctx, store: a.store, weather: a.weather, recall: &a.recall, call: call, garden: garden, m: garden.Measures, in: in, local: local, zone: zone, table: a.tables.of(call.Place, own).In(in.Code()),
		parse: a.parse, keep: keep}, nil
}

func (d *desk) arg(name string) string { return d.call.Args[name] }

// when reads the time an entry happened; now when it was not said.
func (d *desk) when() (time.Time, error) {
	said := d.arg("when")
	if said == "" {
		return d.call.Now, nil
	}
	at, err := measure.ParseWhen(said, d.call.Now, d.zone)
	return at, d.doubt("when", err)
}

// day prints a time as people of the group would say it.
func (d *desk) day(t time.Time) string {
	local, now := t.In(d.zone), d.call.Now.In(d.zone)
	clock := local.Format("15:04")
	switch {
	case sameDay(local, now):
		return d.in.Say("today %s", clock)
	case sameDay(local, now.AddDate(0, 0, -1)):
		return d.in.Say("yesterday %s", clock)
	case local.Year() == now.Year():
		return d.in.Day(local) + " " + clock
	}
	return d.in.Date(local) + " " + clock
}

func sameDay(a, b time.Time) bool {
	return a.Year() == b.Year() && a.YearDay() == b.YearDay()
}

// ago prints how long before the call t was.
func (d *desk) ago(t time.Time) string { return d.local.SayAgo(d.call.Now.Sub(t)) }
