package reminders

import (
	"context"
	"regexp"
	"slices"
	"strings"
	"time"

	"heapside/calc/duty"
)

// posted judges a message as it appears in its channel.
func (o *oracle) posted(m *message) {
	p, s := m.post, o.s
	c, now := s.channel(p.Place), s.clock()
	if o.quiet(c, now) {
		s.fault("%s: a message in the quiet hours", p.Place.Channel)
	}
	if p.Kind == duty.Notice {
		return
	}
	o.posts++
	day := o.day(c, p.Day)
	switch {
	case p.Empty():
		s.fault("%s: a message of %v with nothing to say", p.Place.Channel, p.Day)
	case !day.came:
		s.fault("%s: a message of %v, whose hour never came", p.Place.Channel, p.Day)
	case !c.plan.On || p.Day.Before(c.plan.Paused):
		s.fault("%s: a message of %v, though reminders are off, or paused until %v", p.Place.Channel, p.Day, c.plan.Paused)
	case now.Before(p.Due):
		s.fault("%s: a message of %v before it was due", p.Place.Channel, p.Day)
	case now.Sub(p.Due) > duty.Fold+time.Minute:
		s.fault("%s: a message of %v, too late", p.Place.Channel, p.Day)
	}
	if now.Sub(p.Due) > lateAfter {
		o.late++
	}
	for _, member := range c.plan.Rota.Members {
		if member.ID == p.To.ID && member.AwayOn(p.Day) {
			s.fault("%s: a message of %v to %s, who is away", p.Place.Channel, p.Day, p.To.Name)
		}
	}
	o.onceADay(c, day, m)
	day.sent = append(day.sent, m)
	o.names(c, m)
	for _, i := range p.Items {
		if s.items[i.ID] == nil {
			s.items[i.ID] = &said{Item: i, c: c, m: m}
		}
	}
	c.notice(m)
	o.review()
}

// onceADay judges a message against those before it. A day is said twice only
// if no engine ever learned that it was said, and the platform has forgotten. On
// another day than its own it comes only when it is late.
func (o *oracle) onceADay(c *channel, day *outcome, m *message) {
	for _, before := range day.sent {
		if before.known || m.at.Sub(before.at) <= remembers {
			o.s.fault("%s: the reminder of %v was said twice", c.at.Channel, m.post.Day)
		}
		o.twice++
	}
	wall := duty.On(o.s.clock().In(c.zone))
	if late := o.s.clock().Sub(o.instant(c, m.post.Day)); wall != m.post.Day && late < time.Minute && o.s.at.Sub(o.changes) > 48*time.Hour {
		o.s.fault("%s: the reminder of %v on %v, and not for being late", c.at.Channel, m.post.Day, wall)
	}
}

// names takes down which missed reminders a message names.
func (o *oracle) names(c *channel, m *message) {
	for _, note := range m.post.Notes {
		if !strings.HasSuffix(note, notSent) {
			continue
		}
		said := saidDay.FindAllString(note, -1)
		first, last := dayBefore(m.post.Day, said[0]), dayBefore(m.post.Day, said[len(said)-1])
		for d, day := range o.days[c] {
			day.named = day.named || !d.Before(first) && !last.Before(d)
		}
	}
}

// saidDay is a day as it is said.
var saidDay = regexp.MustCompile(`[A-Z][a-z]{2} \d+ [A-Z][a-z]{2}`)

// dayBefore is the last day up to another that is said so.
func dayBefore(d duty.Date, said string) duty.Date {
	for n := range 400 {
		if day := d.Add(1 - n); day.Say() == said {
			return day
		}
	}
	return d
}

// close judges the year when all has come to rest.
func (o *oracle) close() {
	s := o.s
	for _, e := range o.open {
		if e.well > time.Hour {
			s.fault("%s: the reminder of %v never came", e.c.at.Channel, e.day)
		}
	}
	for _, c := range s.channels {
		if c.deleted {
			continue
		}
		left, err := s.db.Missed(context.Background(), c.at)
		s.must(err)
		for d, day := range o.days[c] {
			if day.missed && !day.named && len(day.sent) == 0 && !slices.Contains(left, d) {
				s.fault("%s: the reminder of %v was missed, and nobody said so", c.at.Channel, d)
			}
		}
	}
	for _, m := range s.platform.order {
		if c := s.channel(m.post.Place); m.known && !c.deleted {
			o.shown(c, m)
		}
	}
}

// shown judges whether a message shows its items as people left them.
func (o *oracle) shown(c *channel, m *message) {
	for _, i := range m.post.Items {
		stored, err := o.s.db.Item(context.Background(), c.at, i.ID)
		o.s.must(err)
		if i.State != stored.State || i.By != stored.By {
			o.s.fault("%s shows item %d as %s by %q, and it is %s by %q", m.id, i.ID, i.State, i.By.Name, stored.State, stored.By.Name)
		}
		if want := o.s.items[i.ID]; i.State != want.State && !want.vague {
			o.s.fault("%s shows item %d of %v as %s, and people left it %s", m.id, i.ID, i.Day, i.State, want.State)
		}
	}
}
