package maturity

import (
	"fmt"

	"heapside/calc/measure"
)

// timeLines hold the age of the content against published times.
func (e evidence) timeLines(s Stage) []line {
	switch {
	case len(e.Content) == 0 || s == Filling:
		return nil
	case e.sinceFresh <= CuredAfter && e.Age-e.sinceFresh > Settled:
		return []line{{text: fmt.Sprintf("Fresh material went in %s; mixed with it, older compost counts as fresh.", ago(e.State, e.Now.Add(-e.sinceFresh)))}}
	case e.sinceFresh <= CuredAfter:
		return nil
	case s == Ready:
		return nil
	}
	return []line{{fmt.Sprintf("Nothing fresh went in for %s; looked after, heaps take 90 to 120 days, otherwise six months to a year.", measure.SayDays(e.sinceFresh)),
		[]string{srcManaged, srcYear}}}
}

// The usual loss of volume, as a share of what was put in (betterground.org, seen).
const (
	lossLow  = 0.30
	lossHigh = 0.50
	// heightFor is how long a measured height speaks for the volume (own choice).
	heightFor = 30 * day
)

// volumeLost is the share of what was put in that is gone by a height measured
// lately, since material was last added; false when there is none.
func (e evidence) volumeLost() (float64, bool) {
	if e.HeightAt.IsZero() || e.HeightAt.Before(e.LastAdded) || e.Now.Sub(e.HeightAt) > heightFor || !(e.AddedL > 0) {
		return 0, false
	}
	return 1 - e.VolumeL/e.AddedL, true
}

func (e evidence) volumeLines(Stage) []line {
	lost, ok := e.volumeLost()
	if !ok {
		return nil
	}
	said := fmt.Sprintf("About %.0f %% of the volume put in is gone, by its height %s", 100*max(0, lost), ago(e.State, e.HeightAt))
	switch {
	case lost < lossLow:
		said += ": less than the 30 to 50 % that is usual by the end."
	case lost <= lossHigh:
		said += ": 30 to 50 % is usual by the end."
	default:
		said += ": more than the 30 to 50 % that is usual by the end."
	}
	return []line{{said, []string{srcVolume}}}
}

// decomposed is the share of degradable solids gone that several US states call
// mature (src180).
const decomposed = 0.60

// littleLost is a share that is not worth telling (own choice).
const littleLost = 0.05

// guess is what the model makes of the heap. It is no evidence.
func (e evidence) guess() []string {
	lost, breathing := e.model.Lost, e.model.Breathing
	if lost.High < littleLost {
		return nil
	}
	return []string{fmt.Sprintf("About %.0f %% of what can rot has rotted (likely %.0f to %.0f %%; several US states call 60 %% mature). A dry kilogram uses about %.1f g of oxygen an hour.",
		100*lost.Typical, 100*lost.Low, 100*lost.High, breathing.Typical)}
}
