package commands

import (
	"math"
	"regexp"
	"strings"
	"unicode/utf8"

	"heapside/calc/fault"
	"heapside/calc/heap"
	"heapside/commands/speech"
)

var (
	containerChoices = picks(string(heap.OpenHeap), "", string(heap.PalletBay), "", string(heap.PlasticBin), "", string(heap.Tumbler), "")
	aimChoices       = picks(string(heap.Fast), "turn often, ready soon", string(heap.Steady), "little work", string(heap.Hygienic), "stay hot long")
)

func (a *Assistant) heapCommand() Command {
	attributes := []Option{
		{Name: "container", Summary: "what holds it", Kind: Pick, Choices: containerChoices},
		{Name: "size", Summary: "what it holds when full, e.g. 1 m3 or 300 litres", Kind: Hint, Choices: picks("1 m3", "", "1.5 m3", "", "2 m3", "", "300 litres", "", "600 litres", "")},
		{Name: "cover", Summary: "what covers it, e.g. lid, tarp, none", Kind: Hint, Choices: picks("none", "", "tarp", "", "lid", "", "straw", "", "cardboard", "")},
		{Name: "aim", Summary: "what the group wants of it", Kind: Pick, Choices: aimChoices},
	}
	which := Option{Name: "heap", Summary: "which heap; may be left out when there is one", Kind: HeapName, Words: true}
	return Command{Name: "heap", Summary: "The heaps of this channel", Subs: []Command{
		{Name: "start", Summary: "Start a heap", Run: a.with((*desk).heapStart),
			Options: append([]Option{{Name: "name", Summary: "what you call it, e.g. North Bay", Words: true, Required: true}}, attributes...)},
		{Name: "list", Summary: "All heaps and how they stand", Run: a.with((*desk).heapList)},
		{Name: "show", Summary: "One heap: stage, temperature, last turn, what is in it", Run: a.with((*desk).heapShow), Options: []Option{which}},
		{Name: "change", Summary: "Change a heap's name, container, size, cover or aim", Run: a.with((*desk).heapChange),
			Options: append([]Option{which, {Name: "name", Summary: "its new name"}}, attributes...)},
		{Name: "finish", Summary: "Close a heap that was dug out", Run: a.with((*desk).heapFinish),
			Options: []Option{which, {Name: "yield", Summary: "how much compost it gave, e.g. 6 barrows"}}},
	}}
}

func (d *desk) heapStart() (Reply, error) {
	h := heap.Heap{Place: d.call.Place, Container: heap.OpenHeap, Cover: "none", Aim: heap.Steady, Started: d.call.Now}
	h, _, err := d.attributes(h)
	if err != nil {
		return Reply{}, err
	}
	h, err = d.store.StartHeap(d.ctx, h, d.call.By, d.call.Now)
	if err != nil {
		return Reply{}, err
	}
	offer, err := d.firstReminder()
	return Reply{
		Headline: d.in.Say("%s is started: %s.", h.Name, d.sayHeap(h)),
		Body: []Block{{Lines: []string{
			d.in.Say("Say what goes on it: %s", "log add "+d.example()+" heap:\""+h.Name+"\""),
			d.in.Say("Before it goes on: %s", "mix "+d.example()),
		}}},
		Actions: append([]Action{d.addAction(h)}, offer...),
		Values:  map[string]Value{"heap": {h.Name, ""}},
	}, err
}

// sizeInName is a name with words behind it that are its size.
var sizeInName = regexp.MustCompile(`(?i)^(.+?),? size (\d.*)$`)

func heapName(said string) (string, error) {
	name := oneLine(strings.Trim(said, " \"“”'"))
	switch n := utf8.RuneCountInString(name); {
	case n == 0:
		return "", fault.New(fault.Missing, "A heap needs a name, e.g. heap start North Bay")
	case n > maxName:
		return "", fault.New(fault.TooLong, "That name is %d characters long; up to %d fit. Please shorten it.", n, maxName)
	case sizeInName.MatchString(name):
		m := sizeInName.FindStringSubmatch(name)
		return "", fault.New(fault.NotUnderstood, "“%s” says a size as well. Write: heap start %s size:\"%s\"", quote(name), m[1], m[2])
	case strings.ContainsAny(name, "\""):
		return "", fault.New(fault.NotUnderstood, "A heap's name cannot hold quotation marks: “%s”.", quote(name))
	}
	return name, nil
}

