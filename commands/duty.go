package commands

import (
	"slices"
	"strings"
	"time"

	"heapside/calc/duty"
	"heapside/calc/heap"
	"heapside/commands/speech"
)

func (a *Assistant) dutyCommand() Command {
	sub := func(name, summary string, answer func(*desk) (Reply, error), options ...Option) Command {
		return Command{Name: name, Summary: summary, Options: options, Run: a.with(answer)}
	}
	item := Option{Name: "job", Summary: "its number, as the button under the reminder has it", Kind: OpenJob, Words: true, Required: true}
	return Command{Name: "duty", Summary: "Reminders: when, of what, and whose turn it is", Subs: []Command{
		sub("show", "How reminders are set, who takes turns, what was put off", (*desk).dutyShow),
		sub("next", "When the next reminder comes and whose turn it is", (*desk).dutyNext),
		sub("when", "Switch reminders on, for these days and this hour", (*desk).dutyWhen,
			Option{Name: "when", Summary: "e.g. daily 18:00, saturdays at 6 pm, mon wed fri", Kind: Hint, Choices: picks("daily 18:00", "", "saturdays 10:00", "", "weekends 10:00", "", "mon wed fri 18:00", ""), Words: true}),
		sub("off", "Switch reminders off", (*desk).dutyOff),
		sub("quiet", "Hours in which no reminder may come", (*desk).dutyQuiet,
			Option{Name: "hours", Summary: "e.g. 21:00-8:00, or off", Kind: Hint, Choices: picks("21:00-8:00", "", "20:00-9:00", "", "off", ""), Words: true, Required: true}),
		sub("kinds", "Switch reminders of one kind of job off or on", (*desk).dutyKinds,
			Option{Name: "kind", Summary: "e.g. covering off, watering on; left out: all kinds", Kind: JobKind, Words: true}),
		sub("pause", "No reminders until a day", (*desk).dutyPause,
			Option{Name: "until", Summary: "e.g. monday, 20 Aug, for 2 weeks; or off to go on now", Kind: Hint, Choices: picks("monday", "", "for 1 week", "", "for 2 weeks", "", "off", "go on now"), Words: true, Required: true}),
		sub("weekly", "Sum up the week in the reminder of one day", (*desk).dutyWeekly,
			Option{Name: "day", Summary: "e.g. sunday; or off", Kind: Hint, Choices: picks("monday", "", "tuesday", "", "wednesday", "", "thursday", "", "friday", "", "saturday", "", "sunday", "", "off", ""), Words: true, Required: true}),
		sub("join", "Take turns with the others", (*desk).dutyJoin),
		sub("leave", "Take no more turns", (*desk).dutyLeave,
			Option{Name: "person", Summary: "somebody else who left; organisers only", Kind: Member, Words: true}),
		sub("swap", "Swap a turn with somebody: one each way", (*desk).dutySwap,
			Option{Name: "person", Summary: "e.g. Tobias; or off to take it back", Kind: Member, Words: true, Required: true}),
		sub("order", "The order of turns between those who did the same", (*desk).dutyOrder,
			Option{Name: "names", Summary: "all in a row, e.g. Odalys, Tobias, Wren", Kind: Row, Words: true, Required: true}),
		sub("away", "Days on which you cannot take a turn", (*desk).dutyAway,
			Option{Name: "days", Summary: "e.g. 3 to 17 August, until friday; or off when you are back", Kind: Hint, Choices: picks("until friday", "", "until monday", "", "for 1 week", "", "for 2 weeks", "", "off", "you are back"), Words: true, Required: true}),
		sub("done", "You did a job that was reminded of", (*desk).dutyDone, item,
			Option{Name: "reading", Summary: "what the thermometer showed, where that is the job, e.g. 58"}),
		sub("later", "Put a job off until tomorrow", (*desk).dutyLater, item),
		sub("unneeded", "A job that was reminded of is not needed", (*desk).dutyUnneeded, item,
			Option{Name: "why", Summary: "why not", Kind: Pick, Choices: whyChoices}),
		sub("forget", "Take back what reminders were taught", (*desk).dutyForget,
			Option{Name: "what", Summary: "a heap, a kind of job or both, e.g. North Bay turning; or everything", Kind: Lesson, Words: true, Required: true}),
	}}
}

