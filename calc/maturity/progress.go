package maturity

// timeLines hold the age of the content against published times.
func (e evidence) timeLines(s Stage) []line {
	switch {
	case len(e.Content) == 0 || s == Filling:
		return nil
	case e.sinceFresh <= CuredAfter && e.Age-e.sinceFresh > Settled:
		return []line{{text: e.say.Say("Fresh material went in %s; mixed with it, older compost counts as fresh.", e.ago(e.Now.Add(-e.sinceFresh)))}}
	case e.sinceFresh <= CuredAfter:
		return nil
	case s == Ready:
		return nil
	}
	return []line{{e.say.Say("Nothing fresh went in for %s; looked after, heaps take 90 to 120 days, otherwise six months to a year.", e.say.SayDays(e.sinceFresh)),
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
	gone, at := 100*max(0, lost), e.ago(e.HeightAt)
	said := e.say.Say("About %.0f %% of the volume put in is gone, by its height %s: more than the 30 to 50 %% that is usual by the end.", gone, at)
	switch {
	case lost < lossLow:
		said = e.say.Say("About %.0f %% of the volume put in is gone, by its height %s: less than the 30 to 50 %% that is usual by the end.", gone, at)
	case lost <= lossHigh:
		said = e.say.Say("About %.0f %% of the volume put in is gone, by its height %s: 30 to 50 %% is usual by the end.", gone, at)
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
	return []string{e.say.Say("About %.0f %% of what can rot has rotted (likely %.0f to %.0f %%; several US states call 60 %% mature). A dry kilogram uses about %.1f g of oxygen an hour.",
		100*lost.Typical, 100*lost.Low, 100*lost.High, breathing.Typical)}
}
