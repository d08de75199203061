package commands

import (
	"reflect"
	"sync"

	"heapside/calc/feedstock"
	"heapside/calc/heap"
)

// maxTables is how many places' tables are kept at once. Own choice: a table
// with 200 materials of a place's own takes about 15 ms to index.
const maxTables = 64

// tables keeps the table of materials of each place for as long as its own
// materials stay the same: every keystroke that is completed asks for it.
type tables struct {
	mu   sync.Mutex
	kept map[heap.Place]ownTable
}

type ownTable struct {
	own   []feedstock.Feedstock
	table *feedstock.Table
}

// of is the table of a place with its own materials as they are on record now.
func (t *tables) of(at heap.Place, own []feedstock.Feedstock) *feedstock.Table {
	if len(own) == 0 {
		return feedstock.Default()
	}
	t.mu.Lock()
	defer t.mu.Unlock()
	if k, ok := t.kept[at]; ok && reflect.DeepEqual(k.own, own) {
		return k.table
	}
	if t.kept == nil || len(t.kept) >= maxTables {
		t.kept = map[heap.Place]ownTable{}
	}
	k := ownTable{own, feedstock.Default().With(own...)}
	t.kept[at] = k
	return k.table
}
