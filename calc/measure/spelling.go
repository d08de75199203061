package measure

// minTypo is the shortest word that may be one slip away from a unit. Shorter
// words are too close to each other.
const minTypo = 5

type containerWord struct{ word, id string }

// longContainerWords are the spellings that a typo is matched to, by first byte.
var longContainerWords = byFirstByte()

func byFirstByte() map[byte][]containerWord {
	all := map[byte][]containerWord{}
	for word, n := range names {
		if _, isContainer := containerPos[n.id]; isContainer && len(word) >= minTypo {
			all[word[0]] = append(all[word[0]], containerWord{word, n.id})
		}
	}
	return all
}

// misspelt finds the container that a word is one slip away from: a letter
// left out, added, changed or swapped with its neighbour, never the first.
func (m Measures) misspelt(word string) (Unit, bool) {
	if len(word) < minTypo {
		return Unit{}, false
	}
	hit := ""
	for _, c := range longContainerWords[word[0]] {
		if !oneSlip(word, c.word) {
			continue
		}
		if hit != "" && hit != c.id {
			return Unit{}, false // two containers are equally close
		}
		hit = c.id
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
