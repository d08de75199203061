package reminders

import (
	"context"
	"fmt"
	"slices"
	"time"

	"heapside/calc/advice"
	"heapside/calc/duty"
	"heapside/calc/fault"
	"heapside/calc/heap"
)

var people = []heap.Person{wren, odalys, {ID: "9", Name: "Tobias"}, {ID: "10", Name: "Mirembe"}}

// channel is one channel with its heaps, as its people know it.
type channel struct {
	s       *year
	at      heap.Place
	plan    duty.Plan // as people set it; turns are not followed
	zone    *time.Location
	heaps   []heap.Heap
	entries []*logEntry
	muted   time.Time // no access until then
	deleted bool
	unseen  bool      // plan or zone were changed while no engine ran
	browns  time.Time // wanted from then on
}

// logEntry is an entry as people remember it.
type logEntry struct {
	heap.Entry
	voided bool
}

// said is an item as people saw it.
type said struct {
	duty.Item
	c     *channel
	m     *message
	vague bool
}

func newChannel(s *year, name string) *channel {
	c := &channel{s: s, at: heap.Place{Guild: "millrace-lane", Channel: name}, browns: s.at.AddDate(0, 0, 5)}
	c.start()
	if s.busy {
		c.start()
	}
	return c
}

func (s *year) channel(at heap.Place) *channel {
	return s.channels[slices.IndexFunc(s.channels, func(c *channel) bool { return c.at == at })]
}

func (s *year) must(err error) {
	if err != nil {
		panic(err)
	}
}

// interval is how often a heap of the invented garden calls for a kind of job.
type interval struct {
	kind    string
	days    float64
	urgency advice.Urgency
	done    heap.Payload
}

var intervals = []interval{
	{advice.Turn, 7, advice.Now, heap.Turned{}},
	{advice.Water, 4.7, advice.Today, heap.Watered{Litres: 10}},
	{advice.Reading, 3.3, advice.Today, heap.Temp{C: 50}},
}

// finder finds the jobs of the invented garden.
type finder struct{ s *year }

// Jobs implements Finder.
func (f finder) Jobs(_ context.Context, at heap.Place, now time.Time) ([]duty.Found, error) {
	return f.s.channel(at).needs(now), nil
}

// needs are the jobs that a channel's heaps call for.
func (c *channel) needs(now time.Time) []duty.Found {
	var found []duty.Found
	for _, h := range c.heaps {
		for _, i := range c.kinds() {
			since := h.Started
			for _, e := range c.entries {
				if !e.voided && e.Heap == h.ID && e.Payload.Kind() == i.done.Kind() && !e.At.After(now) && e.At.After(since) {
					since = e.At
				}
			}
			if h.Finished.IsZero() && now.Sub(since).Hours() >= 24*i.days {
				found = append(found, duty.Found{Heap: h.ID, Name: h.Name, Job: advice.Job{Kind: i.kind, Title: i.kind, Urgency: i.urgency}})
			}
		}
	}
	if !now.Before(c.browns) {
		found = append(found, duty.Found{Job: advice.Job{Kind: advice.Browns, Title: "Fetch browns", Urgency: advice.Today}})
	}
	return found
}

// kinds are the kinds of job in the channel's year.
func (c *channel) kinds() []interval {
	if c.s.busy {
		return intervals
	}
	return intervals[:2]
}

// live lets things happen in the channel, again and again.
func (c *channel) live() {
	often := func(days float64, do func()) {
		var again func()
		again = func() {
			if !c.deleted {
				do()
				c.s.later(time.Duration(c.s.rng.ExpFloat64()*days*24*float64(time.Hour)), again)
			}
		}
		c.s.later(time.Duration(c.s.rng.ExpFloat64()*days*24*float64(time.Hour)), again)
	}
	if c.s.busy {
		often(3, c.logSomething)
	}
	often(10, c.logSomething)
	often(20, c.takeBack)
	often(50, c.comeOrGo)
	often(80, func() { c.changePlan(c.anyChange()) })
	often(150, func() { c.saveZone(years[c.s.rng.IntN(len(years))].zone) })
	often(60, c.renew)
	often(50, c.atTheHour)
}

// atTheHour lets something happen within seconds of a reminder's hour.
func (c *channel) atTheHour() {
	now := c.s.clock()
	hour := c.s.oracle.instant(c, duty.On(now.In(c.zone)).Add(1))
	if hour.IsZero() {
		return
	}
	c.s.later(hour.Sub(now)+c.s.span(0, 4*time.Second)-2*time.Second, func() {
		switch {
		case c.deleted:
		case c.s.chance(50):
			c.logSomething()
		default:
			c.changePlan(c.anyChange())
		}
	})
}

// renew finishes a heap and starts another.
func (c *channel) renew() {
	n := c.s.rng.IntN(len(c.heaps))
	h := c.heaps[n]
	h.Finished = c.s.clock()
	if h.Finished.Before(h.Started) {
		return
	}
	_, err := c.s.db.ChangeHeap(context.Background(), h, heap.Entry{Heap: h.ID, At: h.Finished, Logged: h.Finished, By: wren, Payload: heap.Finished{}})
	c.s.must(err)
	c.heaps = slices.Delete(c.heaps, n, n+1)
	for _, i := range c.s.items {
		switch {
		case i.Heap != h.ID:
		case i.State == duty.Open || i.State == duty.Later:
			i.State, i.vague = duty.Lapsed, i.vague || c.longAgo(i)
		case c.ahead(i.Entry): // an engine that looked while the clock was set back found it open
			i.vague = true
		}
	}
	c.start()
}

