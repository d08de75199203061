// Package feedstock holds what is known about the materials people bring to a
// heap: carbon, C:N, moisture, loose bulk density and degradable share, each as
// a range with its source, and the words people use for them.
package feedstock

import (
	"strings"

	"heapside/calc/measure"
)

// Kind is the gardener's class of a material.
type Kind string

// The classes.
const (
	Green     Kind = "green"
	Brown     Kind = "brown"
	Manure    Kind = "manure"
	Activator Kind = "activator"
	Neutral   Kind = "neutral"
)

// Property is a range and where it comes from. Source lists the ids of Sources
// it rests on, separated by blanks; an id that begins with "memory:" was not
// seen, "judgement" is our own choice, "group" was given by the group itself.
// Judgement beside a source means that the typical value was chosen between the
// sources, or that it was carried over from a near relative: oat straw is taken
// to lie as loose as the straw that was weighed. A source that gives nitrogen or
// protein alone stands under C:N for the carbon over that nitrogen.
type Property struct {
	measure.Range
	Source string
}

// Feedstock is one material. Carbon is % of dry mass, CN the mass ratio,
// Moisture % of wet mass, Density loose kg/m3 as it lies in a bucket, Volatile
// the % of dry mass that is organic, Degradable the share (0 to 1) of volatile
// solids that rots within a season. Nitrogen is Carbon / CN, never the reverse.
type Feedstock struct {
	ID         string
	Name       string // as printed in a sentence: "grass clippings"
	Kind       Kind
	Carbon     Property
	CN         Property
	Moisture   Property
	Density    Property
	Volatile   Property
	Degradable Property
	Mineral    bool     // stays out of carbon and nitrogen (egg shell, ash, soil)
	Coarse     bool     // holds a heap open: twigs, stalks, chips, straw
	Matting    bool     // must go in thin layers: grass, wet leaves, paper
	Chop       bool     // worth chopping first
	Everyday   int      // 3: any garden has it; 2: easy to get; 1: special; 0: never suggested as an addition
	Caution    string   // one short sentence with its publisher, or empty
	Aliases    []string // other words, lower case
}

// Cautions are the sentences of the caution, each with its publisher.
func (f Feedstock) Cautions() []string {
	var all []string
	for sentence := range strings.SplitAfterSeq(f.Caution, ").") {
		if sentence = strings.TrimSpace(sentence); sentence != "" {
			all = append(all, sentence)
		}
	}
	return all
}

// Refusal is a material that does not belong in a shared heap.
type Refusal struct {
	ID      string
	Name    string
	Reason  string // one or two sentences
	Source  string // who publishes it
	Aliases []string
}

// Outcome is how well words matched the table.
type Outcome uint8

// The outcomes of Table.Find.
const (
	None      Outcome = iota // nothing close: Near may hold weak suggestions
	Found                    // one material
	Guessed                  // one material after mending a typing slip or passing over a word
	Ambiguous                // two or more equally close: Near holds them
	Banned                   // a Refusal
)

// Match is the answer to Table.Find.
type Match struct {
	Outcome   Outcome
	Feedstock Feedstock
	Refusal   Refusal
	Near      []Feedstock
	slips     int // that were mended; a word that was gone on with is one
}
