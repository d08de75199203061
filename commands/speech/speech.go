// Package speech says the assistant's sentences in the languages of its groups.
// The English sentence, as it stands in the code, is the key of each; the files
// in words hold what stands for it elsewhere. A sentence that a file lacks is
// said in English: tests find the gap, people do not.
package speech

import (
	"fmt"
	"strings"

	"golang.org/x/text/language"
	"golang.org/x/text/message"
)

// Speech says sentences in one language. The nil Speech speaks British English,
// as the code is written. It is safe for use by several goroutines.
type Speech struct {
	tongue
	printer *message.Printer
	words   map[string]string // what stands for each key, in the plural where a number decides
}

// Said is an argument whose words depend on the language.
type Said interface {
	// In is what is said of it in a language.
	In(s *Speech) string
}

// Of is the speech of the first of some language tags that anybody here speaks,
// such as "de", "de-AT" or "es-419"; nil, British English, when none is spoken.
// An empty tag is passed over.
func Of(tags ...string) *Speech {
	for _, said := range tags {
		tag, err := language.Parse(said)
		if err != nil || said == "" {
			continue
		}
		if _, i, sure := spoken().matcher.Match(tag); sure >= language.High {
			return spoken().all[i]
		}
		return nil
	}
	return nil
}

// Code is the tag of the language, such as "de" or "en-GB".
func (s *Speech) Code() string { return s.own().code }

// Name is what the speakers of the language call it.
func (s *Speech) Name() string { return s.own().name }

// Knows reports whether a sentence has words of its own in the language.
func (s *Speech) Knows(key string) bool {
	if s == nil {
		return false
	}
	_, known := s.words[key]
	return known
}

// Say is fmt.Sprintf in the language: key is the English format. An argument
// that is Said speaks for itself.
func (s *Speech) Say(key string, args ...any) string {
	said := make([]any, len(args))
	for i, a := range args {
		if words, ok := a.(Said); ok {
			a = words.In(s)
		}
		said[i] = a
	}
	if !s.Knows(key) {
		return fmt.Sprintf(key, said...)
	}
	for i, a := range said {
		if text, ok := a.(string); ok {
			said[i] = seamed(text)
		}
	}
	return s.joined(s.printer.Sprintf(key, said...))
}

// Word is a text without arguments in the language; a per cent sign in it
// stands for itself.
func (s *Speech) Word(text string) string {
	if key := strings.ReplaceAll(text, "%", "%%"); s.Knows(key) {
		return s.printer.Sprintf(key)
	}
	return text
}

// List joins words as a sentence does: "a, b or c". last is "and" or "or".
func (s *Speech) List(words []string, last string) string {
	switch n := len(words); n {
	case 0:
		return ""
	case 1:
		return words[0]
	default:
		return s.joined(strings.Join(words[:n-1], ", ") + " " + s.Word(last) + " " + seam + words[n-1])
	}
}

// Name is a word that is said otherwise in each language, such as the name of a
// material, as an argument of Say.
type Name string

// In implements Said.
func (n Name) In(s *Speech) string { return s.Word(string(n)) }

// Joined is a list for a sentence, as an argument of Say. Last is "and" or "or".
type Joined struct {
	Words []string
	Last  string
}

// In implements Said.
func (j Joined) In(s *Speech) string { return s.List(j.Words, j.Last) }

// String is the list in English.
func (j Joined) String() string { return j.In(nil) }

// Translations are a text in every language that has words of its own for it,
// and in British English, by language tag.
func Translations(text string) map[string]string {
	out := map[string]string{tongues[0].code: text}
	for _, s := range spoken().all {
		if s != nil {
			if said := s.Word(text); said != text || s.Knows(strings.ReplaceAll(text, "%", "%%")) {
				out[s.code] = said
			}
		}
	}
	return out
}
