package feedstock

import (
	"slices"
	"strings"
	"sync"
)

// Source is a document or data set that properties rest on.
type Source struct {
	ID       string
	Citation string
	Address  string // where it was read, empty when it was not
	Sure     Sureness
}

// Sureness is how directly a source was seen.
type Sureness string

// The degrees of sureness.
const (
	Primary   Sureness = "A" // the table or data file itself, whole
	Secondary Sureness = "B" // a good copy or an abstract
	Weak      Sureness = "C" // seen, but unsourced or on an odd basis
	Memory    Sureness = "M" // not seen
	Own       Sureness = "O" // our own choice, or the group's
)

var sources = sync.OnceValue(func() []Source {
	rows, err := readRows(sourcesCSV, "id", "citation", "address", "sure")
	if err != nil {
		panic("feedstock: sources.csv: " + err.Error())
	}
	list := make([]Source, 0, len(rows))
	for _, r := range rows {
		list = append(list, Source{ID: r["id"], Citation: r["citation"], Address: r["address"], Sure: Sureness(r["sure"])})
	}
	return list
})

// Sources lists everything a Property.Source can name.
func Sources() []Source { return slices.Clone(sources()) }

// SourceOf is the source with this id.
func SourceOf(id string) (Source, bool) {
	at := slices.IndexFunc(sources(), func(s Source) bool { return s.ID == id })
	if at < 0 {
		return Source{}, false
	}
	return sources()[at], true
}

// Sources resolves the ids the property rests on; unknown ids are left out.
func (p Property) Sources() []Source {
	var list []Source
	for _, id := range strings.Fields(p.Source) {
		if s, ok := SourceOf(id); ok {
			list = append(list, s)
		}
	}
	return list
}
