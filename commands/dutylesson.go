package commands

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"time"
	"unicode"

	"heapside/calc/advice"
	"heapside/calc/duty"
	"heapside/calc/fault"
	"heapside/calc/heap"
)

// The reasons why a job is not needed.
const (
	whyDone  = "done"
	whyEarly = "early"
	whyFine  = "fine"
	whyNever = "never"
)

var whyChoices = picks(whyDone, "somebody did it already", whyEarly, "it came too soon", whyFine, "it looks fine", whyNever, "never for this heap")

// What a reason teaches. Own choice: half as long again is felt, and is not so
// long that a heap goes cold; two months is a season's quarter.
const (
	stretch     = 1.5 // of the days since it was last done
	longestWait = 60  // days, of an interval
	restDays    = 7   // days without it when all looks fine
)

func (d *desk) dutyUnneeded() (Reply, error) {
	item, h, err := d.pressed()
	if err != nil {
		return Reply{}, err
	}
	why := d.arg("why")
	switch {
	case why == "":
		return d.askWhy(item), nil
	case why == whyDone:
		return d.doneBefore(item, h)
	case why == whyNever && always(item):
		return Reply{}, fault.New(fault.NotAllowed, "A heap that is too hot is always spoken of. If it has cooled, log what it reads: %s", d.logExample(advice.Reading))
	}
	lesson, err := d.lesson(item, h, why)
	if err != nil {
		return Reply{}, err
	}
	if _, _, err := d.settle(item, duty.Unneeded, duty.Date{}); err != nil {
		return Reply{}, err
	}
	if always(item) {
		return noted(d.in.Say("Noted. You are told again tomorrow, unless a reading says that it has cooled: %s", d.logExample(advice.Reading))), nil
	}
	heaps, err := d.heaps("")
	if err != nil {
		return Reply{}, err
	}
	plan, err := d.store.ChangePlan(d.ctx, d.call.Place, d.call.By, d.call.Now, func(p *duty.Plan) error { learn(p, lesson, heaps); return nil })
	if err != nil {
		return Reply{}, err
	}
	i := slices.IndexFunc(plan.Taught, func(t duty.Taught) bool { return sameLesson(t, lesson) })
	what := whatOf(h.Name, item.Kind)
	r := noted(d.in.Say("Noted for %s: %s.", d.whatIn(h.Name, item.Kind), d.sayLesson(plan.Taught[i])))
	r.Body = []Block{{Lines: []string{d.in.Say("To take it back: %s", "duty forget "+what)}}}
	if item.Urgency == advice.Now {
		r.Body[0].Lines = append(r.Body[0].Lines, d.in.Word("While it is urgent it is said all the same."))
	}
	return r, nil
}

// always reports a job of a kind that cannot be switched off.
func always(item duty.Item) bool {
	return slices.ContainsFunc(advice.Kinds(), func(k advice.KindInfo) bool { return k.ID == item.Kind && k.Always })
}

// noted answers in place of the question that was asked.
func noted(headline string) Reply {
	return Reply{Headline: headline, Private: true, Replace: true}
}

func (d *desk) askWhy(item duty.Item) Reply {
	item.Title = titleIn(d.in, item.Title)
	line := func(why string) string { return fmt.Sprintf("duty unneeded %d why:%s", item.ID, why) }
	r := Reply{Headline: d.in.Say("%s: why is it not needed?", capital(taskOf(item))), Private: true, Actions: []Action{
		{Label: d.in.Word("Done already"), Line: line(whyDone)},
		{Label: d.in.Word("Too soon"), Line: line(whyEarly)},
		{Label: d.in.Word("Looks fine"), Line: line(whyFine)},
		{Label: d.in.Word("Never for this heap"), Line: line(whyNever)},
	}}
	switch {
	case always(item):
		r.Actions = []Action{r.Actions[0], r.Actions[2]}
	case item.Heap == 0:
		r.Actions[3].Label = d.in.Word("Never here")
	}
	return r
}

// doneBefore closes a job that somebody did without a word.
func (d *desk) doneBefore(item duty.Item, h heap.Heap) (Reply, error) {
	settled, ask, err := d.logDone(item, h)
	if err != nil {
		return Reply{}, err
	}
	if ask != nil {
		ask.Replace = true
		return *ask, nil
	}
	settled.Name = h.Name
	r := noted(d.in.Say("Noted: %s, %s.", taskOf(d.titled(settled)), becameOf(settled, d.today(), d.zone, d.in)))
	if settled.Entry != 0 {
		r.Actions = []Action{{Label: d.in.Word("Undo"), Line: fmt.Sprintf("undo %d", settled.Entry)}}
	}
	return r, nil
}

// lesson is what a reason teaches about a kind of job of a heap.
func (d *desk) lesson(item duty.Item, h heap.Heap, why string) (duty.Taught, error) {
	t := duty.Taught{Heap: item.Heap, Kind: item.Kind, By: d.call.By}
	switch why {
	case whyNever:
		t.Never = true
	case whyFine:
		t.Until = d.today().Add(restDays)
	case whyEarly:
		since, err := d.daysSince(item, h)
		if err != nil {
			return t, err
		}
		t.Every = stretched(since)
		t.Until = d.today().Add(max(1, t.Every-since))
	}
	return t, nil
}

// stretched is the interval after one that was too short, in days.
func stretched(days int) int {
	return min(longestWait, max(days+1, int(math.Ceil(stretch*float64(days)))))
}

