package measure

import (
	"fmt"
	"math"
	"strings"
)

// Speaker says whole sentences in a language; the English ones are the keys.
type Speaker interface {
	Say(format string, args ...any) string // as fmt.Sprintf does
	Word(text string) string               // a text without arguments
}

// Style is how a language writes amounts. The zero Style is English.
type Style struct {
	Language     string            // language tag; empty in English
	Point, Group string            // before decimals and between thousands; "." and "," when empty
	OneBelow     float64           // amounts below it are singular, as is 1; at least 1
	Words        map[string]string // what stands for the English words of units and phrases; a word that is missing is English
	Speaker      Speaker           // of sentences; nil speaks English
}

// Say is fmt.Sprintf in the language of the style: format is the English sentence.
func (m Measures) Say(format string, args ...any) string {
	if m.Style.Speaker == nil {
		return fmt.Sprintf(format, args...)
	}
	return m.Style.Speaker.Say(format, args...)
}

// Word is a text without arguments in the language of the style.
func (m Measures) Word(text string) string {
	if m.Style.Speaker == nil {
		return text
	}
	return m.Style.Speaker.Word(text)
}

// word is an English word of this package in the style.
func (s Style) word(english string) string {
	if said, ok := s.Words[english]; ok {
		return said
	}
	if r := s.reading(); r != nil && r.said[english] != "" {
		return r.said[english]
	}
	return english
}

// phrase puts a text in the place of the %s of an English phrase.
func (s Style) phrase(english, text string) string {
	return strings.Replace(s.word(english), "%s", text, 1)
}

// number writes a number that was printed in English.
func (s Style) number(english string) string {
	if s.Point == "" || s.Group == "" {
		return english
	}
	return strings.Map(func(r rune) rune {
		switch r {
		case '.':
			return []rune(s.Point)[0]
		case ',':
			return []rune(s.Group)[0]
		}
		return r
	}, english)
}

// say writes a number as Say does.
func (s Style) say(v float64) string { return s.number(Say(v)) }

// counted writes v of a unit: "half a bucket", "1 bucket", "2½ buckets".
func (s Style) counted(v float64, one, many string) string {
	switch {
	case math.Abs(v-0.5) < nearQuarter && strings.ContainsAny(one[:1], "aeiou"):
		return s.phrase("half an %s", s.word(one))
	case math.Abs(v-0.5) < nearQuarter:
		return s.phrase("half a %s", s.word(one))
	case math.Abs(v-1) < nearQuarter:
		return "1 " + s.word(one)
	case v < max(1, s.OneBelow) && v > 0:
		return s.say(v) + " " + s.word(one)
	}
	return s.say(v) + " " + s.word(many)
}

// lessThan writes an amount that is below the least that is said.
func (s Style) lessThan(said string) string { return s.phrase("less than %s", said) }
