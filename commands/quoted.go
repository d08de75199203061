package commands

import (
	"strings"
	"unicode/utf8"
)

// quotes pairs the double quotes that keyboards produce.
var quotes = map[rune]string{'"': "\"", '“': "”\"", '„': "“”", '«': "»"}

// takeQuoted reads a quoted string at the start of s; an unclosed quote is no quote.
func takeQuoted(s string) (value, rest string, quoted bool) {
	open, size := utf8.DecodeRuneInString(s)
	closing, ok := quotes[open]
	if !ok {
		return "", s, false
	}
	end := strings.IndexAny(s[size:], closing)
	if end < 0 {
		return "", s, false
	}
	_, closeSize := utf8.DecodeRuneInString(s[size+end:])
	return s[size : size+end], s[size+end+closeSize:], true
}
