package commands

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"heapside/calc/heap"
)

// completeJob suggests what was reminded of and can still be done, the newest
// first.
func (d *desk) completeJob(typed string) []Choice {
	items, err := d.items()
	if err != nil {
		return nil
	}
	var choices []Choice
	for _, i := range items {
		if pending(i) {
			number := strconv.FormatInt(i.ID, 10)
			choices = append(choices, Choice{Name: fmt.Sprintf("#%s %s, %s", number, taskOf(d.titled(i)), i.Day.Say()), Value: number})
		}
	}
	return fitting(choices, strings.TrimPrefix(typed, "#"))
}

// completePerson suggests people who were met here.
func (d *desk) completePerson(typed string) []Choice {
	known, err := d.met()
	if err != nil {
		return nil
	}
	var names []string
	for _, p := range known {
		names = appendNew(names, p.Name)
	}
	return fitting(choicesOf(names), typed)
}

// met are the people that a place knows by name, the caller first.
func (d *desk) met() ([]heap.Person, error) {
	latest, err := d.store.Latest(d.ctx, d.call.Place, undoReach)
	if err != nil {
		return nil, err
	}
	known := []heap.Person{d.call.By}
	for _, e := range latest {
		known = append(known, e.By)
	}
	return append(append(known, d.garden.Organisers...), d.garden.ReadOnly...), nil
}

// completeRow suggests who comes next in a row of people on the rota.
func (d *desk) completeRow(typed string) []Choice {
	at := d.lastCut(typed)
	row := typed[:at]
	choices := slices.DeleteFunc(d.completePlan(Member, typed[at:]), func(c Choice) bool { return strings.Contains(row, c.Value) })
	for i, c := range choices {
		choices[i] = Choice{Name: row + c.Value, Value: row + c.Value}
	}
	return choices
}

// completeTopic suggests pages of the guide, then materials.
func (d *desk) completeTopic(typed string) []Choice {
	topics := make([]string, len(pages))
	for i, p := range pages {
		topics[i] = p.topic
	}
	choices := fitting(choicesOf(topics), typed)
	if strings.TrimSpace(typed) != "" {
		choices = append(choices, d.named("", "", typed, maxChoices)...)
	}
	return choices
}
