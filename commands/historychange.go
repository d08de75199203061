package commands

import (
	"encoding/json"
	"fmt"
	"strings"
	"time"

	"heapside/calc/audit"
	"heapside/calc/duty"
	"heapside/calc/heap"
	"heapside/calc/measure"
	"heapside/commands/speech"
)

// actLine says an act in a history: "today 14:02, settings, Odalys: bucket 10 l → 14 l".
func (d *desk) actLine(a audit.Act, heaps map[heap.ID]string) (string, error) {
	var said []string
	for _, c := range a.Changes {
		s, err := d.sayChange(c, heaps)
		if err != nil {
			return "", err
		}
		said = append(said, s)
	}
	return fmt.Sprintf("%s, %s, %s: %s", d.day(a.At), d.in.Word(string(a.Topic)), a.By.Name, strings.Join(said, "; ")), nil
}

// saying is how a change of one thing is said: what it is a change of, and a
// value of it. unset is the value that was not set; where it is empty, only the
// new value is said.
type saying struct {
	what  func(d *desk, c audit.Change, heaps map[heap.ID]string) string
	value func(d *desk, data json.RawMessage) (string, error)
	unset func(d *desk, c audit.Change) string
}

// sayChange says what was changed, from what to what.
func (d *desk) sayChange(c audit.Change, heaps map[heap.ID]string) (string, error) {
	if sentence, ok := sentences[c.What]; ok {
		return sentence(d, c), nil
	}
	s, ok := sayings[c.What]
	if !ok {
		return string(c.What), nil // of a newer program
	}
	what, from, to := s.what(d, c, heaps), "", ""
	for _, side := range []struct {
		data json.RawMessage
		said *string
	}{{c.From, &from}, {c.To, &to}} {
		if len(side.data) == 0 {
			*side.said = s.unset(d, c)
			continue
		}
		var err error
		if *side.said, err = s.value(d, side.data); err != nil {
			return "", err
		}
	}
	if from == "" {
		return what + " " + to, nil
	}
	return what + " " + from + " → " + to, nil
}

// sentences say changes that are of people.
var sentences = map[audit.What]func(*desk, audit.Change) string{
	audit.Organiser: func(d *desk, c audit.Change) string {
		if !given(c) {
			return d.in.Say("%s is no organiser any more", whom(c))
		}
		return d.in.Say("%s is an organiser", whom(c))
	},
	audit.Reader: func(d *desk, c audit.Change) string {
		if !given(c) {
			return d.in.Say("%s may log again", whom(c))
		}
		return d.in.Say("%s may only ask", whom(c))
	},
	audit.Turns: func(d *desk, c audit.Change) string {
		if !given(c) {
			return d.in.Say("%s takes no more turns", whom(c))
		}
		return d.in.Say("%s takes turns", whom(c))
	},
	audit.StandsIn: func(d *desk, c audit.Change) string {
		if len(c.People) != 2 {
			return string(c.What)
		}
		if !given(c) {
			return d.in.Say("%s takes the next turn of %s no more", c.People[1].Name, c.People[0].Name)
		}
		return d.in.Say("%s takes the next turn of %s", c.People[1].Name, c.People[0].Name)
	},
	audit.Order: func(d *desk, c audit.Change) string {
		return d.in.Say("order %s → %s", strings.Join(namesOfPeople(c.Was), ", "), strings.Join(namesOfPeople(c.People), ", "))
	},
}

// given reports whether somebody was given what a change is of, not deprived of it.
func given(c audit.Change) bool { return len(c.To) > 0 }

// whom names whom a change is of.
func whom(c audit.Change) string { return strings.Join(namesOfPeople(c.People), ", ") }

// sayings say changes of values.
var sayings = map[audit.What]saying{
	audit.Units:    {word("units"), valued((*desk).sayUnits), nothingBefore},
	audit.Measure:  {container, valued((*desk).holds), usualSize},
	audit.Zone:     {word("time zone"), valued(same), unsetWord("UTC")},
	audit.Location: {word("place"), valued(sayLocation), unsetWord("not set")},
	audit.Language: {word("language"), valued(languageName), unsetWord("each their own")},

	audit.On:      {word("reminders"), valued((*desk).onOff), nothingBefore},
	audit.Days:    {word("days"), valued((*desk).sayWeekdays), nothingBefore},
	audit.Hour:    {word("hour"), valued(clock), nothingBefore},
	audit.Quiet:   {word("quiet hours"), valued((*desk).sayQuietHours), nothingBefore},
	audit.JobKind: {jobKind, valued((*desk).onOff), nothingBefore},
	audit.Paused:  {word("pause"), valued((*desk).sayUntil), unsetWord("off")},
	audit.Weekly:  {word("summary of the week"), valued((*desk).sayWeekdays), unsetWord("off")},
	audit.Away:    {awayOf, valued((*desk).saySpans), unsetWord("never")},
	audit.Lesson:  {lessonOf, valued((*desk).sayTaught), unsetWord("as usual")},

	audit.OnHand:     {material(""), valued((*desk).sayOnHand), unsetWord("nothing")},
	audit.CarbonToN:  {material("C:N"), valued(figure), nothingBefore},
	audit.Carbon:     {material("carbon"), valued(percent), nothingBefore},
	audit.Moisture:   {material("water"), valued(percent), nothingBefore},
	audit.BulkWeight: {material("weight of a bucket"), valued((*desk).bucketWeight), nothingBefore},
}

