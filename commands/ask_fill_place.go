package commands

import "strings"

var (
	renamed   = pattern(`(?i)\b(?:rename|name of) .+? (?:to|as|into) "?([^",.;!?]+)`)
	zoneSaid  = pattern(`\b([A-Za-z]+/[A-Za-z_/+-]+\d*)`)
	placeSaid = pattern(`(-?\d{1,2}(?:\.\d+)? ?, ?-?\d{1,3}(?:\.\d+)?)`)
)

// fillRename keeps the new name as it was written.
func fillRename(s sentence, _ vocabulary) (map[string]string, bool) {
	name := strings.TrimSpace(nameEnds.ReplaceAllString(first(s.raw, renamed), ""))
	if len(s.heaps) == 0 || name == "" {
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