// today is the garden's date.
func (d *desk) today() duty.Date { return duty.On(d.call.Now.In(d.zone)) }

// How far back the record is read to tell whose turn it is and what was put
// off. Own choice, as for the reminders themselves.
const (
	turnReach = 2000 // newest entries
	itemReach = 31   // days
)

// done is the work of each person that counts for turns.
func (d *desk) workDone() (map[string]float64, error) {
	entries, err := d.store.Latest(d.ctx, d.call.Place, turnReach)
	return duty.Tally(entries, d.call.Now.AddDate(0, 0, -duty.Window)), err
}

// items are what the place was reminded of lately, the newest day first.
func (d *desk) items() ([]duty.Item, error) {
	return d.store.Items(d.ctx, d.call.Place, d.today().Add(-itemReach))
}

// standing is a plan with what comes of it next.
type standing struct {
	duty.Plan
	next  duty.Occurrence // zero when none is ahead
	turn  duty.Turn       // at next; zero when nobody's
	done  map[string]float64
	items []duty.Item
}

func (d *desk) standing(p duty.Plan) (s standing, err error) {
	s.Plan = p
	if s.done, err = d.workDone(); err != nil {
		return s, err
	}
	if s.items, err = d.items(); err != nil {
		return s, err
	}
	s.next, _ = p.Next(d.call.Now, d.zone, duty.PutOff(s.items)...)
	if !s.next.IsZero() {
		s.turn, _ = p.Rota.Turn(s.next.Day, s.done)
	}
	return s, nil
}

// sayStanding is one sentence on when reminders come, the next one and to whom.
func (d *desk) sayStanding(s standing) string {
	switch {
	case !s.On:
		return d.in.Word("Reminders are off. To have them: duty when daily 18:00")
	case s.next.IsZero():
		return d.in.Word("Reminders are on, but none is ahead.")
	case d.paused(s.Plan):
		return d.in.Say("Reminders are paused until %s. The next comes %s, %s.", dayIn(d.in, s.Paused), d.day(s.next.At), d.sayTurn(s))
	}
	return d.in.Say("Reminders come %s at %s (next: %s), %s.", onDays(s.Days), s.At, d.day(s.next.At), d.sayTurn(s))
}

func (d *desk) paused(p duty.Plan) bool { return !p.Paused.IsZero() && d.today().Before(p.Paused) }

// sayTurn says to whom the next reminder goes.
func (d *desk) sayTurn(s standing) string {
	switch {
	case len(s.Rota.Members) == 0:
		return d.in.Word("to nobody by name: nobody is on the rota (duty join)")
	case s.turn.Who.ID == "":
		return d.in.Word("to nobody by name: all on the rota are away that day")
	case s.turn.Who.ID != s.turn.Whose.ID:
		return d.in.Say("to %s, who stands in for %s", s.turn.Who.Name, s.turn.Whose.Name)
	}
	return d.in.Say("to %s", s.turn.Who.Name)
}

// eachWeek names the days of the week, from Sunday, as they come again.
var eachWeek = [7]string{"Sundays", "Mondays", "Tuesdays", "Wednesdays", "Thursdays", "Fridays", "Saturdays"}

// onDays are days of the week in a sentence: "daily", "on Saturdays".
type onDays duty.Weekdays

// In implements speech.Said.
func (o onDays) In(s *speech.Speech) string {
	w := duty.Weekdays(o)
	switch w {
	case 0, everyDay:
		return s.Word("daily")
	case workDays:
		return s.Word("on weekdays")
	case everyDay &^ workDays:
		return s.Word("at weekends")
	}
	var on, off []string
	for n := range 7 {
		day := time.Weekday((n + 1) % 7) // from Monday
		if name := s.Word(eachWeek[day]); w.Has(day) {
			on = append(on, name)
		} else {
			off = append(off, name)
		}
	}
	if len(off) == 1 {
		return s.Say("daily except %s", off[0])
	}
	return s.Say("on %[1]s", s.List(on, "and")) // not the "on %s" of a date
}

// String is what it says in English.
func (o onDays) String() string { return o.In(nil) }

// dayIn is a day of this year in a language: "Mon 2 Jan".
func dayIn(in *speech.Speech, day duty.Date) string {
	return in.Day(noonOf(day))
}

