package commands

import (
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"
)

// placeHeap takes "to north bay" or "north bay" off the end of loose words, and
// returns what is left. A name of one word needs its preposition: "the old bay"
// is not the heap "Bay". So does any name after materials, which may be called
// alike. Notes keep every word.
func placeHeap(command Command, args map[string]string, words string, heaps []string) string {
	if command.Name == "move" {
		return placeMove(args, words, heaps)
	}
	for _, o := range command.Options {
		if o.Kind != HeapName || o.Words || o.Required || args[o.Name] != "" || command.Name == "note" {
			continue
		}
		for _, name := range longestFirst(heaps) {
			left, ok := cutTail(words, name, onto)
			if !ok && (strings.Contains(name, " ") && command.Name != "add" || strings.EqualFold(words, name)) {
				left, ok = cutTail(words, name, nil)
			}
			if ok {
				args[o.Name] = name
				return left
			}
		}
	}
	return words
}

// longestFirst orders names so that "North Bay" is found before "Bay".
func longestFirst(names []string) []string {
	return slices.SortedStableFunc(slices.Values(names), func(a, b string) int { return len(b) - len(a) })
}

// placeMove takes the two heaps of "half of north bay to south bay" off the end
// of loose words.
func placeMove(args map[string]string, words string, heaps []string) string {
	for _, end := range []struct {
		option string
		before []string
	}{{"to", []string{"to", "into", "onto"}}, {"heap", []string{"of", "from"}}} {
		for _, name := range heaps {
			if left, ok := cutTail(words, name, end.before); ok && args[end.option] == "" {
				args[end.option], words = name, left
			}
		}
	}
	for _, name := range heaps {
		if strings.EqualFold(strings.TrimSpace(words), name) && args["heap"] == "" {
			args["heap"], words = name, ""
		}
	}
	return words
}

// onto are the words that stand between what is logged and its heap.
var onto = []string{"to", "on", "onto", "in", "into", "for", "at"}

// cutTail cuts a name off the end of words, with "the" or "our" before it and,
// where any are given, one of the prepositions before that.
func cutTail(words, name string, prepositions []string) (string, bool) {
	left, ok := cutLast(words, name)
	if !ok {
		return words, false
	}
	left, _ = cutLast(left, "the", "our")
	if len(prepositions) > 0 {
		if left, ok = cutLast(left, prepositions...); !ok {
			return words, false
		}
	}
	return strings.TrimRight(left, " ,"), true
}

// cutLast cuts the first of the ends that words end with as a word of its own.
func cutLast(words string, ends ...string) (string, bool) {
	words = strings.TrimRightFunc(words, unicode.IsSpace)
	for _, end := range ends {
		cut := len(words) - len(end)
		if cut < 0 || !strings.EqualFold(words[cut:], end) {
			continue
		}
		if before, _ := utf8.DecodeLastRuneInString(words[:cut]); cut == 0 || unicode.IsSpace(before) {
			return strings.TrimRightFunc(words[:cut], unicode.IsSpace), true
		}
	}
	return words, false
}

// placeWords gives loose words to the options they belong to: a leading choice
// to the required pick that is still open ("log test jar passed"), the rest to
// the option that takes words.
func placeWords(command Command, args map[string]string, words string) {
	for _, o := range command.Options {
		if o.Kind != Pick || !o.Required || o.Words || args[o.Name] != "" {
			continue
		}
		word, rest := firstWord(words)
		if _, err := pick(o, word); word != "" && err == nil {
			args[o.Name], words = word, strings.TrimSpace(rest)
		}
	}
	if words == "" {
		return
	}
	name := extraWords
	for _, o := range command.Options {
		if o.Words {
			name = o.Name
		}
	}
	args[name] = strings.TrimSpace(args[name] + " " + words)
}

// extraWords holds words that no option takes, so that checkArgs can say so.
const extraWords = ""
