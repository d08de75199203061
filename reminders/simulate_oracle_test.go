package reminders

import (
	"slices"
	"time"

	"heapside/calc/duty"
)

// oracle works out what should be said, by other means than the engine: it
// walks each day by quarters of an hour and asks what the wall clock shows.
type oracle struct {
	s       *year
	open    []*expected
	days    map[*channel]map[duty.Date]*outcome
	changes time.Time // when a plan or the clock was last changed
	stepped time.Time // when the clock was
	reached time.Time // the latest that the clock ever showed
	horizon map[*channel]instants

	wanted, posts, late, folded, twice, excused int
}

// expected is a reminder that is due and not there yet.
type expected struct {
	c      *channel
	day    duty.Date
	at     time.Time // by the clock
	jobs   []duty.Found
	week   bool
	well   time.Duration // for which nothing stood in its way
	moved  bool          // plan or zone changed meanwhile
	barred bool          // at some time we were not allowed to post
}

// outcome is what came of a day.
type outcome struct {
	came   bool // its hour
	sent   []*message
	missed bool
	named  bool
}

// instants are when the hour of a plan comes, by day, worked out as needed.
type instants struct {
	at   duty.Clock
	zone *time.Location
	of   map[duty.Date]time.Time // zero: that day has no such hour
}

func newOracle(s *year) *oracle {
	return &oracle{s: s, days: map[*channel]map[duty.Date]*outcome{}, horizon: map[*channel]instants{}}
}

func (o *oracle) day(c *channel, d duty.Date) *outcome {
	if o.days[c] == nil {
		o.days[c] = map[duty.Date]*outcome{}
	}
	if o.days[c][d] == nil {
		o.days[c][d] = &outcome{}
	}
	return o.days[c][d]
}

// instant is when the hour of a channel's plan comes on a day: the first quarter
// of an hour of that day at which the wall clock shows it, or a later time.
func (o *oracle) instant(c *channel, d duty.Date) time.Time {
	known := o.horizon[c]
	if known.of == nil || known.at != c.plan.At || known.zone != c.zone {
		known = instants{c.plan.At, c.zone, map[duty.Date]time.Time{}}
		o.horizon[c] = known
	}
	at, ok := known.of[d]
	if !ok {
		middle := time.Date(d.Year, d.Month, d.Day, 12, 0, 0, 0, time.UTC)
		for t := middle.Add(-28 * time.Hour); t.Before(middle.Add(28*time.Hour)) && at.IsZero(); t = t.Add(15 * time.Minute) {
			local := t.In(c.zone)
			if y, m, day := local.Date(); y == d.Year && m == d.Month && day == d.Day && local.Hour()*60+local.Minute() >= int(c.plan.At) {
				at = t
			}
		}
		known.of[d] = at
	}
	return at
}

// comes says that a channel's plan has a reminder on a day, or that it may: of
// what was put off in a message that no engine knows to be there, nobody can
// say, nor whether an engine saw in time that it was closed since.
func (o *oracle) comes(c *channel, d duty.Date) (sure, maybe bool) {
	p, weekday := c.plan, time.Date(d.Year, d.Month, d.Day, 12, 0, 0, 0, time.UTC).Weekday()
	if !p.On || !p.Paused.IsZero() && d.Before(p.Paused) || o.instant(c, d).IsZero() {
		return false, false
	}
	if p.Days == 0 || p.Days&(1<<weekday) != 0 || p.Weekly&(1<<weekday) != 0 {
		return true, true
	}
	for _, i := range o.s.items {
		if i.c == c && i.Until == d {
			sure, maybe = sure || i.State == duty.Later && i.m.known, true
		}
	}
	return sure, maybe
}

// next is when the next hour of any plan comes, as it really is.
func (o *oracle) next() (at time.Time, ok bool) {
	now := o.s.clock()
	for _, c := range o.s.channels {
		for n := -1; n <= 2 && !c.deleted; n++ {
			d := duty.On(now.In(c.zone)).Add(n)
			if t := o.instant(c, d); t.After(now) && (!ok || t.Before(at)) {
				at, ok = t, true
			}
		}
	}
	return at.Add(-o.s.skew), ok
}

// reach notes what came due between two readings of the clock.
func (o *oracle) reach(from, to time.Time) {
	for _, c := range o.s.channels {
		for d := duty.On(from.In(c.zone)).Add(-1); !duty.On(to.In(c.zone)).Add(1).Before(d); d = d.Add(1) {
			at := o.instant(c, d)
			if c.deleted || !at.After(from) || at.After(to) {
				continue
			}
			sure, maybe := o.comes(c, d)
			o.day(c, d).came = o.day(c, d).came || maybe
			if sure && at.After(o.reached) { // not again after the clock was set back
				o.due(c, d, at)
			}
		}
	}
	if to.After(o.reached) {
		o.reached = to
	}
	o.review()
}