func (c *channel) start() {
	now := c.s.clock()
	h, err := c.s.db.StartHeap(context.Background(), heap.Heap{Place: c.at, Name: fmt.Sprint("Bay ", c.s.rng.Uint32())}, wren, now)
	c.s.must(err)
	c.heaps = append(c.heaps, h)
}

func (c *channel) anyone() heap.Person { return people[c.s.rng.IntN(len(people))] }

// logSomething is what people do of themselves.
func (c *channel) logSomething() {
	payload := intervals[c.s.rng.IntN(len(intervals))].done
	if c.s.chance(20) {
		payload = heap.Note{Text: "worms"}
	}
	e := heap.Entry{Heap: c.heaps[c.s.rng.IntN(len(c.heaps))].ID, At: c.s.clock(), Logged: c.s.clock(), By: c.anyone(), Payload: payload}
	stored, err := c.s.db.Append(context.Background(), c.at, e)
	c.s.must(err)
	c.remember(stored)
}

// remember takes note of entries, and of the items that they close.
func (c *channel) remember(stored []heap.Entry) {
	for _, e := range stored {
		c.s.tell("%s logs %s of heap %d in %s", e.By.Name, e.Payload.Kind(), e.Heap, c.at.Channel)
		c.entries = append(c.entries, &logEntry{Entry: e})
		for _, i := range c.s.items {
			if (i.State == duty.Open || i.State == duty.Later) && i.c == c && i.Heap == e.Heap && c.closes(i, e) {
				i.State, i.By, i.Entry, i.vague = duty.Done, e.By, e.ID, i.vague || c.longAgo(i)
			}
		}
	}
}

// longAgo says that an item is so old that it does not matter what is shown.
func (c *channel) longAgo(i *said) bool { return i.Day.Before(duty.On(c.s.clock()).Add(8 - recalled)) }

// ahead says that an entry was logged by a clock that was ahead of what it shows now.
func (c *channel) ahead(id heap.EntryID) bool {
	return slices.ContainsFunc(c.entries, func(e *logEntry) bool { return e.ID == id && e.At.After(c.s.clock()) })
}

func (c *channel) closes(i *said, e heap.Entry) bool {
	return slices.Contains(advice.Closes(i.Kind), e.Payload.Kind()) && !e.Logged.Before(i.Said)
}

// takeBack voids one of the newest entries.
func (c *channel) takeBack() {
	n := len(c.entries) - 1 - c.s.rng.IntN(4)
	if n < 0 || c.entries[n].voided || !slices.ContainsFunc(c.heaps, func(h heap.Heap) bool { return h.ID == c.entries[n].Heap }) {
		return
	}
	e := c.entries[n]
	_, err := c.s.db.Void(context.Background(), c.at, e.By, c.s.clock(), e.ID)
	c.s.must(err)
	e.voided = true
	c.s.tell("%s takes back %s of heap %d", e.By.Name, e.Payload.Kind(), e.Heap)
	for _, i := range c.s.items {
		if i.c != c || i.Entry != e.ID || i.State != duty.Done {
			continue
		}
		i.vague = i.vague || c.longAgo(i)
		i.State, i.By, i.Entry = duty.Open, heap.Person{}, 0
		for _, other := range c.entries {
			if !other.voided && other.Heap == i.Heap && c.closes(i, other.Entry) {
				i.State, i.By, i.Entry = duty.Done, other.By, other.ID
				break
			}
		}
	}
}

// notice is what people do with a message that they see.
func (c *channel) notice(m *message) {
	for _, i := range m.post.Items {
		if c.s.chance(20) {
			id := i.ID
			c.s.later(c.s.span(time.Second, 60*time.Hour), func() { c.press(id) })
		}
	}
}

// press is somebody pressing a button of an item.
func (c *channel) press(id int64) {
	i := c.s.items[id]
	if c.deleted || len(c.s.running) == 0 {
		return // nobody answers
	}
	now := c.s.clock()
	as := duty.Item{State: duty.Done, By: c.anyone(), At: now}
	var entries []heap.Entry
	switch {
	case c.s.chance(12):
		as.State, as.Until = duty.Later, duty.On(now.In(c.zone)).Add(1+c.s.rng.IntN(4))
	case c.s.chance(20):
		as.State = duty.Unneeded
	default:
		for _, k := range intervals {
			if k.kind == i.Kind {
				entries = append(entries, heap.Entry{Heap: i.Heap, At: now, Logged: now, By: as.By, Payload: k.done})
			}
		}
	}
	stored, entered, err := c.s.db.Settle(context.Background(), c.at, id, as, entries...)
	if _, ok := fault.As(err); ok {
		if i.m.known && (i.State == duty.Open || i.State == duty.Later) {
			c.s.fault("item %d cannot be settled, though it was %s: %v", id, i.State, err)
		}
		return
	}
	c.s.must(err)
	c.s.presses++
	c.s.tell("%s presses %s of item %d (%s of heap %d) until %v", as.By.Name, as.State, id, i.Kind, i.Heap, as.Until)
	until := i.Until
	if i.Item = stored; i.State != duty.Later {
		i.Until = until
	}
	c.remember(entered)
	if i.Kind == advice.Browns && as.State != duty.Later {
		c.browns = now.AddDate(0, 0, 17)
	}
	if c.s.chance(10) {
		c.press(id)
	}
}
