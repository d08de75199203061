package measure

import "strings"

// name is what a written word stands for: a unit id, or a name shared by the
// systems, and whether the word is a plural.
type name struct {
	id     string
	shared int // index in sharedUnits plus one; 0 for none
	plural bool
}

// names holds every spelling of every unit; a word can be both a shared unit
// and a container ("cup"), then the group's system decides.
var (
	names        = spellings()
	sharedNames  = sharedSpellings()
	trueByID     = indexTrue()
	containerPos = indexContainers()
)

func wordSet(words string) map[string]bool {
	set := map[string]bool{}
	for _, w := range strings.Fields(words) {
		set[w] = true
	}
	return set
}

func indexTrue() map[string]trueUnit {
	byID := map[string]trueUnit{}
	for _, u := range trueUnits {
		byID[u.id] = u
	}
	return byID
}

func indexContainers() map[string]int {
	byID := map[string]int{}
	for i, c := range containers {
		byID[c.id] = i
	}
	return byID
}

// isPlural tells a plural spelling by its last letter: every plural in the
// tables ends in s except those that read alike in both numbers.
func isPlural(word string) bool {
	return strings.HasSuffix(word, "s") || strings.HasSuffix(word, "feet")
}

func spellings() map[string]name {
	all := map[string]name{}
	for _, u := range trueUnits {
		for _, w := range append([]string{u.id, u.one, u.many}, u.words...) {
			w = strings.ToLower(w)
			all[w] = name{id: u.id, plural: isPlural(w)}
		}
	}
	for _, c := range containers {
		for _, w := range append([]string{c.one, c.many}, c.words...) {
			all[w] = name{id: c.id, plural: isPlural(w)}
		}
		all[c.id] = name{id: c.id}
	}
	return all
}

func sharedSpellings() map[string]name {
	all := map[string]name{}
	for i, s := range sharedUnits {
		for _, w := range append([]string{s.one, s.many}, s.words...) {
			all[w] = name{shared: i + 1, plural: isPlural(w)}
		}
	}
	return all
}

// resolve finds the unit of a lower-case spelling and whether it was a plural.
func (m Measures) resolve(word string) (Unit, bool, bool) {
	if n, ok := sharedNames[word]; ok {
		s := sharedUnits[n.shared-1]
		if id := s.in(m.System); id != "" {
			u := trueByID[id].unit()
			u.One, u.Many = s.one, s.many
			return u, n.plural, true
		}
	}
	n, ok := names[word]
	if !ok {
		return Unit{}, false, false
	}
	if i, isContainer := containerPos[n.id]; isContainer {
		return containers[i].unit(m), n.plural, true
	}
	return trueByID[n.id].unit(), n.plural, true
}

func (u trueUnit) unit() Unit {
	return Unit{ID: u.id, Dim: u.dim, Size: Exact(u.size), One: u.one, Many: u.many, Source: u.source}
}

// fillings are endings that turn a container into its contents: "barrowload".
var fillings = []string{"fuls", "ful", "fulls", "full", "loads", "load"}

// resolveFilled also reads "bucketful" and "barrowloads".
func (m Measures) resolveFilled(word string) (Unit, bool, bool) {
	if u, plural, ok := m.resolve(word); ok {
		return u, plural, true
	}
	for _, end := range fillings {
		stem, cut := strings.CutSuffix(word, end)
		if !cut || stem == "" {
			continue
		}
		if u, plural, ok := m.resolve(strings.TrimSpace(stem)); ok && u.Container {
			return u, plural || strings.HasSuffix(end, "s"), true
		}
	}
	return Unit{}, false, false
}

// Unit finds a unit by any spelling: id, singular, plural, abbreviation,
// American or British. Shared names such as "gallon" follow the group's system.
func (m Measures) Unit(word string) (Unit, bool) {
	toks := m.lex(strings.ReplaceAll(clean(word), "\n", " "))
	if u, _, next, ok := m.unitName(toks, 0); ok && next == len(toks) {
		return u, true
	}
	return m.unitByID(strings.TrimSpace(word))
}

func (m Measures) unitByID(id string) (Unit, bool) {
	if i, ok := containerPos[id]; ok {
		return containers[i].unit(m), true
	}
	if u, ok := trueByID[id]; ok {
		return u.unit(), true
	}
	return Unit{}, false
}

// Units lists the containers, with the group's own sizes applied, and then the
// units of measure.
func (m Measures) Units() []Unit {
	all := make([]Unit, 0, len(containers)+len(trueUnits))
	for _, c := range containers {
		all = append(all, c.unit(m))
	}
	for _, u := range trueUnits {
		all = append(all, u.unit())
	}
	return all
}
