package commands

import (
	"slices"

	"heapside/calc/duty"
	"heapside/commands/speech"
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
		lines := []string{d.in.Word("A day on which nothing needs doing stays quiet.") + " " + d.sayQuiet(plan.Quiet), d.sayKinds(plan), d.sayWeekly(plan)}
		r.Body = append(r.Body, Block{Lines: appendNew(lines, d.noZone(plan))})
	}
	for _, b := range []Block{
		{d.in.Word("Taking turns, whoever did less first"), d.rotaLines(s)},
		{d.in.Word("Open"), d.openLines(s.items)},
		{d.in.Word("You taught me"), d.lessonLines(plan)},
	} {
		if len(b.Lines) > 0 {
			r.Body = append(r.Body, b)
		}
	}
	if !plan.On {
		return d.offerReminders(r, plan)
	}
	return d.troubled(plan, r)
}

// rotaLines say for each person what they did and when they are away.
func (d *desk) rotaLines(s standing) []string {
	var lines []string
	for _, m := range s.Rota.Members {
		line := d.in.Say("%s: %s done in %d days", m.Name, d.local.SayNumber(s.done[m.ID]), duty.Window)
		if m.ID == s.turn.Whose.ID {
			line = d.in.Say("%s, next", line)
		}
		for _, a := range m.Away {
			if a.To.IsZero() || !a.To.Before(d.today()) {
				line = d.in.Say("%s, away %s", line, d.saySpan(a))
			}
		}
		lines = append(lines, line)
	}
	for _, in := range s.Rota.StandIns {
		lines = append(lines, d.in.Say("%s takes %s's next turn", in.By.Name, in.For.Name))
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
		i.Title = titleIn(d.in, i.Title)
		line := d.in.Say("%s, since %s", capital(shortTaskOf(i)), dayIn(d.in, i.Day))
		if i.State == duty.Later {
			line = d.in.Say("%s: %s", capital(shortTaskOf(i)), d.in.Say("%s put it off until %s", i.By.Name, dayIn(d.in, i.Until)))
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
		r.Headline = d.in.Say("%s is next: %s.", s.turn.Who.Name, d.day(s.next.At))
		if s.turn.Who.ID != s.turn.Whose.ID {
			r.Headline = d.in.Say("%s is next, standing in for %s: %s.", s.turn.Who.Name, s.turn.Whose.Name, d.day(s.next.At))
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
	if !plan.On {
		return d.offerReminders(r, plan)
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
		said = append(said, turn.Who.Name+" ("+dayIn(d.in, o.Day)+")")
	}
	if len(said) == 0 {
		return ""
	}
	return d.in.Say("Then, if nothing is done in between: %s.", speech.Joined{Words: said, Last: "and"})
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
	for n, i := range post.Items {
		post.Items[n].Title = titleIn(d.in, i.Title)
	}
	open := speech.Joined{Words: tasksOf(post.Items, duty.Open), Last: "and"}
	if post.To.ID == "" {
		return []string{d.in.Say("Everybody was asked on %s; still open: %s.", dayIn(d.in, post.Day), open)}, nil
	}
	return []string{d.in.Say("%s was asked on %s; still open: %s.", post.To.Name, dayIn(d.in, post.Day), open)}, nil
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
