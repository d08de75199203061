package advice

import (
	"slices"

	"heapside/calc/heap"
)

// The kinds of job. They are kept in the record: a name never changes. Turn,
// Cool, Browns and Greens all mean that the heap is turned.
const (
	Cool    = "cool"    // turn and wet a heap that is too hot
	Turn    = "turn"    // turn
	Water   = "water"   // add water
	Browns  = "browns"  // mix in dry browns and turn
	Greens  = "greens"  // mix in greens
	Cover   = "cover"   // keep rain off, or water or heat in
	Uncover = "uncover" // let rain in
	Reading = "reading" // take the temperature
	Air     = "air"     // take the temperature of the air
	Feel    = "feel"    // squeeze a handful
	Grow    = "grow"    // make it larger, or insulate it
	Close   = "close"   // stop adding
	Cure    = "cure"    // let it cure
	Leave   = "leave"   // leave it alone
	Wait    = "wait"    // let the rain do the watering
	Rest    = "rest"    // leave it unturned in frost
	Test    = "test"    // test it for maturity
	Use     = "use"     // use it
	Log     = "log"     // put on record what went in
	Stock   = "stock"   // of the garden: put browns by for high summer
	Gather  = "gather"  // of the garden: collect autumn leaves
)

// KindInfo is what a kind of job is called and how it is treated.
type KindInfo struct {
	ID     string
	Name   string // as it stands in a list: "turning"
	Always bool   // is never switched off: something may go wrong
	Idle   bool   // asks for no work, so nobody is reminded of it
	closes []heap.Kind
}

// kinds are all kinds, in the order in which they are listed.
var kinds = []KindInfo{
	{ID: Cool, Name: "cooling a heap that is too hot", Always: true, closes: []heap.Kind{heap.KindTurned}},
	{ID: Turn, Name: "turning", closes: []heap.Kind{heap.KindTurned}},
	{ID: Water, Name: "watering", closes: []heap.Kind{heap.KindWatered}},
	{ID: Browns, Name: "mixing in browns", closes: []heap.Kind{heap.KindTurned, heap.KindAdded}},
	{ID: Greens, Name: "mixing in greens", closes: []heap.Kind{heap.KindTurned, heap.KindAdded}},
	{ID: Cover, Name: "covering", closes: []heap.Kind{heap.KindCovered}},
	{ID: Uncover, Name: "taking a cover off", closes: []heap.Kind{heap.KindCovered}},
	{ID: Reading, Name: "taking the temperature", closes: []heap.Kind{heap.KindTemp}},
	{ID: Air, Name: "reading the air", closes: []heap.Kind{heap.KindTemp}},
	{ID: Feel, Name: "squeezing a handful", closes: []heap.Kind{heap.KindFeel}},
	{ID: Grow, Name: "making a small heap larger"},
	{ID: Close, Name: "putting nothing more on"},
	{ID: Cure, Name: "starting to cure", closes: []heap.Kind{heap.KindMoved}},
	{ID: Test, Name: "testing whether it is ready", closes: []heap.Kind{heap.KindTest}},
	{ID: Use, Name: "using the compost", closes: []heap.Kind{heap.KindFinished}},
	{ID: Log, Name: "logging what went in", closes: []heap.Kind{heap.KindAdded}},
	{ID: Stock, Name: "putting browns by for high summer"},
	{ID: Gather, Name: "collecting leaves in autumn"},
	{ID: Wait, Name: "waiting for rain", Idle: true},
	{ID: Rest, Name: "not turning in frost", Idle: true},
	{ID: Leave, Name: "leaving a heap alone", Idle: true},
}

// Kinds are all kinds of job, in the order in which they are listed.
func Kinds() []KindInfo { return slices.Clone(kinds) }

// kindOf is what is known of a kind; false for one that is not known.
func kindOf(id string) (KindInfo, bool) {
	i := slices.IndexFunc(kinds, func(k KindInfo) bool { return k.ID == id })
	if i < 0 {
		return KindInfo{}, false
	}
	return kinds[i], true
}

// Idle reports whether a kind asks for no work.
func Idle(kind string) bool {
	k, _ := kindOf(kind)
	return k.Idle
}

// Closes are the kinds of entry that say that a job of a kind was done; none
// where nothing that is logged does.
func Closes(kind string) []heap.Kind {
	k, _ := kindOf(kind)
	return slices.Clone(k.closes)
}
