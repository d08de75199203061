package commands

import (
	"regexp"
	"slices"
	"strings"

	"heapside/calc/fault"
	"heapside/calc/heap"
)

// gardenOrganiser appoints somebody. Whoever may only read may more from then on.
func (d *desk) gardenOrganiser() (Reply, error) {
	person, err := d.person(d.arg("person"))
	if err != nil {
		return Reply{}, err
	}
	g := d.garden
	g.Organisers = without(g.Organisers, person)
	if d.arg("remove") != "" {
		if len(g.Organisers) == len(d.garden.Organisers) {
			return Reply{}, fault.New(fault.Unknown, "%s is no organiser here.", person.Name)
		}
		return d.saveGarden(g, "%s is no organiser any more.", person.Name)
	}
	g.Organisers, g.ReadOnly = append(g.Organisers, person), without(g.ReadOnly, person)
	return d.saveGarden(g, "%s is an organiser now: may change settings, finish heaps and take back anyone's entries.", person.Name)
}

func (d *desk) gardenReadOnly() (Reply, error) {
	person, err := d.person(d.arg("person"))
	if err != nil {
		return Reply{}, err
	}
	g := d.garden
	g.ReadOnly = without(g.ReadOnly, person)
	switch {
	case d.arg("remove") != "" && len(g.ReadOnly) == len(d.garden.ReadOnly):
		return Reply{}, fault.New(fault.Unknown, "%s may log here already.", person.Name)
	case d.arg("remove") != "":
		return d.saveGarden(g, "%s may log again.", person.Name)
	case among(g.Organisers, person):
		return Reply{}, fault.New(fault.NotAllowed, "%s is an organiser. First: %s", person.Name, "garden organiser "+person.Name+" remove:yes")
	case person.ID == d.call.By.ID:
		return Reply{}, fault.New(fault.NotAllowed, "That is you: another organiser would have to do that.")
	}
	g.ReadOnly = append(g.ReadOnly, person)
	r, err := d.saveGarden(g, "%s may only ask from now on: nothing that %s logs, changes or presses counts.", person.Name, person.Name)
	if err != nil {
		return Reply{}, err
	}
	plan, err := d.store.Plan(d.ctx, d.call.Place)
	if err == nil && onRota(plan.Rota, person) >= 0 {
		r.Body = []Block{{Lines: []string{d.in.Say("%s still takes turns. To change that: duty leave %s", person.Name, person.Name)}}}
	}
	return r, err
}

func without(people []heap.Person, who heap.Person) []heap.Person {
	return slices.DeleteFunc(slices.Clone(people), func(p heap.Person) bool { return p.ID == who.ID })
}

// personMention is how the chat platform writes a person in text.
var personMention = regexp.MustCompile(`^<@!?(\d{1,20})>$`)

// person finds somebody by mention, or by the name they were seen under here.
// A name alone proves nothing on a chat platform, so strangers need a mention.
func (d *desk) person(said string) (heap.Person, error) {
	who := clip(oneLine(strings.TrimPrefix(said, "@")), maxName)
	is := func(p heap.Person) bool { return strings.EqualFold(p.Name, who) }
	mention := personMention.FindStringSubmatch(who)
	if mention != nil {
		is = func(p heap.Person) bool { return p.ID == mention[1] }
	}
	known, err := d.met()
	if err != nil {
		return heap.Person{}, err
	}
	if i := slices.IndexFunc(known, is); i >= 0 {
		return known[i], nil
	}
	if mention != nil {
		return heap.Person{ID: mention[1], Name: "member " + mention[1]}, nil
	}
	return heap.Person{}, fault.New(fault.Unknown, "I have not met “%s” here yet. Mention them with @, or let them log something first.", quote(said))
}
