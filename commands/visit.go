package commands

import (
	"strings"

	"heapside/calc/fault"
	"heapside/calc/heap"
)

// sight is one thing that somebody who visits a heap may have seen or done.
// read returns nil when the words say that there was nothing of it.
type sight struct {
	option, summary string
	label, example  string
	long            bool
	kind            OptionKind
	choices         []Choice
	read            func(d *desk, said string) (heap.Payload, error)
}

// sights are what a visit may bring, in the order in which it is done: the
// thermometer goes in before the fork.
func (d *desk) sights() []sight {
	return []sight{
		{option: "temp", summary: "the temperature, e.g. 58 or 58 at 40 cm", label: d.in.Say("Temperature in %s", d.degrees()),
			example: d.in.Say("%s, or %s", d.exampleDegrees(), d.exampleDegrees()+" at 40 cm"), read: (*desk).seenTemp},
		{option: "squeeze", summary: "what a squeezed handful did", example: d.in.Word("crumbles, holds, drops, drips or runs"), kind: Hint, choices: squeezeChoices,
			label: d.in.Word("A squeezed handful"), read: (*desk).seenSqueeze},
		{option: "turned", summary: "yes if it was turned, and how if it matters", kind: Hint, choices: picks("yes", "", "no", ""), example: d.in.Word("yes; or how, e.g. only the top half"),
			label: d.in.Word("Turned?"), read: (*desk).seenTurned},
		{option: "water", summary: "how much water it got, e.g. 2 cans", example: "20 litres, 2 cans", kind: Water,
			label: d.in.Word("Water poured on"), read: (*desk).seenWater},
		{option: "note", summary: "anything else worth keeping", example: d.in.Word("anything else worth keeping"), long: true,
			label: d.in.Word("Note"), read: func(_ *desk, said string) (heap.Payload, error) {
				text, err := note(said)
				return heap.Note{Text: text}, err
			}},
	}
}

// visitOptions are the options of log visit. None is needed: without any it asks.
func visitOptions() []Option {
	var options []Option
	for _, s := range (&desk{}).sights() {
		options = append(options, Option{Name: s.option, Summary: s.summary, Kind: s.kind, Choices: s.choices})
	}
	return options
}

// logVisit puts all that a visit brought on the record in one go, or nothing.
func (d *desk) logVisit() (Reply, error) {
	h, at, err := d.target()
	if err != nil {
		return Reply{}, err
	}
	var payloads []heap.Payload
	var wrong, lines []string
	said := false
	for _, s := range d.sights() {
		words := d.arg(s.option)
		if words == "" {
			continue
		}
		said = true
		p, err := s.read(d, words)
		e, forPeople := fault.As(err)
		switch {
		case forPeople:
			wrong = append(wrong, d.in.Say("%s: %s", strings.Trim(s.label, "¿?\u00a0 "), faultIn(d.in, e)))
		case err != nil:
			return Reply{}, err
		case p != nil:
			payloads = append(payloads, p)
		}
	}
	switch {
	case len(wrong) > 0:
		return Reply{}, fault.New(fault.NotUnderstood, "%s Nothing was logged.", strings.Join(wrong, " "))
	case !said:
		return d.askVisit(h), nil
	case len(payloads) == 0:
		return Reply{}, fault.New(fault.Missing, "That leaves nothing to log for %s. Say a temperature, a squeeze, a turning, water or a note.", h.Name)
	}
	if reading, ok := payloads[0].(heap.Temp); ok {
		held, err := d.heldLine(h, heap.Reading{At: at, C: reading.C, DepthCm: reading.DepthCm})
		if err != nil {
			return Reply{}, err
		}
		lines = appendNew(lines, held)
	}
	return d.save(h, at, lines, payloads...)
}

// askVisit asks for all that a visit may bring.
func (d *desk) askVisit(h heap.Heap) Reply {
	args := map[string]string{"heap": h.Name, "when": d.arg("when")}
	line := typed("log visit", args, []Option{heapOption, whenOption})
	var fields []Field
	for _, s := range d.sights() {
		fields = append(fields, Field{Option: s.option, Label: s.label, Example: s.example, Long: s.long})
	}
	return Reply{
		Private:  true,
		Headline: d.in.Say("What was there to see at %s? What is left blank is not logged.", h.Name),
		Body:     []Block{{Lines: []string{line + " temp:" + d.exampleDegrees() + " squeeze:drops turned:yes water:\"2 cans\" note:\"smells of earth\""}}},
		Form:     form(d.in.Say("A visit to %s", h.Name), line, fields...),
	}
}

func (d *desk) seenTemp(said string) (heap.Payload, error) { return d.readTemp(said, "", "") }

// seenSqueeze takes a class, or words that mean one.
func (d *desk) seenSqueeze(said string) (heap.Payload, error) {
	class, err := pick(Option{Name: "squeeze", Choices: squeezeChoices}, said)
	if err != nil {
		if class = meant(strings.ToLower(oneLine(said)), squeezes); class == "" {
			return nil, err
		}
	}
	return heap.Feel{Squeeze: heap.Squeeze(class)}, nil
}

// The words that answer whether something was done.
var (
	yesWords = []string{"yes", "y", "x", "yep", "yeah", "ja", "oui", "sí", "si", "done", "turned", "true", "ok", "✓"}
	noWords  = []string{"no", "n", "-", "none", "not", "not yet", "nope", "nein", "non", "nee", "nothing", "false", "0"}
)

// seenTurned takes yes, no, or how it was done.
func (d *desk) seenTurned(said string) (heap.Payload, error) {
	if says(said, noWords...) {
		return nil, nil
	}
	how, err := note(said)
	if err != nil {
		return nil, err
	}
	if says(how, yesWords...) {
		return heap.Turned{}, nil
	}
	first, rest, _ := strings.Cut(how, " ")
	switch {
	case says(strings.Trim(first, ",;"), yesWords...):
		how = strings.TrimSpace(rest)
	case says(strings.Trim(first, ",;"), noWords...):
		return nil, fault.New(fault.NotUnderstood, "“%s” could be a yes or a no. Say yes, how it was turned, or leave it blank.", quote(said))
	}
	return heap.Turned{Note: how}, nil
}

// seenWater takes an amount, yes when nobody measured, or no.
func (d *desk) seenWater(said string) (heap.Payload, error) {
	switch {
	case says(said, noWords...):
		return nil, nil
	case says(said, yesWords...):
		return heap.Watered{}, nil
	}
	return d.readWater(said)
}
