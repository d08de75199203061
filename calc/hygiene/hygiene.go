// Package hygiene compares what thermometers read with the time and temperature
// rules that are published for composting, and looks up tests of weed seeds,
// plant diseases and germs. It says which rule's time and temperature was
// reached where it was read, and what is missing; it never says more.
package hygiene

import (
	"math"
	"slices"
	"time"
)

const day = 24 * time.Hour

// Seen says how far the source of a figure was read.
type Seen string

// How far a source was read.
const (
	Read       Seen = "seen"        // on the publisher's page or in the text of the rule
	SecondHand Seen = "second-hand" // as somebody else restates it
	FromMemory Seen = "from memory" // not seen: to be checked before it carries weight
)

// System is the kind of composting that a rule is written for; a rule may be
// written for several.
type System uint8

// The systems.
const (
	Turned System = 1 << iota // windrows and heaps that are turned
	Static                    // a heap at rest, insulated, with air blown or drawn through
	Vessel                    // a closed reactor that is hot all through
)

// Hold is a temperature kept for a time. The zero value asks nothing.
type Hold struct {
	C     float64 // Celsius, at or above
	MostC float64 // and at or below; 0: no upper limit
	Above bool    // strictly above C
	For   time.Duration
}

// Rule is one published time and temperature rule.
type Rule struct {
	Code    string // stable, for tests and for the guide
	Name    string // as it is said: "the US rule for turned heaps"
	Source  string // the publication
	Locator string // where in it, or where it was read
	Seen    Seen
	Systems System

	Hold     Hold
	Peak     Hold          // to be reached within Hold's time
	Unbroken bool          // the time must be in one piece
	StrictOf string        // the code of the rule that this one reads more strictly
	Turns    int           // turnings while at Hold's temperature
	Apart    time.Duration // least time between turnings that count; 0: not said
	Lesser   bool          // made to reduce germs, not to bring them below detection

	MoistPct      float64    // least moisture, % by weight; 0: not said
	StartCN       [2]float64 // C:N to start from; 0, 0: not said
	PieceMm       float64    // largest particle; 0: not said
	Store         time.Duration
	SeedsPerLitre float64 // most that may germinate in a litre of the product; 0: not said

	NotGardens bool   // the publisher leaves home and allotment heaps out
	Scope      string // what it is written for, and what else it asks or leaves out
}

// Rules are all rules, in the order in which they are preferred as a yardstick.
func Rules() []Rule { return slices.Concat(americanRules, europeanRules, rememberedRules) }

// RuleByCode is the rule of that code; false when there is none.
func RuleByCode(code string) (Rule, bool) {
	rules := Rules()
	i := slices.IndexFunc(rules, func(r Rule) bool { return r.Code == code })
	if i < 0 {
		return Rule{}, false
	}
	return rules[i], true
}

// celsius is a temperature that a rule gives in Fahrenheit.
func celsius(f float64) float64 { return (f - 32) * 5 / 9 }

// band is the interval of temperature that a hold asks for.
type band struct {
	low, high float64
	above     bool
}

func (h Hold) band() band {
	b := band{h.C, h.MostC, h.Above}
	if b.high == 0 {
		b.high = math.Inf(1)
	}
	return b
}

func (b band) holds(c float64) bool {
	return c <= b.high && (c > b.low || c == b.low && !b.above)
}
