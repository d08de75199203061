package feedstock

import "unicode/utf8"

// slips is how many typing slips a word of n letters may hold and still be
// taken for another (own choice: about one in four, none in short words).
func slips(n int) int {
	switch {
	case n <= 3:
		return 0
	case n <= 5:
		return 1
	case n <= 8:
		return 2
	default:
		return 3
	}
}

// alike reports whether a slip could make typed of meant at all (own choice):
// thumbs get the first letter right or swap it with the second, and in a word
// of four letters another letter makes another word ("beer", "beet").
func alike(typed, meant string) bool {
	if len(typed) < 4 || len(meant) < 3 {
		return false
	}
	if typed[0] != meant[0] {
		return typed[0] == meant[1] && typed[1] == meant[0]
	}
	if len(typed) > 4 || len(meant) != 4 {
		return true
	}
	counts := [256]int{}
	for i := range 4 {
		counts[typed[i]]++
		counts[meant[i]]--
	}
	return counts == [256]int{}
}

// distance counts the letters put in, left out, changed or swapped with a
// neighbour between a and b (Damerau 1964, Levenshtein 1966, in the restricted
// form that edits no part twice); it stops at limit+1.
func distance(a, b string, limit int) int {
	if abs(letters(a)-letters(b)) > limit {
		return limit + 1
	}
	ra, rb := []rune(a), []rune(b)
	cells := make([]int, 3*(len(rb)+1)) // of three rows only the last counts
	before, last, now := cells[:len(rb)+1], cells[len(rb)+1:2*(len(rb)+1)], cells[2*(len(rb)+1):]
	for j := range now {
		last[j] = j
	}
	for i := 1; i <= len(ra); i++ {
		now[0] = i
		best := i
		for j := 1; j <= len(rb); j++ {
			cost := 1
			if ra[i-1] == rb[j-1] {
				cost = 0
			}
			now[j] = min(last[j]+1, now[j-1]+1, last[j-1]+cost)
			if i > 1 && j > 1 && ra[i-1] == rb[j-2] && ra[i-2] == rb[j-1] {
				now[j] = min(now[j], before[j-2]+1)
			}
			best = min(best, now[j])
		}
		if best > limit {
			return limit + 1
		}
		before, last, now = last, now, before
	}
	return min(last[len(rb)], limit+1)
}

func abs(n int) int {
	if n < 0 {
		return -n
	}
	return n
}

// letters is the length of a word as people count it.
func letters(w string) int { return utf8.RuneCountInString(w) }
