package terminal

import (
	"strings"
	"unicode"

	"heapside/commands"
)

// word is one word of a typed line: where it starts, and its text without the
// quotes. Name is set when the word reads name:value.
type word struct {
	start, end int // bytes of the line, quotes included
	name       string
	text       string
}

// split reads a line that may still be unfinished: a quote may be open. It
// reports whether the last word is still being typed (no blank after it).
func split(line string) (words []word, open bool) {
	var (
		text   strings.Builder
		cur    word
		quoted bool
	)
	finish := func(end int) {
		if !open {
			return
		}
		cur.end, cur.text = end, text.String()
		words = append(words, cur)
		open = false
	}
	for i, r := range line {
		if r == ' ' && !quoted {
			finish(i)
			continue
		}
		if !open {
			cur, open = word{start: i}, true
			text.Reset()
		}
		switch {
		case r == '"':
			quoted = !quoted
		case r == ':' && !quoted && cur.name == "" && isName(text.String()):
			cur.name = text.String()
			text.Reset()
		default:
			text.WriteRune(r)
		}
	}
	stillOpen := open
	finish(len(line))
	return words, stillOpen
}

// isName reports whether s can be the name of an option.
func isName(s string) bool {
	for _, r := range s {
		if r < 'a' || r > 'z' {
			return false
		}
	}
	return s != ""
}

// quote puts a value in quotes when it holds blanks: in angle quotes when it
// holds a double quote itself.
func quote(value string) string {
	switch {
	case !strings.ContainsFunc(value, unicode.IsSpace) || strings.HasPrefix(value, `"`):
		return value
	case strings.Contains(value, `"`):
		return "«" + value + "»"
	}
	return `"` + value + `"`
}

// JoinArgs builds the typed line from the arguments of a shell, which took the
// quotes away: heap:North Bay, given as one argument, gets them back.
func JoinArgs(args []string, catalogue []commands.Command) string {
	options := optionNames(catalogue)
	words := make([]string, len(args))
	for i, arg := range args {
		words[i] = arg
		name, value, ok := strings.Cut(arg, ":")
		if ok && options[name] && !strings.HasPrefix(value, " ") {
			words[i] = name + ":" + quote(value)
		}
	}
	return strings.Join(words, " ")
}

// optionNames is the set of option names of a whole catalogue.
func optionNames(catalogue []commands.Command) map[string]bool {
	names := map[string]bool{}
	for _, c := range catalogue {
		for _, o := range c.Options {
			names[o.Name] = true
		}
		for name := range optionNames(c.Subs) {
			names[name] = true
		}
	}
	return names
}
