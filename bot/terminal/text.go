package terminal

import (
	"strings"
	"unicode"

	"github.com/mattn/go-runewidth"
)

// Width is the number of columns that replies are wrapped to.
const Width = 80

// columns counts what a text takes on screen, the same in every locale: the
// curly quotes of a reply are one column wide.
var columns = &runewidth.Condition{StrictEmojiNeutral: true}

// bidi holds the marks that reorder a line on screen; a name that carries one
// could make a reply read as something else.
var bidi = &unicode.RangeTable{R16: []unicode.Range16{
	{Lo: 0x061C, Hi: 0x061C, Stride: 1},
	{Lo: 0x200E, Hi: 0x200F, Stride: 1},
	{Lo: 0x2028, Hi: 0x202E, Stride: 1},
	{Lo: 0x2066, Hi: 0x2069, Stride: 1},
	{Lo: 0xFEFF, Hi: 0xFEFF, Stride: 1},
}}

// Clean makes text fit to print on one terminal line: no control characters
// (an escape sequence from a pasted name would reach the terminal), no marks
// that reorder text, line ends and tabs as blanks, invalid bytes as U+FFFD.
func Clean(s string) string {
	return strings.Map(func(r rune) rune {
		switch {
		case r == '\n' || r == '\t':
			return ' '
		case unicode.IsControl(r) || unicode.Is(bidi, r):
			return -1
		}
		return r
	}, strings.ToValidUTF8(s, "\uFFFD"))
}

// wrap breaks one cleaned line into lines of at most width columns. The first
// starts with indent; the others hang two columns deeper than the text did.
// Runs of blanks inside a line that fits are kept, so that tables stay aligned.
func wrap(s, indent string, width int) []string {
	s = strings.TrimRight(s, " ")
	text := strings.TrimLeft(s, " ")
	indent += s[:len(s)-len(text)]
	if columns.StringWidth(indent)+columns.StringWidth(text) <= width {
		return []string{strings.TrimRight(indent+text, " ")}
	}
	if len(indent) > width/2 {
		indent = indent[:width/2]
	}
	var lines []string
	line, used := indent, len(indent)
	hang := indent + "  "
	breakLine := func() {
		lines = append(lines, strings.TrimRight(line, " "))
		line, used = hang, len(hang)
	}
	fresh := true
	for word := range strings.FieldsSeq(text) {
		w := columns.StringWidth(word)
		if !fresh && used+1+w > width {
			breakLine()
			fresh = true
		}
		if !fresh {
			line, used = line+" ", used+1
		}
		for used+w > width {
			head := columns.Truncate(word, width-used, "")
			if head == "" { // a rune wider than what is left of an empty line
				break
			}
			line += head
			word = word[len(head):]
			w = columns.StringWidth(word)
			breakLine()
		}
		line, used = line+word, used+w
		fresh = false
	}
	return append(lines, strings.TrimRight(line, " "))
}
