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
	called   map[string][]*called
	banned   [][]*called
	byName   map[string]int
	index    *index
	own      *lexicon   // of the language it is asked in; nil for English
	others   []*lexicon // of the languages it reads besides
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
	slices.SortFunc(refusals, func(a, b Refusal) int { return cmp.Compare(a.ID, b.ID) })
	banned := make([][]*called, len(refusals))
	for i, r := range refusals {
		banned[i] = english.callings(r.Name, r.Aliases)
	}
	t := &Table{refusals: refusals, banned: banned}
	return t.of(stocks)
})

// Default is the table that comes with Heapside.
func Default() *Table { return builtIn() }

// of is a table of these materials with the refusals of t. What t has read of
// names already is not read again: a group's table is made for every question.
func (t *Table) of(stocks []Feedstock) *Table {
	slices.SortFunc(stocks, func(a, b Feedstock) int { return cmp.Compare(a.ID, b.ID) })
	out := &Table{
		stocks: stocks, refusals: t.refusals, banned: t.banned,
		called: make(map[string][]*called, len(stocks)),
		byName: make(map[string]int, len(stocks)),
	}
	lists := make([][]*called, len(stocks))
	renamed := len(stocks) != len(t.stocks)
	for i, f := range stocks {
		list, ok := t.called[f.ID]
		if old, _ := t.ByID(f.ID); !ok || old.Name != f.Name || !slices.Equal(old.Aliases, f.Aliases) {
			list = english.callings(f.Name, f.Aliases)
			renamed = true
		}
		lists[i] = list
		out.called[f.ID] = list
		out.byName[f.Name] = i
	}
	if out.index = t.index; renamed {
		out.index = newIndex(english, lists, out.banned)
	}
	return out
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
	return t.of(stocks)
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
