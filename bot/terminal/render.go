// Package terminal is the local chat: the same commands as everywhere, typed
// into a terminal or piped in, answered as plain text.
package terminal

import (
	"fmt"
	"strings"

	"heapside/commands"
)

// Render prints a reply as plain text lines of at most Width columns, ending
// with a newline: the headline, the blocks, cautions, what it rests on, the
// attachments and the numbered actions.
func Render(r commands.Reply) string {
	var p printer
	if r.To.ID != "" {
		r.Headline = r.To.Name + ": " + r.Headline
	}
	p.line("", r.Headline)
	for _, b := range r.Body {
		p.block(b)
	}
	labels := r.Labels()
	for _, c := range r.Cautions {
		p.line("  ", labels.CautionLine+" "+c)
	}
	if len(r.Basis) > 0 {
		p.line("  ", labels.RestsOnLine+" "+strings.TrimSuffix(strings.Join(r.Basis, "; "), ".")+".")
	}
	for _, f := range r.Files {
		p.verbatim(f.Text)
		p.line("  ", fmt.Sprintf("%s %s, %s. %s", labels.AttachedLine, f.Name, size(len(f.Data)), f.Alt))
	}
	for i, a := range r.Actions {
		p.line("  ", fmt.Sprintf("[%d] %s", i+1, a.Label))
	}
	return p.String()
}

// size prints a byte count in the largest unit that leaves a number of 1 or more.
func size(n int) string {
	if n < 1000 {
		return fmt.Sprintf("%d bytes", n)
	}
	return fmt.Sprintf("%.1f kB", float64(n)/1000)
}

type printer struct{ strings.Builder }

func (p *printer) line(indent, s string) {
	for _, l := range wrap(Clean(s), indent, Width) {
		p.WriteString(l)
		p.WriteByte('\n')
	}
}

// verbatim prints lines of one width as they are.
func (p *printer) verbatim(text string) {
	for line := range strings.Lines(text) {
		p.WriteString("  " + Clean(strings.TrimRight(line, "\n")) + "\n")
	}
}

func (p *printer) block(b commands.Block) {
	indent := "  "
	if b.Title != "" {
		p.line(indent, b.Title+":")
		indent += "  "
	}
	for _, l := range b.Lines {
		p.line(indent, l)
	}
}
