package commands

import (
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"time"

	"heapside/calc/duty"
	"heapside/commands/speech"
)

// PostReply is a post as people read it: to whom, each job with its reason and
// what became of it, and three buttons for each that is open. Times are of the
// zone, words of the language, a tag. It is the message when it is sent, and again whenever a job changed.
func PostReply(p duty.Post, zone *time.Location, language string) Reply {
	in := speech.Of(language)
	p.Items = slices.Clone(p.Items)
	for n, i := range p.Items {
		p.Items[n].Title = titleIn(in, i.Title)
	}
	if p.Kind == duty.Notice {
		return noticeReply(p, in)
	}
	r := Reply{Headline: postHeadline(p, zone, in), Language: in.Code(), Values: postValues(p)}
	if slices.ContainsFunc(p.Items, func(i duty.Item) bool { return i.State == duty.Open }) {
		r.To = p.To
	}
	if len(p.Notes) > 0 {
		r.Body = append(r.Body, Block{Lines: p.Notes})
	}
	for _, i := range p.Items {
		if block := itemBlock(i, p, zone, in); len(block.Lines) > 0 {
			r.Body = append(r.Body, block)
		}
		r.Actions = append(r.Actions, itemActions(i, p.Items, in)...)
		if !pending(i) {
			continue
		}
		if len(r.Cautions) < maxCautions {
			r.Cautions = appendNew(r.Cautions, i.Caution)
		}
		for _, source := range strings.Split(i.Source, "; ") {
			r.Basis = appendNew(r.Basis, source)
		}
	}
	if len(p.Week) > 0 {
		week := Block{Title: in.Word("The week"), Lines: p.Week}
		if len(p.Items) == 0 {
			week.Title = "" // the headline says it
		}
		r.Body = append(r.Body, week)
	}
	return r
}

// maxCautions is how many warnings one message carries: more are not read. Own choice.
const maxCautions = 2

func noticeReply(p duty.Post, in *speech.Speech) Reply {
	if len(p.Notes) == 0 {
		return Reply{Headline: in.Word("Reminders cannot be posted in another channel here.")}
	}
	r := Reply{Headline: p.Notes[0], To: p.To}
	if len(p.Notes) > 1 {
		r.Body = []Block{{Lines: p.Notes[1:]}}
	}
	return r
}

// pending reports an item that can still be done: open, or put off.
func pending(i duty.Item) bool { return i.State == duty.Open || i.State == duty.Later }

func postHeadline(p duty.Post, zone *time.Location, in *speech.Speech) string {
	open := tasksOf(p.Items, duty.Open)
	switch {
	case len(p.Items) == 0:
		return in.Say("The week until %s.", dayIn(in, p.Day))
	case len(open) > 0:
		said := open[0]
		if more := len(open) - 1; more > 0 {
			said = in.Say("%s, and %d more.", said, more)
		} else {
			said += "."
		}
		if p.To.ID != "" {
			return in.Say("it is your turn: %s", said) // after the name
		}
		return in.Say("For today: %s", said)
	case len(p.Items) == 1:
		return in.Say("%s: %s.", capital(shortTaskOf(p.Items[0])), becameOf(p.Items[0], p.Day, zone, in))
	}
	return capital(in.Say("%s: nothing is left to do.", dayIn(in, p.Day)))
}

// itemBlock is the reason of a job while it can be done, and what became of it.
// The headline names the only job of a post where it is short, and what became
// of it.
func itemBlock(i duty.Item, p duty.Post, zone *time.Location, in *speech.Speech) Block {
	only := len(p.Items) == 1
	block := Block{Title: capital(taskOf(i))}
	if only && (!pending(i) || taskOf(i) == shortTaskOf(i)) {
		block.Title = ""
	}
	if pending(i) {
		block.Lines = appendNew([]string{i.Reason + doubt(in, i.Confidence)}, i.Note)
	}
	if i.State != duty.Open && !only {
		block.Lines = append(block.Lines, capital(becameOf(i, p.Day, zone, in))+".")
	}
	return block
}

