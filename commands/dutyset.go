package commands

import (
	"slices"
	"strings"
	"time"

	"heapside/calc/advice"
	"heapside/calc/duty"
	"heapside/calc/fault"
	"heapside/calc/measure"
	"heapside/commands/speech"
)

// change has the plan changed, as of now.
func (d *desk) change(change func(*duty.Plan) error) (duty.Plan, error) {
	return d.store.ChangePlan(d.ctx, d.call.Place, d.call.By, d.call.Now, func(p *duty.Plan) error {
		if err := change(p); err != nil {
			return err
		}
		p.Changed = d.call.Now
		return nil
	})
}

func (d *desk) dutyWhen() (Reply, error) {
	said := measure.Weekly{Minute: -1}
	if d.arg("when") != "" {
		var err error
		if said, err = measure.ParseWeekly(d.arg("when")); err != nil {
			return Reply{}, err
		}
	}
	moved := false
	plan, err := d.change(func(p *duty.Plan) error {
		begin(p)
		p.On = true
		if said.Days != nil {
			p.Days = duty.Week(said.Days...)
			if p.Days == everyDay {
				p.Days = 0
			}
		}
		if said.Minute >= 0 {
			p.At = duty.Clock(said.Minute)
		}
		moved = moveWeekly(p)
		return nil
	})
	if err != nil {
		return Reply{}, err
	}
	var lines []string
	if moved {
		lines = append(lines, d.sayWeekly(plan))
	}
	return d.planned(plan, "", lines...)
}

// moveWeekly moves the day of the week's summary to the next day that has a
// reminder, where the chosen days leave it out.
func moveWeekly(p *duty.Plan) bool {
	if p.Weekly == 0 || p.Days == 0 || p.Weekly&p.Days != 0 {
		return false
	}
	day := time.Sunday
	for seen := false; !seen || !p.Days.Has(day); day = (day + 1) % 7 {
		seen = seen || p.Weekly.Has(day)
	}
	p.Weekly = duty.Week(day)
	return true
}

func (d *desk) dutyOff() (Reply, error) {
	plan, err := d.change(func(p *duty.Plan) error { p.On = false; return nil })
	if err != nil {
		return Reply{}, err
	}
	r, err := d.planned(plan, d.in.Word("Reminders are off. All settings are kept."))
	r.Body, r.Actions = nil, []Action{{Label: d.in.Word("Switch them on again"), Line: "duty when"}}
	return r, err
}

// offWords take a setting back.
var offWords = []string{"off", "none", "no", "never", "stop", "end"}

func (d *desk) dutyQuiet() (Reply, error) {
	var quiet duty.Quiet
	if !says(d.arg("hours"), offWords...) {
		from, to, err := measure.ParseHours(d.arg("hours"))
		if err != nil {
			return Reply{}, err
		}
		quiet = duty.Quiet{From: duty.Clock(from), To: duty.Clock(to)}
	}
	plan, err := d.change(func(p *duty.Plan) error {
		begin(p)
		p.Quiet = quiet
		return nil
	})
	if err != nil {
		return Reply{}, err
	}
	return d.planned(plan, d.sayQuiet(plan.Quiet))
}

func (d *desk) sayQuiet(q duty.Quiet) string {
	if q.From == q.To {
		return d.in.Word("No hours are quiet.")
	}
	return d.in.Say("No reminder comes from %s to %s.", q.From, q.To)
}

func (d *desk) dutyPause() (Reply, error) {
	var until duty.Date
	if !says(d.arg("until"), append([]string{"resume", "over"}, offWords...)...) {
		day, err := measure.ParseDay(d.arg("until"), d.call.Now, d.zone)
		if err != nil {
			return Reply{}, err
		}
		if until = duty.On(day); until == d.today() {
			return Reply{}, fault.New(fault.OutOfRange, "“%s” pauses nothing. Say the first day with reminders again, e.g. tomorrow or monday.", quote(d.arg("until")))
		}
	}
	plan, err := d.change(func(p *duty.Plan) error { p.Paused = until; return nil })
	if err != nil {
		return Reply{}, err
	}
	return d.planned(plan, "")
}

func (d *desk) dutyWeekly() (Reply, error) {
	var weekly duty.Weekdays
	if !says(d.arg("day"), offWords...) {
		day, err := measure.ParseWeekday(d.arg("day"))
		if err != nil {
			return Reply{}, err
		}
		weekly = duty.Week(day)
	}
	plan, err := d.change(func(p *duty.Plan) error {
		if weekly != 0 && p.Days != 0 && p.Days&weekly == 0 {
			return fault.New(fault.OutOfRange, "No reminder comes %s: they come %s. Choose one of these days, or other days with “duty when”.", onDays(weekly), onDays(p.Days))
		}
		p.Weekly = weekly
		return nil
	})
	if err != nil {
		return Reply{}, err
	}
	return d.planned(plan, d.sayWeekly(plan))
}

// sayWeekly says when the week is summed up, and when next.
func (d *desk) sayWeekly(p duty.Plan) string {
	if p.Weekly == 0 {
		return d.in.Word("The week is not summed up.")
	}
	after := d.call.Now
	for range 15 {
		o, ok := p.Next(after, d.zone)
		if !ok {
			break
		}
		if p.Weekly.Has(o.Day.Weekday()) {
			return d.in.Say("The week is summed up in the reminder %s (next: %s).", onDays(p.Weekly), d.day(o.At))
		}
		after = o.At
	}
	return d.in.Say("The week is summed up in the reminder %s.", onDays(p.Weekly))
}