// sayHeap says what holds a heap, what covers it and what the group wants of it.
func (d *desk) sayHeap(h heap.Heap) string {
	container, aim := d.in.Word(string(h.Container)), d.in.Word(string(h.Aim))
	covered := h.Cover != "" && h.Cover != "none"
	switch {
	case h.SizeL > 0 && covered:
		return d.in.Say("%s of %s, %s, aim %s", container, d.local.SayBulk(h.SizeL), d.in.Word(h.Cover), aim)
	case h.SizeL > 0:
		return d.in.Say("%s of %s, aim %s", container, d.local.SayBulk(h.SizeL), aim)
	case covered:
		return d.in.Say("%s, %s, aim %s", container, d.in.Word(h.Cover), aim)
	}
	return d.in.Say("%s, aim %s", container, aim)
}

// Sizes a heap can have, in litres: a lidded bucket to a municipal windrow. Own choice.
const minHeapL, maxHeapL = 10, 100_000

// attributes sets the options that were given on h and returns what changed.
func (d *desk) attributes(h heap.Heap) (heap.Heap, []heap.Changed, error) {
	was := h
	for option, read := range map[string]func(string) (string, error){
		"name": heapName, "container": asSaid, "size": d.heapSize, "cover": shortWord, "aim": asSaid,
	} {
		said := d.arg(option)
		if said == "" {
			continue
		}
		text, err := read(said)
		if err != nil {
			return h, nil, d.doubt(option, err)
		}
		if h, err = h.WithAttribute(option, text); err != nil {
			return h, nil, err
		}
	}
	var changes []heap.Changed
	for _, field := range heap.Attributes {
		if from, to := was.Attribute(field), h.Attribute(field); from != to {
			changes = append(changes, heap.Changed{Field: field, From: from, To: to})
		}
	}
	return h, changes, nil
}

func asSaid(said string) (string, error) { return said, nil }

func shortWord(said string) (string, error) {
	return strings.ToLower(clip(oneLine(said), maxName)), nil
}

// heapSize reads a heap's volume and writes it as the record keeps it.
func (d *desk) heapSize(said string) (string, error) {
	amount, err := d.local.ParseAmount(said)
	if err != nil {
		return "", err
	}
	volume, ok := amount.Volume()
	if !ok || volume.Typical < minHeapL || volume.Typical > maxHeapL {
		return "", fault.New(fault.OutOfRange, "“%s” is no size for a heap. Say its volume, e.g. 1 m3, 300 litres or 35 cubic feet.", quote(said))
	}
	return heap.Heap{SizeL: math.Round(volume.Typical*10) / 10}.Attribute("size"), nil
}

func (d *desk) heapChange() (Reply, error) {
	h, err := d.heap("heap")
	if err != nil {
		return Reply{}, err
	}
	h, changes, err := d.attributes(h)
	if err != nil {
		return Reply{}, err
	}
	if len(changes) == 0 {
		return Reply{}, &unsaid{
			sentence: fault.New(fault.Missing, "What should change about %s? Say name:, container:, size:, cover: or aim: with something new.", h.Name),
			option:   "name", also: []string{"container", "size", "cover", "aim"},
		}
	}
	entries := make([]heap.Entry, len(changes))
	for i, c := range changes {
		entries[i] = d.newEntry(h, d.call.Now, c)
	}
	stored, err := d.store.ChangeHeap(d.ctx, h, entries...)
	if err != nil {
		return Reply{}, err
	}
	var said []string
	for _, e := range stored {
		said = append(said, d.say(e))
	}
	return Reply{Headline: d.in.Say("%s: %s.", h.Name, speech.Joined{Words: said, Last: "and"}),
		Actions: []Action{{Label: d.in.Word("Undo"), Line: "undo " + entryRange(stored)}}}, nil
}

func (d *desk) heapFinish() (Reply, error) {
	h, err := d.heap("heap")
	if err != nil {
		return Reply{}, err
	}
	if !h.Finished.IsZero() {
		return Reply{}, fault.New(fault.Unknown, "%s is finished already, since %s.", h.Name, d.day(h.Finished))
	}
	var done heap.Finished
	if v := d.arg("yield"); v != "" {
		amount, err := d.local.ParseAmount(v)
		if err != nil {
			return Reply{}, d.doubt("yield", err)
		}
		volume, ok := amount.Volume()
		if !ok {
			return Reply{}, d.doubt("yield", fault.New(fault.NotUnderstood, "“%s” is a weight. Say the yield as a volume, e.g. 6 barrows.", quote(v)))
		}
		done.YieldL = volume.Typical
	}
	h.Finished = d.call.Now
	stored, err := d.store.ChangeHeap(d.ctx, h, d.newEntry(h, d.call.Now, done))
	if err != nil {
		return Reply{}, err
	}
	return Reply{Headline: d.in.Say("%s is %s. Its record stays: %s", h.Name, d.say(stored[0]), "history heap:\""+h.Name+"\""),
		Actions: []Action{{Label: d.in.Word("Undo"), Line: "undo " + entryRange(stored)}}}, nil
}