// becameOf says what became of an item, as seen on a day: "Wren did it, 18:40".
func becameOf(i duty.Item, day duty.Date, zone *time.Location, in *speech.Speech) string {
	who := i.By.Name
	if who == "" {
		who = in.Word("somebody")
	}
	at := i.At.In(zone)
	when := at.Format("15:04")
	if duty.On(at) != day {
		when = in.Day(at) + " " + when
	}
	switch i.State {
	case duty.Done:
		if i.Entry != 0 {
			return in.Say("%s did it, %s (#%s)", who, when, strconv.FormatInt(int64(i.Entry), 10))
		}
		return in.Say("%s did it, %s", who, when)
	case duty.Later:
		return in.Say("%s put it off until %s", who, dayIn(in, i.Until))
	case duty.Unneeded:
		return in.Say("%s said it is not needed, %s", who, when)
	case duty.Lapsed:
		return in.Word("nothing calls for it any more")
	}
	return in.Word("it is open")
}

// theHeap is what stands for the heap in a job's title.
var theHeap = regexp.MustCompile(`\bit\b`)

// taskOf is a job as an order that names its heap: "turn North Bay".
func taskOf(i duty.Item) string { return orderOf(i.Title, i.Name) }

func orderOf(title, heapName string) string {
	title = lower(title)
	at := theHeap.FindStringIndex(title)
	switch {
	case heapName == "":
		return title
	case at != nil:
		return title[:at[0]] + heapName + title[at[1]:]
	case strings.HasSuffix(title, " the middle"):
		return title + " of " + heapName
	}
	return title + " (" + heapName + ")"
}

// details end the part of a title that a button has room for.
var details = regexp.MustCompile(`(?: until | before | from the middle| in the middle|[:,;]).*$`)

// shortTaskOf is a task without its details.
func shortTaskOf(i duty.Item) string { return orderOf(details.ReplaceAllString(i.Title, ""), i.Name) }

// itemActions are the buttons of one job, in a row of their own.
func itemActions(i duty.Item, all []duty.Item, in *speech.Speech) []Action {
	add := func(label, about, line string) Action {
		if about != "" {
			label += ": " + about
		}
		return Action{Label: clip(label, maxActionLabel), Line: line}
	}
	line := func(verb string) string { return fmt.Sprintf("duty %s %d", verb, i.ID) }
	var row []Action
	switch {
	case pending(i):
		row = append(row, add(in.Word("Done"), shortTaskOf(i), line("done")))
		if i.State == duty.Open {
			row = append(row, add(in.Word("Tomorrow"), aboutOf(i, all), line("later")), add(in.Word("Not needed"), aboutOf(i, all), line("unneeded")))
		}
	case i.State == duty.Done && i.Entry != 0:
		row = append(row, add(in.Word("Undo"), shortTaskOf(i), fmt.Sprintf("undo %d", i.Entry)))
	default:
		return nil
	}
	row[0].Row = true
	return row
}

// aboutOf tells the buttons of several open jobs apart, as shortly as it can:
// by nothing, the heap, or the whole task. Those that are only looked at have no
// number yet.
func aboutOf(i duty.Item, all []duty.Item) string {
	others := slices.DeleteFunc(slices.Clone(all), func(o duty.Item) bool {
		return o.State != duty.Open || o.ID == i.ID && o.Kind == i.Kind && o.Heap == i.Heap
	})
	switch {
	case len(others) == 0:
		return ""
	case i.Name == "" || slices.ContainsFunc(others, func(o duty.Item) bool { return o.Heap == i.Heap }):
		return shortTaskOf(i)
	}
	return i.Name
}

func postValues(p duty.Post) map[string]Value {
	values := map[string]Value{"jobs": {float64(len(p.Items)), "1"}, "day": {p.Day.String(), ""}}
	if p.To.ID != "" {
		values["turn"] = Value{p.To.Name, ""}
	}
	for n, i := range p.Items {
		key := fmt.Sprintf("job.%d.", n+1)
		values[key+"kind"], values[key+"heap"], values[key+"state"] = Value{i.Kind, ""}, Value{i.Name, ""}, Value{string(i.State), ""}
	}
	return values
}
