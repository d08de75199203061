package feedstock

import (
	"cmp"
	"slices"
	"sync"
)

// Table is a set of known materials and refusals with an index over their
// words. It never changes after it is made and may be shared between
// goroutines; the slices inside what it returns are not to be written to.
type Table struct {
	stocks   []Feedstock // by ID
	refusals []Refusal   // by ID
	index    *index
}

var builtIn = sync.OnceValue(func() *Table {
	stocks, err := readStocks(tableCSV, cautionsCSV)
	if err != nil {
		panic("feedstock: table.csv: " + err.Error())
	}
	refusals, err := readRefusals(refusalsCSV)
	if err != nil {
		panic("feedstock: refusals.csv: " + err.Error())
	}
	return newTable(stocks, refusals)
})

// Default is the table that comes with Heapside.
func Default() *Table { return builtIn() }

func newTable(stocks []Feedstock, refusals []Refusal) *Table {
	slices.SortFunc(stocks, func(a, b Feedstock) int { return cmp.Compare(a.ID, b.ID) })
	slices.SortFunc(refusals, func(a, b Refusal) int { return cmp.Compare(a.ID, b.ID) })
	return &Table{stocks: stocks, refusals: refusals, index: newIndex(stocks, refusals)}
}

// With is a new table in which each of own replaces the material of the same
// ID or is added. Of two in own with one ID the later counts.
func (t *Table) With(own ...Feedstock) *Table {
	if len(own) == 0 {
		return t
	}
	stocks := slices.Clone(t.stocks)
	for _, f := range own {
		f.Aliases = slices.Clone(f.Aliases)
		at := slices.IndexFunc(stocks, func(s Feedstock) bool { return s.ID == f.ID })
		if at < 0 {
			stocks = append(stocks, f)
			continue
		}
		stocks[at] = f
	}
	return newTable(stocks, slices.Clone(t.refusals))
}

// All lists the materials in the order of their IDs.
func (t *Table) All() []Feedstock { return slices.Clone(t.stocks) }

// ByID is the material with exactly this ID.
func (t *Table) ByID(id string) (Feedstock, bool) {
	at, ok := slices.BinarySearchFunc(t.stocks, id, func(f Feedstock, id string) int { return cmp.Compare(f.ID, id) })
	if !ok {
		return Feedstock{}, false
	}
	return t.stocks[at], true
}

// Refusals lists what does not belong in a shared heap, in the order of IDs.
func (t *Table) Refusals() []Refusal { return slices.Clone(t.refusals) }

// byUse orders materials from the most everyday to the least, then by name.
func byUse(a, b Feedstock) int {
	return cmp.Or(cmp.Compare(b.Everyday, a.Everyday), cmp.Compare(a.Name, b.Name))
}
