package commands

import (
	"fmt"
	"slices"

	"heapside/calc/fault"
	"heapside/calc/heap"
)

// right is what a command asks of whoever gives it.
type right uint8

const (
	toAsk    right = iota + 1 // shows and changes nothing: everybody
	toLog                     // puts on the record: everybody but those who may only read
	toSettle                  // changes it for all: organisers, once the garden has appointed some
	toRule                    // gives and takes rights: organisers
)

// need is the right that a command needs, and in words what it does, for the
// sentence that refuses it. Without the option named in shows, a command only
// shows what there is, which everybody may.
type need struct {
	right right
	does  string
	shows string
}

// What several commands do.
const (
	changeSettings  = "change settings"
	changeReminders = "change the reminders"
)

// needs is the right each command needs. Handlers add only what depends on whose
// thing it is: one's own entry, turn or lesson is everybody's to take back, that
// of another is an organiser's.
var needs = map[string]need{
	"mix":        {right: toAsk},
	"heap list":  {right: toAsk},
	"heap show":  {right: toAsk},
	"next":       {right: toAsk},
	"ready":      {right: toAsk},
	"outlook":    {right: toAsk},
	"trouble":    {right: toAsk},
	"spread":     {right: toAsk},
	"history":    {right: toAsk},
	"stock list": {right: toAsk},
	"duty show":  {right: toAsk},
	"duty next":  {right: toAsk},
	"ask":        {right: toAsk}, // what it is understood as needs its own
	"guide":      {right: toAsk},

	"log add":    {right: toLog},
	"log temp":   {right: toLog},
	"log feel":   {right: toLog},
	"log smell":  {right: toLog},
	"log turn":   {right: toLog},
	"log water":  {right: toLog},
	"log cover":  {right: toLog},
	"log height": {right: toLog},
	"log rain":   {right: toLog},
	"log test":   {right: toLog},
	"log note":   {right: toLog},
	"log visit":  {right: toLog},
	"log move":   {right: toLog},

	"undo":          {right: toLog},
	"heap start":    {right: toLog},
	"stock set":     {right: toLog},
	"stock weigh":   {right: toLog},
	"duty join":     {right: toLog},
	"duty leave":    {right: toLog},
	"duty swap":     {right: toLog},
	"duty away":     {right: toLog},
	"duty done":     {right: toLog},
	"duty later":    {right: toLog},
	"duty unneeded": {right: toLog},
	"duty forget":   {right: toLog},

	"heap change":  {right: toSettle, does: "change a heap"},
	"heap finish":  {right: toSettle, does: "finish a heap"},
	"stock define": {right: toSettle, does: "define a material"},

	"garden show":     {right: toAsk},
	"garden units":    {right: toSettle, does: changeSettings},
	"garden measure":  {right: toSettle, does: changeSettings},
	"garden zone":     {right: toSettle, does: changeSettings},
	"garden place":    {right: toSettle, does: changeSettings},
	"garden language": {right: toSettle, does: changeSettings},

	"garden organiser": {right: toRule, does: "appoint organisers"},
	"garden readonly":  {right: toRule, does: "say who may only read"},

	"duty when":   {right: toSettle, does: changeReminders},
	"duty off":    {right: toSettle, does: changeReminders},
	"duty quiet":  {right: toSettle, does: changeReminders},
	"duty kinds":  {right: toSettle, does: changeReminders, shows: "kind"},
	"duty pause":  {right: toSettle, does: changeReminders},
	"duty weekly": {right: toSettle, does: changeReminders},
	"duty order":  {right: toSettle, does: changeReminders},
}

// permit refuses a command to those who lack the right it needs. A command
// without a row needs the highest.
func (d *desk) permit(path string, args map[string]string) error {
	n, known := needs[path]
	switch {
	case !known:
		n = need{right: toRule, does: "do that"}
	case n.shows != "" && args[n.shows] == "":
		return nil
	}
	switch {
	case n.right == toAsk:
		return nil
	case d.reader():
		return fault.New(fault.NotAllowed, "You may ask me anything here, but not log or change anything. If that should be otherwise, please ask %s.", d.organisers())
	case n.right == toLog, d.organiser():
		return nil
	case n.right == toSettle && len(d.garden.Organisers) == 0:
		return nil
	}
	return d.organisersOnly(n.does)
}

// may guards what a handler finds to be an organiser's business.
func (d *desk) may(what string) error {
	if d.organiser() || len(d.garden.Organisers) == 0 {
		return nil
	}
	return d.organisersOnly(what)
}

func (d *desk) organisersOnly(what string) error {
	return fault.New(fault.NotAllowed, "Only an organiser can %s here: please ask %s.", fault.Say(what), d.organisers())
}

// organiser says whether the caller may change settings and others' entries.
func (d *desk) organiser() bool { return d.call.Organiser || among(d.garden.Organisers, d.call.By) }

// reader says whether the caller may only read. Nobody can take the platform's
// own rights away.
func (d *desk) reader() bool { return !d.call.Organiser && among(d.garden.ReadOnly, d.call.By) }

func among(people []heap.Person, who heap.Person) bool {
	return slices.ContainsFunc(people, func(p heap.Person) bool { return p.ID == who.ID })
}

// organisers names whom to ask.
func (d *desk) organisers() fmt.Stringer {
	if len(d.garden.Organisers) == 0 {
		return fault.Say("whoever manages this channel")
	}
	return either(namesOfPeople(d.garden.Organisers))
}

func namesOfPeople(people []heap.Person) []string {
	names := make([]string, len(people))
	for i, p := range people {
		names[i] = p.Name
	}
	return names
}
