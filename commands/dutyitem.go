package commands

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"heapside/calc/advice"
	"heapside/calc/duty"
	"heapside/calc/fault"
	"heapside/calc/heap"
)

// pressed is the item a button belongs to, and its heap; nothing of it when it
// is one of the garden. It is refused, saying who did it, when it is closed by
// now: by a button, or by what somebody logged.
func (d *desk) pressed() (duty.Item, heap.Heap, error) {
	said := strings.TrimPrefix(oneLine(d.arg("job")), "#")
	id, err := strconv.ParseInt(said, 10, 64)
	if err != nil || id < 1 {
		return duty.Item{}, heap.Heap{}, fault.New(fault.NotUnderstood, "“%s” is no job's number. Press the button under a reminder, or ask what needs doing: next", quote(d.arg("job")))
	}
	item, err := d.store.Item(d.ctx, d.call.Place, id)
	if err != nil {
		return item, heap.Heap{}, err
	}
	h, err := d.heapOf(item)
	if err != nil {
		return item, h, err
	}
	stored := item.State
	if h.ID != 0 {
		s, err := d.state(h)
		if err != nil {
			return item, h, err
		}
		item = duty.Settled(item, s)
		item.Name = h.Name // as it is called now
	}
	task := capital(taskOf(d.titled(item)))
	switch {
	case pending(item) && stored == duty.Done:
		return item, h, fault.New(fault.Unavailable, "%s: what was logged for it was taken back a moment ago. Please try again in a minute.", task)
	case pending(item):
		return item, h, nil
	}
	said = d.in.Say("%s: %s.", task, becameOf(item, d.today(), d.zone, d.in))
	if item.State == duty.Done {
		return item, h, fault.New(fault.Taken, "%s Nothing was logged twice.", said)
	}
	return item, h, fault.New(fault.Taken, "%s If you did it, log it as usual.", said)
}

// titled is an item with its title in the garden's language.
func (d *desk) titled(item duty.Item) duty.Item {
	item.Title = titleIn(d.in, item.Title)
	return item
}

// heapOf is the heap of an item, or none for the garden's.
func (d *desk) heapOf(item duty.Item) (heap.Heap, error) {
	if item.Heap == 0 {
		return heap.Heap{}, nil
	}
	heaps, err := d.store.Heaps(d.ctx, d.call.Place)
	if err != nil {
		return heap.Heap{}, err
	}
	i := slices.IndexFunc(heaps, func(h heap.Heap) bool { return h.ID == item.Heap })
	if i < 0 {
		return heap.Heap{}, fmt.Errorf("item %d is of heap %d, which is not here", item.ID, item.Heap)
	}
	return heaps[i], nil
}

// settle closes or puts off an item for the caller, with what is logged for it.
func (d *desk) settle(item duty.Item, state duty.State, until duty.Date, entries ...heap.Entry) (duty.Item, []heap.Entry, error) {
	return d.store.Settle(d.ctx, d.call.Place, item.ID, duty.Item{State: state, By: d.call.By, At: d.call.Now, Until: until}, entries...)
}

// wholePost answers a button with the message it stands under, as it is by now
// by what was pressed and by what was logged.
func (d *desk) wholePost(item duty.Item) (Reply, error) {
	post, err := d.store.Post(d.ctx, d.call.Place, item.Post)
	if err != nil {
		return Reply{}, err
	}
	for n, i := range post.Items {
		h, err := d.heapOf(i)
		if err != nil || h.ID == 0 {
			continue
		}
		s, err := d.state(h)
		if err != nil {
			return Reply{}, err
		}
		post.Items[n] = duty.Settled(i, s)
	}
	r := PostReply(post, d.zone, d.garden.Language)
	r.Replace = true
	return r, nil
}

func (d *desk) dutyDone() (Reply, error) {
	item, h, err := d.pressed()
	if err != nil {
		return Reply{}, err
	}
	settled, ask, err := d.logDone(item, h)
	if err != nil || ask != nil {
		return orElse(ask), err
	}
	return d.wholePost(settled)
}

func orElse(r *Reply) Reply {
	if r == nil {
		return Reply{}
	}
	return *r
}

// loggers log what a button says was done. Their lines are those that advice
// gives its jobs; any other is offered as a button of its own.
var loggers = map[string]func(*desk) (Reply, error){
	"log turn": (*desk).logTurn, "log water": (*desk).logWater, "log cover": (*desk).logCover,
}

