package commands

import (
	"regexp"
	"slices"
	"strings"

	"heapside/calc/duty"
	"heapside/calc/fault"
	"heapside/calc/heap"
	"heapside/calc/measure"
	"heapside/commands/speech"
)

func (d *desk) dutyJoin() (Reply, error) {
	was := false
	plan, err := d.store.ChangePlan(d.ctx, d.call.Place, d.call.By, d.call.Now, func(p *duty.Plan) error {
		i := onRota(p.Rota, d.call.By)
		if was = i >= 0; was {
			p.Rota.Members[i].Person = d.call.By // the name as it is shown now
			return nil
		}
		p.Rota.Members = append(p.Rota.Members, duty.Member{Person: d.call.By, Joined: d.today()})
		return nil
	})
	if err != nil {
		return Reply{}, err
	}
	if was {
		return d.planned(plan, d.in.Say("%s is on the rota already: %s.", d.call.By.Name, onIt(plan.Rota)))
	}
	return d.planned(plan, d.in.Say("%s takes turns now. On the rota: %s.", d.call.By.Name, onIt(plan.Rota)))
}

func (d *desk) dutyLeave() (Reply, error) {
	who := d.call.By
	if d.arg("person") != "" {
		plan, err := d.store.Plan(d.ctx, d.call.Place)
		if err != nil {
			return Reply{}, err
		}
		m, err := findMember(plan.Rota, d.arg("person"))
		if err != nil {
			return Reply{}, of("person", err)
		}
		if who = m.Person; who.ID != d.call.By.ID {
			if err := d.may("take somebody else off the rota"); err != nil {
				return Reply{}, err
			}
		}
	}
	plan, err := d.store.ChangePlan(d.ctx, d.call.Place, d.call.By, d.call.Now, func(p *duty.Plan) error {
		i := onRota(p.Rota, who)
		if i < 0 {
			return fault.New(fault.Unknown, "%s is not on the rota.", who.Name)
		}
		p.Rota.Members = slices.Delete(p.Rota.Members, i, i+1)
		p.Rota.StandIns = slices.DeleteFunc(p.Rota.StandIns, func(s duty.StandIn) bool { return s.For.ID == who.ID || s.By.ID == who.ID })
		return nil
	})
	if err != nil {
		return Reply{}, err
	}
	return d.planned(plan, d.in.Say("%s takes no more turns.", who.Name))
}

func (d *desk) dutySwap() (Reply, error) {
	if says(d.arg("person"), offWords...) {
		return d.swapOff()
	}
	var other heap.Person
	plan, err := d.store.ChangePlan(d.ctx, d.call.Place, d.call.By, d.call.Now, func(p *duty.Plan) error {
		m, err := findMember(p.Rota, d.arg("person"))
		if err != nil {
			return of("person", err)
		}
		other = m.Person
		i := onRota(p.Rota, d.call.By)
		switch {
		case i < 0:
			return fault.New(fault.Unknown, "You are not on the rota. To take turns: duty join")
		case other.ID == d.call.By.ID:
			return fault.New(fault.OutOfRange, "You cannot swap with yourself. On the rota: %s.", onIt(p.Rota))
		}
		me := p.Rota.Members[i].Person
		ours := []duty.StandIn{{For: me, By: other}, {For: other, By: me}}
		if slices.Contains(p.Rota.StandIns, ours[0]) {
			return fault.New(fault.Taken, "%s stands in for you already. To take it back: duty swap off", other.Name)
		}
		p.Rota.StandIns = append(p.Rota.StandIns, ours...)
		return nil
	})
	if err != nil {
		return Reply{}, err
	}
	r, err := d.planned(plan, d.in.Say("%s and %s swap a turn.", d.call.By.Name, other.Name),
		d.in.Say("%[1]s takes %[2]s's next turn, and %[2]s takes %[1]s's.", other.Name, d.call.By.Name))
	r.To = other
	r.Actions = []Action{{Label: d.in.Word("Take the swap back"), Line: "duty swap off"}}
	return r, err
}

// swapOff takes back the swaps that the caller has a part in.
func (d *desk) swapOff() (Reply, error) {
	plan, err := d.store.ChangePlan(d.ctx, d.call.Place, d.call.By, d.call.Now, func(p *duty.Plan) error {
		n := len(p.Rota.StandIns)
		p.Rota.StandIns = slices.DeleteFunc(p.Rota.StandIns, func(s duty.StandIn) bool { return s.For.ID == d.call.By.ID || s.By.ID == d.call.By.ID })
		if len(p.Rota.StandIns) == n {
			return fault.New(fault.Unknown, "You have swapped no turn.")
		}
		return nil
	})
	if err != nil {
		return Reply{}, err
	}
	return d.planned(plan, d.in.Say("%s swaps no turn any more.", d.call.By.Name))
}

func (d *desk) dutyOrder() (Reply, error) {
	plan, err := d.change(func(p *duty.Plan) error {
		ordered, err := inOrder(p.Rota, d.arg("names"))
		p.Rota.Members = ordered
		return err
	})
	if err != nil {
		return Reply{}, err
	}
	return d.planned(plan, d.in.Say("The order is %s.", onIt(plan.Rota)),
		d.in.Word("It decides between people who did as much; whoever did less comes first."))
}

