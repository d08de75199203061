package commands

import (
	"maps"
	"strings"
	"unicode/utf8"

	"heapside/calc/fault"
	"heapside/commands/speech"
)

// checkArgs cleans the arguments of a call and holds them against the
// command's options: known names, required ones there, picks among the choices.
func checkArgs(command Command, args map[string]string) (map[string]string, error) {
	checked := make(map[string]string, len(args))
	known := map[string]Option{}
	for _, o := range command.Options {
		known[o.Name] = o
	}
	for name, value := range args {
		option, ok := known[name]
		if !ok {
			return nil, strayArg(command, name, value)
		}
		value = strings.TrimSpace(clean(value))
		if value == "" {
			continue
		}
		if n := utf8.RuneCountInString(value); n > maxArg {
			return nil, fault.New(fault.TooLong, "That is %d characters long; I read up to %d at once. Please split it.", n, maxArg)
		}
		if option.Kind == Pick {
			picked, err := pick(option, value)
			if err != nil {
				return leavingOut(args, name), err
			}
			value = picked
		}
		checked[name] = value
	}
	for _, o := range command.Options {
		if o.Required && checked[o.Name] == "" {
			return checked, missing(o)
		}
	}
	return checked, nil
}

func strayArg(command Command, name, value string) error {
	if name == extraWords {
		return fault.New(fault.NotUnderstood, "I do not know what to do with “%s” there. %s", quote(value), accepts(command))
	}
	return fault.New(fault.Unknown, "There is no “%s:” here. %s", quote(name), accepts(command))
}

// missing is the fault of a required option that was not given.
func missing(o Option) error {
	u := &unsaid{sentence: needed(o), option: o.Name, question: whichOne}
	if o.Kind == Pick {
		for _, c := range o.Choices {
			u.ways = append(u.ways, way{c.Name, c.Value})
		}
	}
	return u
}

func needed(o Option) *fault.Error {
	if o.Kind == Pick {
		return fault.New(fault.Missing, "Please say which %s: %s.", o.Name, choiceNames(o))
	}
	summary := fault.Say(strings.ReplaceAll(strings.TrimRight(o.Summary, ".?!"), "%", "%%"))
	if o.Kind == HeapName {
		return fault.New(fault.Missing, "Please name %s, e.g. %s:\"North Bay\".", summary, o.Name)
	}
	name := "the " + o.Name
	if o.Name == "what" {
		name = "what"
	}
	if strings.HasPrefix(o.Summary, "e.g.") {
		return fault.New(fault.Missing, "Please say %s, %s.", option(name), summary)
	}
	return fault.New(fault.Missing, "Please say %s: %s.", option(name), summary)
}

// option is the name of an option in a sentence: "the reading", and elsewhere
// the name alone.
type option string

// In implements speech.Said.
func (o option) In(s *speech.Speech) string {
	if s == nil {
		return string(o)
	}
	return strings.TrimPrefix(string(o), "the ")
}

// leavingOut are all arguments but one.
func leavingOut(args map[string]string, name string) map[string]string {
	rest := maps.Clone(args)
	delete(rest, name)
	return rest
}

func accepts(command Command) fault.Saying {
	if len(command.Options) == 0 {
		return fault.Say("“%s” stands alone.", command.Name)
	}
	names := make([]string, len(command.Options))
	for i, o := range command.Options {
		names[i] = o.Name + ":"
	}
	return fault.Say("“%s” takes %s.", command.Name, speech.Joined{Words: names, Last: "and"})
}

// pick finds the choice a person means: its value or name, case folded, or
// the only one that begins so.
func pick(o Option, value string) (string, error) {
	folded := strings.ToLower(oneLine(value))
	var begins []Choice
	for _, c := range o.Choices {
		if folded == strings.ToLower(c.Value) || folded == strings.ToLower(c.Name) {
			return c.Value, nil
		}
		if strings.HasPrefix(strings.ToLower(c.Value), folded) || strings.HasPrefix(strings.ToLower(c.Name), folded) {
			begins = append(begins, c)
		}
	}
	if len(begins) == 1 {
		return begins[0].Value, nil
	}
	u := missing(o).(*unsaid)
	u.sentence = fault.New(fault.NotUnderstood, "“%s” is none of the choices for %s: %s.", quote(value), o.Name, choiceNames(o))
	return "", u
}

func choiceNames(o Option) speech.Joined {
	names := make([]string, len(o.Choices))
	for i, c := range o.Choices {
		names[i] = c.Value
	}
	return speech.Joined{Words: names, Last: "or"}
}

// picks builds choices whose shown names are "value: meaning" or the value.
func picks(pairs ...string) []Choice {
	choices := make([]Choice, 0, len(pairs)/2)
	for i := 0; i+1 < len(pairs); i += 2 {
		name := pairs[i]
		if pairs[i+1] != "" {
			name += ": " + pairs[i+1]
		}
		choices = append(choices, Choice{Name: name, Value: pairs[i]})
	}
	return choices
}
