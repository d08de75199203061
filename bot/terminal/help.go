package terminal

import (
	"strings"

	"heapside/commands"
)

// local are the words the chat itself answers.
var local = []struct{ name, use, summary string }{
	{"help", "help [COMMAND]", "this list, or one command with its options"},
	{"save", "save [FOLDER]", "write the attachments of the last answer to files"},
	{"quit", "quit", "leave (Ctrl-D does too)"},
}

func localNames() []string {
	out := make([]string, len(local))
	for i, l := range local {
		out[i] = l.name
	}
	return out
}

// Help prints the catalogue, or the command that words name, with its options.
// It reports false when words name no command.
func Help(catalogue []commands.Command, words string) (string, bool) {
	list, _ := split(words)
	if len(list) == 0 {
		return overview(catalogue), true
	}
	cmd, path, rest := walk(catalogue, list)
	if cmd == nil || len(rest) > 0 {
		return "", false
	}
	return one(*cmd, path), true
}

func overview(catalogue []commands.Command) string {
	var p printer
	var rows [][2]string
	for _, c := range catalogue {
		rows = append(rows, [2]string{c.Name, c.Summary})
	}
	p.line("", "What can be asked (help COMMAND tells more):")
	p.table(rows)
	rows = rows[:0]
	for _, l := range local {
		rows = append(rows, [2]string{l.use, l.summary})
	}
	p.line("", "In this chat:")
	p.table(rows)
	p.line("", "A number in brackets after an answer is a button: type the number to press it.")
	return p.String()
}

func one(c commands.Command, path string) string {
	var p printer
	p.line("", usage(c, path))
	p.line("  ", c.Summary)
	var rows [][2]string
	for _, s := range c.Subs {
		rows = append(rows, [2]string{s.Name, s.Summary})
	}
	for _, o := range c.Options {
		rows = append(rows, [2]string{o.Name, optionText(o)})
	}
	p.table(rows)
	return p.String()
}

// usage is the pattern of a command: the loose words first, options that may
// be left out in brackets.
func usage(c commands.Command, path string) string {
	parts := []string{path}
	if len(c.Subs) > 0 {
		parts = append(parts, strings.ToUpper(strings.Join(names(c.Subs), "|")))
	}
	for _, words := range []bool{true, false} {
		for _, o := range c.Options {
			if o.Words != words {
				continue
			}
			part := strings.ToUpper(o.Name)
			if !o.Words {
				part = o.Name + ":" + part
			}
			if !o.Required {
				part = "[" + part + "]"
			}
			parts = append(parts, part)
		}
	}
	return strings.Join(parts, " ")
}

func optionText(o commands.Option) string {
	text := o.Summary
	if len(o.Choices) > 0 {
		picks := make([]string, len(o.Choices))
		for i, c := range o.Choices {
			picks[i] = c.Value
		}
		text += " (" + strings.Join(picks, ", ") + ")"
	}
	if o.Required {
		text += "; needed"
	}
	return text
}

// table prints two columns, the first as wide as its longest cell.
func (p *printer) table(rows [][2]string) {
	wide := 0
	for _, r := range rows {
		wide = max(wide, columns.StringWidth(r[0]))
	}
	for _, r := range rows {
		p.hanging("  "+columns.FillRight(r[0], wide)+"  ", r[1])
	}
}

// hanging prints text after a label; further lines start under the text.
func (p *printer) hanging(label, text string) {
	under := strings.Repeat(" ", columns.StringWidth(label))
	for i, l := range wrap(Clean(text), "", Width-len(under)) {
		if i == 0 {
			p.WriteString(label + l + "\n")
			continue
		}
		p.WriteString(under + strings.TrimLeft(l, " ") + "\n")
	}
}