// valued says values of one type.
func valued[T any](say func(*desk, T) string) func(*desk, json.RawMessage) (string, error) {
	return func(d *desk, data json.RawMessage) (string, error) {
		v, err := audit.Read[T](data)
		if err != nil {
			return "", err
		}
		return say(d, v), nil
	}
}

func nothingBefore(*desk, audit.Change) string { return "" }

func unsetWord(text string) func(*desk, audit.Change) string {
	return func(d *desk, _ audit.Change) string { return d.in.Word(text) }
}

// usualSize is what a container holds that a group never measured.
func usualSize(d *desk, c audit.Change) string {
	unit, ok := measure.Measures{}.Unit(c.Of)
	if !ok {
		return ""
	}
	return d.in.Say("%s (as usual)", d.holds(unit.Size.Typical))
}

func word(text string) func(*desk, audit.Change, map[heap.ID]string) string {
	return func(d *desk, _ audit.Change, _ map[heap.ID]string) string { return d.in.Word(text) }
}

func container(d *desk, c audit.Change, _ map[heap.ID]string) string {
	unit, ok := d.m.Unit(c.Of)
	if !ok {
		return c.Of
	}
	return d.in.Word(unit.One)
}

func jobKind(d *desk, c audit.Change, _ map[heap.ID]string) string {
	return d.in.Say("reminded of %s:", speech.Name(kindName(c.Of)))
}

func awayOf(d *desk, c audit.Change, _ map[heap.ID]string) string {
	return d.in.Say("%s away:", whom(c))
}

func lessonOf(d *desk, c audit.Change, heaps map[heap.ID]string) string {
	kind := d.in.Word(kindName(c.Of)) + ":"
	if name, ok := heaps[c.Heap]; ok {
		return name + ", " + kind
	}
	return kind
}

// material names the material of a change, and which of its figures it is.
func material(figure string) func(*desk, audit.Change, map[heap.ID]string) string {
	return func(d *desk, c audit.Change, _ map[heap.ID]string) string {
		name := c.Of
		if f, ok := d.table.ByID(c.Of); ok {
			name = d.called(f)
		}
		if figure == "" {
			return name
		}
		return name + ", " + d.in.Word(figure)
	}
}

func same(_ *desk, text string) string { return text }

func (d *desk) sayUnits(u audit.UnitsValue) string {
	scale := "°C"
	if u.Fahrenheit {
		scale = "°F"
	}
	return d.in.Word(string(u.System)) + ", " + scale
}

func sayLocation(_ *desk, at audit.LocationValue) string {
	return fmt.Sprintf("%.2f, %.2f", at.Lat, at.Lon)
}

func languageName(_ *desk, tag string) string { return speech.Of(tag).Name() }

func (d *desk) onOff(on bool) string {
	if on {
		return d.in.Word("on")
	}
	return d.in.Word("off")
}

func clock(_ *desk, c duty.Clock) string { return c.String() }

func (d *desk) sayWeekdays(w duty.Weekdays) string {
	if w == 0 {
		return d.in.Word("daily")
	}
	var days []string
	for n := range 7 {
		if day := time.Weekday((n + 1) % 7); w.Has(day) { // from Monday
			days = append(days, d.in.Weekday(day))
		}
	}
	return strings.Join(days, " ")
}

func (d *desk) sayQuietHours(q duty.Quiet) string {
	if q.From == q.To {
		return d.in.Word("off")
	}
	return q.From.String() + "–" + q.To.String()
}

func (d *desk) sayDate(day duty.Date) string {
	if day.Year != d.today().Year {
		return d.in.Date(noonOf(day))
	}
	return dayIn(d.in, day)
}

func (d *desk) sayUntil(day duty.Date) string { return d.in.Say("until %s", d.sayDate(day)) }

func (d *desk) saySpans(spans []duty.Span) string {
	var said []string
	for _, s := range spans {
		one := d.sayDate(s.From)
		if s.To != s.From {
			one += "–"
		}
		if !s.To.IsZero() && s.To != s.From {
			one += d.sayDate(s.To)
		}
		said = append(said, one)
	}
	return strings.Join(said, ", ")
}

// sayTaught says all that a lesson says, also what is over by now.
func (d *desk) sayTaught(l audit.LessonValue) string {
	if l.Never {
		return d.in.Word("never")
	}
	var said []string
	if l.Every > 0 {
		said = append(said, d.in.Say("%d days apart", l.Every))
	}
	if !l.Until.IsZero() {
		said = append(said, d.in.Say("not before %s", d.sayDate(l.Until)))
	}
	return strings.Join(said, ", ")
}

func (d *desk) sayOnHand(litres float64) string { return d.local.SayVolume(litres) }

func figure(_ *desk, r measure.Range) string {
	if r.Low == r.High {
		return whole(r.Typical)
	}
	return fmt.Sprintf("%s (%s–%s)", whole(r.Typical), whole(r.Low), whole(r.High))
}

func percent(d *desk, r measure.Range) string { return figure(d, r) + " %" }

func (d *desk) bucketWeight(kgPerM3 measure.Range) string {
	unit, _ := d.m.Unit("bucket")
	return d.weighed(kgPerM3.Typical / 1000 * unit.Size.Typical)
}
