package reminders

import (
	"context"
	"slices"
	"time"

	"heapside/calc/advice"
	"heapside/calc/duty"
	"heapside/calc/heap"
)

// How far back the record is read for a reminder. Own choice: an item is seldom
// put off by more than a month, and no group logs more than twenty things a day
// for a season.
const (
	recalled = 31   // days of items and of finished heaps
	recorded = 2000 // newest entries, for the rota and the week
)

// scene is what the record says of a place when it is looked at.
type scene struct {
	place  heap.Place
	now    time.Time
	plan   duty.Plan
	garden heap.Garden
	zone   *time.Location
	items  []duty.Item  // of late; only from survey
	heaps  []heap.State // kept or finished of late; only from survey
}

// scene reads how a place wants to be reminded.
func (e *Engine) scene(ctx context.Context, at heap.Place, now time.Time) (scene, error) {
	s := scene{place: at, now: now}
	var err error
	if s.plan, err = e.record.Plan(ctx, at); err != nil {
		return s, err
	}
	s.garden, err = e.record.Garden(ctx, at)
	s.zone = e.zone(s.garden.Zone)
	return s, err
}

// survey reads what there may be to remind of, too.
func (e *Engine) survey(ctx context.Context, at heap.Place, now time.Time) (scene, error) {
	s, err := e.scene(ctx, at, now)
	if err != nil {
		return s, err
	}
	if s.items, err = e.record.Items(ctx, at, s.today().Add(-recalled)); err != nil {
		return s, err
	}
	heaps, err := e.record.Heaps(ctx, at)
	if err != nil {
		return s, err
	}
	for _, h := range heaps {
		if !h.Finished.IsZero() && h.Finished.Before(now.AddDate(0, 0, -recalled)) {
			continue
		}
		entries, err := e.record.Entries(ctx, at, h.ID)
		if err != nil {
			return s, err
		}
		s.heaps = append(s.heaps, heap.Read(h, entries, now))
	}
	return s, nil
}

// zone is the time zone of that name; UTC when this machine does not know it.
func (e *Engine) zone(name string) *time.Location {
	e.mu.Lock()
	defer e.mu.Unlock()
	if zone, ok := e.zones[name]; ok {
		return zone
	}
	zone, err := time.LoadLocation(name)
	if err != nil {
		e.log.Warn("reminders: unknown time zone, taken as UTC", "zone", name, "err", err)
		zone = time.UTC
	}
	e.zones[name] = zone
	return zone
}

// today is the day of the scene.
func (s scene) today() duty.Date { return duty.On(s.now.In(s.zone)) }

// following is the first occurrence after a moment; false when there is none.
func (s scene) following(after time.Time) (duty.Occurrence, bool) {
	return s.plan.Next(after, s.zone, s.extra(after)...)
}

// extra are the days from a moment on, for a week, on which a reminder may come
// besides those the group chose: to which something was put off, and on which
// the week is summed up.
func (s scene) extra(from time.Time) []duty.Date {
	days := duty.PutOff(s.items)
	first := duty.On(from.In(s.zone)).Add(-1) // an hour in the quiet hours comes the day after
	if first.Before(s.plan.Paused) {
		first = s.plan.Paused
	}
	for n := range 9 {
		if day := first.Add(n); s.plan.Weekly.Has(day.Weekday()) {
			days = append(days, day)
		}
	}
	return days
}

// heap is the state of a heap; false when it is none of the scene.
func (s scene) heap(id heap.ID) (heap.State, bool) {
	n := slices.IndexFunc(s.heaps, func(h heap.State) bool { return h.Heap.ID == id })
	if n < 0 {
		return heap.State{}, false
	}
	return s.heaps[n], true
}

// choose is what to remind of on a day, of the jobs that were found.
func (s scene) choose(day duty.Date, found []duty.Found) []duty.Item {
	return duty.Choose(duty.Case{Plan: s.plan, Day: day, Found: found, Earlier: s.items, LastDone: s.lastDone})
}

// lastDone is the day a kind of job was last done to a heap, zero when never.
func (s scene) lastDone(id heap.ID, kind string) duty.Date {
	h, _ := s.heap(id)
	for _, entry := range slices.Backward(h.Entries) {
		if _, ok := advice.DoneBy(kind, time.Time{}, heap.State{Entries: []heap.Entry{entry}}); ok {
			return duty.On(entry.At.In(s.zone))
		}
	}
	return duty.Date{}
}
