package heap

import (
	"math"
	"time"

	"heapside/calc/measure"
)

// ShrinkSource names who published the shrinking that VolumeL counts from what
// was put in, or since the height was measured.
const ShrinkSource = "Public Lab 2016 heap notes, City of Ramsey, Embrapa Agrobiologia; between them and after 90 days own choice"

// shrink is the share of the loose volume that is left after some days.
// Materials differ widely (published losses run from 30 to 80 %): this is a
// guess for a mixed heap. Straight lines between the points are our own choice,
// and so is that it stays where it is after the last.
var shrink = []struct{ days, share float64 }{
	{0, 1},
	{7, 0.80},  // Public Lab, notes of a heap in Vermont, June 2016 (seen)
	{30, 0.50}, // City of Ramsey: about half after one month, yard waste (seen)
	{90, 0.35}, // Leal et al., Embrapa: about 65 % lost in 90 days (seen, abstract)
}

// fullCm is the height at which a container holds its size. A tumbler has
// none: its height does not follow its content.
var fullCm = map[Container]float64{
	OpenHeap:   122, // built to 4 ft high: WSU Whatcom (seen)
	PalletBay:  100, // pallets stood on edge, about a metre (common practice, no source)
	PlasticBin: 90,  // (common practice, no source)
}

// remaining is the share of the loose volume left after days >= 0.
func remaining(days float64) float64 {
	for i := 1; i < len(shrink); i++ {
		a, b := shrink[i-1], shrink[i]
		if days <= b.days {
			return a.share + (b.share-a.share)*max(0, days-a.days)/(b.days-a.days)
		}
	}
	return shrink[len(shrink)-1].share
}

// litres is what is left of the loose volume of lots at a moment. Lots from
// another heap keep shrinking from where they were.
func litres(lots []lot, at time.Time) float64 {
	var sum float64
	now := day(at)
	for i := range lots {
		sum += lots[i].VolumeL * lots[i].share * remaining(now-lots[i].born)
	}
	return sum
}

// measured is a volume that was found by height, and the lots it covers.
type measured struct {
	known  bool
	litres float64
	at     time.Time
	lots   int
}

func (t *tally) measure(cm float64, at time.Time) {
	full, ok := fullCm[t.state.Heap.Container]
	if size := t.state.Heap.SizeL; ok && size > 0 {
		t.height = measured{known: true, litres: size * cm / full, at: at, lots: len(t.lots)}
	}
}

// volume is the best guess of today's litres: the last measured height times
// the footprint (the size over the height of a full container), shrunk since
// then as the content would, plus what was added since; without a height, the
// loose litres put in, shrunk by age. A container holds no more than its size;
// an open heap may outgrow the size it was planned for.
func (t *tally) volume() (float64, How) {
	s := &t.state
	guess, how := t.uncapped()
	if size := s.Heap.SizeL; s.Heap.Container != OpenHeap && size > 0 && guess > size {
		guess, how.Within = size, s.Heap.Container
	}
	return guess, how
}

func (t *tally) uncapped() (float64, How) {
	now := t.state.Now
	if h := t.height; h.known {
		kept := 1.0
		if then := litres(t.lots[:h.lots], h.at); then > 0 {
			kept = litres(t.lots[:h.lots], now) / then
		}
		how := How{From: byHeight, Days: int(math.Round(days(now.Sub(h.at)))), More: h.lots < len(t.lots)}
		return h.litres*kept + litres(t.lots[h.lots:], now), how
	}
	if len(t.lots) == 0 {
		return 0, How{From: "nothing is on record as put in"}
	}
	return litres(t.lots, now), How{From: "from what was put in, less the usual shrinking"}
}

// How is what the guess of a volume rests on.
type How struct {
	From   string    // in English
	Days   int       // since the height was measured, where it is byHeight
	More   bool      // what was put on since then counts too
	Within Container // that holds no more; empty when the guess was not cut
}

// byHeight is a guess that begins at a measured height.
const byHeight = "from the height measured"

// Say says it in the language of some measures.
func (h How) Say(m measure.Measures) string {
	said := m.Word(h.From)
	switch {
	case h.From == byHeight && h.Days == 0:
		said = m.Word("from the height measured today")
	case h.From == byHeight && h.Days == 1:
		said = m.Word("from the height measured a day ago")
	case h.From == byHeight:
		said = m.Say("from the height measured %d days ago", h.Days)
	}
	if h.More {
		said = m.Say("%s and what was put on since", said)
	}
	if h.Within != "" {
		said = m.Say("%s, but no more than the %s holds", said, m.Word(string(h.Within)))
	}
	return said
}

func (h How) String() string { return h.Say(measure.Measures{}) }

func days(d time.Duration) float64 { return d.Hours() / 24 }

// day is a moment in days since 1970.
func day(t time.Time) float64 { return float64(t.UnixMilli()) / (24 * 3600 * 1000) }
