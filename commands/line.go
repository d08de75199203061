package commands

import (
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"heapside/calc/fault"
)

// parse reads a typed line: command, subcommand, then words and name:value
// pairs in any order. A value with blanks stands in double quotes; it needs
// none when it is a known heap name, or when the words came before it.
func (a *Assistant) parse(line string, heaps []string) (path string, args map[string]string, err error) {
	line = strings.TrimSpace(strings.TrimPrefix(strings.TrimSpace(clean(line)), "/"))
	if line == "" {
		return "", nil, fault.New(fault.Missing, "There was nothing to read. Try “mix 2 buckets of grass clippings”, or “guide”.")
	}
	command, rest, ok := a.leading(line)
	if !ok {
		return "ask", map[string]string{"words": line}, nil
	}
	path = command.Name
	if command.Run == nil {
		word, after := firstWord(rest)
		sub, ok := named(command.Subs, word)
		if word == "" {
			sub, ok = showing(command.Subs)
		}
		if !ok {
			return "", nil, withLeads(fault.New(fault.NotUnderstood, "“%s” needs one of: %s.", command.Name, subNames(command)), subActions(command)...)
		}
		path, command, rest = path+" "+sub.Name, sub, after
	}
	args = splitArgs(command, rest, heaps)
	return path, args, nil
}

// leading finds the command a line begins with.
func (a *Assistant) leading(line string) (Command, string, bool) {
	word, rest := firstWord(line)
	command, ok := named(a.catalogue, strings.TrimRight(word, "?!.:"))
	return command, rest, ok
}

func named(commands []Command, name string) (Command, bool) {
	for _, c := range commands {
		if strings.EqualFold(c.Name, name) {
			return c, true
		}
	}
	return Command{}, false
}

// showing is the subcommand that a command by itself means: the one that only
// shows what there is, if there is one.
func showing(subs []Command) (Command, bool) {
	if list, ok := named(subs, "list"); ok {
		return list, true
	}
	return named(subs, "show")
}

func subNames(c Command) string {
	names := make([]string, len(c.Subs))
	for i, s := range c.Subs {
		names[i] = s.Name
	}
	return strings.Join(names, ", ")
}

// subActions are a command's subcommands to pick from, each by what it does.
func subActions(c Command) []Action {
	var actions []Action
	for _, s := range c.Subs[:min(len(c.Subs), maxChoices)] {
		actions = append(actions, Action{Label: s.Summary, Line: c.Name + " " + s.Name, Group: whichOne})
	}
	return actions
}

func firstWord(s string) (word, rest string) {
	s = strings.TrimLeftFunc(s, unicode.IsSpace)
	end := strings.IndexFunc(s, unicode.IsSpace)
	if end < 0 {
		return s, ""
	}
	return s[:end], s[end:]
}

// splitArgs sorts the rest of a line into options. Words that no name:value
// claims go, with their line breaks, to the option that takes words.
func splitArgs(command Command, rest string, heaps []string) map[string]string {
	args := map[string]string{}
	var words strings.Builder
	open := "" // the option whose value the next loose word goes on with
	for {
		gap := len(rest) - len(strings.TrimLeftFunc(rest, unicode.IsSpace))
		space := rest[:gap]
		rest = rest[gap:]
		if rest == "" {
			break
		}
		if option, after, ok := optionAt(command, rest); ok {
			var whole bool
			args[option.Name], rest, whole = takeValue(option, after, heaps)
			open = ""
			if goesOn(option, args[option.Name]) && !whole && (words.Len() > 0 || takesHeap(command)) {
				open = option.Name
			}
			continue
		}
		if words.Len() == 0 && longestPrefix(rest, heaps) > 0 {
			open = ""
		}
		word, after, quoted := takeQuoted(rest)
		if !quoted {
			word, after = firstWord(rest)
		}
		rest = after
		switch {
		case word == "":
		case open != "":
			args[open] += " " + word
		default:
			if words.Len() > 0 {
				words.WriteString(separator(space))
			}
			words.WriteString(word)
		}
	}
	said := placeWhen(command, args, words.String())
	said = placeHeap(command, args, said, heaps)
	placeWords(command, args, placeWhen(command, args, said))
	return args
}

// goesOn reports whether the words after an option's value belong to it once
// the loose words have been said: "log temp 58 depth:40 cm", "from:straw, hay".
func goesOn(option Option, value string) bool {
	switch option.Kind {
	case Text, HeapName, Hint, Water, Moment, EntryNumber, ZoneName, OpenJob, Person, Row, Topic:
		return true
	case Material, Load:
		return strings.HasSuffix(value, ",")
	}
	return false
}

// takesHeap reports whether the loose words of a command are a heap's name, which
// is known when it comes: "heap change size:1.5 m3 north bay".
func takesHeap(command Command) bool {
	return slices.ContainsFunc(command.Options, func(o Option) bool { return o.Words && o.Kind == HeapName })
}

func separator(space string) string {
	if strings.ContainsRune(space, '\n') {
		return "\n"
	}
	return " "
}

// optionAt reports the option whose "name:" stands at the start of s.
func optionAt(command Command, s string) (Option, string, bool) {
	name, after, ok := strings.Cut(s, ":")
	if !ok || strings.ContainsFunc(name, unicode.IsSpace) {
		return Option{}, "", false
	}
	for _, o := range command.Options {
		if strings.EqualFold(o.Name, name) {
			return o, after, true
		}
	}
	return Option{}, "", false
}

// takeValue reads an option's value: quoted, a known heap name or a choice,
// which are whole, or one word.
func takeValue(option Option, s string, heaps []string) (value, rest string, whole bool) {
	s = strings.TrimLeftFunc(s, unicode.IsSpace)
	if value, rest, ok := takeQuoted(s); ok {
		return value, rest, true
	}
	known := heaps
	if option.Kind != HeapName {
		known = nil
		for _, c := range option.Choices {
			known = append(known, c.Value)
		}
	}
	if n := longestPrefix(s, known); n > 0 {
		return s[:n], s[n:], true
	}
	value, rest = firstWord(s)
	return value, rest, false
}

// longestPrefix is the length of the longest name that s begins with, case
// folded and ending at a word's end; 0 when none.
func longestPrefix(s string, names []string) int {
	best := 0
	for _, name := range names {
		if len(name) > best && len(s) >= len(name) && strings.EqualFold(s[:len(name)], name) {
			next, _ := utf8.DecodeRuneInString(s[len(name):])
			if len(s) == len(name) || unicode.IsSpace(next) {
				best = len(name)
			}
		}
	}
	return best
}

// typed writes a call as the line a person would type.
func typed(path string, args map[string]string, options []Option) string {
	var b strings.Builder
	b.WriteString(path)
	for _, words := range []bool{true, false} {
		for _, o := range options {
			value := args[o.Name]
			if value == "" || o.Words != words {
				continue
			}
			b.WriteByte(' ')
			switch {
			case words:
				b.WriteString(value)
			case strings.ContainsFunc(value, unicode.IsSpace):
				b.WriteString(o.Name + `:"` + value + `"`)
			default:
				b.WriteString(o.Name + ":" + value)
			}
		}
	}
	return b.String()
}
