package hygiene

import (
	"maps"
	"slices"
)

// Known are the names of what published trials are known of, in order: each of
// them is understood by Weeds, Diseases or Germs.
func Known() (weeds, diseases, germs []string) {
	return weedWords.known(), diseaseWords.known(), germWords.known()
}

func (ix index) known() []string {
	names := map[string]bool{}
	for _, of := range ix {
		for _, name := range of {
			names[name] = true
		}
	}
	return slices.Sorted(maps.Keys(names))
}

// Trials are the published trials on the weeds, diseases and germs that the
// words name.
func Trials(words string) []Trial {
	return slices.Concat(Weeds(words), Diseases(words), Germs(words))
}
