package chart

import (
	"strings"
	"unicode"
)

// maxName is how many characters of a heap's name are shown. Own choice: more
// do not fit a phone.
const maxName = 40

// cleanName makes a name fit to show on one line: without control characters
// and the marks that reorder text, blanks run together, cut to maxName.
func cleanName(name string) string {
	name = strings.Map(func(r rune) rune {
		switch {
		case unicode.IsSpace(r):
			return ' '
		case unicode.In(r, unicode.Cc, unicode.Cf, unicode.Co, unicode.Zl, unicode.Zp):
			return -1
		}
		return r
	}, strings.ToValidUTF8(name, ""))
	name = clip(strings.Join(strings.Fields(name), " "), maxName)
	if name == "" {
		return "The heap"
	}
	return name
}

// clip shortens a text to n characters, marking the cut.
func clip(s string, n int) string {
	runes := []rune(s)
	if len(runes) <= n {
		return s
	}
	return strings.TrimSpace(string(runes[:n-1])) + "…"
}
