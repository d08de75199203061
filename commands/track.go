package commands

import (
	"math"
	"strings"
	"time"

	"heapside/calc/heap"
	"heapside/calc/process"
)

// view is what the model says of one heap, and what that rests on.
type view struct {
	heap  heap.Heap
	state heap.State
	sky   Sky
	model *model
}

// follow brings the model of a heap to now: from what it learned before where
// the record still bears it out, from nothing where it does not. An error for
// people says why there is no model, such as that nothing was put in.
func (d *desk) follow(h heap.Heap, sky Sky) (view, error) {
	entries, err := d.store.Entries(d.ctx, d.call.Place, h.ID)
	if err != nil {
		return view{}, err
	}
	m, err := d.model(process.Record{Heap: h, Entries: entries, Table: d.table, Weather: sky.Hours,
		Climate: process.Climate{Located: d.garden.Located, Lat: d.garden.Lat, Lon: d.garden.Lon}})
	if err != nil {
		return view{}, err
	}
	return view{heap: h, state: heap.Read(h, entries, d.call.Now), sky: sky, model: m}, nil
}

// scoredFor is how far back earlier outlooks are held against their readings.
const scoredFor = 180 * 24 * time.Hour

// scores are how earlier outlooks about the given heaps did. The state of one
// heap is at hand.
func (d *desk) scores(heaps []heap.Heap, at heap.State) ([]process.Score, error) {
	var all []process.Score
	for _, h := range heaps {
		said, err := d.store.Forecasts(d.ctx, d.call.Place, h.ID, d.call.Now.Add(-scoredFor))
		if err != nil {
			return nil, err
		}
		if len(said) == 0 {
			continue
		}
		s := at
		if h.ID != at.Heap.ID {
			if s, err = d.state(h); err != nil {
				return nil, err
			}
		}
		all = append(all, process.Scores(said, s)...)
	}
	return all, nil
}

// heldLine holds a reading that is about to be logged against the outlook that
// was made longest before it, within a week: empty when none spoke of that time.
func (d *desk) heldLine(h heap.Heap, reading heap.Reading) (string, error) {
	said, err := d.store.Forecasts(d.ctx, d.call.Place, h.ID, reading.At.AddDate(0, 0, -7))
	if err != nil || len(said) == 0 {
		return "", err
	}
	s, err := d.state(h)
	if err != nil {
		return "", err
	}
	s.Readings = []heap.Reading{reading}
	for _, f := range said {
		scores := process.Scores([]process.Forecast{f}, s)
		if len(scores) == 0 {
			continue
		}
		ago, low, high := d.ago(f.At), d.local.SayTemperature(f.Band.Low), d.local.SayTemperature(f.Band.High)
		if scores[0].In80 {
			return d.in.Say("The outlook of %s said %s to %s: it held.", ago, low, high), nil
		}
		return d.in.Say("The outlook of %s said %s to %s: it missed.", ago, low, high), nil
	}
	return "", nil
}

// skyLine says what is known of the weather, and how old it is.
func (d *desk) skyLine(sky Sky, unknown float64) string {
	var said []string
	if !sky.AsOf.IsZero() {
		said = append(said, d.in.Say("Weather as of %s.", d.day(sky.AsOf)))
	}
	if sky.Note != "" {
		said = append(said, d.in.Word(sky.Note))
	}
	if unknown > 0.05 {
		said = append(said, d.in.Say("Where no weather is known (%s %% of the days ahead) a plain climate stands in, with wider bands.", whole(math.Round(unknown*100))))
	}
	return strings.Join(said, " ")
}
