package discord

import (
	"strings"
	"unicode"
	"unicode/utf8"
)

// always holds the characters that mean something anywhere in a message:
// emphasis, code, spoilers, links, mentions and the escape itself.
const always = "\\`*_~|<>[]()@"

// atLineStart holds the characters that mean something only before a line:
// headings, small print, lists.
const atLineStart = "#-+"

// Escape turns plain text into a message that shows exactly that text: no
// emphasis, heading, list, link, mention or emoji code comes out of it. Line
// breaks stay; control, bidirectional and other invisible characters go.
func Escape(text string) string {
	text = plain(text)
	var b strings.Builder
	b.Grow(len(text) + len(text)/8)
	lineStart, digits := true, false
	for i, r := range text {
		switch {
		case strings.ContainsRune(always, r),
			lineStart && strings.ContainsRune(atLineStart, r),
			digits && r == '.', // "1." would begin a list
			r == ':' && colonMeans(text[i+1:]):
			b.WriteByte('\\')
		}
		b.WriteRune(r)
		digits = unicode.IsDigit(r) && (lineStart || digits)
		lineStart = r == '\n' || lineStart && r == ' '
	}
	return b.String()
}

// colonMeans reports whether a colon followed by rest begins an emoji code
// (":name:") or makes a link of what is before it ("https://").
func colonMeans(rest string) bool {
	if strings.HasPrefix(rest, "//") {
		return true
	}
	end := strings.IndexFunc(rest, func(r rune) bool {
		return r != '_' && r != '+' && r != '-' && !unicode.IsLetter(r) && !unicode.IsDigit(r)
	})
	return end > 0 && rest[end] == ':'
}

// plain drops what cannot be seen: invalid UTF-8, control characters but line
// breaks, and format characters (zero width, bidirectional marks and
// overrides, tags). Tabs and the Unicode line ends become blanks and breaks.
func plain(text string) string {
	return strings.Map(func(r rune) rune {
		switch {
		case r == '\n':
			return r
		case r == '\t', r == '\r':
			return ' '
		case r == '\u2028', r == '\u2029', r == '\u0085':
			return '\n'
		case r == utf8.RuneError, unicode.Is(unicode.Cc, r), unicode.Is(unicode.Cf, r), unicode.Is(unicode.Co, r):
			return -1
		}
		return r
	}, strings.ToValidUTF8(text, ""))
}

// oneLine is plain text without line breaks and runs of blanks.
func oneLine(text string) string { return strings.Join(strings.Fields(plain(text)), " ") }

// units is the length the platform may count: UTF-16 code units, which is
// never less than the number of characters.
func units(text string) int {
	n := 0
	for _, r := range text {
		n += runeUnits(r)
	}
	return n
}

func runeUnits(r rune) int {
	if r > 0xFFFF {
		return 2
	}
	return 1
}

// cut shortens text to at most limit units, ending in an ellipsis when
// something was cut. It never leaves half of an escape behind.
func cut(text string, limit int) string {
	if units(text) <= limit {
		return text
	}
	n, end := 1, 0 // one unit for the ellipsis
	for i, r := range text {
		if n+runeUnits(r) > limit {
			break
		}
		n += runeUnits(r)
		end = i + utf8.RuneLen(r)
	}
	kept := text[:end]
	if slashes := len(kept) - len(strings.TrimRight(kept, `\`)); slashes%2 == 1 {
		kept = kept[:len(kept)-1]
	}
	return kept + "…"
}