// logDone closes an item for the caller with the entry that records the work,
// both or neither. Where only the caller can say what is to be recorded, it
// asks them instead.
func (d *desk) logDone(item duty.Item, h heap.Heap) (settled duty.Item, ask *Reply, err error) {
	if item.Done == "" && len(advice.Closes(item.Kind)) == 0 {
		settled, _, err = d.settle(item, duty.Done, duty.Date{})
		return settled, nil, err
	}
	path, args, err := d.doneBy(item)
	if err != nil {
		return settled, nil, err
	}
	log, known := loggers[path]
	if d.arg("reading") != "" {
		log, known = (*desk).logTemp, true
	}
	if !known {
		return settled, d.askDone(item, h), nil
	}
	args["heap"] = h.Name
	call, desk := *d.call, *d
	call.Path, call.Args = path, args
	desk.call = &call
	desk.keep = func(entries ...heap.Entry) (stored []heap.Entry, err error) {
		settled, stored, err = d.settle(item, duty.Done, duty.Date{}, entries...)
		return stored, err
	}
	_, err = log(&desk)
	return settled, nil, err
}

// doneBy is what logs an item as done: what the caller read off a thermometer,
// or the line that advice gives the job. The path is empty when only the caller
// can say.
func (d *desk) doneBy(item duty.Item) (path string, args map[string]string, err error) {
	if reading := d.arg("reading"); reading != "" {
		args = map[string]string{"reading": reading}
		switch item.Kind {
		case advice.Reading:
			return "log temp", args, nil
		case advice.Air:
			args["spot"] = heap.SpotAir
			return "log temp", args, nil
		}
		return "", nil, fault.New(fault.NotUnderstood, "%s: that needs no temperature. Leave “%s” out, or log it by itself: log temp %s", capital(taskOf(d.titled(item))), quote(reading), quote(reading))
	}
	if item.Done == "" {
		return "", nil, nil
	}
	if path, args, err = d.parse(item.Done, nil); err != nil {
		return "", nil, nil // a line of an older version: it is offered as it is
	}
	return path, args, nil
}

// askDone asks for what a button cannot know. What is logged then closes the job.
func (d *desk) askDone(item duty.Item, h heap.Heap) *Reply {
	task := capital(taskOf(d.titled(item)))
	r := &Reply{Private: true, Headline: d.in.Say("%s: log what you found, and it is done.", task)}
	at := " heap:\"" + h.Name + "\""
	offer := func(label, line string) {
		if line += at; len(line) <= maxActionLine {
			r.Actions = append(r.Actions, Action{Label: clip(label, maxActionLabel), Line: line})
		}
	}
	switch {
	case item.Done != "":
		r.Headline = d.in.Say("%s: this is logged by itself.", task)
		r.Body = []Block{{Lines: []string{item.Done + at}}}
		offer(capital(item.Done), item.Done)
	case item.Kind == advice.Feel:
		r.Headline = d.in.Say("What did a handful of %s do when squeezed?", h.Name)
		r.Body = []Block{{Lines: []string{"log feel " + string(heap.Drops) + at}}}
		for _, class := range []heap.Squeeze{heap.Crumbles, heap.Holds, heap.Drops, heap.Drips, heap.Runs} {
			offer(capital(d.in.Word(squeezeWords[class])), "log feel "+string(class))
		}
	default:
		r.Body = []Block{{Lines: []string{d.logExample(item.Kind) + at}}}
	}
	if item.Kind == advice.Reading || item.Kind == advice.Air {
		r.Form = form(capital(shortTaskOf(d.titled(item))), fmt.Sprintf("duty done %d", item.ID),
			Field{Option: "reading", Label: d.in.Say("Temperature in %s", d.degrees()), Example: d.in.Say("%s, or %s", d.exampleDegrees(), d.exampleDegrees()+" at 40 cm"), Required: true})
	}
	return r
}

// degrees is the scale of the garden's thermometer.
func (d *desk) degrees() string {
	if d.m.Fahrenheit {
		return "°F"
	}
	return "°C"
}

// exampleDegrees is a reading of a heap that works, as the garden would write it.
func (d *desk) exampleDegrees() string {
	if d.m.Fahrenheit {
		return "136"
	}
	return "58"
}

// logExample is a typed line that does a job of a kind, without the heap.
func (d *desk) logExample(kind string) string {
	air := "12"
	if d.m.Fahrenheit {
		air = "54"
	}
	switch kind {
	case advice.Reading:
		return "log temp " + d.exampleDegrees() + " depth:40cm"
	case advice.Air:
		return "log temp " + air + " spot:air"
	case advice.Test:
		return "log test bag passed, smells of earth"
	case advice.Cure:
		return "log move to:\"Curing Bay\""
	}
	return "log add " + d.example()
}

func (d *desk) dutyLater() (Reply, error) {
	item, _, err := d.pressed()
	if err != nil {
		return Reply{}, err
	}
	tomorrow := d.today().Add(1)
	if item.State == duty.Later && item.Until == tomorrow {
		return Reply{}, fault.New(fault.Taken, "%s: %s already.", capital(taskOf(d.titled(item))), becameOf(item, d.today(), d.zone, d.in))
	}
	settled, _, err := d.settle(item, duty.Later, tomorrow)
	if err != nil {
		return Reply{}, err
	}
	return d.wholePost(settled)
}
