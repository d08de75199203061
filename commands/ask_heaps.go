package commands

import (
	"slices"
	"strings"

	"heapside/calc/feedstock"
)

// heapNouns are the words that say "heap" without saying which.
var heapNouns = strings.Fields("heap pile bay bin tumbler compost one composter")

// strangers are words that may stand before a heap noun without naming a heap.
var strangers = strings.Fields(`the our my your this that a an one every each whole entire compost same other another new hot cold warm cool wet dry damp
	smelly stinky steaming big small old first second last full empty finished current main only any which what of in to on for from is are and or your his
	her their its some all no bottom top next wheelie recycling rubbish garden i we you it turned watered covered good ready poor active working open
	was were has had have does do did can could will would should may might must shall when how who why at with by after before since if but then
	leaf home shared shed gate fence wall tree path greenhouse kitchen communal community lovely happy mighty wrong right`)

// heapMention is a stretch of words that stands for a heap; name is empty for "the
// heap" and the like.
type heapMention struct {
	from, to int
	name     string
}

// findHeaps replaces what names a heap by "#" and lists the names in order. A
// name is matched with small slips, run together, or by one of its words that
// no other heap shares. A heap noun with a name nobody knows is kept as said,
// so that it is never taken for the one heap there is.
func findHeaps(words []string, k vocabulary) ([]string, []string) {
	var out, names []string
	for i := 0; i < len(words); {
		m, ok := heapAt(words, i, k)
		if !ok {
			out = append(out, words[i])
			i++
			continue
		}
		out = append(out, "#")
		if m.name != "" && !slices.Contains(names, m.name) {
			names = append(names, m.name)
		}
		i = m.to
	}
	return out, names
}

func heapAt(words []string, i int, k vocabulary) (heapMention, bool) {
	start := i
	if slices.Contains([]string{"the", "our", "my", "this", "that"}, words[i]) && i+1 < len(words) {
		i++
	}
	if m, ok := knownHeap(words, i, k); ok {
		m.from = start
		for m.to < len(words) && slices.Contains(heapNouns[:7], words[m.to]) {
			m.to++
		}
		return m, true
	}
	return someHeap(words, start, i)
}

func knownHeap(words []string, i int, k vocabulary) (heapMention, bool) {
	best := heapMention{to: i}
	for _, name := range k.Heaps {
		if n := wholeName(words[i:], nameWords(name)); n > best.to-i {
			best = heapMention{to: i + n, name: name}
		}
	}
	if best.name != "" {
		return best, true
	}
	if numbered(words, i) {
		return heapMention{}, false
	}
	followed := i+1 < len(words) && slices.Contains(heapNouns, words[i+1])
	for _, name := range k.Heaps {
		for _, part := range nameWords(name) {
			if alike(words[i], part) && ownWord(part, name, k.Heaps) && (followed || standsAlone(words, i, part, k)) {
				return heapMention{to: i + 1, name: name}, true
			}
		}
	}
	return heapMention{}, false
}

func nameWords(name string) []string {
	parts := tokens(strings.ToLower(tidy(name)))
	if len(parts) > 1 && parts[0] == "the" {
		parts = parts[1:]
	}
	return parts
}

// wholeName is how many of the words make the name, 0 when they do not.
func wholeName(words, name []string) int {
	if len(name) == 0 {
		return 0
	}
	if joined := strings.Join(name, ""); len(name) > 1 && len(joined) >= 6 && alike(words[0], joined) {
		return 1
	}
	if len(words) < len(name) {
		return 0
	}
	exact := 0
	for j, part := range name {
		owner := len(name) > 1 && j == len(name)-1 && words[j] == part+"s" // "north bays been turned"
		if !owner && !alike(words[j], part) {
			return 0
		}
		if words[j] == part {
			exact++
		}
	}
	if len(name) == 1 && exact == 0 && len(name[0]) < 6 {
		return 0
	}
	return len(name)
}

// alike allows one slip from five letters on, two from nine.
func alike(word, part string) bool {
	if word == part {
		return true
	}
	if len(part) < 5 || len(word) < 4 || word[0] != part[0] && word[1] != part[1] {
		return false
	}
	return feedstock.Distance(word, part) <= 1+len(part)/9
}

// ownWord reports whether part belongs to one heap only and is more than "heap".
func ownWord(part, name string, heaps []string) bool {
	if len(part) < 3 || slices.Contains([]string{"heap", "pile", "compost", "one", "the", "and", "for", "near", "behind"}, part) {
		return false
	}
	for _, other := range heaps {
		if other != name && slices.Contains(nameWords(other), part) {
			return false
		}
	}
	return true
}

// standsAlone reports whether one word of a name can be trusted to mean the
// heap: it is no material or common word, and stands where a heap would.
func standsAlone(words []string, i int, part string, k vocabulary) bool {
	if isMaterial(part, k) || slices.Contains(strangers, part) {
		return false
	}
	if _, unit := k.Measures.Unit(part); unit {
		return false
	}
	if i == 0 {
		return true
	}
	before := strings.Fields("the our my in to on of at for from into onto is about turned watered covered did has check was")
	return slices.Contains(before, words[i-1])
}

// someHeap matches "the heap", "our compost pile", "bay 3" and "the south bay".
func someHeap(words []string, start, i int) (heapMention, bool) {
	word := words[i]
	if numbered(words, i) {
		return heapMention{from: start, to: i + 2, name: word + " " + words[i+1]}, true
	}
	if word == "compost" && i+1 < len(words) && slices.Contains(heapNouns[:5], words[i+1]) {
		return heapMention{from: start, to: i + 2}, true
	}
	if start < i && slices.Contains(heapNouns[:6], word) || word == "heap" || word == "pile" {
		return heapMention{from: start, to: i + 1}, true
	}
	if i+1 < len(words) && slices.Contains(heapNouns[:5], words[i+1]) {
		if !slices.Contains(strangers, word) && isLetters(word) {
			return heapMention{from: start, to: i + 2, name: word + " " + words[i+1]}, true
		}
		if start < i && word != "new" {
			return heapMention{from: start, to: i + 2}, true
		}
	}
	return heapMention{}, false
}

// numbered reports "bay 3" and the like at the end of a clause.
func numbered(words []string, i int) bool {
	return slices.Contains(heapNouns[:5], words[i]) && i+1 < len(words) && isDigits(words[i+1]) && endsClause(words, i+2)
}

func endsClause(words []string, i int) bool {
	return i >= len(words) || strings.Contains(".,;:!?", words[i])
}

func isDigits(w string) bool { return w != "" && strings.Trim(w, "0123456789") == "" }

func isLetters(w string) bool {
	return len(w) > 2 && strings.IndexFunc(w, func(r rune) bool { return r < 'a' && r != '\'' && r != '-' }) < 0
}
