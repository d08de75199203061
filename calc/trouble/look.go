package trouble

import (
	"slices"
	"strings"
	"time"

	"heapside/calc/feedstock"
	"heapside/calc/heap"
	"heapside/calc/maturity"
	"heapside/calc/measure"
	"heapside/calc/mix"
)

// look is a case with what several facts ask of it.
type look struct {
	Case
	s       heap.State // readings of the middle only
	last    heap.Reading
	hasLast bool // and it is at most a week old, not turned since
	cn      float64
}

func inspect(c Case) look {
	l := look{Case: c, s: maturity.Core(c.State), cn: contentCN(c)}
	l.last, l.hasLast = l.s.LastReading()
	l.hasLast = l.hasLast && l.s.Now.Sub(l.last.At) <= readingAge && !l.s.LastTurn().After(l.last.At)
	return l
}

// contentCN is the C:N of all that went in, 0 when it cannot be told.
func contentCN(c Case) float64 {
	var b mix.Blend
	for _, a := range c.State.Content {
		if f, ok := c.Table.ByID(a.Material); ok && a.MassKg > 0 {
			b = b.Add(mix.Part{Feedstock: f, Mass: measure.Exact(a.MassKg)})
		}
	}
	return b.CN()
}

// soakingMm is the rain after which an older squeeze test is out of date (own choice).
const soakingMm = 15.0

// squeeze is the last squeeze test, if it still speaks of today.
func (l look) squeeze() (why string, class heap.Squeeze) {
	old := l.s.SqueezeAt.IsZero() || l.s.Now.Sub(l.s.SqueezeAt) > signAge
	turned := (l.s.Squeeze == heap.Drips || l.s.Squeeze == heap.Runs) && l.s.LastTurn().After(l.s.SqueezeAt)
	watered := len(l.s.Waterings) > 0 && l.s.Waterings[len(l.s.Waterings)-1].After(l.s.SqueezeAt)
	if old || turned || watered {
		return "", ""
	}
	return l.Measures.Say("a handful %s when squeezed %s", l.Measures.Word(squeezed[l.s.Squeeze]), l.ago(l.s.SqueezeAt)), l.s.Squeeze
}

var squeezed = map[heap.Squeeze]string{
	heap.Crumbles: "crumbled", heap.Holds: "held together", heap.Drops: "gave a drop or two", heap.Drips: "dripped", heap.Runs: "ran with water",
}

// smelled says what a heap smelled of, and when.
var smelled = map[string]string{
	"ammonia": "it smelled of ammonia %s", "none": "it smelled of nothing %s", "rotten": "it smelled rotten %s",
	"sour": "it smelled sour %s", "earthy": "it smelled earthy %s",
}

func (l look) ago(t time.Time) string { return l.Measures.SayAgo(l.s.Now.Sub(t)) }

func (l look) reads() string {
	return l.Measures.Say("it read %s %s", l.Measures.SayTemperature(l.last.C), l.ago(l.last.At))
}

func (l look) carbon() string { return l.Measures.Say("what went in has a C:N of about %.0f", l.cn) }

// clause is a sentence as one of several that stand after a colon.
func (l look) clause(sentence string) string {
	sentence = strings.TrimSuffix(sentence, ".")
	if l.Measures.Style.Speaker == nil {
		return lower(sentence)
	}
	return sentence
}

// foods are the materials that draw flies and rats.
var foods = []string{"food-scraps", "vegetable-waste", "fruit-waste", "bokashi", "bread", "flour", "apple", "apple-pomace", "banana-pulp", "melon", "pumpkin", "potato-culls", "potato-peel", "tomato-fruit", "strawberry"}

// food is when kitchen scraps last went in, if that is not long ago.
func (l look) food() (time.Time, bool) {
	var at time.Time
	for _, e := range l.s.Entries {
		if a, ok := e.Payload.(heap.Added); ok && slices.Contains(foods, a.Material) && e.At.After(at) {
			at = e.At
		}
	}
	return at, !at.IsZero() && l.s.Now.Sub(at) <= signAge
}

// brownsSince says that browns went on with the scraps or after them.
func (l look) brownsSince(at time.Time) bool {
	for _, e := range l.s.Entries {
		a, ok := e.Payload.(heap.Added)
		if !ok || e.At.Before(at) {
			continue
		}
		if f, known := l.Table.ByID(a.Material); known && f.Kind == feedstock.Brown {
			return true
		}
	}
	return false
}

// matting is the share of the volume that mats, and whether anything coarse
// holds the heap open; -1 when nothing is known of what went in.
func (l look) matting() (share float64, coarse bool) {
	var all, mats float64
	for _, a := range l.s.Content {
		f, ok := l.Table.ByID(a.Material)
		if !ok {
			continue
		}
		all += a.VolumeL
		if f.Matting {
			mats += a.VolumeL
		}
		coarse = coarse || f.Coarse
	}
	if all == 0 {
		return -1, false
	}
	return mats / all, coarse
}

// slowWood is the degradable share below which a brown counts as wood (as for
// what mix suggests: own choice, after Solomon 1993).
const slowWood = 0.40

// woody is the part of the volume of what went in that is wood or bark.
func (l look) woody() float64 {
	var all, wood float64
	for _, a := range l.s.Content {
		all += a.VolumeL
		if f, ok := l.Table.ByID(a.Material); ok && f.Kind == feedstock.Brown && f.Degradable.Typical < slowWood {
			wood += a.VolumeL
		}
	}
	if all == 0 {
		return 0
	}
	return wood / all
}
