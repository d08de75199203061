package commands

import (
	"context"
	"fmt"
	"slices"
	"strings"
	"time"

	"heapside/calc/heap"
	"heapside/calc/measure"
)

// Limits of suggestions. Source: discord-api-docs, interactions/application-commands.mdx.
const (
	maxChoices    = 25
	maxChoiceText = 100
)

// Complete suggests values for an option while it is typed, at most 25.
// call.Path names the command and call.Args what is filled in so far.
func (a *Assistant) Complete(ctx context.Context, call Call, option, typed string) []Choice {
	command, ok := a.byPath[call.Path]
	if !ok || a.suggestions.take(call) != taken {
		return nil
	}
	for _, o := range command.Options {
		complete := completers[o.Kind]
		if o.Name != option || complete == nil {
			continue
		}
		d, err := a.open(ctx, &call)
		if err != nil {
			return nil
		}
		choices := slices.DeleteFunc(complete(d, o, clip(clean(typed), maxArg)), func(c Choice) bool { return len(c.Value) > maxChoiceText })
		for i, c := range choices {
			choices[i].Name = clip(c.Name, maxChoiceText)
		}
		return choices[:min(len(choices), maxChoices)]
	}
	return nil
}

// completers suggest for each kind of option what was typed may become, the
// best first.
var completers = map[OptionKind]func(d *desk, o Option, typed string) []Choice{
	Pick:        func(_ *desk, o Option, typed string) []Choice { return fitting(o.Choices, typed) },
	Hint:        func(_ *desk, o Option, typed string) []Choice { return fitting(o.Choices, typed) },
	HeapName:    func(d *desk, _ Option, typed string) []Choice { return d.completeHeap(typed) },
	Material:    func(d *desk, _ Option, typed string) []Choice { return d.completeMaterial(typed) },
	Load:        func(d *desk, _ Option, typed string) []Choice { return d.completeLoad(typed) },
	Water:       func(d *desk, _ Option, typed string) []Choice { return d.completeWater(typed) },
	Moment:      func(d *desk, _ Option, typed string) []Choice { return d.completeMoment(typed) },
	EntryNumber: func(d *desk, _ Option, typed string) []Choice { return d.completeEntry(typed) },
	ZoneName:    func(_ *desk, _ Option, typed string) []Choice { return completeZone(typed) },
	OpenJob:     func(d *desk, _ Option, typed string) []Choice { return d.completeJob(typed) },
	Person:      func(d *desk, _ Option, typed string) []Choice { return d.completePerson(typed) },
	Row:         func(d *desk, _ Option, typed string) []Choice { return d.completeRow(typed) },
	Topic:       func(d *desk, _ Option, typed string) []Choice { return d.completeTopic(typed) },
	Member:      func(d *desk, _ Option, typed string) []Choice { return d.completePlan(Member, typed) },
	JobKind:     func(d *desk, _ Option, typed string) []Choice { return d.completePlan(JobKind, typed) },
	Lesson:      func(d *desk, _ Option, typed string) []Choice { return d.completePlan(Lesson, typed) },
	Symptom:     func(_ *desk, _ Option, typed string) []Choice { return fitting(choicesOf(symptomNames()), typed) },
	Pest:        func(_ *desk, _ Option, typed string) []Choice { return fitting(choicesOf(tried()), typed) },
}

// choicesOf are words that are offered as they are.
func choicesOf(words []string) []Choice {
	choices := make([]Choice, len(words))
	for i, w := range words {
		choices[i] = Choice{Name: w, Value: w}
	}
	return choices
}

// fitting keeps the choices whose name holds what was typed, those that begin
// with it first.
func fitting(all []Choice, typed string) []Choice {
	typed = strings.ToLower(oneLine(typed))
	var begins, holds []Choice
	for _, c := range all {
		switch name := strings.ToLower(c.Name); {
		case strings.HasPrefix(name, typed):
			begins = append(begins, c)
		case strings.Contains(name, typed):
			holds = append(holds, c)
		}
	}
	return append(begins, holds...)
}

func (d *desk) completeHeap(typed string) []Choice {
	heaps, err := d.store.Heaps(d.ctx, d.call.Place)
	if err != nil {
		return nil
	}
	var choices []Choice
	for _, h := range kept(heaps) {
		if strings.Contains(heapKey(h.Name), heapKey(typed)) {
			choices = append(choices, Choice{Name: h.Name, Value: h.Name})
		}
	}
	return choices
}

// hours and daysBack are the times that a suggestion names. Own choice: when
// people are at their heaps, and as far back as they remember the hour.
var (
	hours    = []string{"8:00", "12:00", "15:00", "18:00", "20:00"}
	daysBack = 6
)