// due notes that a reminder's hour has come.
func (o *oracle) due(c *channel, d duty.Date, at time.Time) {
	o.s.wake(o.s.clock()) // the engines look every two seconds
	day := o.day(c, d)
	jobs, week := o.wants(c, d, o.s.clock())
	again := slices.ContainsFunc(o.open, func(e *expected) bool { return e.c == c && e.day == d })
	if len(day.sent) > 0 || day.missed || again || len(jobs) == 0 && !week {
		return
	}
	o.wanted++
	o.open = append(o.open, &expected{c: c, day: d, at: at, jobs: jobs, week: week})
	o.s.tell("%s of %v is due, with %d jobs", c.at.Channel, d, len(jobs))
}

// wants is what a reminder of a day should name at a moment.
func (o *oracle) wants(c *channel, d duty.Date, now time.Time) (jobs []duty.Found, week bool) {
	for _, f := range c.needs(now) {
		var last *said
		for _, i := range o.s.items {
			if i.c == c && i.Heap == f.Heap && i.Kind == f.Kind && (last == nil || last.Day.Before(i.Day)) {
				last = i
			}
		}
		if last == nil || last.Day.Before(d) && !(last.State == duty.Later && d.Before(last.Until)) {
			jobs = append(jobs, f)
		}
	}
	weekday := time.Date(d.Year, d.Month, d.Day, 12, 0, 0, 0, time.UTC).Weekday()
	for _, e := range c.entries {
		week = week || c.plan.Weekly&(1<<weekday) != 0 && !e.voided && !e.At.After(now) && e.At.After(now.AddDate(0, 0, -7))
	}
	return jobs[:min(len(jobs), 3)], week
}

// passes lets time go by in which nothing happens.
func (o *oracle) passes(from time.Time, long time.Duration) {
	for _, e := range o.open {
		e.barred = e.barred || o.s.at.Before(e.c.muted)
		switch {
		case len(o.s.running) == 0 || !o.s.platform.healthy(e.c) || o.quiet(e.c, from) || o.s.depth > 0:
			e.well = 0
		case !from.Before(e.at):
			e.well += long
		}
	}
}

func (o *oracle) quiet(c *channel, t time.Time) bool {
	local := t.In(c.zone)
	now, q := duty.Clock(60*local.Hour()+local.Minute()), c.plan.Quiet
	if q.From <= q.To {
		return q.From <= now && now < q.To
	}
	return now >= q.From || now < q.To
}

// review drops what is no longer called for, and finds what should be there by
// now, or never will.
func (o *oracle) review() {
	now := o.s.clock()
	o.open = slices.DeleteFunc(o.open, func(e *expected) bool {
		jobs, week := o.wants(e.c, e.day, now)
		still := e.week && week
		for _, f := range jobs {
			still = still || slices.ContainsFunc(e.jobs, func(was duty.Found) bool { return was.Heap == f.Heap && was.Kind == f.Kind })
		}
		day := o.day(e.c, e.day)
		sure, _ := o.comes(e.c, e.day)
		patience := 25 * time.Minute // longer than any pause between attempts, and a lease
		if e.barred {
			patience = noAccessWait + 25*time.Minute
		}
		switch {
		case len(day.sent) > 0:
		case e.c.deleted || !still || !e.c.plan.On || e.day.Before(e.c.plan.Paused), len(o.s.running) == 0 && !sure:
			o.excused++
		case now.Sub(e.at) > duty.Fold:
			day.missed, day.named = true, e.c.unseen
			o.folded++
			o.s.tell("%s of %v was missed", e.c.at.Channel, e.day)
		case e.well > patience && !e.moved && o.s.at.Sub(o.stepped) > 48*time.Hour:
			o.s.fault("%s: the reminder of %v, due %v, is not there, though nothing stood in its way for %v", e.c.at.Channel, e.day, e.at, e.well)
		default:
			return false
		}
		return true
	})
}

// changed takes in another plan or zone of a channel: what is due and not there
// yet may come at the new hour. Of what no engine has seen only the new plan
// is known.
func (o *oracle) changed(c *channel) {
	for _, e := range o.open {
		if e.c == c {
			e.moved = true
			if at := o.instant(c, e.day); at.After(o.s.clock()) {
				e.at = at
			}
		}
	}
	o.review()
	if c.unseen = len(o.s.running) == 0; c.unseen {
		for _, day := range o.days[c] {
			day.named = day.named || day.missed
		}
	}
	o.changes = o.s.at
}

// setClock takes in that the clock was set: what was to be tried again by the
// clock as it was may wait for as long as it was wrong.
func (o *oracle) setClock() {
	for _, e := range o.open {
		e.well = 0
	}
	o.changes, o.stepped = o.s.at, o.s.at
}