// between parts the names of a row.
var between = regexp.MustCompile(`(?i)\s*(?:[,;>\n]|→|->|\band then\b|\band\b|\bthen\b)\s*`)

// inOrder puts the named members first, in the order they were named. Names of
// one word each need no commas.
func inOrder(r duty.Rota, said string) ([]duty.Member, error) {
	var ordered []duty.Member
	for _, part := range between.Split(said, -1) {
		if part == "" {
			continue
		}
		parts := []string{part}
		if _, err := findMember(r, part); err != nil {
			parts = strings.Fields(part)
		}
		for _, name := range parts {
			m, err := findMember(r, name)
			if err != nil {
				return r.Members, err
			}
			if slices.ContainsFunc(ordered, func(o duty.Member) bool { return o.ID == m.ID }) {
				return r.Members, fault.New(fault.NotUnderstood, "%s is named twice. Name each person once.", m.Name)
			}
			ordered = append(ordered, m)
		}
	}
	for _, m := range r.Members {
		if !slices.ContainsFunc(ordered, func(o duty.Member) bool { return o.ID == m.ID }) {
			ordered = append(ordered, m)
		}
	}
	return ordered, nil
}

// findMember finds somebody on the rota by mention or name: the same name, else
// the only one that begins so.
func findMember(r duty.Rota, said string) (duty.Member, error) {
	who := strings.TrimPrefix(oneLine(said), "@")
	id := ""
	if m := personMention.FindStringSubmatch(oneLine(said)); m != nil {
		id = m[1]
	}
	var begin []duty.Member
	for _, m := range r.Members {
		if m.ID == id || strings.EqualFold(m.Name, who) {
			return m, nil
		}
		if who != "" && strings.HasPrefix(strings.ToLower(m.Name), strings.ToLower(who)) {
			begin = append(begin, m)
		}
	}
	switch {
	case len(begin) == 1:
		return begin[0], nil
	case len(begin) > 1:
		return duty.Member{}, whichOf(fault.New(fault.Ambiguous, "“%s” could be %s. Which one?", quote(who), either(memberNames(begin))), who, memberNames(begin))
	case len(r.Members) == 0:
		return duty.Member{}, withLeads(fault.New(fault.Unknown, "Nobody is on the rota. To take turns: duty join"), Action{Label: "Take turns with the others", Line: "duty join"})
	}
	return duty.Member{}, fault.New(fault.Unknown, "“%s” is not on the rota. On it: %s.", quote(said), speech.Joined{Words: few(memberNames(r.Members)), Last: "and"})
}

// maxAbsences is how many absences one person may have ahead. Own choice.
const maxAbsences = 10

func (d *desk) dutyAway() (Reply, error) {
	var away duty.Span
	back := says(d.arg("days"), append([]string{"back", "here", "i am back", "i'm back", "over"}, offWords...)...)
	if !back {
		from, to, err := measure.ParseDays(d.arg("days"), d.call.Now, d.zone)
		if err != nil {
			return Reply{}, err
		}
		away.From = duty.On(from)
		if !to.IsZero() {
			away.To = duty.On(to)
		}
	}
	plan, err := d.store.ChangePlan(d.ctx, d.call.Place, d.call.By, d.call.Now, func(p *duty.Plan) error {
		i := onRota(p.Rota, d.call.By)
		if i < 0 {
			return fault.New(fault.Unknown, "You are not on the rota, so nobody waits for you. To take turns: duty join")
		}
		m := &p.Rota.Members[i]
		if back {
			return comeBack(m, d.today())
		}
		return goAway(m, away, d.today())
	})
	if err != nil {
		return Reply{}, err
	}
	if back {
		return d.planned(plan, d.in.Say("%s is back on the rota.", d.call.By.Name))
	}
	return d.planned(plan, d.in.Say("%s is away %s.", d.call.By.Name, d.saySpan(away)))
}

// goAway adds days away. Those that are over stay: they are not held against
// the person.
func goAway(m *duty.Member, away duty.Span, today duty.Date) error {
	ahead := 0
	for _, s := range m.Away {
		if s.To.IsZero() || !s.To.Before(today) {
			ahead++
		}
	}
	if ahead >= maxAbsences {
		return fault.New(fault.TooLong, "You have said %d absences already, which is as many as are kept. “duty away off” takes them back.", ahead)
	}
	if !slices.Contains(m.Away, away) {
		m.Away = append(m.Away, away)
	}
	return nil
}

// comeBack ends the absence of today and drops those to come.
func comeBack(m *duty.Member, today duty.Date) error {
	var over []duty.Span
	for _, s := range m.Away {
		switch {
		case !s.From.Before(today):
			continue
		case s.Holds(today):
			s.To = today.Add(-1)
		}
		over = append(over, s)
	}
	if slices.Equal(over, m.Away) {
		return fault.New(fault.Unknown, "You are not away, and no days away are ahead.")
	}
	m.Away = over
	return nil
}

func (d *desk) saySpan(s duty.Span) string {
	switch from := dayIn(d.in, s.From); {
	case s.To.IsZero():
		return d.in.Say("from %s on", from)
	case s.From == s.To:
		return d.in.Say("on %s", from)
	default:
		return d.in.Say("from %s to %s", from, dayIn(d.in, s.To))
	}
}

// onIt names who is on a rota.
func onIt(r duty.Rota) speech.Joined {
	return speech.Joined{Words: memberNames(r.Members), Last: "and"}
}
