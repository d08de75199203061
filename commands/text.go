package commands

import (
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"
)

// Limits of what is read and kept, in characters. Own choice: a list of twenty
// materials fits in maxArg, and no chat shows longer names.
const (
	maxArg   = 1000
	maxName  = 60
	maxNote  = 500
	maxQuote = 40
)

// clean removes what must never reach storage or a screen: control and format
// characters (bidirectional marks, zero-width joiners), except line breaks.
func clean(s string) string {
	s = strings.ToValidUTF8(s, "")
	return strings.Map(func(r rune) rune {
		switch {
		case r == '\n':
			return r
		case r == '\t', r == '\r', unicode.Is(unicode.Zl, r), unicode.Is(unicode.Zp, r):
			return ' '
		case unicode.Is(unicode.Cc, r), unicode.Is(unicode.Cf, r), unicode.Is(unicode.Co, r):
			return -1
		}
		return r
	}, s)
}

// oneLine collapses all white space.
func oneLine(s string) string { return strings.Join(strings.Fields(s), " ") }

// clip shortens s to n characters, marking the cut.
func clip(s string, n int) string {
	if utf8.RuneCountInString(s) <= n {
		return s
	}
	return strings.TrimSpace(string([]rune(s)[:n-1])) + "…"
}

// quote prepares what somebody typed for being quoted back.
func quote(s string) string { return clip(oneLine(s), maxQuote) }

// list joins words as a sentence does: "a, b or c".
func list(words []string, last string) string {
	switch len(words) {
	case 0:
		return ""
	case 1:
		return words[0]
	}
	return strings.Join(words[:len(words)-1], ", ") + " " + last + " " + words[len(words)-1]
}

// capital makes the first letter upper case.
func capital(s string) string {
	r, size := utf8.DecodeRuneInString(s)
	return string(unicode.ToUpper(r)) + s[size:]
}

// lower makes the first letter lower case.
func lower(s string) string {
	r, size := utf8.DecodeRuneInString(s)
	return string(unicode.ToLower(r)) + s[size:]
}

// appendNew appends s unless it is empty or there already.
func appendNew(list []string, s string) []string {
	if s == "" || slices.Contains(list, s) {
		return list
	}
	return append(list, s)
}

// useKey turns a name into a key for programs: "seed mixes" to "seed_mixes".
func useKey(name string) string { return strings.ReplaceAll(strings.ToLower(name), " ", "_") }
