package speech

import (
	"embed"
	"fmt"
	"regexp"
	"slices"
	"strings"
	"sync"

	"golang.org/x/text/feature/plural"
	"golang.org/x/text/language"
	"golang.org/x/text/message"
	"golang.org/x/text/message/catalog"
)

//go:embed words/*.txt
var files embed.FS

// languages is everything that can be said.
type languages struct {
	all     []*Speech // as tongues has them; nil for the first
	matcher language.Matcher
}

// spoken reads the files once. They are part of the program: a mistake in one
// stops it, and the tests.
var spoken = sync.OnceValue(func() languages {
	out := languages{all: make([]*Speech, len(tongues))}
	book := catalog.NewBuilder(catalog.Fallback(language.BritishEnglish))
	tags := make([]language.Tag, len(tongues))
	for i, t := range tongues {
		tags[i] = language.MustParse(t.code)
	}
	keys := map[string]bool{}
	for i, t := range tongues {
		if i == 0 || t.code == american {
			continue
		}
		s := &Speech{tongue: t, words: map[string]string{}}
		for _, e := range entries(t.code) {
			must(e.file(book, tags[i]))
			s.words[e.key], keys[e.key] = e.other, true
		}
		out.all[i] = s
	}
	out.all[1] = inAmerican(book, keys)
	for i, s := range out.all {
		if s != nil {
			s.printer = message.NewPrinter(tags[i], message.Catalog(book))
		}
	}
	out.matcher = language.NewMatcher(tags)
	return out
})

func must(err error) {
	if err != nil {
		panic("speech: " + err.Error())
	}
}

// american is the language that differs from the first in single words only.
const american = "en-US"

// inAmerican is every sentence that a word is spelled otherwise in.
func inAmerican(book *catalog.Builder, keys map[string]bool) *Speech {
	s := &Speech{tongue: tongues[1], words: map[string]string{}}
	for key := range keys {
		if said := respell(key); said != key {
			must(book.SetString(language.AmericanEnglish, key, said))
			s.words[key] = said
		}
	}
	return s
}

// wholeWord is a word, or the name of a command, which is typed as it is.
var wholeWord = regexp.MustCompile(`garden organiser|\pL+`)

// respell puts the American spelling of each word in the place of the British.
func respell(text string) string {
	spelling := spellings()
	return wholeWord.ReplaceAllStringFunc(text, func(w string) string {
		if said, ok := spelling[w]; ok {
			return said
		}
		return w
	})
}

var spellings = sync.OnceValue(func() map[string]string {
	out := map[string]string{}
	for _, e := range entries(american) {
		out[e.key] = e.other
	}
	return out
})

// entry is one key of a file with what stands for it. one is what stands for it
// where its number is singular; it is empty when the words do not change.
type entry struct{ key, one, other string }

// numbered finds the verb of a whole number in a format.
var numbered = regexp.MustCompile(`%(?:\[(\d+)\])?[a-z]`)

// file puts the entry in the catalogue.
func (e entry) file(book *catalog.Builder, tag language.Tag) error {
	if e.one == "" {
		return book.SetString(tag, e.key, e.other)
	}
	for i, verb := range numbered.FindAllString(e.key, -1) {
		if strings.HasSuffix(verb, "d") {
			return book.Set(tag, e.key, plural.Selectf(i+1, "%d", plural.One, e.one, plural.Other, e.other))
		}
	}
	return fmt.Errorf("%s: %q has no number that could be singular", tag, e.key)
}

// Keys are the sentences that a language has words for, in the order of its file.
func Keys(code string) []string {
	var keys []string
	for _, e := range entries(code) {
		keys = append(keys, e.key)
	}
	return keys
}

// entries reads the file of a language; none when it has none.
func entries(code string) []entry {
	data, err := files.ReadFile("words/" + code + ".txt")
	if err != nil {
		return nil
	}
	read, err := parse(string(data))
	if err != nil {
		panic("speech: " + code + ": " + err.Error())
	}
	return read
}

// parse reads a file: a key on a line of its own, what stands for it on the
// indented line below, "#" before remarks. Where a number decides there are two
// such lines, marked [one] and [other].
func parse(text string) ([]entry, error) {
	var out []entry
	for n, line := range strings.Split(text, "\n") {
		indented := strings.HasPrefix(line, "\t")
		said := strings.TrimPrefix(line, "\t")
		switch {
		case said == "" || strings.HasPrefix(line, "#"):
		case !indented && slices.ContainsFunc(out, func(e entry) bool { return e.key == line }):
			return nil, fmt.Errorf("line %d: %q comes twice", n+1, line)
		case !indented:
			out = append(out, entry{key: line})
		case len(out) == 0 || out[len(out)-1].other != "":
			return nil, fmt.Errorf("line %d: %q belongs to no key", n+1, said)
		case strings.HasPrefix(said, "[one] "):
			out[len(out)-1].one = strings.TrimPrefix(said, "[one] ")
		default:
			out[len(out)-1].other = strings.TrimPrefix(said, "[other] ")
		}
	}
	for _, e := range out {
		if e.other == "" {
			return nil, fmt.Errorf("%q has no words", e.key)
		}
	}
	return out, nil
}
