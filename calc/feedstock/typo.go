package feedstock

import (
	"math/bits"
	"unicode/utf8"
)

// slips is how many typing slips a word of n letters may hold and still be
// taken for another (own choice: about one in four, none in the shortest).
func slips(n int) int {
	switch {
	case n <= 2:
		return 0
	case n <= 6:
		return 1
	case n <= 9:
		return 2
	default:
		return 3
	}
}

// alike reports whether a slip could make typed of meant at all (own choice).
// In short words thumbs get the first letter right or swap it with the second;
// in a word of four letters another letter makes another word ("beer", "beet"),
// and three letters can only be swapped.
func alike(typed, meant string) bool {
	if len(typed) < 3 || len(meant) < 3 {
		return false
	}
	if len(typed) < 6 && typed[0] != meant[0] && (typed[0] != meant[1] || typed[1] != meant[0]) {
		return false
	}
	switch len(typed) {
	case 3:
		return len(meant) == 3 && sameLetters(typed, meant)
	case 4:
		return len(meant) != 4 || sameLetters(typed, meant)
	}
	return true
}

func sameLetters(a, b string) bool {
	counts := [256]int{}
	for i := range len(a) {
		counts[a[i]]++
		counts[b[i]]--
	}
	return counts == [256]int{}
}

// spelled is a word made ready for comparing.
type spelled struct {
	text    string
	runes   []rune
	letters uint64 // a bit for each letter that occurs, by its code modulo 64
}

func spell(text string) spelled {
	s := spelled{text: text, runes: []rune(text)}
	for _, r := range s.runes {
		s.letters |= 1 << (r % 64)
	}
	return s
}

func distance(a, b string, limit int) int { return spell(a).distance(spell(b), limit) }

// distance counts the letters put in, left out, changed or swapped with a
// neighbour between s and o (Damerau 1964, Levenshtein 1966, in the restricted
// form that edits no part twice); it stops at limit+1.
func (s spelled) distance(o spelled, limit int) int {
	if abs(len(s.runes)-len(o.runes)) > limit || bits.OnesCount64(s.letters^o.letters) > 2*limit {
		return limit + 1 // one slip brings or takes away at most two kinds of letter
	}
	var space [96]int
	cells, width := space[:], len(o.runes)+1
	if 3*width > len(space) {
		cells = make([]int, 3*width)
	}
	before, last, now := cells[:width], cells[width:2*width], cells[2*width:3*width]
	for j := range last {
		last[j] = j
	}
	for i := 1; i <= len(s.runes); i++ {
		now[0] = i
		best := i
		for j := 1; j < width; j++ {
			cost := 1
			if s.runes[i-1] == o.runes[j-1] {
				cost = 0
			}
			now[j] = min(last[j]+1, now[j-1]+1, last[j-1]+cost)
			if i > 1 && j > 1 && s.runes[i-1] == o.runes[j-2] && s.runes[i-2] == o.runes[j-1] {
				now[j] = min(now[j], before[j-2]+1)
			}
			best = min(best, now[j])
		}
		if best > limit {
			return limit + 1
		}
		before, last, now = last, now, before
	}
	return min(last[width-1], limit+1)
}

func abs(n int) int {
	if n < 0 {
		return -n
	}
	return n
}

// letters is the length of a word as people count it.
func letters(w string) int { return utf8.RuneCountInString(w) }
