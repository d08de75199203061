package commands

import (
	"context"
	"slices"
	"time"

	"heapside/calc/advice"
	"heapside/calc/fault"
	"heapside/calc/heap"
)

// Found is a job with the heap it is for; the zero Heap is the garden as a whole.
type Found struct {
	Heap heap.Heap
	advice.Job
}

// Jobs are the jobs of all heaps that a place keeps, and of its garden, the most
// useful first, as next finds them.
func (a *Assistant) Jobs(ctx context.Context, at heap.Place, now time.Time) ([]Found, error) {
	d, err := a.open(ctx, &Call{Place: at, Now: now})
	if err != nil {
		return nil, err
	}
	heaps, err := d.heaps("heap")
	if err != nil {
		return nil, err
	}
	return d.find(heaps, true)
}

// find are the jobs of heaps, and of the garden where it is asked for as a
// whole, the most useful first.
func (d *desk) find(heaps []heap.Heap, whole bool) ([]Found, error) {
	if len(heaps) == 0 {
		return nil, nil
	}
	sky := d.sky(slices.MinFunc(heaps, func(a, b heap.Heap) int { return a.Started.Compare(b.Started) }).Started)
	stock, err := d.store.Stock(d.ctx, d.call.Place)
	if err != nil {
		return nil, err
	}
	supply := advice.Supply{Stock: stock, Table: d.table}
	var all []Found
	var states []heap.State
	for _, h := range heaps {
		c, err := d.lookAt(h, sky)
		if err != nil {
			return nil, err
		}
		c.Supply = supply
		states = append(states, c.State)
		for _, job := range advice.Find(c) {
			all = append(all, Found{h, job})
		}
	}
	if whole {
		yard := advice.Yard{Now: d.call.Now.In(d.zone), Measures: d.local, Located: d.garden.Located, Lat: d.garden.Lat, Heaps: states, Supply: supply}
		for _, job := range advice.Supplies(yard) {
			all = append(all, Found{heap.Heap{}, job})
		}
	}
	advice.Rank(all, func(f Found) advice.Job { return f.Job })
	return all, nil
}

// lookAt is a heap as its record, the sky and, where it has one, its model show it.
func (d *desk) lookAt(h heap.Heap, sky Sky) (advice.Case, error) {
	c := advice.Case{Measures: d.local, Sky: d.skyAhead(sky)}
	v, err := d.follow(h, sky)
	if _, forPeople := fault.As(err); forPeople {
		c.State, err = d.state(h)
		return c, err
	}
	if err != nil {
		return c, err
	}
	now := v.model.now
	c.State, c.Condition = v.state, &now
	return c, nil
}

// skyAhead is the sky as the rules of advice see it: what today brought so far
// apart from what is still to come.
func (d *desk) skyAhead(sky Sky) advice.Sky {
	s := advice.Sky{Located: d.garden.Located, Lat: d.garden.Lat, Credits: sky.Credits}
	for _, day := range sky.Days {
		seen := advice.Day{Start: day.Start, RainMm: day.RainMm, Told: day.Told, MeanC: day.MeanC, MinC: day.MinC}
		end := day.Start.AddDate(0, 0, 1)
		if day.Start.Before(d.call.Now) && d.call.Now.Before(end) {
			now := d.call.Now.Truncate(time.Hour)
			seen.RainMm = sky.rained(day.Start, now)
			s.Days = append(s.Days, seen)
			seen.RainMm = sky.rained(now, end)
		}
		seen.Ahead = d.call.Now.Before(end)
		s.Days = append(s.Days, seen)
	}
	return s
}

// rained is the rain in mm between two full hours as far as it was told;
// negative when nobody told of any of it.
func (s Sky) rained(from, to time.Time) float64 {
	mm := -1.0
	for at := from; s.Rain != nil && at.Before(to); at = at.Add(time.Hour) {
		if rain, told := s.Rain(at); told {
			mm = max(0, mm) + rain
		}
	}
	return mm
}

// pressing is the most urgent job of a heap, if it should not wait.
func (d *desk) pressing(s heap.State) (advice.Job, bool) {
	jobs := advice.Find(advice.Case{State: s, Measures: d.local})
	if len(jobs) == 0 || jobs[0].Urgency < advice.Today {
		return advice.Job{}, false
	}
	return jobs[0], true
}