// completeMoment suggests when something happened, with the time it comes to.
// A day by itself goes on to its hours.
func (d *desk) completeMoment(typed string) []Choice {
	local := d.call.Now.In(d.zone)
	words := []string{"1 hour ago", "2 hours ago", "3 hours ago"}
	days := []string{"today", "yesterday"}
	for n := 2; n <= daysBack; n++ {
		days = append(days, strings.ToLower(local.AddDate(0, 0, -n).Weekday().String()))
	}
	said := strings.ToLower(oneLine(typed))
	for i, day := range days {
		times := hours
		if strings.HasPrefix(said, day+" ") {
			times = nil
			for hour := range 24 {
				times = append(times, fmt.Sprintf("%d:00", hour))
			}
		} else if i > 1 {
			times = hours[3:4] // the evening: the list is short
		}
		for _, at := range times {
			words = append(words, day+" "+at)
		}
	}
	if said != "" {
		words = append([]string{said}, words...)
	}
	var all []Choice
	seen := map[string]bool{}
	for _, w := range words {
		at, err := measure.ParseWhen(w, d.call.Now, d.zone)
		if err != nil || seen[w] || !strings.HasPrefix(w, said) {
			continue
		}
		seen[w] = true
		all = append(all, Choice{Name: w + " (" + at.In(d.zone).Format("Mon 2 Jan 15:04") + ")", Value: w})
	}
	return all
}

// completeEntry suggests what the caller may take back, the newest first, what
// was logged in one go as one.
func (d *desk) completeEntry(typed string) []Choice {
	latest, err := d.store.Latest(d.ctx, d.call.Place, undoReach)
	if err != nil {
		return nil
	}
	heaps, err := d.store.Heaps(d.ctx, d.call.Place)
	if err != nil {
		return nil
	}
	names := map[heap.ID]string{}
	for _, h := range heaps {
		names[h.ID] = h.Name
	}
	var all []Choice
	for len(latest) > 0 && len(all) < undoReach {
		n := 1
		for n < len(latest) && latest[n].Leader == latest[0].Leader && latest[0].Leader != 0 {
			n++
		}
		batch := latest[:n]
		latest = latest[n:]
		if slices.ContainsFunc(batch, func(e heap.Entry) bool { return d.mayUndo(e) != nil }) {
			continue
		}
		var said []string
		for _, e := range slices.Backward(batch) {
			said = appendNew(said, d.say(e))
		}
		number := entryRange([]heap.Entry{batch[n-1], batch[0]})
		all = append(all, Choice{Value: number,
			Name: fmt.Sprintf("#%s %s, %s: %s", number, d.day(batch[0].At), names[batch[0].Heap], list(few(said), "and"))})
	}
	return fitting(all, strings.TrimPrefix(typed, "#"))
}

// completeZone suggests time zones by any part of their names: the city is what
// people know.
func completeZone(typed string) []Choice {
	var all []Choice
	for _, name := range strings.Fields(zones) {
		if _, err := time.LoadLocation(name); err == nil {
			all = append(all, Choice{Name: name, Value: name})
		}
	}
	return fitting(all, strings.ReplaceAll(oneLine(typed), " ", "_"))
}

// zones are those of the IANA time zone database in which most people live, by
// the names it gives them (from memory; each must load, or it is not suggested).
const zones = `Europe/London Europe/Dublin Europe/Lisbon Europe/Madrid Europe/Paris Europe/Brussels Europe/Amsterdam
Europe/Berlin Europe/Zurich Europe/Vienna Europe/Rome Europe/Copenhagen Europe/Oslo Europe/Stockholm Europe/Helsinki
Europe/Tallinn Europe/Riga Europe/Vilnius Europe/Warsaw Europe/Prague Europe/Budapest Europe/Bratislava Europe/Ljubljana
Europe/Zagreb Europe/Belgrade Europe/Sofia Europe/Bucharest Europe/Athens Europe/Istanbul Europe/Kyiv Europe/Malta
Europe/Luxembourg Atlantic/Reykjavik Atlantic/Canary Atlantic/Azores
America/New_York America/Toronto America/Detroit America/Chicago America/Winnipeg America/Denver America/Edmonton
America/Phoenix America/Los_Angeles America/Vancouver America/Anchorage Pacific/Honolulu America/Halifax America/St_Johns
America/Regina America/Indiana/Indianapolis America/Puerto_Rico America/Jamaica America/Mexico_City America/Tijuana
America/Guatemala America/Costa_Rica America/Panama America/Bogota America/Lima America/Caracas America/La_Paz
America/Santiago America/Argentina/Buenos_Aires America/Montevideo America/Sao_Paulo America/Manaus
Africa/Cairo Africa/Casablanca Africa/Algiers Africa/Tunis Africa/Lagos Africa/Accra Africa/Dakar Africa/Nairobi
Africa/Kampala Africa/Addis_Ababa Africa/Johannesburg Africa/Harare Africa/Lusaka Africa/Maputo
Asia/Jerusalem Asia/Beirut Asia/Amman Asia/Riyadh Asia/Dubai Asia/Tehran Asia/Karachi Asia/Kolkata Asia/Kathmandu
Asia/Colombo Asia/Dhaka Asia/Bangkok Asia/Ho_Chi_Minh Asia/Jakarta Asia/Singapore Asia/Kuala_Lumpur Asia/Manila
Asia/Hong_Kong Asia/Taipei Asia/Shanghai Asia/Seoul Asia/Tokyo Asia/Tbilisi Asia/Yerevan Asia/Almaty
Australia/Perth Australia/Darwin Australia/Adelaide Australia/Brisbane Australia/Sydney Australia/Melbourne
Australia/Hobart Pacific/Auckland Pacific/Fiji UTC`
