package commands

import (
	"fmt"
	"slices"

	"heapside/calc/duty"
	"heapside/calc/measure"
)

func (d *desk) dutyShow() (Reply, error) {
	plan, err := d.store.Plan(d.ctx, d.call.Place)
	if err != nil {
		return Reply{}, err
	}
	s, err := d.standing(plan)
	if err != nil {
		return Reply{}, err
	}
	r := Reply{Headline: d.sayStanding(s), Values: s.values()}
	if plan.On {
		lines := []string{"A day on which nothing needs doing stays quiet. " + sayQuiet(plan.Quiet), sayKinds(plan), d.sayWeekly(plan)}
		r.Body = append(r.Body, Block{Lines: appendNew(lines, d.noZone(plan))})
	}
	for _, b := range []Block{
		{"Taking turns, whoever did less first", d.rotaLines(s)},
		{"Open", d.openLines(s.items)},
		{"You taught me", d.lessonLines(plan)},
	} {
		if len(b.Lines) > 0 {
			r.Body = append(r.Body, b)
		}
	}
	if !plan.On {
		return r, nil
	}
	return d.troubled(plan, r)
}

// rotaLines say for each person what they did and when they are away.
func (d *desk) rotaLines(s standing) []string {
	var lines []string
	for _, m := range s.Rota.Members {
		line := fmt.Sprintf("%s: %s done in %d days", m.Name, measure.Say(s.done[m.ID]), duty.Window)
		if m.ID == s.turn.Whose.ID {
			line += ", next"
		}
		for _, a := range m.Away {
			if a.To.IsZero() || !a.To.Before(d.today()) {
				line += ", away " + saySpan(a)
			}
		}
		lines = append(lines, line)
	}
	for _, in := range s.Rota.StandIns {
		lines = append(lines, in.By.Name+" takes "+in.For.Name+"'s next turn")
	}
	return lines
}

// maxOpen is how many open jobs are listed: more is a list nobody reads. Own choice.
const maxOpen = 5

// openLines are the jobs of the newest reminder that are still open, and all
// that were put off.
func (d *desk) openLines(items []duty.Item) []string {
	var lines []string
	for _, i := range items {
		if !waiting(i, items[0].Day) {
			continue
		}
		line := fmt.Sprintf("%s, since %s", capital(shortTaskOf(i)), i.Day.Say())
		if i.State == duty.Later {
			line = fmt.Sprintf("%s: %s put it off until %s", capital(shortTaskOf(i)), i.By.Name, i.Until.Say())
		}
		lines = append(lines, line)
	}
	return lines[:min(len(lines), maxOpen)]
}

// waiting reports an item that somebody may still do: an older one that nobody
// closed has been named again, or is not needed by the record.
func waiting(i duty.Item, newest duty.Date) bool {
	return i.State == duty.Later || i.State == duty.Open && i.Day == newest
}

// turnsAhead is how many turns one answer looks ahead. Own choice.
const turnsAhead = 4

func (d *desk) dutyNext() (Reply, error) {
	plan, err := d.store.Plan(d.ctx, d.call.Place)
	if err != nil {
		return Reply{}, err
	}
	s, err := d.standing(plan)
	if err != nil {
		return Reply{}, err
	}
	r := Reply{Headline: d.sayStanding(s), Values: s.values()}
	if s.On && !s.next.IsZero() && s.turn.Who.ID != "" {
		r.Headline = fmt.Sprintf("%s is next: %s.", s.turn.Who.Name, d.day(s.next.At))
		if s.turn.Who.ID != s.turn.Whose.ID {
			r.Headline = fmt.Sprintf("%s is next, standing in for %s: %s.", s.turn.Who.Name, s.turn.Whose.Name, d.day(s.next.At))
		}
	}
	lines, err := d.askedLines(s.items)
	if err != nil {
		return Reply{}, err
	}
	if later := d.laterTurns(s); later != "" {
		lines = append(lines, later)
	}
	if lines = appendNew(lines, d.noZone(plan)); len(lines) > 0 {
		r.Body = []Block{{Lines: lines}}
	}
	return r, nil
}

// laterTurns say who comes after the next one, if everybody does as much.
func (d *desk) laterTurns(s standing) string {
	if s.turn.Who.ID == "" || len(s.Rota.Members) < 2 {
		return ""
	}
	rota, o, turn := s.Rota, s.next, s.turn
	var said []string
	for range turnsAhead - 1 {
		rota = rota.Took(turn, o.Day)
		var ok bool
		if o, ok = s.Next(o.At, d.zone); !ok {
			break
		}
		if turn, ok = rota.Turn(o.Day, s.done); !ok {
			break
		}
		said = append(said, turn.Who.Name+" ("+o.Day.Say()+")")
	}
	if len(said) == 0 {
		return ""
	}
	return "Then, if nothing is done in between: " + list(said, "and") + "."
}

// askedLines say who was asked last, and what of it is open.
func (d *desk) askedLines(items []duty.Item) ([]string, error) {
	i := slices.IndexFunc(items, func(i duty.Item) bool { return waiting(i, items[0].Day) && i.State == duty.Open })
	if i < 0 {
		return nil, nil
	}
	post, err := d.store.Post(d.ctx, d.call.Place, items[i].Post)
	if err != nil {
		return nil, err
	}
	who := "Everybody"
	if post.To.ID != "" {
		who = post.To.Name
	}
	return []string{fmt.Sprintf("%s was asked on %s; still open: %s.", who, post.Day.Say(), list(tasksOf(post.Items, duty.Open), "and"))}, nil
}

func tasksOf(items []duty.Item, state duty.State) []string {
	var tasks []string
	for _, i := range items {
		if i.State == state {
			tasks = append(tasks, shortTaskOf(i))
		}
	}
	return tasks
}