// noonOf is a moment that is of the day wherever it is printed.
func noonOf(day duty.Date) time.Time {
	return time.Date(day.Year, day.Month, day.Day, 12, 0, 0, 0, time.UTC)
}

var (
	everyDay = workDays | duty.Week(time.Saturday, time.Sunday)
	workDays = duty.Week(time.Monday, time.Tuesday, time.Wednesday, time.Thursday, time.Friday)
)

// planned answers a change of the plan: what changed, and what stands now with
// the next date on it. An empty headline leaves the standing to say it.
func (d *desk) planned(p duty.Plan, headline string, lines ...string) (Reply, error) {
	s, err := d.standing(p)
	if err != nil {
		return Reply{}, err
	}
	stands := d.sayStanding(s)
	if headline == "" {
		headline = stands
	} else {
		lines = append(lines, stands)
	}
	lines = appendNew(appendNew(lines, d.sayLacks(p)), d.noZone(p))
	r := Reply{Headline: headline, Values: s.values()}
	if p.On && d.paused(p) {
		r.Actions = []Action{{Label: d.in.Word("Go on now"), Line: "duty pause off"}}
	}
	if len(lines) > 0 {
		r.Body = []Block{{Lines: lines}}
	}
	return r, nil
}

// noZone says that times are UTC where the garden has no zone.
func (d *desk) noZone(p duty.Plan) string {
	if d.garden.Zone != "" || !p.On {
		return ""
	}
	return d.in.Word("Times are UTC until the garden's time zone is set, e.g. garden zone Europe/London")
}

func (s standing) values() map[string]Value {
	on := "no"
	if s.On {
		on = "yes"
	}
	values := map[string]Value{"on": {on, ""}, "on_rota": {float64(len(s.Rota.Members)), "1"}}
	if !s.next.IsZero() {
		values["next"] = Value{s.next.At.UTC().Format(time.RFC3339), ""}
	}
	if s.turn.Who.ID != "" {
		values["turn"] = Value{s.turn.Who.Name, ""}
	}
	return values
}

// unset reports a plan whose hours nobody chose yet.
func unset(p duty.Plan) bool { return !p.On && p.At == 0 && p.Quiet == duty.Quiet{} }

// begin gives a plan the usual hours before the first of them is chosen.
func begin(p *duty.Plan) {
	if unset(*p) {
		usual := duty.Usual()
		p.At, p.Quiet = usual.At, usual.Quiet
	}
}

// firstReminder offers reminders to a channel that never set any.
func (d *desk) firstReminder() ([]Action, error) {
	plan, err := d.store.Plan(d.ctx, d.call.Place)
	if err != nil || !unset(plan) || d.permit("duty when", nil) != nil {
		return nil, err
	}
	return []Action{{Label: d.in.Word("Remind us daily at 18:00"), Line: "duty when daily 18:00"}}, nil
}

// offerReminders brings a button that switches reminders on, where they are off.
func (d *desk) offerReminders(r Reply, plan duty.Plan) (Reply, error) {
	offer, err := d.firstReminder()
	if !unset(plan) && d.permit("duty when", nil) == nil {
		offer = []Action{{Label: d.in.Word("Switch them on again"), Line: "duty when"}}
	}
	r.lead(offer...)
	return r, err
}

// reminderBlock says when reminders come, to a garden that has them: what was
// changed may have moved them.
func (d *desk) reminderBlock() ([]Block, error) {
	plan, err := d.store.Plan(d.ctx, d.call.Place)
	if err != nil || !plan.On {
		return nil, err
	}
	s, err := d.standing(plan)
	return []Block{{Lines: []string{d.sayStanding(s)}}}, err
}

func memberNames(members []duty.Member) []string {
	names := make([]string, len(members))
	for i, m := range members {
		names[i] = m.Name
	}
	return names
}

// onRota is where a person stands on the rota, -1 when not on it.
func onRota(r duty.Rota, who heap.Person) int {
	return slices.IndexFunc(r.Members, func(m duty.Member) bool { return m.ID == who.ID })
}

// says reports whether an answer is one of a few words, and little else.
func says(answer string, words ...string) bool {
	return slices.Contains(words, strings.ToLower(strings.Trim(oneLine(answer), " .!")))
}