// switchWords say off or on of a kind of job.
var switchWords = map[string]bool{"on": true, "off": false, "start": true, "stop": false, "yes": true, "no": false, "again": true, "never": false}

func (d *desk) dutyKinds() (Reply, error) {
	words := strings.Fields(strings.ToLower(oneLine(d.arg("kind"))))
	if len(words) == 0 {
		plan, err := d.store.Plan(d.ctx, d.call.Place)
		if err != nil {
			return Reply{}, err
		}
		return Reply{Headline: d.sayKinds(plan), Body: []Block{{Title: d.in.Word("Kinds of job"), Lines: d.kindNames()},
			{Lines: []string{d.in.Say("To switch one: %s", "duty kinds covering off")}}}}, nil
	}
	on, named := false, false
	for _, end := range []int{len(words) - 1, 0} {
		if on, named = switchWords[words[end]]; named {
			words = slices.Delete(words, end, end+1)
			break
		}
	}
	kind, err := findKind(strings.Join(words, " "))
	switch {
	case err != nil:
		return Reply{}, of("kind", err)
	case !named:
		return Reply{}, of("kind", whichOf(fault.New(fault.Missing, "Should %s be on or off? Say for example: duty kinds %s off", kind.Name, kind.Name),
			"", []string{kind.Name + " off", kind.Name + " on"}))
	case kind.Always && !on:
		return Reply{}, fault.New(fault.NotAllowed, "%s cannot be switched off: you are told as soon as a reading calls for it.", capital(kind.Name))
	}
	plan, err := d.change(func(p *duty.Plan) error {
		p.Off = slices.DeleteFunc(p.Off, func(id string) bool { return id == kind.ID })
		if !on {
			p.Off = append(p.Off, kind.ID)
		}
		return nil
	})
	if err != nil {
		return Reply{}, err
	}
	return d.planned(plan, d.sayKinds(plan))
}

func (d *desk) sayKinds(p duty.Plan) string {
	if len(p.Off) == 0 {
		return d.in.Word("You are reminded of all kinds of job.")
	}
	var names []string
	for _, id := range p.Off {
		names = append(names, d.in.Word(kindName(id)))
	}
	return d.in.Say("You are not reminded of %s.", speech.Joined{Words: names, Last: "or"})
}

// remindedKinds are the kinds of job that can be reminded of.
func remindedKinds() []advice.KindInfo {
	return slices.DeleteFunc(advice.Kinds(), func(k advice.KindInfo) bool { return k.Idle })
}

// kindNames are the kinds of job in the garden's language; one that is not
// switched by its name there has the name to type behind it.
func (d *desk) kindNames() []string {
	var names []string
	for _, k := range remindedKinds() {
		name := d.in.Word(k.Name)
		switch {
		case k.Always:
			name = d.in.Say("%s (always on)", name)
		case name != k.Name:
			name += " (" + k.Name + ")"
		}
		names = append(names, capital(name))
	}
	return names
}

// kindName is what people call a kind of job.
func kindName(id string) string {
	for _, k := range advice.Kinds() {
		if k.ID == id {
			return k.Name
		}
	}
	return id
}

// findKind finds a kind of job by its id or name, or the only one that has the
// words in its name: "temperature", "browns".
func findKind(said string) (advice.KindInfo, error) {
	var near []advice.KindInfo
	for _, k := range remindedKinds() {
		if said == k.ID || said == k.Name {
			return k, nil
		}
		if said != "" && strings.Contains(k.Name, said) {
			near = append(near, k)
		}
	}
	if len(near) == 1 {
		return near[0], nil
	}
	var names []string
	for _, k := range near {
		names = append(names, k.Name)
	}
	if len(near) > 1 && said != "" {
		return advice.KindInfo{}, whichOf(fault.New(fault.Ambiguous, "“%s” could be %s. Which one?", quote(said), either(names)), said, names)
	}
	return advice.KindInfo{}, fault.New(fault.NotUnderstood, "“%s” is no kind of job I remind of. “duty kinds” lists them.", quote(said))
}

// completePlan completes what the plan holds: people, kinds and lessons.
func (d *desk) completePlan(kind OptionKind, typed string) []Choice {
	plan, err := d.store.Plan(d.ctx, d.call.Place)
	if err != nil {
		return nil
	}
	var lines []string
	switch kind {
	case Member:
		lines = memberNames(plan.Rota.Members)
	case JobKind:
		for _, k := range remindedKinds() {
			switch {
			case k.Always:
			case plan.Mutes(k.ID):
				lines = append(lines, k.Name+" on")
			default:
				lines = append(lines, k.Name+" off")
			}
		}
	case Lesson:
		lines, _ = d.lessonNames(plan) // completion may come without
	}
	var choices []Choice
	for _, line := range lines {
		if strings.Contains(strings.ToLower(line), strings.ToLower(strings.TrimSpace(typed))) {
			choices = append(choices, Choice{Name: line, Value: line})
		}
	}
	return choices
}
