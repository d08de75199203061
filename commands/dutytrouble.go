package commands

import (
	"time"

	"heapside/calc/duty"
)

// sayTrouble says why no reminder gets through here, since when, and what to
// do; all is empty when nothing is wrong.
func (d *desk) sayTrouble(s duty.Standing) (headline string, lines []string) {
	switch s.Trouble {
	case duty.Refused:
		headline = d.in.Say("Reminders cannot be posted in this channel since %s.", d.day(s.Since))
		lines = []string{d.in.Word("What to do: in the settings of this channel, under Permissions, allow me to view it, to send messages and to embed links; in a thread also to send messages in threads, and it must be open. I try again every three hours.")}
	case duty.Gone:
		headline = d.in.Say("Reminders have stopped since %s: this channel could not be found then.", d.day(s.Since))
		lines = []string{d.in.Word("What to do: log something here, or set the hour again (duty when 18:00), and they go on.")}
	}
	return headline, append(lines, d.sayUnsaid(s)...)
}

// sayUnsaid says that the last reminder did not come.
func (d *desk) sayUnsaid(s duty.Standing) []string {
	switch u := s.Unsaid; {
	case u.Due.IsZero():
		return nil
	case u.Again.IsZero() || s.Trouble == duty.Gone:
		return []string{d.in.Say("The last reminder, due %s, was not delivered.", d.day(u.Due))}
	case u.Again.After(d.call.Now):
		return []string{d.in.Say("The last reminder, due %s, could not be delivered yet; the next try is %s.", d.day(u.Due), d.day(u.Again))}
	default:
		return []string{d.in.Say("The last reminder, due %s, could not be delivered yet; it is tried again.", d.day(u.Due))}
	}
}

// sayLacks says that no reminder could be posted here now, before one fails.
func (d *desk) sayLacks(p duty.Plan) string {
	if !p.On || len(d.call.Lacks) == 0 {
		return ""
	}
	return d.in.Say("As it stands I may not post reminders in this channel: I lack %s. In its settings, under Permissions, allow me that.", d.in.List(d.call.Lacks, "and"))
}

// troubled puts what keeps reminders from coming before all else of a reply.
func (d *desk) troubled(p duty.Plan, r Reply) (Reply, error) {
	s, err := d.store.Standing(d.ctx, d.call.Place)
	if err != nil {
		return Reply{}, err
	}
	headline, lines := d.sayTrouble(s)
	if headline == "" {
		lines = appendNew(lines, d.sayLacks(p))
	} else {
		lines = append(lines, r.Headline)
		r.Headline = headline
		r.Values["trouble"] = Value{string(s.Trouble), ""}
		r.Values["trouble_since"] = Value{s.Since.UTC().Format(time.RFC3339), ""}
	}
	if !s.Unsaid.Due.IsZero() {
		r.Values["undelivered"] = Value{s.Unsaid.Due.UTC().Format(time.RFC3339), ""}
	}
	if len(lines) > 0 {
		r.Body = append([]Block{{Lines: lines}}, r.Body...)
	}
	return r, nil
}
