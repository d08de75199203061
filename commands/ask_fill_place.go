package commands

import (
	"regexp"
	"slices"
	"strings"
)

// longestName is the most words a new name of a heap has in a plain sentence:
// what is longer is a remark. Own choice.
const longestName = 4

var (
	renamed   = pattern(`(?i)\b(?:re)?name\b.*? (?:to|as|into) "?([^",.;!?]+)`)
	nameOf    = pattern(`(?i)\bnew name (?:for|of) [^:]*?(?::| is) *"?([^",.;!?]+)`)
	newName   = pattern(`(?i)\b(?:called|named|known as|(?:new |the )name)(?: is| of|:| now)* "?([^",.;!?]+)`)
	noName    = strings.Fields("a an the it what when if later something anything whatever how on in out off")
	zoneSaid  = pattern(`\b([A-Za-z]+/[A-Za-z_/+-]+\d*)`)
	placeSaid = pattern(`(-?\d{1,2}(?:\.\d+)? ?, ?-?\d{1,3}(?:\.\d+)?)`)
)

// fillRename keeps the new name as it was written.
func fillRename(s sentence, _ vocabulary) (map[string]string, bool) {
	if len(s.heaps) == 0 {
		return nil, false
	}
	words := strings.Fields(s.heaps[0])
	plain := regexp.MustCompile(`(?i)\b(?:rename|call) .*?\b` + regexp.QuoteMeta(words[len(words)-1]) + `\b,? "?([^",.;!?]+)`)
	said := first(s.raw, nameOf, renamed, newName)
	if m := plain.FindStringSubmatch(s.raw); said == "" && m != nil {
		said = m[1]
	}
	name := strings.TrimSpace(nameEnds.ReplaceAllString(said, ""))
	word, _, _ := strings.Cut(strings.ToLower(name), " ")
	if name == "" || slices.Contains(noName, word) || len(strings.Fields(name)) > longestName {
		return nil, false
	}
	return map[string]string{"heap": s.heaps[0], "name": name}, true
}

func fillZone(s sentence, _ vocabulary) (map[string]string, bool) {
	zone := first(s.raw, zoneSaid)
	return map[string]string{"zone": zone}, zone != ""
}

// fillPlace takes latitude and longitude: the name of a town in a sentence is
// too often something else.
func fillPlace(s sentence, _ vocabulary) (map[string]string, bool) {
	place := first(s.raw, placeSaid)
	return map[string]string{"place": place}, place != ""
}

// fillOutlook leaves what is asked about amounts to mix.
func fillOutlook(s sentence, k vocabulary) (map[string]string, bool) {
	_, amounts := items(s.text, k)
	return map[string]string{}, !amounts
}
