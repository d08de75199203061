package measure

// minTypo is the shortest word that may be one slip away from a unit. Shorter
// words are too close to each other.
const minTypo = 5

// misspelt finds the container that a word is one slip away from: a letter
// left out, added, changed or swapped with its neighbour, never the first.
func (m Measures) misspelt(word string) (Unit, bool) {
	if len(word) < minTypo {
		return Unit{}, false
	}
	hit := ""
	for spelling, n := range names {
		_, isContainer := containerPos[n.id]
		if !isContainer || len(spelling) < minTypo || spelling[0] != word[0] || !oneSlip(word, spelling) {
			continue
		}
		if hit != "" && hit != n.id {
			return Unit{}, false // two containers are equally close
		}
		hit = n.id
	}
	if hit == "" {
		return Unit{}, false
	}
	return containers[containerPos[hit]].unit(m), true
}

// oneSlip is true for two different words that one edit makes equal.
func oneSlip(a, b string) bool {
	if len(a) > len(b) {
		a, b = b, a
	}
	if len(b)-len(a) > 1 || a == b {
		return false
	}
	i := 0
	for i < len(a) && a[i] == b[i] {
		i++
	}
	if len(a) < len(b) {
		return a[i:] == b[i+1:]
	}
	swapped := i+1 < len(a) && a[i] == b[i+1] && a[i+1] == b[i] && a[i+2:] == b[i+2:]
	return swapped || a[i+1:] == b[i+1:]
}
