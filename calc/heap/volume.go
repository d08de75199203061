package heap

import (
	"fmt"
	"math"
	"time"
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
func (t *tally) volume() (float64, string) {
	s := &t.state
	guess, how := t.uncapped()
	if size := s.Heap.SizeL; s.Heap.Container != OpenHeap && size > 0 && guess > size {
		return size, how + ", but no more than the " + string(s.Heap.Container) + " holds"
	}
	return guess, how
}

func (t *tally) uncapped() (float64, string) {
	now := t.state.Now
	if h := t.height; h.known {
		kept := 1.0
		if then := litres(t.lots[:h.lots], h.at); then > 0 {
			kept = litres(t.lots[:h.lots], now) / then
		}
		how := "from the height measured " + ago(now.Sub(h.at))
		if h.lots < len(t.lots) {
			how += " and what was put on since"
		}
		return h.litres*kept + litres(t.lots[h.lots:], now), how
	}
	if len(t.lots) == 0 {
		return 0, "nothing is on record as put in"
	}
	return litres(t.lots, now), "from what was put in, less the usual shrinking"
}

func ago(d time.Duration) string {
	switch n := int(math.Round(days(d))); n {
	case 0:
		return "today"
	case 1:
		return "a day ago"
	default:
		return fmt.Sprintf("%d days ago", n)
	}
}

func days(d time.Duration) float64 { return d.Hours() / 24 }

// day is a moment in days since 1970.
func day(t time.Time) float64 { return float64(t.UnixMilli()) / (24 * 3600 * 1000) }
