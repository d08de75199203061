package reminders

import (
	"context"
	"time"

	"heapside/calc/duty"
	"heapside/calc/heap"
)

// saveZone moves the garden to a time zone.
func (c *channel) saveZone(zone string) {
	loaded, err := time.LoadLocation(zone)
	c.s.must(err)
	c.s.must(c.s.db.SaveGarden(context.Background(), heap.Garden{Place: c.at, Zone: zone}, wren, c.s.clock()))
	c.zone = loaded
	c.s.tell("%s is in %s", c.at.Channel, zone)
	c.s.oracle.changed(c)
}

// changePlan changes how the channel is reminded.
func (c *channel) changePlan(change func(*duty.Plan)) {
	plan, err := c.s.db.ChangePlan(context.Background(), c.at, wren, c.s.clock(), func(p *duty.Plan) error {
		change(p)
		p.Changed = c.s.clock()
		return nil
	})
	c.s.must(err)
	c.plan = plan
	c.s.tell("%s is reminded at %v, days %07b, weekly %07b, quiet %v to %v, on %v, paused %v", c.at.Channel, plan.At, plan.Days, plan.Weekly, plan.Quiet.From, plan.Quiet.To, plan.On, plan.Paused)
	c.s.oracle.changed(c)
}

// anyPlan is a plan as some group may have it, at a quarter of an hour.
func (c *channel) anyPlan() duty.Plan {
	rng := c.s.rng
	p := duty.Plan{On: true, Days: c.anyDays(), Rota: duty.Rota{Members: c.anyRota()}}
	c.anyHour(&p)
	if c.s.chance(25) {
		p.Weekly = duty.Week(time.Weekday(rng.IntN(7)))
	}
	return p
}

func (c *channel) anyRota() (members []duty.Member) {
	for _, who := range people[:1+c.s.rng.IntN(len(people))] {
		members = append(members, duty.Member{Person: who, Joined: duty.On(c.s.at).Add(-50)})
	}
	return members
}

// anyDays are a day or two of the week, more in a busy year.
func (c *channel) anyDays() duty.Weekdays {
	day := func() time.Weekday { return time.Weekday(c.s.rng.IntN(7)) }
	switch {
	case c.s.busy && c.s.chance(40):
		return 0
	case c.s.busy:
		return duty.Weekdays(1 + c.s.rng.IntN(127))
	}
	if c.s.chance(60) {
		return duty.Week(day())
	}
	return duty.Week(day(), day())
}

// anyHour is an hour of the day, of the night where clocks change, or any
// without quiet hours.
func (c *channel) anyHour(p *duty.Plan) {
	quarters := func(from, to int) duty.Clock { return duty.Clock(15 * (4*from + c.s.rng.IntN(4*(to-from)))) }
	switch c.s.rng.IntN(4) {
	case 0, 1:
		p.At, p.Quiet = quarters(8, 21), duty.Usual().Quiet
	case 2:
		p.At, p.Quiet = quarters(0, 3), duty.Quiet{From: 3 * 60, To: 11 * 60}
	default:
		p.At, p.Quiet = quarters(0, 24), duty.Quiet{}
	}
}

// anyChange is one change that people make.
func (c *channel) anyChange() func(*duty.Plan) {
	switch c.s.rng.IntN(6) {
	case 0:
		return func(p *duty.Plan) { p.Days = c.anyDays() }
	case 1, 2:
		return c.anyStop()
	case 3:
		return func(p *duty.Plan) { p.Weekly = duty.Week(time.Weekday(c.s.rng.IntN(7))) }
	default:
		return c.anyHour
	}
}

// anyStop pauses the reminders, or switches them off for a while.
func (c *channel) anyStop() func(*duty.Plan) {
	if c.s.chance(50) {
		return func(p *duty.Plan) { p.Paused = duty.On(c.s.clock()).Add(c.s.rng.IntN(12)) }
	}
	c.s.later(c.s.span(time.Minute, 20*24*time.Hour), func() {
		if !c.deleted {
			c.changePlan(func(p *duty.Plan) { p.On = true })
		}
	})
	return func(p *duty.Plan) { p.On = false }
}

// comeOrGo lets somebody be away for a while, or come back early.
func (c *channel) comeOrGo() {
	from := duty.On(c.s.clock().In(c.zone))
	c.changePlan(func(p *duty.Plan) {
		m := &p.Rota.Members[c.s.rng.IntN(len(p.Rota.Members))]
		if m.AwayOn(from) {
			m.Away = nil
			return
		}
		c.leave(m, from.Add(c.s.rng.IntN(3)))
	})
}

func (c *channel) leave(m *duty.Member, from duty.Date) {
	m.Away = []duty.Span{{From: from, To: from.Add(c.s.rng.IntN(20))}}
}

// waits is what people do while a reminder is not there yet: whoever it is for
// goes away, somebody does the work, or the group wants no more of them.
func (c *channel) waits(p duty.Post, until time.Time) {
	if p.Kind != duty.Digest || c.s.calm || !c.s.chance(20) {
		return
	}
	c.s.later(c.s.span(0, max(until.Sub(c.s.clock()), tick)), func() {
		switch roll := c.s.rng.IntN(3); {
		case c.deleted:
		case roll == 0:
			c.logSomething()
		case roll == 1:
			c.changePlan(c.anyStop())
		case p.To.ID != "":
			c.changePlan(func(plan *duty.Plan) {
				for n := range plan.Rota.Members {
					if m := &plan.Rota.Members[n]; m.ID == p.To.ID {
						c.leave(m, p.Day)
					}
				}
			})
		}
	})
}