// daysSince is how many days ago a kind of job was last done to a heap, or the
// heap started.
func (d *desk) daysSince(item duty.Item, h heap.Heap) (int, error) {
	if h.ID == 0 {
		return restDays, nil // of the garden: nothing on record tells
	}
	s, err := d.state(h)
	if err != nil {
		return 0, err
	}
	last := h.Started
	for _, e := range s.Entries {
		_, does := advice.DoneBy(item.Kind, time.Time{}, heap.State{Entries: []heap.Entry{e}})
		if does && e.At.After(last) {
			last = e.At
		}
	}
	return max(0, d.today().Since(duty.On(last.In(d.zone)))), nil
}

// learn puts a lesson in the plan, in the place of an earlier one, and drops
// those of heaps that are not kept any more. A rest goes on with the interval
// that was taught before.
func learn(p *duty.Plan, lesson duty.Taught, keptHeaps []heap.Heap) {
	var taught []duty.Taught
	for _, t := range p.Taught {
		switch {
		case sameLesson(t, lesson):
			if lesson.Every == 0 && !lesson.Never {
				lesson.Every = t.Every
			}
		case t.Heap == 0 || slices.ContainsFunc(keptHeaps, func(h heap.Heap) bool { return h.ID == t.Heap }):
			taught = append(taught, t)
		}
	}
	p.Taught = append(taught, lesson)
}

func sameLesson(a, b duty.Taught) bool { return a.Heap == b.Heap && a.Kind == b.Kind }

// sayLesson says what was taught: "not again until Mon 30 Nov, then 12 days
// after the last one".
func (d *desk) sayLesson(t duty.Taught) string {
	rests := d.today().Before(t.Until)
	switch {
	case t.Never:
		return d.in.Word("not spoken of any more")
	case t.Every > 0 && rests:
		return d.in.Say("not before %s, and from then on not before %d days after the last time", dayIn(d.in, t.Until), t.Every)
	case t.Every > 0:
		return d.in.Say("not before %d days after the last time", t.Every)
	}
	return d.in.Say("not before %s", dayIn(d.in, t.Until))
}

// whatOf names a kind of job of a heap: "North Bay, turning".
func whatOf(heapName, kind string) string {
	if heapName == "" {
		return kindName(kind)
	}
	return heapName + ", " + kindName(kind)
}

// whatIn is whatOf in the garden's language.
func (d *desk) whatIn(heapName, kind string) string {
	if heapName == "" {
		return d.in.Word(kindName(kind))
	}
	return heapName + ", " + d.in.Word(kindName(kind))
}

// lessonLines list what holds of what was taught, with who taught it.
func (d *desk) lessonLines(p duty.Plan) []string {
	named, err := d.lessonNames(p)
	if err != nil {
		return nil
	}
	var lines []string
	for i, t := range p.Taught {
		if t.Never || t.Every > 0 || d.today().Before(t.Until) {
			lines = append(lines, fmt.Sprintf("%s: %s (%s)", named[i], d.sayLesson(t), t.By.Name))
		}
	}
	return lines
}

// lessonNames names each lesson of a plan by its heap and kind.
func (d *desk) lessonNames(p duty.Plan) ([]string, error) {
	heaps, err := d.store.Heaps(d.ctx, d.call.Place)
	if err != nil {
		return nil, err
	}
	names := make([]string, len(p.Taught))
	for n, t := range p.Taught {
		name := ""
		if i := slices.IndexFunc(heaps, func(h heap.Heap) bool { return h.ID == t.Heap }); i >= 0 {
			name = heaps[i].Name
		}
		names[n] = whatOf(name, t.Kind)
	}
	return names, nil
}

// dutyForget takes lessons back: one's own, or anyone's by those who may change
// the reminders.
func (d *desk) dutyForget() (Reply, error) {
	before, err := d.store.Plan(d.ctx, d.call.Place)
	if err != nil {
		return Reply{}, err
	}
	names, err := d.lessonNames(before)
	if err != nil {
		return Reply{}, err
	}
	all := says(d.arg("what"), "everything", "all", "all of it")
	var gone []duty.Taught
	var said []string
	for i, t := range before.Taught {
		if !all && !hasWords(names[i]+" "+t.Kind, d.arg("what")) {
			continue
		}
		if err := d.may(changeReminders); err != nil && t.By.ID != d.call.By.ID {
			return Reply{}, err
		}
		gone, said = append(gone, t), append(said, names[i])
	}
	switch {
	case len(before.Taught) == 0:
		return Reply{}, fault.New(fault.Unknown, "Nothing was taught here, so there is nothing to forget.")
	case len(gone) == 0:
		return Reply{}, fault.New(fault.Unknown, "“%s” was not taught. Taught here: %s.", quote(d.arg("what")), strings.Join(few(names), "; "))
	}
	plan, err := d.store.ChangePlan(d.ctx, d.call.Place, d.call.By, d.call.Now, func(p *duty.Plan) error {
		p.Taught = slices.DeleteFunc(p.Taught, func(t duty.Taught) bool {
			return slices.ContainsFunc(gone, func(g duty.Taught) bool { return sameLesson(g, t) })
		})
		return nil
	})
	if err != nil {
		return Reply{}, err
	}
	return d.planned(plan, d.in.Say("Forgotten: %s.", strings.Join(few(said), "; ")))
}

// hasWords reports whether a text has all the words that were said, as words.
func hasWords(text, said string) bool {
	parts := func(r rune) bool { return !unicode.IsLetter(r) && !unicode.IsDigit(r) }
	has := strings.FieldsFunc(strings.ToLower(text), parts)
	words := strings.FieldsFunc(strings.ToLower(said), parts)
	return len(words) > 0 && !slices.ContainsFunc(words, func(w string) bool { return !slices.Contains(has, w) })
}
